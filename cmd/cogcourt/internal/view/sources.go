package view

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Sources prints every source with the rules and the usual classes that rest on it,
// then the sources that none of them uses, and the rules that rest on memory alone or in part.
func Sources(w io.Writer, set *rules.Set) {
	var unused []string
	classes := publishing()
	for _, s := range set.Citations() {
		users := resting(set, func(b rules.Basis) bool { return b.Kind == rules.BasisSource && b.Text == s.ID })
		users = append(users, classes[s.ID]...)
		if len(users) == 0 {
			unused = append(unused, s.ID)
			continue
		}
		wrap(w, "", 4, fmt.Sprintf("%s (%s): %s", s.ID, s.Status, s.What))
		wrap(w, "    Used by: ", 13, strings.Join(users, ", "))
	}
	fmt.Fprintln(w)
	wrap(w, "Unused sources: ", 4, orNone(unused))
	memory := func(b rules.Basis) bool { return b.Kind == rules.BasisMemory }
	var alone, partly []string
	for _, r := range set.Rules() {
		switch {
		case !slices.ContainsFunc(r.Basis, memory):
		case slices.ContainsFunc(r.Basis, func(b rules.Basis) bool { return !memory(b) }):
			partly = append(partly, r.ID)
		default:
			alone = append(alone, r.ID)
		}
	}
	wrap(w, "Rest on memory alone, so they only warn: ", 4, orNone(alone))
	wrap(w, "Rest on memory in part: ", 4, orNone(partly))
}

// publishing lists the usual classes by the sources of their values.
func publishing() map[string][]string {
	out := map[string][]string{}
	for _, p := range compat.Usual().Parts() {
		for _, f := range p.Record().Object().Table().Fields() {
			s := p.Source(f.Name)
			if s != "" && !slices.Contains(out[s], p.ID()) {
				out[s] = append(out[s], p.ID())
			}
		}
	}
	return out
}

// resting lists the rules of which some basis is as asked.
func resting(set *rules.Set, is func(rules.Basis) bool) []string {
	var out []string
	for _, r := range set.Rules() {
		if slices.ContainsFunc(r.Basis, is) {
			out = append(out, r.ID)
		}
	}
	return out
}

func orNone(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, ", ")
}

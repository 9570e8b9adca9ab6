package fact

import (
	"fmt"
	"slices"
	"strings"
)

// SuggestNamed is Suggest for things that go by other names as well: for one of
// those it says the right one.
func SuggestNamed(name string, known []Named) string {
	found, own := Find(name, known), make([]string, len(known))
	for i, k := range known {
		own[i] = k.Name
	}
	if called := namesOf(found, known, IsOwn); len(called) > 0 {
		if near := Nearest(name, own); slices.Contains(called, near) {
			called = []string{near}
		}
		return "did you mean " + quoted(called) + "?"
	}
	if called := namesOf(found, known, IsOther); len(called) > 0 {
		return "here it is called " + quoted(called)
	}
	if hint := suggestLike(name, own); hint != "" {
		return hint
	}
	for _, fit := range []Fit{NearOther, PartOther} {
		if like := namesOf(found, known, fit); len(like) == 1 {
			return "did you mean " + quoted(like) + ", also called " + found[byFit(found, fit)].By + "?"
		} else if len(like) > 0 {
			return "did you mean " + quoted(like) + "?"
		}
	}
	return suggestAll(own)
}

// byFit finds the first match of a fit; the caller knows that there is one.
func byFit(found []Match, fit Fit) int {
	return slices.IndexFunc(found, func(m Match) bool { return m.Fit == fit })
}

// namesOf lists the names of what a word fits in one way; where it ends in a unit,
// only those that do so too, if there are any. A long list is cut.
func namesOf(found []Match, known []Named, fit Fit) []string {
	var out []string
	unit := 0
	for _, m := range found {
		if m.Fit != fit || m.unit < unit {
			continue
		}
		unit = m.unit
		out = append(out, known[m.Index].Name)
	}
	return out[:min(len(out), mostHolding)]
}

// suggestLike is the hint of known names that are like one, or "".
func suggestLike(name string, known []string) string {
	near, more := []string{Nearest(name, known)}, 0
	if near[0] == "" {
		near, more = holding(name, known)
	}
	switch {
	case more > 0:
		return fmt.Sprintf("there are %s and %d more", strings.Join(near, ", "), more)
	case len(near) > 0:
		return "did you mean " + quoted(near) + "?"
	}
	return ""
}

// suggestAll is the hint that lists known names where they are few.
func suggestAll(known []string) string {
	switch {
	case len(known) == 0 || len(known) > fewNames:
		return ""
	case len(known) == 1:
		return "known is " + known[0]
	}
	return "known are " + strings.Join(known, ", ")
}

// Others leads from the other names of many things to their own at the cost of a
// look-up, where the names of one of them alone do not tell. It is safe to share.
type Others struct {
	names map[string][]string // by other names without joints
}

// NewOthers makes it of these things.
func NewOthers(known []Named) *Others {
	o := &Others{names: map[string][]string{}}
	for _, k := range known {
		for _, other := range k.Also {
			key := strings.Join(tokensOf(other), "")
			if of := o.names[key]; len(of) == 0 || of[len(of)-1] != k.Name {
				o.names[key] = append(of, k.Name)
			}
		}
	}
	return o
}

// Suggest gives the hint for a word that is another name of something, or "".
func (o *Others) Suggest(word string) string {
	a := ask(word)
	var own []string
	for _, key := range a.exact {
		for _, name := range o.names[key] {
			if !slices.Contains(own, name) {
				own = append(own, name)
			}
		}
	}
	same := slices.DeleteFunc(slices.Clone(own), func(name string) bool { return a.unit == "" || unitAtEnd(name) != a.unit })
	if len(same) > 0 {
		own = same
	}
	if len(own) == 0 {
		return ""
	}
	return "here it is called " + quoted(own[:min(len(own), mostHolding)])
}

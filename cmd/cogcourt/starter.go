package main

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// starting makes files to begin from.
type starting struct {
	set     *rules.Set
	reading map[string]int // by how many rules each fact is read
	demo    *catalog.Catalog
}

// start opens what starters are made from: the rules that the flags name, and the
// demo, whose values are invented as theirs are.
func (o options) start() (starting, *compat.Checker, error) {
	c, faults := o.checker()
	parts, err := catalog.Load(demo.Files())
	if err = together(faults, err); err != nil {
		return starting{}, nil, err
	}
	return starting{set: c.Rules(), reading: readings(c.Rules()), demo: parts}, c, nil
}

// readings counts for each fact the rules that hang on it: those whose conditions read
// it, themselves or through figures.
func readings(set *rules.Set) map[string]int {
	counts := map[string]int{}
	for _, r := range set.Rules() {
		for _, ref := range set.Facts(r) {
			counts[ref.String()]++
		}
	}
	return counts
}

// newParts prints a part of each kind that the command line names.
func newParts(o options, s stream) int {
	kinds := o.args[1:]
	if len(kinds) == 0 {
		return usage(s, "new", "name the kind behind part, such as chain; known are "+strings.Join(catalog.KindNames(), ", "))
	}
	if fault := noKind(kinds); fault != "" {
		return usage(s, "new", fault)
	}
	st, _, err := o.start()
	if err != nil {
		return complain(s, err)
	}
	out := view.Starter{Checks: len(st.set.Rules()), Head: []string{
		"Parts to begin from: a line for each field, the ones first that most rules read. Fill in what you know: take the # away " +
			"and write the value. What is invented is to be replaced.",
		"Put this file into a folder; cogcourt parts --parts FOLDER shows whether it loads."}}
	for _, kind := range kinds {
		object, _ := catalog.Kind(kind)
		out.Blocks = append(out.Blocks, view.Block{Kind: kind, Blanks: st.blanks(object, true)})
	}
	view.PartStarter(s.out, out)
	return exitOK
}

// noKind says which word is no kind, or stands twice.
func noKind(kinds []string) string {
	for i, kind := range kinds {
		if _, ok := catalog.Kind(kind); !ok {
			return fmt.Sprintf("there is no kind %q; %s", kind, catalog.SuggestKind(kind))
		}
		if slices.Contains(kinds[:i], kind) {
			return kind + " stands twice"
		}
	}
	return ""
}

// newMix prints a mix of the kinds that the command line names, or like another mix:
// one that it names, or that stands on the line.
func newMix(o options, s stream) int {
	kinds, like := []string(nil), asked{file: o.like}
	for _, m := range asks(o.args)[1:] {
		if m.file != "" {
			kinds = append(kinds, m.file)
		} else {
			like = m
		}
	}
	given := like.file != "" || len(like.line) > 0
	switch {
	case o.like != "" && like.file == "":
		return usage(s, "new", "--like and the arguments with = are two mixes; leave one out")
	case given && len(kinds) > 0:
		return usage(s, "new", "the mix to begin from brings its own parts; leave "+strings.Join(kinds, ", ")+" out")
	case !given && len(o.parts) > 0:
		return usage(s, "new", "--parts goes with --like or kind=id, which name parts")
	}
	if fault := noKind(kinds); fault != "" {
		return usage(s, "new", fault)
	}
	st, c, err := o.start()
	switch {
	case err != nil:
		return complain(s, err)
	case given:
		return st.likeMix(o, s, judged{like, c})
	case len(kinds) == 0:
		kinds = wholeBike(c)
	}
	view.MixStarter(s.out, st.emptyMix(kinds))
	return exitOK
}

// emptyMix is a mix of these kinds with nothing stated but what must be.
func (st starting) emptyMix(kinds []string) view.Starter {
	out := view.Starter{Mix: "A mix to begin from, invented", Scope: "cart", Checks: len(st.set.Rules()), Head: []string{
		"A mix to begin from: a line for each field, the ones first that most rules read. Fill in what you know: take the # away " +
			"and write the value. What is invented is to be replaced. Where a catalogue has the part, its id does: cassette: lake-12.",
		"cogcourt check FILE judges it and names what to measure next."}}
	for _, kind := range catalog.KindNames() {
		if !slices.Contains(kinds, kind) {
			out.More = append(out.More, kind)
			continue
		}
		object, _ := catalog.Kind(kind)
		out.Blocks = append(out.Blocks, view.Block{Kind: kind, Lines: []string{"name: Invented " + strings.ReplaceAll(kind, "_", " ")},
			Blanks: st.blanks(object, true)})
	}
	if i, ok := st.set.Vocabulary().Index("bench"); ok {
		out.Bench = &view.Block{Blanks: st.blanks(st.set.Vocabulary().Objects()[i], false)}
	}
	return out
}

// wholeBike lists the kinds without which a whole bicycle is not judged.
func wholeBike(c *compat.Checker) []string {
	m, _ := compat.NewMix("", compat.ScopeBike) // no parts, so none of a kind twice
	return c.Check(m).Absent()
}

// blanks lists the fields of an object, those first that most rules read. Where it is
// a part, what it must state is filled in.
func (st starting) blanks(o *rules.Object, part bool) []view.Blank {
	var out []view.Blank
	for i, f := range o.Table().Fields() {
		b := view.Blank{Field: f, Rules: st.reading[o.Name()+"."+f.Name]}
		if part && f.Required {
			b.Invented = st.invented(o.Name(), i)
		}
		out = append(out, b)
	}
	slices.SortStableFunc(out, func(a, b view.Blank) int { return b.Rules - a.Rules })
	return out
}

// invented is the value that the first part of the demo has for a field.
func (st starting) invented(kind string, field int) string {
	parts := st.demo.OfKind(kind)
	if len(parts) == 0 {
		return ""
	}
	v := parts[0].Record().Value(field)
	if v.Text != "" {
		return asText(v.Text)
	}
	return v.String()
}

// blank is one field by the name that a report misses it by.
func (st starting) blank(name string) (view.Blank, bool) {
	ref, ok := st.set.Vocabulary().Find(name)
	if !ok {
		return view.Blank{}, false
	}
	return view.Blank{Field: ref.Field(), Rules: st.reading[name]}, true
}

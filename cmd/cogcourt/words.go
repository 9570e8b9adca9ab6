package main

import (
	"cmp"
	"slices"
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// words prints the vocabulary: everything, or what words stand for.
func words(o options, s stream) int {
	v, err := compat.Vocabulary()
	if err != nil {
		return complain(s, err)
	}
	if len(o.args) == 0 {
		if err := view.AllWords(s.out, v.Objects(), o.format); err != nil {
			return complain(s, err)
		}
		return exitOK
	}
	if o.format == "markdown" {
		return usage(s, "words", "markdown prints every word; leave the arguments out")
	}
	index := indexWords(v.Objects())
	var found []view.Found
	if whole := strings.Join(o.args, " "); len(o.args) > 1 {
		if f := index.find(whole); len(f.Hits) > 0 && f.Hits[0].Fit >= fact.IsOther {
			found = append(found, f)
		}
	}
	if found == nil {
		for _, word := range o.args {
			found = append(found, index.find(word))
		}
	}
	if err := view.FoundWords(s.out, found, o.format); err != nil {
		return complain(s, err)
	}
	return exitOK
}

// wordIndex is all that a word may stand for: kinds and fields by their names,
// fields by the words that they may hold, and fields by their names with the kind.
type wordIndex struct {
	objects               []*rules.Object
	things, values, whole []view.Hit
	named, held, full     []fact.Named // the names of these, in the same order
}

func indexWords(objects []*rules.Object) *wordIndex {
	x := &wordIndex{objects: objects}
	for _, o := range objects {
		x.things = append(x.things, view.Hit{Object: o, Field: -1})
		x.named = append(x.named, fact.Named{Name: o.Name(), Also: o.Also()})
		for i, f := range o.Table().Fields() {
			x.things = append(x.things, view.Hit{Object: o, Field: i})
			x.named = append(x.named, fact.Named{Name: f.Name, Also: f.Also})
			x.whole = append(x.whole, view.Hit{Object: o, Field: i})
			x.full = append(x.full, fact.Named{Name: o.Name() + "." + f.Name})
			for _, k := range valuesOf(f) {
				x.values = append(x.values, view.Hit{Object: o, Field: i, Value: k})
				x.held = append(x.held, fact.Named{Name: k.Name, Also: k.Also})
			}
		}
	}
	return x
}

// valuesOf gives the words that a field knows, of a closed list all of them.
func valuesOf(f fact.Field) []fact.Known {
	if len(f.Known) > 0 {
		return f.Known
	}
	out := make([]fact.Known, len(f.Choices))
	for i, c := range f.Choices {
		out[i].Name = c
	}
	return out
}

// find gives what a word stands for, best first; where it has a dot, what its
// second half does within what its first half does.
func (x *wordIndex) find(word string) view.Found {
	out := view.Found{Word: word}
	out.Hits = hits(word, x.full, x.whole, fact.IsOwn)
	kind, field, dotted := strings.Cut(word, ".")
	if len(out.Hits) == 0 && dotted {
		out.Hits = x.within(kind, field)
	}
	if len(out.Hits) > 0 {
		return out
	}
	out.Hits = hits(word, x.named, x.things, fact.PartOther)
	for _, h := range hits(word, x.held, x.values, fact.IsOther) {
		same := func(o view.Hit) bool { return o.Object == h.Object && o.Field == h.Field && o.Fit >= fact.IsOther }
		if !slices.ContainsFunc(out.Hits, same) {
			h.Fit = fact.IsOther
			out.Hits = append(out.Hits, h)
		}
	}
	slices.SortStableFunc(out.Hits, func(a, b view.Hit) int { return cmp.Compare(b.Fit, a.Fit) })
	if len(out.Hits) > 0 && out.Hits[0].Fit > fact.NearOwn {
		out.Hits = slices.DeleteFunc(out.Hits, func(h view.Hit) bool { return h.Fit == fact.NearOwn || h.Fit == fact.NearOther })
	}
	if len(out.Hits) == 0 {
		out.Speaking = x.speaking(word)
	}
	return out
}

// within finds a field by both halves of its name, either of which may be another
// name or misspelt.
func (x *wordIndex) within(kind, field string) []view.Hit {
	kinds := make([]fact.Named, len(x.objects))
	for i, o := range x.objects {
		kinds[i] = fact.Named{Name: o.Name(), Also: o.Also()}
	}
	var out []view.Hit
	of := fact.Find(kind, kinds)
	for _, k := range of {
		if of[0].Fit >= fact.IsOther && k.Fit < of[0].Fit {
			break // who names a kind right means no other
		}
		o := x.objects[k.Index]
		for _, m := range fact.Find(field, o.Table().Named()) {
			out = append(out, view.Hit{Object: o, Field: m.Index, Fit: min(k.Fit, m.Fit), By: m.By})
		}
	}
	slices.SortStableFunc(out, func(a, b view.Hit) int { return cmp.Compare(b.Fit, a.Fit) })
	return out
}

// hits are the things that a word fits at least so well, by their names.
func hits(word string, named []fact.Named, things []view.Hit, least fact.Fit) []view.Hit {
	var out []view.Hit
	for _, m := range fact.Find(word, named) {
		if m.Fit >= least {
			h := things[m.Index]
			h.Fit, h.By = m.Fit, m.By
			out = append(out, h)
		}
	}
	return out
}

// speaking lists the fields whose descriptions hold a word that is no name.
func (x *wordIndex) speaking(word string) []string {
	var out []string
	for _, o := range x.objects {
		for _, f := range o.Table().Fields() {
			if len(word) > 2 && strings.Contains(strings.ToLower(f.Doc), strings.ToLower(word)) {
				out = append(out, o.Name()+"."+f.Name)
			}
		}
	}
	return out
}

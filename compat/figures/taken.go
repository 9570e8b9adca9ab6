package figures

import (
	"slices"
	"sync"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Doubts tells of single figures what makes them assumed or usual. Those that are asked
// for are worked out anew, with those that they are made from: only who prints a report
// asks. It belongs to one goroutine, and Close gives its memory back.
type Doubts struct {
	of    *rules.Record
	m     measuring
	out   measured
	done  [mostFigures]bool
	taken [mostFigures][]int // suppositions, by the figures that take them
	roots [mostFigures][]string
	rests [mostFigures][]string
}

var doubts = sync.Pool{New: func() any { return new(Doubts) }}

// Doubts begins to tell of these figures.
func (f Figures) Doubts() *Doubts {
	d := doubts.Get().(*Doubts)
	records := f.Records()
	old := records[figuresPlace]
	d.of, d.out.records, d.out.lacks, d.out.shared = old, records, old.Lacks(), true
	d.out.values = slices.Grow(d.out.values, len(table))[:len(table)]
	d.m = measuring{records: records, out: &d.out, roots: d.roots[:len(table)], rests: d.rests[:len(table)], supposed: d.takes}
	d.m.look()
	return d
}

// Close ends it, without holding on to anybody's facts.
func (d *Doubts) Close() {
	for i := range table {
		if d.done[i] {
			d.done[i], d.out.values[i] = false, fact.Value{}
			d.taken[i], d.roots[i], d.rests[i] = nil, nil, nil
		}
	}
	d.of, d.m, d.out = nil, measuring{}, measured{values: d.out.values}
	doubts.Put(d)
}

// takes notes a supposition of the figure in work.
func (d *Doubts) takes(place int) {
	if at := d.m.now.place; suppositions[place].counts && !slices.Contains(d.taken[at], place) {
		d.taken[at] = append(d.taken[at], place)
	}
}

// work works a figure out anew, and what it is made from.
func (d *Doubts) work(place int) {
	for _, i := range table[place].from {
		if !d.done[i] {
			d.done[i] = true
			d.m.one(table[i])
		}
	}
}

// Roots gives what makes a figure an assumed one, by its place among the fields of
// Object: assumed facts, and figures that suppose a usual value, by their full names;
// and the same of the usual facts that it rests on. They are nil for a figure of which
// all is stated.
func (d *Doubts) Roots(place int) (assumed, usual []string) {
	d.work(place)
	return d.roots[place], d.rests[place]
}

// Taking is what one figure of a mix takes as usual because nobody stated it.
type Taking struct {
	Field   fact.Field // of the figure
	Value   fact.Value
	What    string // what is taken, in words
	ByValue bool   // the figure is that value itself, such as a usual width
}

// Taken tells what a figure takes as usual itself, by its place among the fields of
// Object.
func (d *Doubts) Taken(place int) []Taking {
	d.work(place)
	v := d.of.Value(place)
	if !v.Known || !v.Assumed {
		return nil
	}
	var out []Taking
	for _, s := range d.taken[place] {
		out = append(out, Taking{Field: table[place].Field, Value: v, What: suppositions[s].what, ByValue: s == takesMadeFor})
	}
	return out
}

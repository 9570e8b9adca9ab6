package figures

import (
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Demand works figures out when they are asked for, of facts that change one at a
// time: a search that exchanges a part asks again only for what hangs on it. It is for
// one goroutine.
type Demand struct {
	m     measuring
	fresh [mostFigures]bool
}

// NewDemand makes one for records in the order of Objects; what stands in the place of
// the figures is left out. The list is copied.
func NewDemand(records []*rules.Record) *Demand {
	out := &measured{values: make([]fact.Value, len(table)), lacks: make([]*fact.Lack, len(table))}
	out.records = append(out.records, records...)
	if out.records[benchPlace] == nil {
		out.records[benchPlace] = emptyBench
	}
	d := &Demand{m: measuring{records: out.records, out: out, arenaUsed: arenaSize}} // lists have memory of their own: some outlive others
	d.m.done()
	d.m.look()
	return d
}

// Put exchanges the record at a place in the order of Objects, nil for none.
func (d *Demand) Put(place int, r *rules.Record) {
	if place == benchPlace && r == nil {
		r = emptyBench
	}
	d.m.records[place] = r
	d.m.look()
	for _, i := range touching[place] {
		d.fresh[i] = false
	}
	d.m.indexed = false
}

// Want works out those of some figures that are not fresh, by their places in the
// table, lowest first. They may be read from Records until the next Put; others may
// not.
func (d *Demand) Want(figures []int) {
	for _, i := range figures {
		if !d.fresh[i] {
			d.m.one(table[i])
			d.fresh[i] = true
		}
	}
}

// Records gives the records, with those figures that were asked for: read only. The
// list and the record of the figures stay the same ones.
func (d *Demand) Records() []*rules.Record { return d.m.records }

// touching tells of every place which figures a record there can change: by its facts,
// or by being there.
var touching = touched(table)

func touched(list []*figure) [][]int {
	own := make([]uint64, len(list)) // the places that each figure looks at, through others too
	out := make([][]int, objectCount)
	for i, f := range list {
		for _, ref := range f.behind {
			own[i] |= 1 << placeOf(ref)
		}
		for _, w := range f.kinds {
			for _, in := range w {
				own[i] |= 1 << in.place
			}
		}
		for _, other := range f.from {
			own[i] |= own[other]
		}
		for place := range out {
			if own[i]&(1<<place) != 0 {
				out[place] = append(out[place], i)
			}
		}
	}
	return out
}

// Wanted gives the figures that these facts are worked out from, themselves among
// them, by their places, lowest first, as Demand takes them.
func Wanted(refs []rules.Ref) []int {
	var out []int
	for _, ref := range refs {
		out = append(out, MadeFrom(ref)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

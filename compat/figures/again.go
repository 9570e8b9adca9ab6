package figures

import (
	"slices"
	"sync"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Again works out anew what was worked out with facts that have moved: records are those
// of Complete or Figures.Records in which the records that hold the moved facts have been
// exchanged. Only figures that are wanted have a value then, and those that one of these
// is made from and that was worked out anew; others are not to be read. Nil wants all. The
// new records are given to use, and must not be kept beyond it: their memory serves again.
func Again(records []*rules.Record, moved, wanted []rules.Ref, use func(records []*rules.Record)) {
	m := begin(records, nil)
	out := m.out
	old := records[figuresPlace]
	out.lacks, out.shared = old.Lacks(), true
	need := madeFrom(wanted)
	var stale places
	var far fact.Marks
	usual := false
	for _, ref := range moved {
		place := placeOf(ref)
		stale.join(&hanging[place][ref.Index])
		far.Join(marks[place][ref.Index])
		usual = usual || records[place].At(ref.Index).Spread() != nil
	}
	stale = stale.both(&need)
	reads := old.Reads()
	var anew places
	taken := themselves(wanted) // from those that were worked out before
	for i := range stale.all {
		if f := table[i]; (reads == nil || reads[i].Meets(far)) && !(f.pinned && usual) {
			anew.add(i)
			taken.join(&f.uses)
		}
	}
	for i := range taken.all {
		out.values[i] = *old.At(i)
		if out.reads[i] = fact.EveryMark; reads != nil {
			out.reads[i] = reads[i]
		}
	}
	for i := range anew.all {
		m.one(table[i])
	}
	m.end(use, &taken)
}

// themselves gives the figures among facts; nil is all.
func themselves(wanted []rules.Ref) (out places) {
	if wanted == nil {
		return allPlaces
	}
	for _, ref := range wanted {
		if ref.Object == Object {
			out.add(ref.Index)
		}
	}
	return out
}

// MeasureFor works out the figures that are wanted, and what these are made from, of the
// facts as fill completes them; see MeasureFilled. The others have no value, and are not
// to be read. The records are given to use, and must not be kept beyond it: their memory
// serves again.
func (f Facts) MeasureFor(wanted []rules.Ref, fill Fill, use func(records []*rules.Record)) {
	m := begin(f.read(), fill)
	m.out.lacks, m.out.shared = nil, false
	need := madeFrom(wanted)
	for i := range need.all {
		m.one(table[i])
	}
	m.end(use, &need)
}

// MeasureOnce works all figures out, as MeasureFilled does, for use alone: what it is given
// must not be kept beyond it, for its memory serves again.
func (f Facts) MeasureOnce(fill Fill, use func(Figures)) {
	m := begin(f.read(), fill)
	m.out.lacks, m.out.shared = nil, false
	for _, f := range table {
		m.one(f)
	}
	m.end(func([]*rules.Record) { use(Figures{m.out}) }, &allPlaces)
}

// madeFrom gives the figures that facts are made from; nil is made from all.
func madeFrom(wanted []rules.Ref) places {
	if wanted == nil {
		return allPlaces
	}
	var need places
	for _, ref := range wanted {
		if ref.Object == Object {
			need.join(&table[ref.Index].made)
		}
	}
	return need
}

// spare is memory for figures that are worked out many times in a row and kept by
// nobody. No figure in it has a value.
var spare = sync.Pool{New: func() any { return &measuring{out: &measured{brief: true}, room: make(Room, objectCount)} }}

// begin takes such memory for these records, and has them completed where there is a fill.
func begin(records []*rules.Record, fill Fill) *measuring {
	m := spare.Get().(*measuring)
	out := m.out
	out.records = append(out.records[:0], records...)
	out.values = slices.Grow(out.values[:0], len(table))[:len(table)]
	if out.room == nil {
		out.room = make([]*fact.Lack, 0, len(table))
	}
	out.pieces = out.pieces[:0]
	*m = measuring{records: out.records, out: out, names: m.names[:0], room: m.room}
	if fill != nil {
		fill(m.records, m.room)
	}
	m.look()
	return m
}

// end gives the records to use, and the memory back, without the values of those figures
// that were needed.
func (m *measuring) end(use func(records []*rules.Record), need *places) {
	m.done()
	use(m.out.records)
	for i := range need.all {
		m.out.values[i] = fact.Value{}
	}
	for i, r := range m.room {
		if r != nil && m.records[i] == r {
			r.Forget()
		}
	}
	spare.Put(m)
}

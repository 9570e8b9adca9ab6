package figures

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// The objects that rules may speak of stand in this order: the kinds of parts,
// the figures, what was measured at the bench.
var (
	kindCount    = len(catalog.Kinds())
	figuresPlace = kindCount
	benchPlace   = kindCount + 1
	objectCount  = kindCount + 2
)

// Objects gives what rules may speak of, in the order of a [Facts]' records: every
// kind of part, the figures, and what was measured at the bench.
func Objects() []*rules.Object { return append(catalog.Kinds(), Object, Bench) }

// Facts are what is known of one bicycle: the record of each part that is there
// and what was measured on the bicycle. They are immutable; With and Without give
// new ones. The zero Facts know of no part and no measurement.
type Facts struct {
	records []*rules.Record // by the places of Objects; the figures' is nil
}

// objectPlaces are those of the objects themselves, and not of copies of them.
var objectPlaces = func() map[*rules.Object]int {
	out := map[*rules.Object]int{Bench: benchPlace}
	for i, o := range catalog.Kinds() {
		out[o] = i
	}
	return out
}()

// place finds an object's place.
func place(o *rules.Object) (int, bool) {
	if i, ok := objectPlaces[o]; ok {
		return i, true
	}
	return catalog.KindIndex(o.Name()) // of a copy with names of its own
}

// placeOf is the place of a fact's object.
func placeOf(ref rules.Ref) int {
	i, _ := place(ref.Object)
	return i
}

// clone copies the facts, so that they can be changed.
func (f Facts) clone() Facts {
	if f.records == nil {
		f.records = make([]*rules.Record, objectCount)
		f.records[benchPlace] = emptyBench
		return f
	}
	return Facts{slices.Clone(f.records)}
}

// read gives the records: read only.
func (f Facts) read() []*rules.Record {
	if f.records == nil {
		return noRecords
	}
	return f.records
}

// noRecords are those of the zero Facts.
var noRecords = Facts{}.clone().records

// With gives the facts with records in the places of whatever was known of their
// objects: parts, or the bench. Nil records are passed over.
func (f Facts) With(records ...*rules.Record) Facts {
	f = f.clone()
	for _, r := range records {
		if r == nil {
			continue
		}
		if i, ok := place(r.Object()); ok {
			f.records[i] = r
		}
	}
	return f
}

// Without gives the facts without the part of a kind, by its place among
// catalog.Kinds.
func (f Facts) Without(kind int) Facts {
	f = f.clone()
	f.records[kind] = nil
	return f
}

// Part gives the record of the part of a kind, by its place among catalog.Kinds;
// nil where there is none.
func (f Facts) Part(kind int) *rules.Record {
	if f.records == nil {
		return nil
	}
	return f.records[kind]
}

// Bench gives what was measured; it is never nil.
func (f Facts) Bench() *rules.Record {
	if f.records == nil {
		return emptyBench
	}
	return f.records[benchPlace]
}

// Value reads a stated or measured fact; it is not Known where nobody stated it.
func (f Facts) Value(ref rules.Ref) fact.Value {
	if i, ok := place(ref.Object); ok && f.records != nil {
		return ref.In(f.records[i])
	}
	return fact.Value{}
}

// Records gives the records in the order of Objects, without figures. The list is the
// caller's own.
func (f Facts) Records() []*rules.Record { return f.clone().records }

// Refit gives the facts with the records of parts in the places of those of their
// kinds, and forgets what was measured on the parts that they replace.
func (f Facts) Refit(parts ...*rules.Record) Facts {
	var kinds uint64
	for _, p := range parts {
		if i, ok := catalog.KindIndex(p.Object().Name()); ok {
			kinds |= 1 << i
		}
	}
	return f.With(parts...).Forget(kinds)
}

// Forget gives the facts without what was measured on parts of these kinds: a bit for
// each, by the places of catalog.Kinds.
func (f Facts) Forget(kinds uint64) Facts {
	old := f.Bench()
	forgot := false
	for i := range Bench.Table().Fields() {
		forgot = forgot || old.At(i).Known && MeasuredOn(i)&kinds != 0
	}
	if !forgot {
		return f
	}
	rec := old.Clone()
	for i := range Bench.Table().Fields() {
		if MeasuredOn(i)&kinds != 0 {
			rec.Put(i, fact.Value{})
		}
	}
	return f.With(rec)
}

// Fill completes facts: it may put other records into the places of these, in the order
// of Objects. Those it may make in room, by place, which is nil where they are kept.
type Fill func(records []*rules.Record, room Room)

// Room gives memory for a record.
type Room []*rules.Record

// At gives the memory for the record at a place; nil where there is none.
func (r Room) At(place int) *rules.Record {
	if r == nil {
		return nil
	}
	if r[place] == nil {
		r[place] = &rules.Record{}
	}
	return r[place]
}

// MeasureFilled works out the figures of the facts as fill completes them: it may put
// other records into the places of these, in the order of Objects.
func (f Facts) MeasureFilled(fill Fill) Figures {
	records := f.clone().records
	fill(records, nil)
	return Figures{measureAll(table, records, nil)}
}

// Measure works out the figures.
func (f Facts) Measure() Figures { return Figures{measureAll(table, f.clone().records, nil)} }

// Figures are what was worked out of the facts of one bicycle. They are immutable.
// The zero Figures have no value.
type Figures struct{ data *measured }

// Value gives a figure by name, such as index_residual_mm; its Known is false where
// the figure has no value, and the Lack says why. Lists are read only.
func (f Figures) Value(name string) (fact.Value, fact.Lack) {
	i, ok := Object.Table().Index(name)
	switch {
	case !ok:
		return fact.Value{}, fact.Lack{Fault: "there is no figure " + name + "; " + fact.Suggest(name, Object.Table().Names())}
	case f.data == nil:
		return fact.Value{}, fact.Lack{Reason: "nothing was measured"}
	}
	return f.data.values[i], f.data.record.Lack(i)
}

// Record gives the figures as the facts that rules read; nil for zero Figures.
func (f Figures) Record() *rules.Record {
	if f.data == nil {
		return nil
	}
	return &f.data.record
}

// Records gives the facts and their figures in the order of Objects, as rules
// take them: read only.
func (f Figures) Records() []*rules.Record {
	if f.data == nil {
		return Facts{}.Measure().data.records
	}
	return f.data.records
}

// Complete works the figures out for given records, in the order of Objects, and
// keeps those figures that are given themselves, as a rule's example may.
func Complete(given []*rules.Record) []*rules.Record {
	records := slices.Clone(given)
	stated := records[figuresPlace]
	if records[benchPlace] == nil {
		records[benchPlace] = emptyBench
	}
	data := measureAll(table, records, nil)
	if stated != nil {
		data.state(stated)
	}
	return records
}

// state puts stated figures over those that were worked out.
func (d *measured) state(stated *rules.Record) {
	for i := range d.values {
		if v := stated.At(i); v.Known {
			d.values[i], d.reads[i] = *v, fact.Marks{}
			d.lack(table[i], nil)
		}
	}
}

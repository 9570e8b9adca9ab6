package figures

import (
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Record is for tests: a record, without an import of rules.
type Record = *rules.Record

// FieldRef points at a field, likewise.
type FieldRef = rules.Ref

// Declaration is what one figure says of itself.
type Declaration struct {
	Name, Doc string
	Measured  bool     // it has a function
	Reads     []string // facts and figures by their full names, sorted
}

// Declared lists what every figure says of itself.
func Declared() []Declaration {
	out := make([]Declaration, len(table))
	for i, f := range table {
		d := Declaration{Name: f.Name, Doc: f.Doc, Measured: f.measure != nil}
		for _, in := range f.reads {
			d.Reads = append(d.Reads, in.name)
		}
		for _, other := range f.figures {
			d.Reads = append(d.Reads, "figures."+other.Name)
		}
		slices.Sort(d.Reads)
		out[i] = d
	}
	return out
}

// MeasureTraced tells what every figure asks for.
func (f Facts) MeasureTraced(trace func(figure, read string)) {
	measureAll(table, f.clone().records, trace)
}

// Place is that of the figures among records.
func Place() int { return figuresPlace }

// Refs names one field of a record.
func Refs(rec Record, field int) []rules.Ref {
	return []rules.Ref{{Object: rec.Object(), Index: field}}
}

// MeasureSupposing tells what every figure takes for granted.
func (f Facts) MeasureSupposing(tell func(figure, what string)) {
	records := f.clone().records
	m := measuring{records: records, out: &measured{records: records, values: make([]fact.Value, len(table))}}
	m.look()
	m.supposed = func(place int) { tell(m.now.Name, suppositions[place].what) }
	for _, fig := range table {
		m.one(fig)
	}
}

// ASupposition is one of the list, for tests.
type ASupposition struct {
	What, Safe, Why string
	Figures         []string
}

// Suppositions lists them.
func Suppositions() []ASupposition {
	out := make([]ASupposition, len(suppositions))
	for i, s := range suppositions {
		out[i] = ASupposition{s.what, s.safe, s.why, s.figures}
	}
	return out
}

// DeclaredWay is one declaration of how a figure goes with a fact.
type DeclaredWay struct {
	Figure, Fact rules.Ref
	Way          int8
	Turns        bool
}

// DeclaredWays lists them all.
func DeclaredWays() []DeclaredWay {
	var out []DeclaredWay
	for _, f := range table {
		for way, list := range map[int8][]input{1: f.rises, -1: f.falls, rules.Still: f.still} {
			for _, in := range list {
				out = append(out, DeclaredWay{Object.Ref(f.Name), in.Ref, way, f.turns})
			}
		}
	}
	return out
}

// PlaceOf is the place of a fact's object among the records.
func PlaceOf(ref rules.Ref) int { return placeOf(ref) }

// FactNamed finds a fact by its full name.
func FactNamed(name string) rules.Ref {
	for _, o := range Objects() {
		for _, f := range o.Table().Fields() {
			if o.Name()+"."+f.Name == name {
				return o.Ref(f.Name)
			}
		}
	}
	panic(name)
}

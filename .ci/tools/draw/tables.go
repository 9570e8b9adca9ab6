package draw

import (
	"log"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// field is what drawing needs of a field of a table. All that this package takes
// from the library stands in this file, so that it can be built beside another
// state of the library by changing these lines alone.
type field struct {
	name, excludes string
	kind           fact.Type
	min, max       float64
	longest        int
	choices        []string
	required       bool
	rising         bool
}

// table is the fields of a kind of part, or of the bench.
type table struct {
	name   string
	fields []field
}

// tables gives every kind of part in the catalogue's order, and the bench last.
func tables() []table {
	objects := catalog.Kinds()
	v, err := compat.Vocabulary()
	if err != nil {
		log.Fatal(err)
	}
	for _, o := range v.Objects() {
		if o.Name() == "bench" {
			objects = append(objects, o)
		}
	}
	var out []table
	for _, o := range objects {
		t := table{name: o.Name()}
		for _, f := range o.Table().Fields() {
			t.fields = append(t.fields, field{f.Name, f.Excludes, f.Type, f.Min, f.Max, f.Cap, f.Choices, f.Required, f.Rising})
		}
		out = append(out, t)
	}
	return out
}

// field draws a value of the field's type, anywhere in its range.
func (d *drawer) anywhere(f field) any {
	switch f.kind {
	case fact.Fraction:
		return d.between(f.min, f.max)
	case fact.Whole:
		return int(f.min) + d.IntN(int(f.max-f.min)+1)
	case fact.Flag:
		return d.chance(0.5)
	case fact.Choice:
		return f.choices[d.IntN(len(f.choices))]
	case fact.Fractions:
		return inOrder(d.list(1+d.IntN(f.longest), f.min, f.max), f.rising)
	case fact.Wholes:
		return inOrder(d.wholes(1+d.IntN(f.longest), int(f.min), int(f.max)), f.rising)
	case fact.Names:
		return []string{d.word()}
	}
	return d.word()
}

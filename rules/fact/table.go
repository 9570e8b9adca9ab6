package fact

import "fmt"

// Table is an ordered list of fields, each name once.
type Table struct {
	fields []Field
	index  map[string]int
}

// NewTable makes a table. It panics where a name stands twice or a field refers
// to one that is not there, which is a mistake in the program.
func NewTable(fields ...Field) *Table {
	t := &Table{fields: fields, index: make(map[string]int, len(fields))}
	for i, f := range fields {
		if _, twice := t.index[f.Name]; twice {
			panic(fmt.Sprintf("fact: field %s stands twice", f.Name))
		}
		t.index[f.Name] = i
		if twice := twiceKnown(&fields[i]); twice != "" {
			panic(fmt.Sprintf("fact: field %s knows %s twice", f.Name, twice))
		}
		if len(f.Known) > 0 {
			fields[i].spelt = spellings(&fields[i])
		}
	}
	for _, f := range fields {
		for _, other := range []string{f.Excludes, f.OneLess, f.Instead} {
			if _, ok := t.index[other]; other != "" && !ok {
				panic(fmt.Sprintf("fact: field %s refers to %s, which is not in its table", f.Name, other))
			}
		}
	}
	return t
}

// twiceKnown gives a spelling that stands for two known words of a field.
func twiceKnown(f *Field) string {
	taken := map[string]bool{}
	for _, k := range f.Known {
		for _, spelling := range append([]string{k.Name}, k.Also...) {
			if taken[spelling] {
				return spelling
			}
			taken[spelling] = true
		}
	}
	return ""
}

// Named gives each field by its name, with the others that it goes by.
func (t *Table) Named() []Named {
	out := make([]Named, len(t.fields))
	for i, f := range t.fields {
		out[i] = Named{f.Name, f.Also}
	}
	return out
}

// Fields gives the fields in order. The slice is the table's own: read only.
func (t *Table) Fields() []Field { return t.fields }

// Index gives the index of a field by its name.
func (t *Table) Index(name string) (int, bool) {
	i, ok := t.index[name]
	return i, ok
}

// Names gives the names of the fields in order.
func (t *Table) Names() []string {
	names := make([]string, len(t.fields))
	for i, f := range t.fields {
		names[i] = f.Name
	}
	return names
}

// Partial gives the same table with nothing required, for
// records that state only some facts of a thing.
func (t *Table) Partial() *Table {
	fields := make([]Field, len(t.fields))
	for i, f := range t.fields {
		f.Required = false
		fields[i] = f
	}
	return &Table{fields: fields, index: t.index}
}

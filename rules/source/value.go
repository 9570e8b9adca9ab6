package source

import (
	"strconv"
	"strings"
)

// String prints a value for a message: numbers in full, lists in brackets, an
// unstated value as such. A flag prints as its number.
func (v Value) String() string {
	switch {
	case !v.Known:
		return "(not stated)"
	case v.List != nil:
		parts := make([]string, len(v.List))
		for i, x := range v.List {
			parts[i] = strconv.FormatFloat(x, 'g', -1, 64)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case v.Text != "":
		return v.Text
	}
	return strconv.FormatFloat(v.Num, 'g', -1, 64)
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

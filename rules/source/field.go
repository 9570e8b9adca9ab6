package source

import "fmt"

// Type says what a field holds.
type Type uint8

// The types of fields. Whole numbers and fractions are kept apart because rules
// compare whole numbers for equality and fractions only within a tolerance.
const (
	Fraction  Type = iota + 1 // a finite number, which may carry a tolerance
	Whole                     // a whole number
	Flag                      // true or false
	Choice                    // one of a closed list of words
	Name                      // a free identifier: a-z, 0-9, -, and . between digits
	Fractions                 // a list of finite numbers
	Wholes                    // a list of whole numbers
)

// Field describes one entry of a record: it is read, checked, hinted at, put
// into the vocabulary of the rules and documented from this description alone.
type Field struct {
	Name string // lower case with its unit at the end, such as pitch_mm
	Type Type
	Unit string // mm, t, N m, deg, percent, pitches, V, N, C; empty if it has none
	Doc  string // what it is, one sentence
	How  string // how to measure or find it, one sentence; empty if nobody would

	Min, Max float64  // the range of a number and of each number of a list, both ends included
	Cap      int      // the longest list; 0 for what is no list
	Choices  []string // the closed list of a Choice
	Default  *Value   // what an unstated field holds; nil for most

	Required bool   // a record without it is refused
	Excludes string // another field that says the same; stating both is refused
	Rising   bool   // a list whose entries must strictly rise
	Sorted   bool   // a list that is sorted on reading, largest first
	OneLess  string // a list with one entry fewer than this other list
}

// Value is what one field of a record holds. The zero value is an unstated one.
// Flags are held in Num as 0 and 1, whole numbers in Num exactly.
type Value struct {
	Known   bool // stated, measured, computed or by default: it can be read
	Assumed bool // nobody stated it: a usual value stands in

	Num  float64
	Tol  float64 // tolerance either way of Num; 0 if none is stated
	Text string
	List []float64
	Tols []float64 // tolerances of List, entry by entry; nil if none is stated
}

// Num makes a stated number.
func Num(x float64) Value { return Value{Known: true, Num: x} }

// Nums makes a stated list of numbers. The list is kept, not copied.
func Nums(xs []float64) Value { return Value{Known: true, List: xs} }

// Word makes a stated text of a Choice or Name.
func Word(s string) Value { return Value{Known: true, Text: s} }

// Truth makes a stated flag.
func Truth(b bool) Value {
	if b {
		return Value{Known: true, Num: 1}
	}
	return Value{Known: true}
}

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
			panic(fmt.Sprintf("source: field %s stands twice", f.Name))
		}
		t.index[f.Name] = i
	}
	for _, f := range fields {
		for _, other := range []string{f.Excludes, f.OneLess} {
			if _, ok := t.index[other]; other != "" && !ok {
				panic(fmt.Sprintf("source: field %s refers to %s, which is not in its table", f.Name, other))
			}
		}
	}
	return t
}

// Fields gives the fields in order. The slice is the table's own: read only.
func (t *Table) Fields() []Field { return t.fields }

// Index gives the place of a field by name.
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

package fact

import (
	"math"
	"strconv"
	"strings"
)

// Value is what one field of a record holds. The zero value is an unstated one.
// Flags are held in Num as 0 and 1, whole numbers in Num exactly.
type Value struct {
	Known   bool // stated, measured, computed or by default: it can be read
	Assumed bool // nobody stated it: a convention stands in, see Usual for values that are published
	Own     bool // measured, or stated over the part that it belongs to: it goes before what a name stands for

	// Usual says that nobody stated the value: it is the usual one of a class or of a
	// count. Of a computed value it says that it rests on such a one.
	Usual Usual

	Num  float64
	Tol  float64 // tolerance either way of Num; 0 if none is stated
	Text string
	List []float64

	More *More // what few values have; nil without any of it
}

// More is what few values have: apart, so that the many stay small. Values share it, and
// it never changes.
type More struct {
	Tols   []float64 // tolerances of List, entry by entry; nil if none is stated
	Words  []string  // of a field of Names
	Spread *Spread   // how far a usual number goes; nil where it is exact
}

// Tols gives the tolerances of List, entry by entry; nil if none is stated.
func (v Value) Tols() []float64 {
	if v.More == nil {
		return nil
	}
	return v.More.Tols
}

// Words gives the words of a field of Names.
func (v Value) Words() []string {
	if v.More == nil {
		return nil
	}
	return v.More.Words
}

// Spread gives how far a usual number goes; nil where it is exact.
func (v Value) Spread() *Spread {
	if v.More == nil {
		return nil
	}
	return v.More.Spread
}

// Usual says by what a usual value is known.
type Usual uint8

// What a usual value is known by.
const (
	NotUsual Usual = iota // stated, measured or computed of such
	ByCount               // by a number of cogs or speeds: it does not count as stated
	ByClass               // by a class that was named: it does
)

// Spread is how far the published and measured values of a class lie from the usual
// one, and who says so.
type Spread struct {
	Least, Most float64 // Least <= the usual value <= Most
	Source      string  // an id of the sources, or memory
}

// At gives the value between the ends of the spread: the least for -1, the usual one
// for 0, the most for 1. Of whole numbers it gives a whole one, of others one of six
// decimals, as anybody might state it.
func (s *Spread) At(usual, to float64, whole bool) float64 {
	x := usual + to*(s.Most-usual)
	if to < 0 {
		x = usual + to*(usual-s.Least)
	}
	if whole {
		return math.Round(x)
	}
	return math.Round(x*1e6) / 1e6
}

// WithTols gives the value with tolerances of its list.
func (v Value) WithTols(tols []float64) Value {
	v.More = &More{Tols: tols, Words: v.Words(), Spread: v.Spread()}
	return v
}

// WithSpread gives the value with a spread, nil for none.
func (v Value) WithSpread(s *Spread) Value {
	v.More = &More{Tols: v.Tols(), Words: v.Words(), Spread: s}
	return v
}

// Num makes a stated number.
func Num(x float64) Value { return Value{Known: true, Num: x} }

// Nums makes a stated list of numbers. The list is kept, not copied.
func Nums(xs []float64) Value { return Value{Known: true, List: xs} }

// Word makes a stated text of a Choice or Name.
func Word(s string) Value { return Value{Known: true, Text: s} }

// Texts makes a stated list of words of Names. The list is kept, not copied.
func Texts(words ...string) Value { return Value{Known: true, More: &More{Words: words}} }

// Truth makes a stated flag.
func Truth(b bool) Value {
	if b {
		return Value{Known: true, Num: 1}
	}
	return Value{Known: true}
}

// Plain gives a value of a field's type as JSON has it: a flag as one, a list that is
// never nil.
func (v Value) Plain(t Type) any {
	switch t {
	case Flag:
		return v.Num != 0
	case Choice, Name:
		return v.Text
	case Fractions, Wholes:
		return append([]float64{}, v.List...)
	case Names:
		return append([]string{}, v.Words()...)
	}
	return v.Num
}

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
	case v.Words() != nil:
		return "[" + strings.Join(v.Words(), ", ") + "]"
	case v.Text != "":
		return v.Text
	}
	return strconv.FormatFloat(v.Num, 'g', -1, 64)
}

package expr

import (
	"reflect"
	"slices"

	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"

	"example.org/cogcourt/rules/fact"
)

// box turns a value into the engine's form.
func box(v *fact.Value, t fact.Type) ref.Val {
	switch t {
	case fact.Whole:
		return types.Int(v.Num)
	case fact.Fraction:
		return types.Double(v.Num)
	case fact.Flag:
		return types.Bool(v.Num != 0)
	case fact.Fractions, fact.Wholes:
		return numbers{xs: v.List, whole: t == fact.Wholes}
	case fact.Names:
		return nameList{words: v.Words()}
	}
	return types.String(v.Text)
}

// numbers is a list of numbers in the engine's form. It keeps the native list,
// so that the functions of this package read it without boxing each entry.
type numbers struct {
	xs    []float64
	whole bool
}

func (n numbers) at(i int) ref.Val {
	if n.whole {
		return types.Int(n.xs[i])
	}
	return types.Double(n.xs[i])
}

// full gives the same list as the engine's own type, for what is rarely asked.
func (n numbers) full() traits.Lister {
	vals := make([]ref.Val, len(n.xs))
	for i := range n.xs {
		vals[i] = n.at(i)
	}
	return types.NewRefValList(types.DefaultTypeAdapter, vals)
}

func (n numbers) Size() ref.Val              { return types.Int(len(n.xs)) }
func (n numbers) Type() ref.Type             { return types.ListType }
func (n numbers) Value() any                 { return n.full().Value() }
func (n numbers) Iterator() traits.Iterator  { return n.full().Iterator() }
func (n numbers) Get(index ref.Val) ref.Val  { return n.full().Get(index) }
func (n numbers) Add(other ref.Val) ref.Val  { return n.full().Add(other) }
func (n numbers) Equal(o ref.Val) ref.Val    { return n.full().Equal(o) }
func (n numbers) Contains(v ref.Val) ref.Val { return n.full().Contains(v) }
func (n numbers) ConvertToNative(t reflect.Type) (any, error) {
	return n.full().ConvertToNative(t)
}
func (n numbers) ConvertToType(t ref.Type) ref.Val { return n.full().ConvertToType(t) }

// nameList is a list of texts in the engine's form, which is asked for membership
// far more than for anything else.
type nameList struct{ words []string }

// full gives the same list as the engine's own type, for what is rarely asked.
func (n nameList) full() traits.Lister { return types.NewStringList(types.DefaultTypeAdapter, n.words) }

// Contains looks a text up without boxing the others.
func (n nameList) Contains(v ref.Val) ref.Val {
	if s, ok := v.(types.String); ok {
		return types.Bool(slices.Contains(n.words, string(s)))
	}
	return n.full().Contains(v)
}

func (n nameList) Size() ref.Val             { return types.Int(len(n.words)) }
func (n nameList) Type() ref.Type            { return types.ListType }
func (n nameList) Value() any                { return n.full().Value() }
func (n nameList) Iterator() traits.Iterator { return n.full().Iterator() }
func (n nameList) Get(index ref.Val) ref.Val { return n.full().Get(index) }
func (n nameList) Add(other ref.Val) ref.Val { return n.full().Add(other) }
func (n nameList) Equal(o ref.Val) ref.Val   { return n.full().Equal(o) }
func (n nameList) ConvertToNative(t reflect.Type) (any, error) {
	return n.full().ConvertToNative(t)
}
func (n nameList) ConvertToType(t ref.Type) ref.Val { return n.full().ConvertToType(t) }

// unboxNumber reads a number of either kind.
func unboxNumber(v ref.Val) (float64, bool) {
	switch x := v.(type) {
	case types.Int:
		return float64(x), true
	case types.Double:
		return float64(x), true
	}
	return 0, false
}

// unboxList reads a list of numbers, also one written in the expression itself.
func unboxList(v ref.Val) ([]float64, bool) {
	if n, ok := v.(numbers); ok {
		return n.xs, true
	}
	l, ok := v.(traits.Lister)
	if !ok {
		return nil, false
	}
	var xs []float64
	for it := l.Iterator(); it.HasNext() == types.True; {
		x, ok := unboxNumber(it.Next())
		if !ok {
			return nil, false
		}
		xs = append(xs, x)
	}
	return xs, true
}

// unboxWords reads a list of texts.
func unboxWords(v ref.Val) ([]string, bool) {
	if n, ok := v.(nameList); ok {
		return n.words, true
	}
	l, ok := v.(traits.Lister)
	if !ok {
		return nil, false
	}
	var out []string
	for it := l.Iterator(); it.HasNext() == types.True; {
		s, ok := it.Next().(types.String)
		if !ok {
			return nil, false
		}
		out = append(out, string(s))
	}
	return out, true
}

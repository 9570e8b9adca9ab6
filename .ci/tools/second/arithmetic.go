package second

import (
	"math"
	"strconv"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"
)

// mostWhole is the largest number that arithmetic may come to.
const mostWhole = 1<<53 - 1

// rounded gives a number as nine decimals say it.
func rounded(x float64) ref.Val {
	switch {
	case math.IsNaN(x) || math.Abs(x) > mostWhole:
		return types.NewErr("out of range")
	case math.Abs(x) >= 1e6:
		return types.Double(x)
	}
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 9, 64), 64)
	if err != nil {
		return types.NewErr("no number: %v", err)
	}
	if y == 0 {
		y = 0 // and not -0
	}
	return types.Double(y)
}

// number reads a number of any type of the engine.
func number(v ref.Val) (float64, bool) {
	switch x := v.(type) {
	case types.Double:
		return float64(x), true
	case types.Int:
		return float64(x), true
	}
	return 0, false
}

// entries reads a list.
func entries(v ref.Val) ([]ref.Val, bool) {
	l, ok := v.(traits.Lister)
	if !ok {
		return nil, false
	}
	var out []ref.Val
	for it := l.Iterator(); it.HasNext() == types.True; {
		out = append(out, it.Next())
	}
	return out, true
}

func wrong(what string) ref.Val { return types.NewErr("%s of what it is not for", what) }

// two makes a function of two numbers.
func two(name string, f func(a, b float64) ref.Val) func(a, b ref.Val) ref.Val {
	return func(a, b ref.Val) ref.Val {
		x, okX := number(a)
		y, okY := number(b)
		if !okX || !okY {
			return wrong(name)
		}
		return f(x, y)
	}
}

func plus(a, b ref.Val) ref.Val {
	if s, ok := a.(types.String); ok {
		if t, ok := b.(types.String); ok {
			return s + t
		}
	}
	return two("+", func(x, y float64) ref.Val { return rounded(x + y) })(a, b)
}

// pick makes a function of a list of numbers, which must not be empty.
func pick(name string, better func(x, best float64) bool) func(v ref.Val) ref.Val {
	return func(v ref.Val) ref.Val {
		list, ok := entries(v)
		if !ok {
			return wrong(name)
		}
		if len(list) == 0 {
			return types.NewErr("%s of nothing", name)
		}
		best, _ := number(list[0])
		for _, e := range list {
			x, ok := number(e)
			if !ok {
				return wrong(name)
			}
			if better(x, best) {
				best = x
			}
		}
		return types.Double(best)
	}
}

func total(v ref.Val) ref.Val {
	list, ok := entries(v)
	if !ok {
		return wrong("sum")
	}
	all := 0.0
	for _, e := range list {
		x, ok := number(e)
		if !ok {
			return wrong("sum")
		}
		all += x
	}
	return rounded(all)
}

func length(v ref.Val) ref.Val {
	if s, ok := v.(types.String); ok {
		return types.Double(strings.Count(string(s), "") - 1)
	}
	list, ok := entries(v)
	if !ok {
		return wrong("size")
	}
	return types.Double(len(list))
}

func less(x, y float64) bool { return x < y }
func more(x, y float64) bool { return x > y }

// function declares a function of arguments of any type.
func function(name string, opts ...cel.FunctionOpt) cel.EnvOption { return cel.Function(name, opts...) }

func ofOne(name string, f func(ref.Val) ref.Val) cel.FunctionOpt {
	return cel.Overload("own_one_"+name, []*cel.Type{cel.DynType}, cel.DynType, cel.UnaryBinding(f))
}

func ofTwo(name string, f func(a, b ref.Val) ref.Val) cel.FunctionOpt {
	return cel.Overload("own_two_"+name, []*cel.Type{cel.DynType, cel.DynType}, cel.DynType, cel.BinaryBinding(f))
}

// order makes a comparison of two numbers.
func order(name string, f func(x, y float64) bool) cel.EnvOption {
	return function(name, ofTwo(name, two(name, func(x, y float64) ref.Val { return types.Bool(f(x, y)) })))
}

// arithmetic declares the operators and functions of numbers and lists.
func arithmetic() []cel.EnvOption {
	pair := func(name string, f func(x, y float64) ref.Val) cel.EnvOption {
		return function(name, ofTwo(name, two(name, f)))
	}
	alone := func(name string, f func(float64) float64) cel.EnvOption {
		return function(name, ofOne(name, func(v ref.Val) ref.Val {
			x, ok := number(v)
			if !ok {
				return wrong(name)
			}
			return types.Double(f(x) + 0)
		}))
	}
	ends := func(name string, better func(x, best float64) bool) cel.EnvOption {
		return function(name, ofOne(name, pick(name, better)), ofTwo(name, two(name, func(x, y float64) ref.Val {
			if better(x, y) {
				return types.Double(x)
			}
			return types.Double(y)
		})))
	}
	end := func(name string, at func(n int) int) cel.EnvOption {
		return function(name, ofOne(name, func(v ref.Val) ref.Val {
			list, ok := entries(v)
			if !ok || len(list) == 0 {
				return wrong(name)
			}
			return list[at(len(list))]
		}))
	}
	return []cel.EnvOption{
		function("_+_", ofTwo("_+_", plus)),
		pair("_-_", func(x, y float64) ref.Val { return rounded(x - y) }),
		pair("_*_", func(x, y float64) ref.Val { return rounded(x * y) }),
		pair("_/_", func(x, y float64) ref.Val {
			if y == 0 {
				return types.NewErr("division by nothing")
			}
			return rounded(x / y)
		}),
		pair("_%_", func(x, y float64) ref.Val {
			if y == 0 {
				return types.NewErr("division by nothing")
			}
			return types.Double(x - y*math.Trunc(x/y))
		}),
		alone("-_", func(x float64) float64 { return -x }), alone("abs", math.Abs),
		order("_<_", less), order("_>_", more),
		order("_<=_", func(x, y float64) bool { return !more(x, y) }), order("_>=_", func(x, y float64) bool { return !less(x, y) }),
		ends("min", less), ends("max", more),
		end("first", func(int) int { return 0 }), end("last", func(n int) int { return n - 1 }),
		function("sum", ofOne("sum", total)), function("count", ofOne("count", length)), function("size", ofOne("size", length)),
		function("near", cel.Overload("own_near", []*cel.Type{cel.DynType, cel.DynType, cel.DynType}, cel.DynType,
			cel.FunctionBinding(func(vs ...ref.Val) ref.Val {
				a, okA := number(vs[0])
				b, okB := number(vs[1])
				within, okT := number(vs[2])
				if !okA || !okB || !okT {
					return wrong("near")
				}
				return types.Bool(math.Abs(a-b) <= within)
			}))),
	}
}

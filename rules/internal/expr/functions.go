package expr

import (
	"errors"
	"math"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/decls"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/common/types/traits"
)

// Errors that a function of the language can end in.
var (
	errDivision = errors.New("division by zero")
	errRange    = errors.New("a number grows out of range")
	errEmpty    = errors.New("an empty list has no such entry")
)

// maxWhole is the largest whole number that a float64 tells from both its
// neighbours: a sum that rounding has changed lies above it.
const maxWhole = 1<<53 - 1

// pairFuncs take two numbers and give one. Whole numbers stay whole, but for
// the quotient: 33 / 2 is 16.5 to a mechanic.
var pairFuncs = map[string]func(a, b float64) (float64, error){
	operators.Add:      func(a, b float64) (float64, error) { return finite(a + b) },
	operators.Subtract: func(a, b float64) (float64, error) { return finite(a - b) },
	operators.Multiply: func(a, b float64) (float64, error) { return finite(a * b) },
	operators.Divide:   divide,
	"min":              func(a, b float64) (float64, error) { return math.Min(a, b), nil },
	"max":              func(a, b float64) (float64, error) { return math.Max(a, b), nil },
}

// orderFuncs compare two numbers.
var orderFuncs = map[string]func(a, b float64) bool{
	operators.Less:          func(a, b float64) bool { return a < b },
	operators.LessEquals:    func(a, b float64) bool { return a <= b },
	operators.Greater:       func(a, b float64) bool { return a > b },
	operators.GreaterEquals: func(a, b float64) bool { return a >= b },
}

// listFuncs take a list of numbers and give one of them, or their sum.
var listFuncs = map[string]func(xs []float64) (float64, error){
	"min":   func(xs []float64) (float64, error) { return pick(xs, slices.Min[[]float64]) },
	"max":   func(xs []float64) (float64, error) { return pick(xs, slices.Max[[]float64]) },
	"first": func(xs []float64) (float64, error) { return pick(xs, func(xs []float64) float64 { return xs[0] }) },
	"last": func(xs []float64) (float64, error) {
		return pick(xs, func(xs []float64) float64 { return xs[len(xs)-1] })
	},
	"sum": sum,
}

// finite ends every arithmetic operation. It takes the binary remainder off, so
// that 2.18 - 2.13 is the 0.05 that a limit speaks of: facts have at most six
// decimals, and what differs beyond the ninth is no difference.
func finite(x float64) (float64, error) {
	if math.IsNaN(x) || math.Abs(x) > maxWhole {
		return 0, errRange
	}
	if math.Abs(x) < 1e6 && x != math.Trunc(x) {
		return math.RoundToEven(x*1e9)/1e9 + 0, nil
	}
	return x + 0, nil // no zero has a sign
}

func divide(a, b float64) (float64, error) {
	if b == 0 {
		return 0, errDivision
	}
	return finite(a / b)
}

func remainder(a, b float64) (float64, error) {
	if b == 0 {
		return 0, errDivision
	}
	return math.Mod(a, b), nil
}

func pick(xs []float64, f func([]float64) float64) (float64, error) {
	if len(xs) == 0 {
		return 0, errEmpty
	}
	return f(xs), nil
}

func sum(xs []float64) (float64, error) {
	var total float64
	for _, x := range xs {
		total += x
	}
	return finite(total)
}

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// usage shows each word that an author may write as a function.
var usage = map[string]string{
	"abs":        "abs(number)",
	"all":        "list.all(each, condition)",
	"count":      "count(list)",
	"exists":     "list.exists(each, condition)",
	"first":      "first(list)",
	"known":      "known(kind.field)",
	"last":       "last(list)",
	"max":        "max(a, b) or max(list)",
	"min":        "min(a, b) or min(list)",
	"near":       "near(a, b, tolerance)",
	"size":       "size(list) or size(text)",
	"startsWith": "text.startsWith(text)",
	"stated":     "stated(kind.field)",
	"sum":        "sum(list)",
}

func functionNames() []string { return sortedKeys(usage) }

// functions declares the language's own functions and operators to the engine.
func functions() []cel.EnvOption {
	var opts []cel.EnvOption
	for _, name := range sortedKeys(pairFuncs) {
		opts = append(opts, declarePair(name))
	}
	for _, name := range sortedKeys(orderFuncs) {
		opts = append(opts, declareOrder(name))
	}
	for _, name := range []string{"first", "last", "sum"} {
		opts = append(opts, function(name, listOverloads(name)...))
	}
	return append(append(opts, declareRest()...), knownCall())
}

func declareRest() []cel.EnvOption {
	length := func(v ref.Val) ref.Val { return listCall(v, cel.IntType, count) }
	absolute := func(t *cel.Type) decls.OverloadOpt {
		return cel.UnaryBinding(func(v ref.Val) ref.Val { return oneCall(v, t, math.Abs) })
	}
	negative := func(t *cel.Type) decls.OverloadOpt {
		return cel.UnaryBinding(func(v ref.Val) ref.Val { return oneCall(v, t, func(x float64) float64 { return -x }) })
	}
	one := func(t *cel.Type) []*cel.Type { return []*cel.Type{t} }
	wholes, fractions, words := cel.ListType(cel.IntType), cel.ListType(cel.DoubleType), cel.ListType(cel.StringType)
	entries := func(v ref.Val) ref.Val { return v.(traits.Sizer).Size() }
	return []cel.EnvOption{
		function("abs", cel.Overload("abs_whole", one(cel.IntType), cel.IntType, absolute(cel.IntType)),
			cel.Overload("abs_fraction", one(cel.DoubleType), cel.DoubleType, absolute(cel.DoubleType))),
		function(operators.Negate, cel.Overload("negate_whole", one(cel.IntType), cel.IntType, negative(cel.IntType)),
			cel.Overload("negate_fraction", one(cel.DoubleType), cel.DoubleType, negative(cel.DoubleType))),
		function("count", cel.Overload("count_wholes", one(wholes), cel.IntType, cel.UnaryBinding(length)),
			cel.Overload("count_fractions", one(fractions), cel.IntType, cel.UnaryBinding(length)),
			cel.Overload("count_texts", one(words), cel.IntType, cel.UnaryBinding(entries))),
		function("size", cel.Overload("size_wholes", one(wholes), cel.IntType, cel.UnaryBinding(length)),
			cel.Overload("size_fractions", one(fractions), cel.IntType, cel.UnaryBinding(length)),
			cel.Overload("size_texts", one(words), cel.IntType, cel.UnaryBinding(entries)),
			cel.Overload("size_text", one(cel.StringType), cel.IntType, cel.UnaryBinding(func(v ref.Val) ref.Val {
				return types.Int(len([]rune(string(v.(types.String)))))
			}))),
		function(operators.Modulo, cel.Overload("remainder_wholes", []*cel.Type{cel.IntType, cel.IntType}, cel.IntType,
			cel.BinaryBinding(func(a, b ref.Val) ref.Val { return pairCall(a, b, cel.IntType, remainder) }))),
		function("startsWith", cel.MemberOverload("text_starts_with", []*cel.Type{cel.StringType, cel.StringType}, cel.BoolType,
			cel.BinaryBinding(func(a, b ref.Val) ref.Val {
				return types.Bool(strings.HasPrefix(string(a.(types.String)), string(b.(types.String))))
			}))),
		function("near", nearOverloads()...),
		// The decorator puts a node of its own in the place of each stated(): a
		// function would never see that its argument is not there.
		function("stated", cel.Overload("stated_any", one(cel.DynType), cel.BoolType, decls.OverloadIsNonStrict(),
			cel.UnaryBinding(func(ref.Val) ref.Val { return types.NewErr("stated() outside of when") }))),
	}
}

func nearOverloads() []decls.FunctionOpt {
	var opts []decls.FunctionOpt
	kinds := []*cel.Type{cel.IntType, cel.DoubleType}
	for i := range 8 {
		args := []*cel.Type{kinds[i&1], kinds[i>>1&1], kinds[i>>2&1]}
		opts = append(opts, cel.Overload("near_"+typesID(args), args, cel.BoolType, cel.FunctionBinding(func(vs ...ref.Val) ref.Val {
			a, okA := unboxNumber(vs[0])
			b, okB := unboxNumber(vs[1])
			tol, okT := unboxNumber(vs[2])
			if !okA || !okB || !okT {
				return types.MaybeNoSuchOverloadErr(vs[0])
			}
			return types.Bool(near(a, b, tol))
		})))
	}
	return opts
}

func count(xs []float64) (float64, error) { return float64(len(xs)), nil }

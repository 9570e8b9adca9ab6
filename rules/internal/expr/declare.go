package expr

import (
	"maps"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/decls"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
)

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// function declares one function. Type guards are off: overloads are chosen on
// load, and a guard would walk every list argument at each call.
func function(name string, opts ...decls.FunctionOpt) cel.EnvOption {
	return cel.Function(name, append(opts, decls.DisableTypeGuards(true))...)
}

func typesID(args []*cel.Type) string {
	var b strings.Builder
	for _, t := range args {
		if t == cel.IntType {
			b.WriteByte('w')
		} else {
			b.WriteByte('f')
		}
	}
	return b.String()
}

// pairKinds are the four ways in which whole numbers and fractions meet.
func pairKinds() [][]*cel.Type {
	w, f := cel.IntType, cel.DoubleType
	return [][]*cel.Type{{w, w}, {w, f}, {f, w}, {f, f}}
}

func declarePair(name string) cel.EnvOption {
	f := pairFuncs[name]
	var opts []decls.FunctionOpt
	for _, args := range pairKinds() {
		result := cel.DoubleType
		if typesID(args) == "ww" && name != operators.Divide {
			result = cel.IntType
		}
		opts = append(opts, cel.Overload(name+typesID(args), args, result, cel.BinaryBinding(func(a, b ref.Val) ref.Val {
			return pairCall(a, b, result, f)
		})))
	}
	if name == operators.Add {
		texts := []*cel.Type{cel.StringType, cel.StringType}
		// The engine's own id for joining texts, so that its cost model knows how long they grow.
		opts = append(opts, cel.Overload("add_string", texts, cel.StringType, cel.BinaryBinding(func(a, b ref.Val) ref.Val {
			return a.(types.String).Add(b)
		})))
	}
	if _, also := listFuncs[name]; also {
		opts = append(opts, listOverloads(name)...)
	}
	return function(name, opts...)
}

func declareOrder(name string) cel.EnvOption {
	f := orderFuncs[name]
	var opts []decls.FunctionOpt
	for _, args := range pairKinds() {
		opts = append(opts, cel.Overload(name+typesID(args), args, cel.BoolType, cel.BinaryBinding(func(a, b ref.Val) ref.Val {
			x, okA := unboxNumber(a)
			y, okB := unboxNumber(b)
			if !okA || !okB {
				return types.MaybeNoSuchOverloadErr(a)
			}
			return types.Bool(f(x, y))
		})))
	}
	return function(name, opts...)
}

func listOverloads(name string) []decls.FunctionOpt {
	f := listFuncs[name]
	var opts []decls.FunctionOpt
	for _, t := range []*cel.Type{cel.IntType, cel.DoubleType} {
		args := []*cel.Type{cel.ListType(t)}
		opts = append(opts, cel.Overload(name+"_list_"+typesID([]*cel.Type{t}), args, t, cel.UnaryBinding(func(v ref.Val) ref.Val {
			return listCall(v, t, f)
		})))
	}
	return opts
}

// boxAs makes the engine's value of a result, of the type that the overload promised.
func boxAs(x float64, err error, t *cel.Type) ref.Val {
	if err != nil {
		return types.WrapErr(err)
	}
	if t == cel.IntType {
		return types.Int(x)
	}
	return types.Double(x)
}

func pairCall(a, b ref.Val, t *cel.Type, f func(a, b float64) (float64, error)) ref.Val {
	x, okA := unboxNumber(a)
	y, okB := unboxNumber(b)
	if !okA || !okB {
		return types.MaybeNoSuchOverloadErr(a)
	}
	r, err := f(x, y)
	return boxAs(r, err, t)
}

func oneCall(v ref.Val, t *cel.Type, f func(float64) float64) ref.Val {
	x, ok := unboxNumber(v)
	if !ok {
		return types.MaybeNoSuchOverloadErr(v)
	}
	return boxAs(f(x), nil, t)
}

func listCall(v ref.Val, t *cel.Type, f func([]float64) (float64, error)) ref.Val {
	xs, ok := unboxList(v)
	if !ok {
		return types.MaybeNoSuchOverloadErr(v)
	}
	r, err := f(xs)
	return boxAs(r, err, t)
}

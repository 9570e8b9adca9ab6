package expr

import (
	"math"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
)

// quick is an expression as a closure over native values: the one of the five
// that its type asks for, or none. Each gives its value and whether it is
// definite. Not definite means only that the engine must be asked.
type quick struct {
	num   func(*Frame) (float64, bool)
	truth func(*Frame) (value, ok bool)
	text  func(*Frame) (string, bool)
	list  func(*Frame) ([]float64, bool)
	words func(*Frame) ([]string, bool)
	said  appending // of a text that is joined of others, instead of text
}

// quickener turns a checked tree into closures, as far as it can.
type quickener struct {
	lang  *Language
	scope *Scope
	tree  *ast.AST
	loops []string // the names of the entries of those around, the outermost first
}

func (q quickener) build(e ast.Expr) quick {
	var out quick
	switch t := q.tree.GetType(e.ID()); {
	case t == nil:
	case t.IsExactType(cel.BoolType):
		out.truth = q.truth(e)
	case t.IsExactType(cel.IntType), t.IsExactType(cel.DoubleType):
		out.num = q.num(e)
	case t.IsExactType(cel.StringType):
		out.text = q.text(e)
		if out.text != nil {
			out.said = q.said(e)
		}
	case isWords(t):
		out.words = q.words(e)
	case t.Kind() == types.ListKind:
		out.list = q.list(e)
	}
	return out
}

// read recognises object.field.
func (q quickener) read(e ast.Expr) (Read, bool) {
	return readOf(q.lang, e)
}

func (q quickener) letOf(e ast.Expr) *Let {
	if e.Kind() != ast.IdentKind {
		return nil
	}
	return q.scope.lets[e.AsIdent()]
}

func (q quickener) num(e ast.Expr) func(*Frame) (float64, bool) {
	if at := q.loopOf(e); at >= 0 {
		return func(f *Frame) (float64, bool) { return f.loops[at].num, true }
	}
	if r, ok := q.read(e); ok {
		return func(f *Frame) (float64, bool) {
			rec := f.records[r.Object]
			if rec == nil {
				return 0, false
			}
			v := &rec.Values[r.Field]
			return v.Num, v.Known
		}
	}
	if l := q.letOf(e); l != nil {
		return func(f *Frame) (float64, bool) { v := f.let(l); return v.num, v.ok }
	}
	switch e.Kind() {
	case ast.LiteralKind:
		x, ok := unboxNumber(e.AsLiteral())
		return func(*Frame) (float64, bool) { return x, ok }
	case ast.CallKind:
		return q.numCall(e.AsCall())
	}
	return nil
}

func (q quickener) numCall(c ast.CallExpr) func(*Frame) (float64, bool) {
	args := c.Args()
	switch name := c.FunctionName(); {
	case name == operators.Conditional:
		return choice(q.truth(args[0]), q.num(args[1]), q.num(args[2]))
	case name == operators.Index:
		return q.entry(args[0], args[1])
	case len(args) == 2 && name == operators.Modulo:
		return q.pair(args, remainder)
	case len(args) == 2 && pairFuncs[name] != nil:
		return q.pair(args, pairFuncs[name])
	case len(args) != 1:
	case name == "abs":
		return q.one(args[0], math.Abs)
	case name == operators.Negate:
		return q.one(args[0], func(x float64) float64 { return -x })
	case name == "count" || name == "size":
		return q.length(args[0])
	case listFuncs[name] != nil:
		return q.ofList(args[0], listFuncs[name])
	}
	return nil
}

func (q quickener) one(e ast.Expr, f func(float64) float64) func(*Frame) (float64, bool) {
	arg := q.num(e)
	if arg == nil {
		return nil
	}
	return func(fr *Frame) (float64, bool) { x, ok := arg(fr); return f(x), ok }
}

func (q quickener) pair(args []ast.Expr, f func(a, b float64) (float64, error)) func(*Frame) (float64, bool) {
	a, b := q.num(args[0]), q.num(args[1])
	if a == nil || b == nil {
		return nil
	}
	return func(fr *Frame) (float64, bool) {
		x, ok := a(fr)
		if !ok {
			return 0, false
		}
		y, ok := b(fr)
		if !ok {
			return 0, false
		}
		r, err := f(x, y)
		return r, err == nil
	}
}

// entry is list[i]. What lies outside is an error, which the engine words.
func (q quickener) entry(e, index ast.Expr) func(*Frame) (float64, bool) {
	list, at := q.list(e), q.num(index)
	if list == nil || at == nil {
		return nil
	}
	return func(f *Frame) (float64, bool) {
		xs, okX := list(f)
		i, okI := at(f)
		if !okX || !okI || i < 0 || i >= float64(len(xs)) {
			return 0, false
		}
		return xs[int(i)], true
	}
}

func (q quickener) ofList(e ast.Expr, f func([]float64) (float64, error)) func(*Frame) (float64, bool) {
	list := q.list(e)
	if list == nil {
		return nil
	}
	return func(fr *Frame) (float64, bool) {
		xs, ok := list(fr)
		if !ok {
			return 0, false
		}
		r, err := f(xs)
		return r, err == nil
	}
}

// choice is c ? a : b. The side that is not chosen is not looked at.
func choice[T any](cond func(*Frame) (bool, bool), yes, no func(*Frame) (T, bool)) func(*Frame) (T, bool) {
	if cond == nil || yes == nil || no == nil {
		return nil
	}
	return func(f *Frame) (T, bool) {
		c, ok := cond(f)
		switch {
		case !ok:
			var none T
			return none, false
		case c:
			return yes(f)
		}
		return no(f)
	}
}

package expr

import (
	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
)

// truth builds the closure of a condition. A term that is not definite does not
// settle && and ||, but another term may: the order of the terms is the
// engine's business only where none does.
func (q quickener) truth(e ast.Expr) func(*Frame) (value, ok bool) {
	if r, ok := q.read(e); ok {
		return func(f *Frame) (bool, bool) {
			rec := f.records[r.Object]
			if rec == nil {
				return false, false
			}
			v := &rec.Values[r.Field]
			return v.Num != 0, v.Known
		}
	}
	if l := q.letOf(e); l != nil {
		return func(f *Frame) (bool, bool) { v := f.let(l); return v.num != 0, v.ok }
	}
	switch e.Kind() {
	case ast.LiteralKind:
		b, ok := e.AsLiteral().(types.Bool)
		return func(*Frame) (bool, bool) { return bool(b), ok }
	case ast.CallKind:
		return q.truthCall(e.AsCall())
	case ast.ComprehensionKind:
		return q.loop(e)
	}
	return nil
}

func (q quickener) truthCall(c ast.CallExpr) func(*Frame) (value, ok bool) {
	args := c.Args()
	switch name := c.FunctionName(); name {
	case operators.LogicalAnd:
		return q.join(args, false)
	case operators.LogicalOr:
		return q.join(args, true)
	case operators.Conditional:
		return choice(q.truth(args[0]), q.truth(args[1]), q.truth(args[2]))
	case operators.LogicalNot:
		arg := q.truth(args[0])
		if arg == nil {
			return nil
		}
		return func(f *Frame) (bool, bool) { v, ok := arg(f); return !v, ok }
	case operators.Equals:
		return q.equal(args, true)
	case operators.NotEquals:
		return q.equal(args, false)
	case operators.In:
		return q.inWords(args[0], args[1])
	case "startsWith":
		return q.startsWith(c.Target(), args[0])
	case "stated":
		if r, ok := q.read(args[0]); ok {
			return func(f *Frame) (bool, bool) { return f.known(r), true }
		}
	case "near":
		return q.near(args)
	default:
		if f := orderFuncs[name]; f != nil {
			return q.compare(args, f)
		}
	}
	return nil
}

// join is && (settled by false) or || (settled by true).
func (q quickener) join(args []ast.Expr, settles bool) func(*Frame) (value, ok bool) {
	terms := make([]func(*Frame) (bool, bool), len(args))
	for i, arg := range args {
		if terms[i] = q.truth(arg); terms[i] == nil {
			return nil
		}
	}
	if len(terms) == 2 {
		a, b := terms[0], terms[1]
		return func(f *Frame) (bool, bool) {
			x, okX := a(f)
			if okX && x == settles {
				return settles, true
			}
			y, okY := b(f)
			if okY && y == settles {
				return settles, true
			}
			return !settles, okX && okY
		}
	}
	return func(f *Frame) (bool, bool) {
		definite := true
		for _, term := range terms {
			v, ok := term(f)
			if ok && v == settles {
				return settles, true
			}
			definite = definite && ok
		}
		return !settles, definite
	}
}

func (q quickener) compare(args []ast.Expr, f func(a, b float64) bool) func(*Frame) (value, ok bool) {
	a, b := q.num(args[0]), q.num(args[1])
	if a == nil || b == nil {
		return nil
	}
	y, fixed := constant(args[1])
	r, read := q.read(args[0])
	switch {
	case fixed && read: // most conditions hold one fact against a limit: two calls less
		return func(fr *Frame) (bool, bool) {
			rec := fr.records[r.Object]
			if rec == nil {
				return false, false
			}
			v := &rec.Values[r.Field]
			return v.Known && f(v.Num, y), v.Known
		}
	case fixed:
		return func(fr *Frame) (bool, bool) { x, ok := a(fr); return ok && f(x, y), ok }
	}
	return func(fr *Frame) (bool, bool) {
		x, ok := a(fr)
		if !ok {
			return false, false
		}
		y, ok := b(fr)
		return ok && f(x, y), ok
	}
}

// constant gives the number that an expression is, where it is written as one.
func constant(e ast.Expr) (x float64, ok bool) {
	if e.Kind() != ast.LiteralKind {
		return 0, false
	}
	return unboxNumber(e.AsLiteral())
}

func (q quickener) near(args []ast.Expr) func(*Frame) (value, ok bool) {
	a, b, tol := q.num(args[0]), q.num(args[1]), q.num(args[2])
	if a == nil || b == nil || tol == nil {
		return nil
	}
	return func(f *Frame) (bool, bool) {
		x, okX := a(f)
		y, okY := b(f)
		t, okT := tol(f)
		return near(x, y, t), okX && okY && okT
	}
}

// equal compares texts, flags or whole numbers; fractions are refused on load.
func (q quickener) equal(args []ast.Expr, want bool) func(*Frame) (value, ok bool) {
	t := q.tree.GetType(args[0].ID())
	switch {
	case t.IsExactType(cel.StringType):
		a, b := q.text(args[0]), q.text(args[1])
		if a == nil || b == nil {
			return nil
		}
		if r, read := q.read(args[0]); read && args[1].Kind() == ast.LiteralKind {
			if y, ok := b(nil); ok {
				return factIs(r, y, want)
			}
		}
		return func(f *Frame) (bool, bool) {
			x, okX := a(f)
			y, okY := b(f)
			return (x == y) == want, okX && okY
		}
	case t.IsExactType(cel.IntType):
		return q.compare(args, func(a, b float64) bool { return (a == b) == want })
	case t.IsExactType(cel.BoolType):
		a, b := q.truth(args[0]), q.truth(args[1])
		if a == nil || b == nil {
			return nil
		}
		return func(f *Frame) (bool, bool) {
			x, okX := a(f)
			y, okY := b(f)
			return (x == y) == want, okX && okY
		}
	}
	return nil
}

// factIs holds a fact against one word.
func factIs(r Read, word string, want bool) func(*Frame) (value, ok bool) {
	return func(f *Frame) (bool, bool) {
		rec := f.records[r.Object]
		if rec == nil {
			return false, false
		}
		v := &rec.Values[r.Field]
		return (v.Text == word) == want, v.Known
	}
}

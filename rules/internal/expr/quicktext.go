package expr

import (
	"strings"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
)

func (q quickener) text(e ast.Expr) func(*Frame) (string, bool) {
	if at := q.loopOf(e); at >= 0 {
		return func(f *Frame) (string, bool) { return f.loops[at].text, true }
	}
	if r, ok := q.read(e); ok {
		return func(f *Frame) (string, bool) {
			rec := f.records[r.Object]
			if rec == nil {
				return "", false
			}
			v := &rec.Values[r.Field]
			return v.Text, v.Known
		}
	}
	if l := q.letOf(e); l != nil {
		return func(f *Frame) (string, bool) { v := f.let(l); return v.text, v.ok }
	}
	switch e.Kind() {
	case ast.LiteralKind:
		s, ok := e.AsLiteral().(types.String)
		return func(*Frame) (string, bool) { return string(s), ok }
	case ast.CallKind:
		return q.textCall(e.AsCall())
	}
	return nil
}

func (q quickener) textCall(c ast.CallExpr) func(*Frame) (string, bool) {
	args := c.Args()
	switch c.FunctionName() {
	case operators.Conditional:
		return choice(q.truth(args[0]), q.text(args[1]), q.text(args[2]))
	case operators.Add:
		a, b := q.text(args[0]), q.text(args[1])
		if a == nil || b == nil {
			return nil
		}
		return func(f *Frame) (string, bool) {
			x, okX := a(f)
			y, okY := b(f)
			return x + y, okX && okY
		}
	}
	return nil
}

func (q quickener) startsWith(target, prefix ast.Expr) func(*Frame) (value, ok bool) {
	a, b := q.text(target), q.text(prefix)
	if a == nil || b == nil {
		return nil
	}
	return func(f *Frame) (bool, bool) {
		s, okS := a(f)
		p, okP := b(f)
		return strings.HasPrefix(s, p), okS && okP
	}
}

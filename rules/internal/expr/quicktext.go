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

// appending appends a text, or is not ok: what it has appended then is not to be used.
type appending func(dst []byte, f *Frame) (out []byte, ok bool)

// said appends a quick text that is joined of others piece by piece, or that is chosen
// among such; nil where none is joined.
func (q quickener) said(e ast.Expr) appending {
	if e.Kind() != ast.CallKind {
		return nil
	}
	args := e.AsCall().Args()
	switch e.AsCall().FunctionName() {
	case operators.Add:
		a, b := q.piece(args[0], q.said(args[0])), q.piece(args[1], q.said(args[1]))
		return func(dst []byte, f *Frame) ([]byte, bool) {
			dst, ok := a(dst, f)
			if !ok {
				return dst, false
			}
			return b(dst, f)
		}
	case operators.Conditional:
		yes, no := q.said(args[1]), q.said(args[2])
		if yes == nil && no == nil {
			return nil
		}
		cond, yes, no := q.truth(args[0]), q.piece(args[1], yes), q.piece(args[2], no)
		return func(dst []byte, f *Frame) ([]byte, bool) {
			switch c, ok := cond(f); {
			case !ok:
				return dst, false
			case c:
				return yes(dst, f)
			}
			return no(dst, f)
		}
	}
	return nil
}

// piece appends a text that is joined as said has it, and any other in one piece.
func (q quickener) piece(e ast.Expr, said appending) appending {
	if said != nil {
		return said
	}
	text := q.text(e)
	return func(dst []byte, f *Frame) ([]byte, bool) {
		s, ok := text(f)
		return append(dst, s...), ok
	}
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

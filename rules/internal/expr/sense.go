package expr

import (
	"slices"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// sense says how an expression goes with a number that it reads: a condition may become
// true, or a number larger, as that rises, as it falls, or in either direction. The zero
// value is an expression that does not go with it.
type sense uint8

const (
	rising sense = 1 << iota
	falling
	both = rising | falling
)

// turned is the sense of the opposite.
func (s sense) turned() sense { return s>>1&rising | s<<1&falling }

// within is the sense of what goes by s in an expression that itself goes by around.
func (s sense) within(around sense) sense {
	switch around {
	case rising:
		return s
	case falling:
		return s.turned()
	}
	return both
}

// EitherWay says whether conditions that must hold together may come to do so both as a
// number rises and as it falls: they may then hold between two values and beyond neither.
// What holds beyond two values, such as abs() above a limit, holds at an end of any
// stretch if anywhere, and is not meant.
func EitherWay(r Read, conditions ...*Program) bool {
	var s sense
	for _, p := range conditions {
		if i := slices.Index(p.reads, r); i >= 0 {
			s |= p.senses[i]
		}
	}
	return s == both
}

// sensing finds the senses of an expression.
type sensing struct {
	p     *Program
	scope *Scope
	loops map[string]ast.Expr // the lists that the entries of loops are of
}

func (q sensing) mark(r Read, s sense) {
	if i := slices.Index(q.p.reads, r); i >= 0 {
		q.p.senses[i] |= s
	}
}

func (q sensing) visit(e ast.Expr, s sense) {
	if r, ok := readOf(q.p.lang, e); ok {
		q.mark(r, s)
		return
	}
	switch e.Kind() {
	case ast.IdentKind:
		if list, ok := q.loops[e.AsIdent()]; ok {
			q.visit(list, s)
		} else if l := q.scope.lets[e.AsIdent()]; l != nil {
			for i, r := range l.prog.reads {
				q.mark(r, l.prog.senses[i].within(s))
			}
		}
	case ast.CallKind:
		q.call(e.AsCall(), s)
	case ast.ListKind:
		for _, el := range e.AsList().Elements() {
			q.visit(el, both)
		}
	case ast.ComprehensionKind:
		c := e.AsComprehension()
		inner := q
		inner.loops = map[string]ast.Expr{c.IterVar(): c.IterRange()} // loops have no other in them
		inner.visit(c.LoopStep(), s)
	}
}

// call gives each argument its sense: both where nothing is known of the function.
func (q sensing) call(c ast.CallExpr, s sense) {
	each := []sense{both, both, both}
	switch name := c.FunctionName(); name {
	case "stated", "count", "size": // that something is known, or how much, goes with no number
		return
	case operators.LogicalOr, operators.LogicalAnd:
		if (name == operators.LogicalOr) == (s == rising) && s != both {
			q.either(c.Args(), s)
			return
		}
		each = []sense{s, s}
	case operators.Add, "min", "max", "sum", "first", "last":
		each = []sense{s, s}
	case operators.Index:
		each = []sense{s, both}
	case operators.LogicalNot, operators.Negate:
		each = []sense{s.turned()}
	case operators.Subtract, operators.Greater, operators.GreaterEquals:
		each = []sense{s, s.turned()}
	case operators.Less, operators.LessEquals:
		each = []sense{s.turned(), s}
	case operators.Conditional:
		q.visit(c.Args()[0], both)
		q.either(c.Args()[1:], s)
		return
	case operators.Multiply, operators.Divide:
		each = scaled(name, c.Args(), s)
	case "abs": // large at either end
		if s == rising {
			each = []sense{rising}
		}
	case "near": // and far
		if s == falling {
			each = []sense{rising, rising, rising}
		}
	}
	args := c.Args()
	if c.IsMemberFunction() {
		args = append([]ast.Expr{c.Target()}, args...)
	}
	for i, a := range args {
		q.visit(a, each[min(i, len(each)-1)])
	}
}

// either gives parts of which one is enough their senses. Where one goes up with a number
// and another down, they hold beyond two values, as abs() does above a limit.
func (q sensing) either(parts []ast.Expr, s sense) {
	before := slices.Clone(q.p.senses)
	together := make([]sense, len(before))
	for _, part := range parts {
		clear(q.p.senses)
		q.visit(part, s)
		for i, one := range q.p.senses {
			if one == both || together[i] == 0 {
				together[i] = one
			}
		}
	}
	for i := range before {
		q.p.senses[i] = before[i] | together[i]
	}
}

// scaled is the senses of a product with a number that is written out, or of a quotient by
// one.
func scaled(name string, args []ast.Expr, s sense) []sense {
	for i, a := range args {
		if a.Kind() != ast.LiteralKind || name == operators.Divide && i == 0 {
			continue
		}
		if x, ok := unboxNumber(a.AsLiteral()); ok && x < 0 {
			s = s.turned()
		}
		return []sense{s, s}
	}
	return []sense{both, both}
}

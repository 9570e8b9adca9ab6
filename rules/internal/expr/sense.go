package expr

import (
	"slices"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// Sense says how an expression goes with a number that it reads: a condition may become
// true, or a number larger, as that rises, as it falls, or in either direction. The zero
// value is an expression that does not go with it.
type Sense uint8

// The senses.
const (
	Rising Sense = 1 << iota
	Falling
	Both = Rising | Falling
)

// Turned is the sense where the number goes the other way.
func (s Sense) Turned() Sense { return s>>1&Rising | s<<1&Falling }

// Mixed is the sense where the number may go either way.
func (s Sense) Mixed() Sense {
	if s == 0 {
		return 0
	}
	return Both
}

// Begins says as which way a number goes a condition may begin to hold. What holds beyond
// two values, such as abs() above a limit, holds at an end of any stretch if anywhere, and
// is told by one of the two.
func (p *Program) Begins(r Read) Sense { return senseOf(p, p.begins, r) }

// Ends says as which way a number goes a condition may end to hold, as Begins does of its
// opposite.
func (p *Program) Ends(r Read) Sense { return senseOf(p, p.ends, r) }

func senseOf(p *Program, senses []Sense, r Read) Sense {
	if i := slices.Index(p.reads, r); i >= 0 {
		return senses[i]
	}
	return 0
}

// senses finds both of an expression.
func (s *Scope) senses(p *Program, e ast.Expr) {
	p.begins, p.ends = make([]Sense, len(p.reads)), make([]Sense, len(p.reads))
	sensing{p: p, scope: s, out: p.begins}.visit(e, Rising)
	sensing{p: p, scope: s, out: p.ends}.visit(e, Falling)
}

// sensing finds the senses of an expression.
type sensing struct {
	p     *Program
	scope *Scope
	out   []Sense             // of the reads
	loops map[string]ast.Expr // the lists that the entries of loops are of
}

func (q sensing) mark(r Read, s Sense) {
	if i := slices.Index(q.p.reads, r); i >= 0 {
		q.out[i] |= s
	}
}

func (q sensing) visit(e ast.Expr, s Sense) {
	if r, ok := readOf(q.p.lang, e); ok {
		q.mark(r, s)
		return
	}
	switch e.Kind() {
	case ast.IdentKind:
		if list, ok := q.loops[e.AsIdent()]; ok {
			q.visit(list, s)
		} else if l := q.scope.lets[e.AsIdent()]; l != nil {
			q.let(l.prog, s)
		}
	case ast.CallKind:
		q.call(e.AsCall(), s)
	case ast.ListKind:
		for _, el := range e.AsList().Elements() {
			q.visit(el, Both)
		}
	case ast.ComprehensionKind:
		c := e.AsComprehension()
		inner := q
		inner.loops = map[string]ast.Expr{c.IterVar(): c.IterRange()} // loops have no other in them
		inner.visit(c.LoopStep(), s)
	}
}

// let marks what a let-name reads.
func (q sensing) let(p *Program, s Sense) {
	for i, r := range p.reads {
		switch {
		case s == Rising:
			q.mark(r, p.begins[i])
		case s == Falling:
			q.mark(r, p.ends[i])
		case p.begins[i]|p.ends[i] != 0:
			q.mark(r, Both)
		}
	}
}

// call gives each argument its sense: both where nothing is known of the function.
func (q sensing) call(c ast.CallExpr, s Sense) {
	each := []Sense{Both, Both, Both}
	switch name := c.FunctionName(); name {
	case "stated", "count", "size": // that something is known, or how much, goes with no number
		return
	case operators.LogicalOr, operators.LogicalAnd:
		if (name == operators.LogicalOr) == (s == Rising) && s != Both {
			q.either(c.Args(), s)
			return
		}
		each = []Sense{s, s}
	case operators.Add, "min", "max", "sum", "first", "last":
		each = []Sense{s, s}
	case operators.Index:
		each = []Sense{s, Both}
	case operators.LogicalNot, operators.Negate:
		each = []Sense{s.Turned()}
	case operators.Subtract, operators.Greater, operators.GreaterEquals:
		each = []Sense{s, s.Turned()}
	case operators.Less, operators.LessEquals:
		each = []Sense{s.Turned(), s}
	case operators.Conditional:
		q.visit(c.Args()[0], Both)
		q.either(c.Args()[1:], s)
		return
	case operators.Multiply, operators.Divide:
		each = scaled(name, c.Args(), s)
	case "abs": // large at either end
		if s == Rising {
			each = []Sense{Rising}
		}
	case "near": // and far
		if s == Falling {
			each = []Sense{Rising, Rising, Rising}
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
func (q sensing) either(parts []ast.Expr, s Sense) {
	before := slices.Clone(q.out)
	together := make([]Sense, len(before))
	for _, part := range parts {
		clear(q.out)
		q.visit(part, s)
		for i, one := range q.out {
			if one == Both || together[i] == 0 {
				together[i] = one
			}
		}
	}
	for i := range before {
		q.out[i] = before[i] | together[i]
	}
}

// scaled is the senses of a product with a number that is written out, or of a quotient by
// one.
func scaled(name string, args []ast.Expr, s Sense) []Sense {
	for i, a := range args {
		if a.Kind() != ast.LiteralKind || name == operators.Divide && i == 0 {
			continue
		}
		if x, ok := unboxNumber(a.AsLiteral()); ok && x < 0 {
			s = s.Turned()
		}
		return []Sense{s, s}
	}
	return []Sense{Both, Both}
}

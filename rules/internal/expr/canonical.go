package expr

import (
	"slices"
	"strings"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// swaps exchanges each two facts of one type that are not the same.
func (m *mutator) swaps() {
	var facts []ast.Expr
	walk(m.tree.Expr(), func(e ast.Expr) {
		if _, ok := readOf(m.scope.lang, e); ok {
			facts = append(facts, e)
		}
	})
	for i, a := range facts {
		for _, b := range facts[i+1:] {
			m.swap(a, b)
		}
	}
}

func (m *mutator) swap(a, b ast.Expr) {
	ra, _ := readOf(m.scope.lang, a)
	rb, _ := readOf(m.scope.lang, b)
	if ra == rb || m.scope.lang.Field(ra).Type != m.scope.lang.Field(rb).Type || m.onlyAsked(a, b) || m.strange(a, rb) || m.strange(b, ra) {
		return
	}
	oldA, oldB := factory.CopyExpr(a), factory.CopyExpr(b)
	a.SetKindCase(factory.CopyExpr(oldB))
	b.SetKindCase(factory.CopyExpr(oldA))
	if same := m.canonical(m.tree.Expr()); same == m.original {
		a.SetKindCase(oldA)
		b.SetKindCase(oldB)
		return // it says the same in another order
	}
	m.print(a, m.scope.lang.Name(ra)+" and "+m.scope.lang.Name(rb)+" are exchanged")
	a.SetKindCase(oldA)
	b.SetKindCase(oldB)
}

// strange says whether a fact stands inside known(), and the other is one that
// known() cannot tell of.
func (m *mutator) strange(e ast.Expr, other Read) bool {
	inside := false
	walk(m.tree.Expr(), func(call ast.Expr) {
		inside = inside || call.Kind() == ast.CallKind && call.AsCall().FunctionName() == "known" && holds(call, e)
	})
	return inside && unknowable(m.scope.lang.Field(other)) != ""
}

// onlyAsked says whether one of two facts stands inside stated(), where it is
// asked for and not read.
func (m *mutator) onlyAsked(a, b ast.Expr) bool {
	asked := false
	walk(m.tree.Expr(), func(e ast.Expr) {
		if isStated(e) {
			asked = asked || holds(e, a) || holds(e, b)
		}
	})
	return asked
}

// canonical prints an expression with the sides of every operation that does not
// care about them in one order.
func (m *mutator) canonical(e ast.Expr) string {
	if a, b, ok := meeting(e); ok {
		both := []string{m.canonical(a), m.canonical(b)}
		slices.Sort(both)
		return "meet(" + strings.Join(both, ",") + ")"
	}
	if e.Kind() != ast.CallKind || e.AsCall().IsMemberFunction() {
		return m.words(e)
	}
	var args []string
	for _, a := range e.AsCall().Args() {
		args = append(args, m.canonical(a))
	}
	switch e.AsCall().FunctionName() {
	case operators.LogicalAnd, operators.LogicalOr, operators.Equals, operators.NotEquals, operators.Add, operators.Multiply, "min", "max":
		slices.Sort(args)
	}
	return e.AsCall().FunctionName() + "(" + strings.Join(args, ",") + ")"
}

// meeting recognises a.exists(n, n in b), which says the same of both lists.
func meeting(e ast.Expr) (a, b ast.Expr, ok bool) {
	if e.Kind() != ast.CallKind || !e.AsCall().IsMemberFunction() || e.AsCall().FunctionName() != "exists" || len(e.AsCall().Args()) != 2 {
		return nil, nil, false
	}
	name, body := e.AsCall().Args()[0], e.AsCall().Args()[1]
	if name.Kind() != ast.IdentKind || body.Kind() != ast.CallKind || body.AsCall().FunctionName() != operators.In {
		return nil, nil, false
	}
	item, list := body.AsCall().Args()[0], body.AsCall().Args()[1]
	if item.Kind() != ast.IdentKind || item.AsIdent() != name.AsIdent() || list.Kind() != ast.SelectKind {
		return nil, nil, false
	}
	return e.AsCall().Target(), list, true
}

package expr

import (
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
)

// mostLoops is how deep loops stand within one another that closures follow; the engine
// has those that go deeper.
const mostLoops = 4

// loopValue is the entry of a list that a loop is at.
type loopValue struct {
	num  float64
	text string
}

// loopOf finds the loop whose entry an expression is: its depth, or -1.
func (q quickener) loopOf(e ast.Expr) int {
	if e.Kind() == ast.IdentKind {
		for i := len(q.loops) - 1; i >= 0; i-- {
			if q.loops[i] == e.AsIdent() {
				return i
			}
		}
	}
	return -1
}

// loop builds the closure of exists() and all(): of list.exists(x, p) the engine has made
// a fold that begins with false, adds p by ||, and ends where it is settled.
func (q quickener) loop(e ast.Expr) func(*Frame) (value, ok bool) {
	c := e.AsComprehension()
	if c.AccuInit().Kind() != ast.LiteralKind || c.LoopStep().Kind() != ast.CallKind || len(q.loops) == mostLoops || c.HasIterVar2() {
		return nil
	}
	init, flag := c.AccuInit().AsLiteral().(types.Bool)
	step := c.LoopStep().AsCall()
	settles := step.FunctionName() == operators.LogicalOr
	if !flag || settles == bool(init) || !settles && step.FunctionName() != operators.LogicalAnd ||
		!isAccu(c, step.Args()[0]) || !isAccu(c, c.Result()) {
		return nil
	}
	inner := q
	inner.loops = append(q.loops[:len(q.loops):len(q.loops)], c.IterVar())
	term, at := inner.truth(step.Args()[1]), len(q.loops)
	if term == nil {
		return nil
	}
	if isWords(q.tree.GetType(c.IterRange().ID())) {
		return fold(q.words(c.IterRange()), settles, func(f *Frame, word string) (bool, bool) { f.loops[at].text = word; return term(f) })
	}
	return fold(q.list(c.IterRange()), settles, func(f *Frame, x float64) (bool, bool) { f.loops[at].num = x; return term(f) })
}

// isAccu says whether an expression is what a fold has come to.
func isAccu(c ast.ComprehensionExpr, e ast.Expr) bool {
	return e.Kind() == ast.IdentKind && e.AsIdent() == c.AccuVar()
}

// fold joins a term over a list as && and || join terms.
func fold[T any](list func(*Frame) ([]T, bool), settles bool, term func(*Frame, T) (bool, bool)) func(*Frame) (value, ok bool) {
	if list == nil {
		return nil
	}
	return func(f *Frame) (bool, bool) {
		xs, definite := list(f)
		if !definite {
			return false, false
		}
		for _, x := range xs {
			v, ok := term(f, x)
			if ok && v == settles {
				return settles, true
			}
			definite = definite && ok
		}
		return !settles, definite
	}
}

// lackingLoop is of a loop over a list: open where the list itself is.
func (q quickener) lackingLoop(e ast.Expr) lacking {
	answers := q.loop(e)
	list := q.lacking(e.AsComprehension().IterRange())
	if answers == nil || list == nil {
		return nil
	}
	return func(f *Frame) standing {
		if stands := list(f); stands != definite {
			return stands
		}
		if _, ok := answers(f); !ok {
			return unsure
		}
		return definite
	}
}

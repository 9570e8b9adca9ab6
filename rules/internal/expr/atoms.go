package expr

import (
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// Atom is a condition that && and || join: it is not itself a joint.
type Atom struct {
	Text string
	At   int // in code points of the whole expression
}

// Atoms takes a condition apart. A condition without joints is its own atom.
func (s *Scope) Atoms(text string) ([]Atom, error) {
	tree, err := plainTree(text)
	if err != nil {
		return nil, err
	}
	m := mutator{scope: s, positions: newPositions(text, tree), tree: tree}
	return m.atoms([]Atom{}, tree.Expr(), true), m.err
}

// atoms adds those of a node, which is one itself where it is a condition.
func (m *mutator) atoms(to []Atom, e ast.Expr, condition bool) []Atom {
	if e.Kind() == ast.CallKind {
		c := e.AsCall()
		switch c.FunctionName() {
		case operators.LogicalAnd, operators.LogicalOr, operators.LogicalNot:
			for _, arg := range c.Args() {
				to = m.atoms(to, arg, true)
			}
			return to
		case "stated":
			return to
		}
	}
	if !condition {
		return to
	}
	return append(to, Atom{m.words(e), m.positions.start(e)})
}

package expr

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/parser"

	"example.org/cogcourt/rules/fact"
)

// Mutant is an expression with one small change, as its author might have
// written it by mistake.
type Mutant struct {
	Text   string // the changed expression
	At     int    // where the change is, in code points of the original
	Change string // what was changed, such as "> becomes >="
}

// Mutants lists the small changes of an expression: a number one unit of its last
// digit either way, an order or equality turned, && and || exchanged, a term
// dropped, a negation taken away, two facts of one type exchanged, a word of a
// closed list replaced, another text blanked. The text must compile.
func (s *Scope) Mutants(text string) ([]Mutant, error) {
	tree, err := plainTree(text)
	if err != nil {
		return nil, err
	}
	m := mutator{scope: s, positions: newPositions(text, tree), tree: tree}
	m.original = m.canonical(tree.Expr())
	walk(tree.Expr(), m.visit)
	m.swaps()
	return m.out, m.err
}

type mutator struct {
	scope     *Scope
	positions positions
	tree      *ast.AST
	out       []Mutant
	err       error

	original string // the canonical form of the expression
}

// change puts another expression in the place of one node, prints the whole, and
// puts the node back.
func (m *mutator) change(e, other ast.Expr, what string) {
	old := factory.CopyExpr(e)
	e.SetKindCase(factory.CopyExpr(other))
	m.print(e, what)
	e.SetKindCase(old)
}

func (m *mutator) print(e ast.Expr, what string) {
	text, err := parser.Unparse(m.tree.Expr(), m.tree.SourceInfo())
	if err != nil {
		m.err = err
		return
	}
	m.out = append(m.out, Mutant{Text: text, At: m.positions.of(e), Change: what})
}

// turned are the operators and functions that are easily mistaken for another.
var turned = map[string]string{
	operators.Less: operators.LessEquals, operators.LessEquals: operators.Less,
	operators.Greater: operators.GreaterEquals, operators.GreaterEquals: operators.Greater,
	operators.Equals: operators.NotEquals, operators.NotEquals: operators.Equals,
	operators.LogicalAnd: operators.LogicalOr, operators.LogicalOr: operators.LogicalAnd,
	operators.Subtract: operators.Add,
	"min":              "max", "max": "min", "first": "last", "last": "first",
}

// loops are the loops that are easily mistaken for another.
var loops = map[string]string{"all": "exists", "exists": "all"}

func (m *mutator) visit(e ast.Expr) {
	switch e.Kind() {
	case ast.LiteralKind:
		m.literal(e)
	case ast.CallKind:
		m.call(e)
	}
}

func (m *mutator) call(e ast.Expr) {
	c := e.AsCall()
	name := c.FunctionName()
	if name == "stated" {
		return // what a rule asks to be stated is no threshold; the golden list holds it
	}
	if other, ok := turned[name]; ok && !c.IsMemberFunction() {
		m.change(e, factory.NewCall(e.ID(), other, c.Args()...), spoken(name)+" becomes "+spoken(other))
	}
	if other, ok := loops[name]; ok && c.IsMemberFunction() {
		m.change(e, factory.NewMemberCall(e.ID(), other, c.Target(), c.Args()...), name+" becomes "+other)
	}
	switch name {
	case operators.LogicalAnd, operators.LogicalOr:
		for i, arg := range c.Args() {
			if !isStated(c.Args()[1-i]) {
				m.change(e, arg, "the term "+m.words(c.Args()[1-i])+" is dropped")
			}
		}
	case operators.LogicalNot:
		m.change(e, c.Args()[0], "the ! is dropped")
	case operators.Conditional:
		m.change(e, c.Args()[1], "always "+m.words(c.Args()[1]))
		m.change(e, c.Args()[2], "always "+m.words(c.Args()[2]))
	}
}

func isStated(e ast.Expr) bool {
	return e.Kind() == ast.CallKind && e.AsCall().FunctionName() == "stated"
}

// words prints a part of the expression.
func (m *mutator) words(e ast.Expr) string {
	text, err := parser.Unparse(e, m.tree.SourceInfo())
	if err != nil {
		m.err = err
	}
	return text
}

func spoken(name string) string { return strings.Trim(name, "_") }

var numberToken = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?`)

// literal moves a number by one unit of its last digit, and changes a text.
func (m *mutator) literal(e ast.Expr) {
	switch v := e.AsLiteral().(type) {
	case types.Int, types.Double:
		token := numberToken.FindString(string(m.positions.text[m.positions.of(e):]))
		x, err := strconv.ParseFloat(token, 64)
		if err != nil {
			return
		}
		_, decimals, fraction := strings.Cut(token, ".")
		for _, sign := range []float64{-1, 1} {
			unit := math.Pow10(-len(decimals))
			moved := math.Round((x+sign*unit)/unit) * unit
			lit := factory.NewLiteral(e.ID(), types.Int(int64(moved)))
			if fraction {
				lit = factory.NewLiteral(e.ID(), types.Double(roundTo(moved, len(decimals))))
			}
			m.change(e, lit, token+" becomes "+strconv.FormatFloat(roundTo(moved, len(decimals)), 'f', len(decimals), 64))
		}
	case types.String:
		if v != "" {
			other := m.otherWord(e, string(v))
			m.change(e, factory.NewLiteral(e.ID(), types.String(other)), fmt.Sprintf("'%s' becomes '%s'", string(v), other))
		}
	}
}

func roundTo(x float64, decimals int) float64 {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	y, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return x
	}
	return y
}

// otherWord gives another word that the field beside the text can hold, or an
// empty text where the field is free, which no such field can hold.
func (m *mutator) otherWord(lit ast.Expr, word string) string {
	other := ""
	walk(m.tree.Expr(), func(e ast.Expr) {
		if e.Kind() != ast.CallKind || len(e.AsCall().Args()) != 2 {
			return
		}
		args := e.AsCall().Args()
		for i, arg := range args {
			r, ok := readOf(m.scope.lang, args[1-i])
			if !ok || !holds(arg, lit) {
				continue
			}
			if t := m.scope.lang.Field(r).Type; t == fact.Name || t == fact.Names {
				other = "other-" + word
			}
			for _, choice := range m.scope.lang.Field(r).Choices {
				if choice != word {
					other = choice
				}
			}
		}
	})
	return other
}

package expr

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/google/cel-go/common"
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
	m := mutator{scope: s, places: newPlaces(text, tree), tree: tree}
	m.original = m.canonical(tree.Expr())
	walk(tree.Expr(), m.visit)
	m.swaps()
	return m.out, m.err
}

// plainTree parses without macros, so that all() and exists() stay calls, which
// can be changed inside and printed again.
func plainTree(text string) (*ast.AST, error) {
	p, err := parser.NewParser(parser.Macros(), parser.MaxRecursionDepth(maxNesting), parser.ExpressionSizeCodePointLimit(maxRunes))
	if err != nil {
		return nil, err
	}
	tree, errs := p.Parse(common.NewTextSource(text))
	if len(errs.GetErrors()) > 0 {
		return nil, fmt.Errorf("the expression cannot be read: %s", errs.ToDisplayString())
	}
	return tree, nil
}

type mutator struct {
	scope  *Scope
	places places
	tree   *ast.AST
	out    []Mutant
	err    error

	original string // the canonical form of the expression
}

var factory = ast.NewExprFactory()

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
	m.out = append(m.out, Mutant{Text: text, At: m.places.of(e), Change: what})
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
		token := numberToken.FindString(string(m.places.text[m.places.of(e):]))
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

// holds says whether a node stands in a tree.
func holds(tree, node ast.Expr) bool {
	found := false
	walk(tree, func(e ast.Expr) { found = found || e.ID() == node.ID() })
	return found
}

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
	m := mutator{scope: s, places: newPlaces(text, tree), tree: tree}
	m.atoms(tree.Expr(), true)
	out := make([]Atom, len(m.out))
	for i, a := range m.out {
		out[i] = Atom{a.Text, a.At}
	}
	return out, m.err
}

func (m *mutator) atoms(e ast.Expr, condition bool) {
	if e.Kind() == ast.CallKind {
		c := e.AsCall()
		switch c.FunctionName() {
		case operators.LogicalAnd, operators.LogicalOr, operators.LogicalNot:
			for _, arg := range c.Args() {
				m.atoms(arg, true)
			}
			return
		case "stated":
			return
		}
	}
	if condition {
		m.out = append(m.out, Mutant{Text: m.words(e), At: m.places.start(e)})
	}
}

// Literals gives the numbers written in an expression, for the search of values
// at which it changes its mind.
func Literals(text string) []float64 {
	tree, err := plainTree(text)
	if err != nil {
		return nil
	}
	var out []float64
	walk(tree.Expr(), func(e ast.Expr) {
		if e.Kind() != ast.LiteralKind {
			return
		}
		if x, ok := unboxNumber(e.AsLiteral()); ok {
			out = append(out, x)
		}
	})
	return out
}

// Words gives the texts written in an expression.
func Words(text string) []string {
	tree, err := plainTree(text)
	if err != nil {
		return nil
	}
	var out []string
	walk(tree.Expr(), func(e ast.Expr) {
		if word, ok := literalText(e); ok && word != "" {
			out = append(out, word)
		}
	})
	return out
}

// Names gives the bare names that an expression reads: let-names and objects.
func Names(text string) []string {
	tree, err := plainTree(text)
	if err != nil {
		return nil
	}
	var out []string
	walk(tree.Expr(), func(e ast.Expr) {
		if e.Kind() == ast.IdentKind {
			out = append(out, e.AsIdent())
		}
	})
	return out
}

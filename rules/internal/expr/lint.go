package expr

import (
	"fmt"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
)

// linter walks one tree and collects what the engine would let pass.
type linter struct {
	scope     *Scope
	tree      *ast.AST
	positions positions
	allowed   map[int64]bool // stated() calls in a place where they may stand
	issues    []Issue
}

// add appends an issue of a node, and gives it for a code to be set.
func (l *linter) add(e ast.Expr, text, hint string) *Issue {
	l.issues = append(l.issues, Issue{At: l.positions.of(e), Text: text, Hint: hint})
	return &l.issues[len(l.issues)-1]
}

// lintParsed finds what the checker would not say well: has(), stated() in the
// wrong place, loop names that hide other names.
func (s *Scope) lintParsed(p positions, tree *ast.AST, role Role) []Issue {
	l := linter{scope: s, tree: tree, positions: p, allowed: map[int64]bool{}}
	if role == When {
		l.allowTerms(tree.Expr())
	}
	walk(tree.Expr(), l.parsed)
	return l.issues
}

// allowTerms marks the terms of the outermost && of a when.
func (l *linter) allowTerms(e ast.Expr) {
	if e.Kind() != ast.CallKind {
		return
	}
	switch c := e.AsCall(); c.FunctionName() {
	case operators.LogicalAnd:
		for _, a := range c.Args() {
			l.allowTerms(a)
		}
	case "stated":
		l.allowed[e.ID()] = true
	}
}

func (l *linter) parsed(e ast.Expr) {
	switch e.Kind() {
	case ast.CallKind:
		switch name := e.AsCall().FunctionName(); {
		case name == "has":
			l.add(e, "has() is not part of the language", "an unstated fact makes a rule unknown by itself; write stated(kind.field) in when:")
		case name == "known":
			l.knownWell(e)
		case name == "stated" && !l.statedWell(e):
			l.add(e, "stated() may only stand as a term of the outermost && of when:, with one kind.field in it", "")
		}
	case ast.ComprehensionKind:
		if name := e.AsComprehension().IterVar(); l.scope.Taken(name) {
			l.issues = append(l.issues, Issue{At: l.positions.inside(e),
				Text: fmt.Sprintf("the loop name %q already stands for something else", name), Hint: "choose another name, such as each"})
		}
	case ast.IdentKind:
		if strings.HasPrefix(e.AsIdent(), ".") {
			l.add(e, "a name cannot begin with a dot", "")
		}
	case ast.MapKind, ast.StructKind:
		l.add(e, "maps are not part of the language", "choose with condition ? one : other")
	case ast.LiteralKind:
		if x, ok := unboxNumber(e.AsLiteral()); ok && (x > maxWhole || x < -maxWhole) {
			l.add(e, "this number is too large", "")
		}
	}
}

func (l *linter) statedWell(e ast.Expr) bool {
	c := e.AsCall()
	if !l.allowed[e.ID()] || c.IsMemberFunction() || len(c.Args()) != 1 || c.Args()[0].Kind() != ast.SelectKind {
		return false
	}
	return c.Args()[0].AsSelect().Operand().Kind() == ast.IdentKind
}

// lintChecked finds what is well typed but cannot be meant.
func (s *Scope) lintChecked(p positions, tree *ast.AST, role Role) []Issue {
	l := linter{scope: s, tree: tree, positions: p}
	walk(tree.Expr(), func(e ast.Expr) {
		if e.Kind() == ast.CallKind {
			l.equality(e)
			l.never(e)
		}
	})
	l.parts()
	if len(l.issues) == 0 {
		l.kinds()
	}
	if len(l.issues) == 0 {
		l.result(role)
	}
	return l.issues
}

// result refuses what the place of the expression cannot take.
func (l *linter) result(role Role) {
	kind := l.tree.GetType(l.tree.Expr().ID())
	list := kind.Kind() == types.ListKind
	if role != Value && !kind.IsExactType(cel.BoolType) {
		text := "a condition must be true or false, this gives " + typeWords(kind)
		l.issues = append(l.issues, l.positions.entire(text, "compare it with something, such as > 0"))
	}
	if role == Value && list && !isNumber(kind.Parameters()[0]) {
		l.issues = append(l.issues, l.positions.entire("only lists of numbers can be kept or printed", "write the list where it is used"))
	}
}

// parts refuses names of objects that stand alone.
func (l *linter) parts() {
	fields := map[int64]bool{}
	walk(l.tree.Expr(), func(e ast.Expr) {
		if e.Kind() == ast.SelectKind {
			fields[e.AsSelect().Operand().ID()] = true
		}
		if is, ok := l.scope.wholePart(l.positions, e); ok && !fields[e.ID()] {
			l.issues = append(l.issues, is)
		}
	})
}

// kinds refuses values of the engine that the language does not have: null,
// bytes, types, lists of mixed kinds, whose entries nothing could check.
func (l *linter) kinds() {
	var strange []ast.Expr
	walk(l.tree.Expr(), func(e ast.Expr) {
		t := l.tree.GetType(e.ID())
		if t == nil || plainKind(t) || t.Kind() == types.StructKind {
			return
		}
		if strange = append(strange, e); e.Kind() == ast.ListKind {
			l.add(e, "this is no list of numbers, texts or flags of one kind",
				"write whole numbers as fractions where others are, such as [1.0, 2.5]")
		}
	})
	if len(l.issues) == 0 && len(strange) > 0 {
		l.add(strange[len(strange)-1], "this kind of value is not part of the language", "")
	}
}

// never refuses what can only go wrong: an entry in front of the first, a division
// by nothing.
func (l *linter) never(e ast.Expr) {
	c := e.AsCall()
	if len(c.Args()) != 2 || c.Args()[1].Kind() != ast.LiteralKind {
		return
	}
	x, number := unboxNumber(c.Args()[1].AsLiteral())
	switch name := c.FunctionName(); {
	case !number:
	case name == operators.Index && x < 0:
		l.add(c.Args()[1], "the entries of a list count from 0", "write last(list)")
	case (name == operators.Divide || name == operators.Modulo) && x == 0:
		l.add(c.Args()[1], "nothing can be divided by 0", "")
	}
}

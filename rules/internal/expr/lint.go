package expr

import (
	"fmt"
	"slices"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/source"
)

// linter walks one tree and collects what the engine would let pass.
type linter struct {
	scope   *Scope
	tree    *ast.AST
	allowed map[int64]bool // stated() calls in a place where they may stand
	issues  []Issue
}

func (l *linter) add(e ast.Expr, text, hint string) {
	start := l.tree.SourceInfo().GetStartLocation(e.ID())
	l.issues = append(l.issues, Issue{Line: start.Line(), Col: start.Column(), Text: text, Hint: hint})
}

func (l *linter) parsed(e ast.Expr) {
	switch e.Kind() {
	case ast.CallKind:
		c := e.AsCall()
		switch {
		case c.FunctionName() == "has" || c.FunctionName() == "_?._":
			l.add(e, c.FunctionName()+"() is not part of the language", "an unstated fact makes a rule unknown by itself; write stated(kind.field) in when:")
		case c.FunctionName() == "stated" && !l.statedWell(e):
			l.add(e, "stated() may only stand as a term of the outermost && of when:, with one kind.field in it", "")
		}
	case ast.ComprehensionKind:
		name := e.AsComprehension().IterVar()
		if l.scope.Taken(name) {
			l.add(e, fmt.Sprintf("the loop name %q already stands for something else", name), "choose another name, such as each")
		}
	case ast.MapKind, ast.StructKind:
		l.add(e, "maps are not part of the language", "")
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
func (s *Scope) lintChecked(tree *ast.AST, role Role, kind *cel.Type) []Issue {
	l := linter{scope: s, tree: tree}
	if role != Value && !kind.IsExactType(cel.BoolType) {
		l.add(tree.Expr(), "a condition must be true or false, this gives "+typeWords(kind), "compare it with something, such as > 0")
	}
	if role == Value && !plainKind(kind) {
		l.add(tree.Expr(), "this gives "+typeWords(kind)+", which a rule cannot use", "name one of its fields")
	}
	fields := map[int64]bool{}
	walk(tree.Expr(), func(e ast.Expr) {
		if e.Kind() == ast.SelectKind {
			fields[e.AsSelect().Operand().ID()] = true
		}
		if e.Kind() == ast.IdentKind && !fields[e.ID()] && e.ID() != tree.Expr().ID() {
			if _, object := s.lang.places[e.AsIdent()]; object {
				l.add(e, fmt.Sprintf("%s stands for the whole part", e.AsIdent()), "name one of its fields, such as "+e.AsIdent()+"."+firstField(s.lang, e.AsIdent()))
			}
		}
		if e.Kind() == ast.CallKind {
			l.equality(e)
		}
	})
	return l.issues
}

func firstField(lang *Language, object string) string {
	return lang.objects[lang.places[object]].Table.Fields()[0].Name
}

func plainKind(t *cel.Type) bool {
	if t.Kind() == types.ListKind {
		return plainKind(t.Parameters()[0]) && t.Parameters()[0].Kind() != types.ListKind
	}
	return t.IsExactType(cel.BoolType) || t.IsExactType(cel.IntType) || t.IsExactType(cel.DoubleType) || t.IsExactType(cel.StringType)
}

// equality looks at ==, != and in: fractions are never equal by luck, and a word
// must be one that its field can hold.
func (l *linter) equality(e ast.Expr) {
	c := e.AsCall()
	if !slices.Contains([]string{operators.Equals, operators.NotEquals, operators.In}, c.FunctionName()) {
		return
	}
	a, b := c.Args()[0], c.Args()[1]
	if t := l.tree.GetType(a.ID()); t.IsExactType(cel.DoubleType) || t.Kind() == types.ListKind {
		l.add(e, "fractions and lists are not compared for equality", "write near(a, b, tolerance)")
		return
	}
	l.words(a, b)
	l.words(b, a)
}

// words checks the texts that stand against a field of a closed list.
func (l *linter) words(field, other ast.Expr) {
	r, ok := readOf(l.scope.lang, field)
	if !ok || l.scope.lang.Field(r).Type != source.Choice {
		return
	}
	literals := []ast.Expr{other}
	if other.Kind() == ast.ListKind {
		literals = other.AsList().Elements()
	}
	choices := l.scope.lang.Field(r).Choices
	for _, lit := range literals {
		if lit.Kind() != ast.LiteralKind {
			continue
		}
		if s, ok := lit.AsLiteral().(types.String); ok && !slices.Contains(choices, string(s)) {
			l.add(lit, fmt.Sprintf("%s is never %q", l.scope.lang.Name(r), string(s)), source.Suggest(string(s), choices))
		}
	}
}

package expr

import (
	"fmt"
	"regexp"
	"slices"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// equality looks at ==, != and in: fractions are never equal by luck, and a word
// must be one that its field can hold.
func (l *linter) equality(e ast.Expr) {
	c := e.AsCall()
	if !slices.Contains([]string{operators.Equals, operators.NotEquals, operators.In}, c.FunctionName()) {
		return
	}
	a, b := c.Args()[0], c.Args()[1]
	if t := l.tree.GetType(a.ID()); isWords(t) {
		l.add(e, "lists are not compared for equality", "write a.all(each, each in b), and the other way round")
		return
	} else if t.IsExactType(cel.DoubleType) || t.Kind() == types.ListKind {
		l.issues = append(l.issues, unequal(l.positions.of(e)))
		return
	}
	l.words(a, b)
	l.words(b, a)
}

var nameShape = regexp.MustCompile(`^([a-z0-9-]|[0-9]\.[0-9])+$`)

// words checks the texts that stand against a field of words, also where the
// field has a let-name.
func (l *linter) words(about, other ast.Expr) {
	r, ok := readOf(l.scope.lang, about)
	if !ok {
		if r, ok = l.scope.renamed(about); !ok {
			if r, ok = l.entryOf(about); !ok {
				return
			}
		}
	}
	field := l.scope.lang.Field(r)
	literals := []ast.Expr{other}
	if other.Kind() == ast.ListKind {
		literals = other.AsList().Elements()
	}
	for _, lit := range literals {
		word, ok := literalText(lit)
		if !ok {
			continue
		}
		never := fmt.Sprintf("%s is never %q", l.scope.lang.Name(r), word)
		switch {
		case field.Type == fact.Choice && !slices.Contains(field.Choices, word):
			l.add(lit, never, fact.Suggest(word, field.Choices)).Code = source.NoSuchChoice
		case (field.Type == fact.Name || field.Type == fact.Names) && !nameShape.MatchString(word):
			l.add(lit, never, "names are written with a-z, 0-9 and -").Code = source.BadName
		default:
			l.spelling(lit, field, never, word)
		}
	}
}

// spelling refuses a text that a field of names never holds, because it is read as
// another spelling of a known word, or refused as a slip of one.
func (l *linter) spelling(lit ast.Expr, field fact.Field, never, word string) {
	if name, ok := field.KnownName(word); ok && name != word {
		l.add(lit, never, fmt.Sprintf("it is kept as %q", name)).Code = source.NoSuchChoice
	} else if near := field.Slip(word); near != "" {
		l.add(lit, never, fmt.Sprintf("did you mean %q?", near)).Code = source.NoSuchChoice
	}
}

// entryOf recognises the name of a loop over a fact that is a list of names.
func (l *linter) entryOf(e ast.Expr) (Read, bool) {
	var found Read
	ok := false
	if e.Kind() != ast.IdentKind {
		return found, false
	}
	walk(l.tree.Expr(), func(loop ast.Expr) {
		if loop.Kind() != ast.ComprehensionKind || loop.AsComprehension().IterVar() != e.AsIdent() {
			return
		}
		r, fact := readOf(l.scope.lang, loop.AsComprehension().IterRange())
		if !fact {
			r, fact = l.scope.renamed(loop.AsComprehension().IterRange())
		}
		if fact {
			found, ok = r, true
		}
	})
	return found, ok
}

// renamed recognises a let-name that stands for nothing but a fact.
func (s *Scope) renamed(e ast.Expr) (Read, bool) {
	if e.Kind() != ast.IdentKind {
		return Read{}, false
	}
	if l := s.lets[e.AsIdent()]; l != nil && l.prog.fact != nil {
		return *l.prog.fact, true
	}
	return Read{}, false
}

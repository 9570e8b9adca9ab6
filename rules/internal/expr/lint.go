package expr

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
)

// linter walks one tree and collects what the engine would let pass.
type linter struct {
	scope   *Scope
	tree    *ast.AST
	places  places
	allowed map[int64]bool // stated() calls in a place where they may stand
	issues  []Issue
}

func (l *linter) add(e ast.Expr, text, hint string) {
	l.issues = append(l.issues, Issue{At: l.places.of(e), Text: text, Hint: hint})
}

// lintParsed finds what the checker would not say well: has(), stated() in the
// wrong place, loop names that hide other names.
func (s *Scope) lintParsed(p places, tree *ast.AST, role Role) []Issue {
	l := linter{scope: s, tree: tree, places: p, allowed: map[int64]bool{}}
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
			l.issues = append(l.issues, Issue{At: l.places.inside(e),
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
func (s *Scope) lintChecked(p places, tree *ast.AST, role Role) []Issue {
	l := linter{scope: s, tree: tree, places: p}
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
		l.issues = append(l.issues, Issue{At: l.places.whole(),
			Text: "a condition must be true or false, this gives " + typeWords(kind), Hint: "compare it with something, such as > 0"})
	}
	if role == Value && list && !isNumber(kind.Parameters()[0]) {
		l.issues = append(l.issues, Issue{At: l.places.whole(), Text: "only lists of numbers can be kept or printed", Hint: "write the list where it is used"})
	}
}

// parts refuses names of objects that stand alone.
func (l *linter) parts() {
	fields := map[int64]bool{}
	walk(l.tree.Expr(), func(e ast.Expr) {
		if e.Kind() == ast.SelectKind {
			fields[e.AsSelect().Operand().ID()] = true
		}
		if is, ok := l.scope.wholePart(l.places, e); ok && !fields[e.ID()] {
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
			l.add(e, "this is no list of numbers, texts or flags of one kind", "write whole numbers as fractions where others are, such as [1.0, 2.5]")
		}
	})
	if len(l.issues) == 0 && len(strange) > 0 {
		l.add(strange[len(strange)-1], "this kind of value is not part of the language", "")
	}
}

// isWords says whether a type is a list of texts.
func isWords(t *cel.Type) bool {
	return t != nil && t.Kind() == types.ListKind && t.Parameters()[0].IsExactType(cel.StringType)
}

func isNumber(t *cel.Type) bool { return t.IsExactType(cel.IntType) || t.IsExactType(cel.DoubleType) }

func plainKind(t *cel.Type) bool {
	if t.Kind() == types.ListKind {
		return plainKind(t.Parameters()[0]) && t.Parameters()[0].Kind() != types.ListKind
	}
	return isNumber(t) || t.IsExactType(cel.BoolType) || t.IsExactType(cel.StringType)
}

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
		l.issues = append(l.issues, unequal(l.places.of(e)))
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
			l.add(lit, never, fact.Suggest(word, field.Choices))
		case (field.Type == fact.Name || field.Type == fact.Names) && !nameShape.MatchString(word):
			l.add(lit, never, "names are written with a-z, 0-9 and -")
		default:
			l.spelling(lit, field, never, word)
		}
	}
}

// spelling refuses a text that a field of names never holds, because it is read as
// another spelling of a known word, or refused as a slip of one.
func (l *linter) spelling(lit ast.Expr, field fact.Field, never, word string) {
	if name, ok := field.KnownName(word); ok && name != word {
		l.add(lit, never, fmt.Sprintf("it is kept as %q", name))
	} else if near := field.Slip(word); near != "" {
		l.add(lit, never, fmt.Sprintf("did you mean %q?", near))
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

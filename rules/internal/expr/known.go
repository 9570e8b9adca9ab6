package expr

import (
	"fmt"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
	"github.com/google/cel-go/parser"

	"example.org/cogcourt/rules/fact"
)

// knownMacro writes known(kind.field) out: whether the name is one of those that
// the field's table has, or, of a list, whether each of its names is. So the
// engine, its cost and the closures see nothing new. What cannot be written out
// stays a call, and lint says why.
func (l *Language) knownMacro() cel.Macro {
	return cel.GlobalMacro("known", 1, func(f cel.MacroExprFactory, _ ast.Expr, args []ast.Expr) (ast.Expr, *common.Error) {
		r, ok := readOf(l, args[0])
		if !ok || unknowable(l.Field(r)) != "" {
			return nil, nil
		}
		field := l.Field(r)
		words := make([]ast.Expr, len(field.Known))
		for i, name := range field.KnownNames() {
			words[i] = f.NewLiteral(types.String(name))
		}
		if field.Type == fact.Name {
			return f.NewCall(operators.In, args[0], f.NewList(words...)), nil
		}
		return parser.MakeAll(f, args[0], []ast.Expr{f.NewIdent(knownEach), f.NewCall(operators.In, f.NewIdent(knownEach), f.NewList(words...))})
	})
}

// knownEach is the loop name of a list of names; no author can write it.
const knownEach = "@known"

// unknowable says why a field has no table of words that known() could look into.
func unknowable(f fact.Field) string {
	switch {
	case f.Type == fact.Choice:
		return "it takes no other words than its own; leave known() out"
	case len(f.Known) == 0:
		return "it has no table of known words; compare it with stated ones"
	}
	return ""
}

// knownCall is the function that the macro leaves where it could not write known()
// out: it is refused by lint, and never called.
func knownCall() cel.EnvOption {
	return function("known", cel.Overload("known_any", []*cel.Type{cel.DynType}, cel.BoolType,
		cel.UnaryBinding(func(ref.Val) ref.Val { return types.NewErr("known() of what has no table") })))
}

// knownWell reports what is wrong with a known() that was not written out.
func (l *linter) knownWell(e ast.Expr) {
	args := e.AsCall().Args()
	if len(args) != 1 || args[0].Kind() != ast.SelectKind || args[0].AsSelect().Operand().Kind() != ast.IdentKind {
		l.add(e, "known() takes one kind.field", "write "+usage["known"])
		return
	}
	if r, ok := readOf(l.scope.lang, args[0]); ok {
		l.add(e, fmt.Sprintf("known() cannot tell of %s", l.scope.lang.Name(r)), unknowable(l.scope.lang.Field(r)))
	}
}

package second

import (
	"fmt"
	"slices"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/env"
	"github.com/google/cel-go/common/operators"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// flags is the name under which stated() finds which facts are.
const flags = "facts_that_are_stated"

// words are the names that the trade knows of a field, by its name.
type words map[string][]string

func wordsOf(objects []*rules.Object) words {
	out := words{}
	for _, o := range objects {
		for _, f := range o.Table().Fields() {
			out[o.Name()+"."+f.Name] = f.KnownNames()
		}
	}
	return out
}

// knows says whether a name, or each of several, is one of those of a field.
func (w words) knows(v, field ref.Val) ref.Val {
	table := w[string(field.(types.String))]
	list, ok := entries(v)
	if !ok {
		list = []ref.Val{v}
	}
	for _, e := range list {
		s, ok := e.(types.String)
		if !ok {
			return wrong("known")
		}
		if !slices.Contains(table, string(s)) {
			return types.False
		}
	}
	return types.True
}

// selected reads kind.field.
func selected(e ast.Expr) (string, bool) {
	if e.Kind() != ast.SelectKind || e.AsSelect().Operand().Kind() != ast.IdentKind {
		return "", false
	}
	return e.AsSelect().Operand().AsIdent() + "." + e.AsSelect().FieldName(), true
}

// environment makes the engine's environment for facts of these objects.
func environment(objects []*rules.Object) (*cel.Env, error) {
	stated := cel.GlobalMacro("stated", 1, func(f cel.MacroExprFactory, _ ast.Expr, args []ast.Expr) (ast.Expr, *common.Error) {
		name, ok := selected(args[0])
		if !ok {
			return nil, f.NewError(args[0].ID(), "stated() of what is no fact")
		}
		return f.NewCall(operators.Index, f.NewIdent(flags), f.NewLiteral(types.String(name))), nil
	})
	known := cel.GlobalMacro("known", 1, func(f cel.MacroExprFactory, _ ast.Expr, args []ast.Expr) (ast.Expr, *common.Error) {
		name, ok := selected(args[0])
		if !ok {
			return nil, f.NewError(args[0].ID(), "known() of what is no fact")
		}
		return f.NewCall("known_word", args[0], f.NewLiteral(types.String(name))), nil
	})
	own := env.NewLibrarySubset().SetDisableMacros(true)
	for _, name := range []string{"_+_", "_-_", "_*_", "_/_", "_%_", "-_", "_<_", "_<=_", "_>_", "_>=_", "size"} {
		own.AddExcludedFunctions(env.NewFunction(name))
	}
	opts := append(arithmetic(), cel.StdLib(cel.StdLibSubset(own)), cel.Macros(stated, known, cel.AllMacro, cel.ExistsMacro),
		function("known_word", ofTwo("known_word", wordsOf(objects).knows)), cel.Variable(flags, cel.MapType(cel.StringType, cel.BoolType)))
	for _, o := range objects {
		opts = append(opts, cel.Variable(o.Name(), cel.MapType(cel.StringType, cel.DynType)))
	}
	return cel.NewCustomEnv(opts...)
}

// expression is one expression, and the facts that it reads, also through let-names,
// but for those that it only asks to be stated.
type expression struct {
	program cel.Program
	reads   []string
	asks    []string
}

// compile compiles an expression. lets are the let-names above it.
func compile(e *cel.Env, text string, lets map[string]*expression) (*expression, error) {
	for name := range lets {
		var err error
		if e, err = e.Extend(cel.Variable(name, cel.DynType)); err != nil {
			return nil, err
		}
	}
	tree, issues := e.Compile(text)
	if issues.Err() != nil {
		return nil, fmt.Errorf("%s: %w", text, issues.Err())
	}
	program, err := e.Program(tree, cel.EvalOptions(cel.OptPartialEval))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", text, err)
	}
	out := &expression{program: program}
	out.gather(tree.NativeRep().Expr(), lets)
	return out, nil
}

// gather finds what an expression reads.
func (x *expression) gather(e ast.Expr, lets map[string]*expression) {
	ast.PostOrderVisit(e, ast.NewExprVisitor(func(e ast.Expr) {
		name, ok := selected(e)
		switch {
		case ok:
			x.reads = addOnce(x.reads, name)
		case e.Kind() == ast.IdentKind && lets[e.AsIdent()] != nil:
			x.reads = addOnce(x.reads, lets[e.AsIdent()].reads...)
		case e.Kind() == ast.CallKind && e.AsCall().FunctionName() == operators.Index && e.AsCall().Args()[0].Kind() == ast.IdentKind &&
			e.AsCall().Args()[0].AsIdent() == flags:
			x.asks = addOnce(x.asks, string(e.AsCall().Args()[1].AsLiteral().(types.String)))
		}
	}))
}

func addOnce(to []string, more ...string) []string {
	for _, s := range more {
		if !slices.Contains(to, s) {
			to = append(to, s)
		}
	}
	return to
}

// plain gives a value as the engine's maps hold it: every number a double.
func plain(v *fact.Value, t fact.Type) any {
	switch t {
	case fact.Flag:
		return v.Num != 0
	case fact.Choice, fact.Name:
		return v.Text
	case fact.Fractions, fact.Wholes:
		return v.List
	case fact.Names:
		return v.Words()
	}
	return v.Num
}

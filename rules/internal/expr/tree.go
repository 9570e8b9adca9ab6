package expr

import (
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types"
)

// readOf recognises object.field.
func readOf(lang *Language, e ast.Expr) (Read, bool) {
	if e.Kind() != ast.SelectKind || e.AsSelect().IsTestOnly() {
		return Read{}, false
	}
	operand := e.AsSelect().Operand()
	if operand.Kind() != ast.IdentKind {
		return Read{}, false
	}
	o, ok := lang.index[operand.AsIdent()]
	if !ok {
		return Read{}, false
	}
	i, ok := lang.objects[o].Table.Index(e.AsSelect().FieldName())
	return Read{o, i}, ok
}

// walk visits a tree from the top, in the order of the text.
func walk(e ast.Expr, visit func(ast.Expr)) {
	visit(e)
	switch e.Kind() {
	case ast.SelectKind:
		walk(e.AsSelect().Operand(), visit)
	case ast.CallKind:
		c := e.AsCall()
		if c.IsMemberFunction() {
			walk(c.Target(), visit)
		}
		for _, a := range c.Args() {
			walk(a, visit)
		}
	case ast.ListKind:
		for _, el := range e.AsList().Elements() {
			walk(el, visit)
		}
	case ast.MapKind:
		for _, entry := range e.AsMap().Entries() {
			walk(entry.AsMapEntry().Key(), visit)
			walk(entry.AsMapEntry().Value(), visit)
		}
	case ast.StructKind:
		for _, entry := range e.AsStruct().Fields() {
			walk(entry.AsStructField().Value(), visit)
		}
	case ast.ComprehensionKind:
		c := e.AsComprehension()
		for _, part := range []ast.Expr{c.IterRange(), c.AccuInit(), c.LoopCondition(), c.LoopStep(), c.Result()} {
			walk(part, visit)
		}
	}
}

var factory = ast.NewExprFactory()

// holds says whether a node stands in a tree.
func holds(tree, node ast.Expr) bool {
	found := false
	walk(tree, func(e ast.Expr) { found = found || e.ID() == node.ID() })
	return found
}

func literalText(e ast.Expr) (string, bool) {
	if e.Kind() != ast.LiteralKind {
		return "", false
	}
	text, ok := e.AsLiteral().(types.String)
	return string(text), ok
}

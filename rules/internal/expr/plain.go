package expr

import (
	"fmt"

	"github.com/google/cel-go/common"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/parser"
)

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

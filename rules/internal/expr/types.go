package expr

import (
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
)

// typeNames are the engine's names of types with an author's. Longer names stand
// before those that they hold.
var typeNames = strings.NewReplacer(
	"list(double)", "a list of fractions", "list(int)", "a list of whole numbers", "list(string)", "a list of texts",
	"list(bool)", "a list of flags", "double", "a fraction", "uint", "a whole number written 1u", "int", "a whole number",
	"string", "a text", "bool", "true or false", "null_type", "nothing", "null", "nothing")

// words says the engine's names of types as an author would.
func words(types string) string { return typeNames.Replace(types) }

func typeWords(t *cel.Type) string {
	switch {
	case t.IsExactType(cel.BoolType):
		return "true or false"
	case t.IsExactType(cel.IntType):
		return "a whole number"
	case t.IsExactType(cel.DoubleType):
		return "a fraction"
	case t.IsExactType(cel.StringType):
		return "a text"
	case t.Kind() == types.ListKind:
		return "a list"
	}
	return "a whole part"
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

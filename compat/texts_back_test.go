package compat_test

import (
	"go/ast"
	"testing"
)

// What is written as a text can be read back: a type with MarshalText has
// UnmarshalText as well.
func TestTextsAreReadBack(t *testing.T) {
	writes, reads := map[string]bool{}, map[string]bool{}
	for _, f := range goFiles(t) {
		if f.test {
			continue
		}
		for _, decl := range f.syntax.Decls {
			fn, ok := decl.(*ast.FuncDecl)
			if !ok || fn.Recv == nil {
				continue
			}
			typ := fn.Recv.List[0].Type
			if star, ok := typ.(*ast.StarExpr); ok {
				typ = star.X
			}
			name, ok := typ.(*ast.Ident)
			if !ok {
				continue
			}
			switch fn.Name.Name {
			case "MarshalText":
				writes[f.pkg+"."+name.Name] = true
			case "UnmarshalText":
				reads[f.pkg+"."+name.Name] = true
			}
		}
	}
	for name := range writes {
		if !reads[name] {
			t.Errorf("%s is written as a text and not read back", name)
		}
	}
	if len(writes) < 5 {
		t.Errorf("only %d types are written as texts", len(writes))
	}
}

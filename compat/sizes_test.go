package compat_test

import (
	"go/ast"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// The sizes that keep the code readable. Lines of tables, which are literals, do
// not count in the functions of tests.
const (
	mostFileLines  = 500
	medianLines    = 150
	mostFuncLines  = 60
	mostNesting    = 4
	mostParameters = 4
	mostColumns    = 140 // of runes, a tab being one
)

func TestFilesAreShort(t *testing.T) {
	var lines []int
	for _, f := range goFiles(t) {
		if f.lines > mostFileLines {
			t.Errorf("%s has %d lines, %d are allowed", f.path, f.lines, mostFileLines)
		}
		if !f.test {
			lines = append(lines, f.lines)
		}
	}
	slices.Sort(lines)
	if median := lines[len(lines)/2]; median > medianLines {
		t.Errorf("half of the files have more than %d lines, %d are wanted", median, medianLines)
	}
}

// TestLinesAreShort holds the code of the library and the command, where a long
// line is one that nobody reads to its end.
func TestLinesAreShort(t *testing.T) {
	for _, f := range goFiles(t) {
		if f.test || !slices.Contains(narrow, f.pkg) {
			continue
		}
		text, err := os.ReadFile(filepath.Join("..", filepath.FromSlash(f.path)))
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(text), "\n") {
			if n := utf8.RuneCountInString(line); n > mostColumns {
				t.Errorf("%s:%d: %d columns, %d are allowed", f.path, i+1, n, mostColumns)
			}
		}
	}
}

// narrow are the packages whose lines are held. The others are to be wrapped;
// once they are, this list and its condition go.
var narrow = []string{
	"compat", "compat/cart", "compat/picture", "compat/internal/random", "compat/internal/wire", "catalog", "catalog/demo", "compat/geometry", "rules", "rules/fact", "rules/internal/expr", "rules/prove",
	"rules/source", "rules/source/internal/fault", "rules/standard", "internal/blind",
}

func TestFunctionsAreShort(t *testing.T) {
	for _, f := range goFiles(t) {
		for _, decl := range f.syntax.Decls {
			fn, ok := decl.(*ast.FuncDecl)
			if !ok || fn.Body == nil {
				continue
			}
			at := f.fset.Position(fn.Pos())
			if n := f.funcLines(fn); n > mostFuncLines {
				t.Errorf("%s: %s has %d lines, %d are allowed", at, fn.Name.Name, n, mostFuncLines)
			}
			if n := nesting(fn.Body); n > mostNesting {
				t.Errorf("%s: %s is nested %d deep, %d are allowed", at, fn.Name.Name, n, mostNesting)
			}
		}
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			if typ, ok := n.(*ast.FuncType); ok && typ.Params.NumFields() > mostParameters {
				t.Errorf("%s: a function of %d parameters, %d are allowed", f.fset.Position(typ.Pos()), typ.Params.NumFields(), mostParameters)
			}
			return true
		})
	}
}

// funcLines counts the lines of a function; in tests without its tables.
func (f goFile) funcLines(fn *ast.FuncDecl) int {
	n := f.line(fn.End()) - f.line(fn.Pos()) + 1
	if !f.test {
		return n
	}
	ast.Inspect(fn.Body, func(node ast.Node) bool {
		if lit, ok := node.(*ast.CompositeLit); ok {
			n -= f.line(lit.End()) - f.line(lit.Pos())
			return false
		}
		return true
	})
	return n
}

// nesting is how many statements with blocks stand within each other, where an
// else goes with its if and a function literal with what holds it.
func nesting(n ast.Node) int {
	deepest := 0
	ast.Inspect(n, func(child ast.Node) bool {
		if child == nil || child == n {
			return true
		}
		switch s := child.(type) {
		case *ast.IfStmt:
			deepest = max(deepest, ifNesting(s))
		case *ast.ForStmt, *ast.RangeStmt, *ast.SwitchStmt, *ast.TypeSwitchStmt, *ast.SelectStmt:
			deepest = max(deepest, 1+nesting(child))
		default:
			return true
		}
		return false
	})
	return deepest
}

func ifNesting(s *ast.IfStmt) int {
	deepest := 1 + nesting(s.Body)
	switch other := s.Else.(type) {
	case *ast.IfStmt:
		deepest = max(deepest, ifNesting(other))
	case *ast.BlockStmt:
		deepest = max(deepest, 1+nesting(other))
	}
	return deepest
}

func TestExportedNamesAreDocumented(t *testing.T) {
	documented := map[string]bool{}
	for _, f := range goFiles(t) {
		if f.test {
			continue
		}
		documented[f.pkg] = documented[f.pkg] || f.syntax.Doc != nil
		for _, decl := range f.syntax.Decls {
			switch d := decl.(type) {
			case *ast.FuncDecl:
				if d.Name.IsExported() && d.Doc == nil && (d.Recv == nil || exportedReceiver(d)) {
					t.Errorf("%s: %s has no comment", f.fset.Position(d.Pos()), d.Name.Name)
				}
			case *ast.GenDecl:
				f.documentedNames(t, d)
			}
		}
	}
	for pkg, ok := range documented {
		if !ok {
			t.Errorf("the package %s has no comment", pkg)
		}
	}
}

// documentedNames looks at types, constants and variables: each has a comment of
// its own, or beside it, or its group has one.
func (f goFile) documentedNames(t *testing.T, d *ast.GenDecl) {
	for _, spec := range d.Specs {
		switch s := spec.(type) {
		case *ast.TypeSpec:
			if s.Name.IsExported() && d.Doc == nil && s.Doc == nil {
				t.Errorf("%s: %s has no comment", f.fset.Position(s.Pos()), s.Name.Name)
			}
		case *ast.ValueSpec:
			for _, name := range s.Names {
				if name.IsExported() && d.Doc == nil && s.Doc == nil && s.Comment == nil {
					t.Errorf("%s: %s has no comment", f.fset.Position(name.Pos()), name.Name)
				}
			}
		}
	}
}

func TestNothingRunsByItself(t *testing.T) {
	for _, f := range goFiles(t) {
		for _, decl := range f.syntax.Decls {
			if fn, ok := decl.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Name.Name == "init" {
				t.Errorf("%s: init runs by itself", f.fset.Position(fn.Pos()))
			}
		}
	}
}

// packageVars lists the variables of each package, without those of its tests.
func packageVars(files []goFile) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, f := range files {
		if out[f.pkg] == nil {
			out[f.pkg] = map[string]bool{}
		}
		for _, decl := range f.syntax.Decls {
			d, ok := decl.(*ast.GenDecl)
			if !ok || d.Tok != token.VAR || f.test {
				continue
			}
			for _, spec := range d.Specs {
				for _, name := range spec.(*ast.ValueSpec).Names {
					out[f.pkg][name.Name] = true
				}
			}
		}
	}
	return out
}

// Nothing that a package holds in a variable ever changes: not the variable, not
// an entry or a field of it.
func TestPackageVariablesNeverChange(t *testing.T) {
	files := goFiles(t)
	vars := packageVars(files)
	for _, f := range files {
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			for _, target := range assigned(n) {
				if name := root(target); name != nil && vars[f.pkg][name.Name] && !f.local(name) {
					t.Errorf("%s: %s is assigned to", f.fset.Position(name.Pos()), name.Name)
				}
			}
			return true
		})
	}
}

// assigned gives what a node writes to.
func assigned(n ast.Node) []ast.Expr {
	switch s := n.(type) {
	case *ast.AssignStmt:
		if s.Tok != token.DEFINE {
			return s.Lhs
		}
	case *ast.IncDecStmt:
		return []ast.Expr{s.X}
	case *ast.RangeStmt:
		if s.Tok == token.ASSIGN {
			return []ast.Expr{s.Key, s.Value}
		}
	case *ast.CallExpr:
		if fn, ok := s.Fun.(*ast.Ident); ok && (fn.Name == "clear" || fn.Name == "delete" || fn.Name == "copy") {
			return s.Args[:1]
		}
	}
	return nil
}

// root is the variable that an expression begins with, such as x of x.a[i].
func root(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.IndexExpr:
			e = x.X
		case *ast.SelectorExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		case *ast.SliceExpr:
			e = x.X
		default:
			return nil
		}
	}
}

// local says whether a name stands for something declared inside a function.
func (f goFile) local(name *ast.Ident) bool {
	for _, decl := range f.syntax.Decls {
		fn, ok := decl.(*ast.FuncDecl)
		if ok && fn.Pos() <= name.Pos() && name.Pos() < fn.End() {
			return declares(fn, name.Name)
		}
	}
	return false
}

// declares says whether a function has a parameter or variable of that name.
func declares(fn *ast.FuncDecl, name string) bool {
	found := false
	mark := func(e ast.Expr) {
		if id, ok := e.(*ast.Ident); ok && id.Name == name {
			found = true
		}
	}
	ast.Inspect(fn, func(n ast.Node) bool {
		switch s := n.(type) {
		case *ast.Field:
			for _, id := range s.Names {
				mark(id)
			}
		case *ast.ValueSpec:
			for _, id := range s.Names {
				mark(id)
			}
		case *ast.AssignStmt:
			if s.Tok == token.DEFINE {
				for _, e := range s.Lhs {
					mark(e)
				}
			}
		case *ast.RangeStmt:
			if s.Tok == token.DEFINE {
				mark(s.Key)
				mark(s.Value)
			}
		}
		return true
	})
	return found
}

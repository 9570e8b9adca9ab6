package compat_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the path of the whole.
const module = "example.org/cogcourt"

// command is what the command and its inner packages may use.
var command = []string{"compat/cart", "compat/fit", "compat", "catalog", "catalog/demo", "rules", "rules/prove", "rules/fact", "rules/source"}

// arrows are the imports that a package may have beside the standard library;
// those of tests may be more. An arrow that is wanted is drawn here first.
var arrows = map[string][]string{
	"cmd/cogcourt":               append([]string{"cmd/cogcourt/internal/view", "cmd/cogcourt/internal/schema"}, command...),
	"cmd/cogcourt/internal/view": append([]string{"compat/picture"}, command...), "cmd/cogcourt/internal/schema": command,
	"cmd/cogbatch":                {"compat", "catalog", "catalog/demo", "rules/source", "github.com/apache/beam"},
	"compat":                      {"compat/figures", "compat/report", "compat/internal/wire", "catalog", "catalog/usual", "rules", "rules/fact", "rules/source", "rules/standard"},
	"compat/cart":                 {"compat", "compat/fit", "compat/report", "compat/internal/wire", "catalog", "rules", "rules/fact", "rules/source"},
	"compat/fit":                  {"compat", "compat/figures", "compat/report", "compat/internal/wire", "catalog", "rules", "rules/fact"},
	"compat/picture":              {"compat", "rules", "rules/fact", "compat/geometry"},
	"compat/figures":              {"compat/geometry", "catalog", "rules", "rules/fact"},
	"internal/blind":              {},
	"compat/internal/random":      {"compat/figures", "catalog", "rules", "rules/fact", "rules/source"},
	"compat/internal/wire":        {},
	"compat/report":               {"compat/internal/wire", "rules/fact"},
	"compat/geometry":             {},
	"catalog":                     {"rules", "rules/fact", "rules/source"},
	"catalog/demo":                {},
	"catalog/usual":               {},
	"rules":                       {"rules/internal/expr", "rules/fact", "rules/source"},
	"rules/prove":                 {"rules", "rules/internal/expr", "rules/fact", "rules/source"},
	"rules/internal/expr":         {"rules/fact", "rules/source", "github.com/google/cel-go"},
	"rules/source/internal/fault": {},
	"rules/source":                {"rules/source/internal/fault", "rules/fact", "gopkg.in/yaml.v3"},
	"rules/fact":                  {},
	"rules/standard":              {},
}

// onlyStandard are packages of which even the standard library's use is bounded.
var onlyStandard = map[string][]string{
	"compat/geometry": {"math"},
	"catalog/demo":    {"embed", "io/fs", "strings"},
	"catalog/usual":   {"embed", "io/fs"},
	"rules/standard":  {"embed", "io/fs"},
}

// goFile is one Go file of the module.
type goFile struct {
	pkg, path string // from the root, with slashes
	test      bool
	lines     int
	fset      *token.FileSet
	syntax    *ast.File
}

func (f goFile) line(pos token.Pos) int { return f.fset.Position(pos).Line }

// besideUs are modules of their own that are held to the same rules.
var besideUs = []string{"cmd/cogbatch"}

// goFiles parses every Go file of the module and of those beside it. What lies in
// testdata or below a dot is another matter.
func goFiles(t *testing.T) []goFile {
	t.Helper()
	var out []goFile
	root := filepath.Join("..")
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			_, ownModule := os.Stat(filepath.Join(path, "go.mod"))
			strange := ownModule == nil && !slices.Contains(besideUs, filepath.ToSlash(strings.TrimPrefix(path, root+string(filepath.Separator))))
			if name := d.Name(); path != root && (name == "testdata" || strings.HasPrefix(name, ".") || strange) {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f := goFile{fset: token.NewFileSet(), test: strings.HasSuffix(path, "_test.go"), lines: strings.Count(string(text), "\n")}
		short, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		f.path = filepath.ToSlash(short)
		if f.pkg = "."; strings.Contains(f.path, "/") {
			f.pkg = f.path[:strings.LastIndex(f.path, "/")]
		}
		f.syntax, err = parser.ParseFile(f.fset, f.path, text, parser.ParseComments)
		out = append(out, f)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 100 {
		t.Fatalf("only %d files were found", len(out))
	}
	return out
}

// imports gives what a file imports, its own module's packages from the root,
// those of other modules by the module.
func (f goFile) imports(t *testing.T) (own, foreign, standard []string) {
	t.Helper()
	for _, spec := range f.syntax.Imports {
		path, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		switch first, _, _ := strings.Cut(path, "/"); {
		case strings.HasPrefix(path, module+"/"):
			own = append(own, strings.TrimPrefix(path, module+"/"))
		case strings.Contains(first, "."):
			foreign = append(foreign, path)
		default:
			standard = append(standard, path)
		}
	}
	return own, foreign, standard
}

// within says whether a path is one of these packages or lies below one.
func within(path string, packages []string) bool {
	return slices.ContainsFunc(packages, func(p string) bool { return path == p || strings.HasPrefix(path, p+"/") })
}

// The packages depend on each other one way, and each of the two engines is
// known to one package alone.
func TestImportsFollowTheArrows(t *testing.T) {
	met := map[string]bool{}
	for _, f := range goFiles(t) {
		allowed, known := arrows[f.pkg]
		if !known {
			t.Errorf("%s: the package %s has no place among the arrows", f.path, f.pkg)
			continue
		}
		own, foreign, standard := f.imports(t)
		for _, path := range foreign {
			if !within(path, allowed) && !(f.test && within(path, []string{"github.com/google/go-cmp"})) {
				t.Errorf("%s imports %s", f.path, path)
			}
		}
		if f.test {
			continue
		}
		met[f.pkg] = true
		for _, path := range own {
			if !slices.Contains(allowed, path) {
				t.Errorf("%s imports %s", f.path, path)
			}
		}
		if few, bounded := onlyStandard[f.pkg]; bounded {
			for _, path := range standard {
				if !slices.Contains(few, path) {
					t.Errorf("%s imports %s", f.path, path)
				}
			}
		}
	}
	for _, pkg := range slices.Sorted(maps.Keys(arrows)) {
		if !met[pkg] {
			t.Errorf("the arrows name %s, which has no file", pkg)
		}
	}
}

// DEVELOPERS.md shows the same arrows. A block that is not in step is printed as it
// should be.
func TestDevelopersShowTheArrows(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, block, _ := strings.Cut(string(text), "any other:\n\n")
	block, _, _ = strings.Cut(block, "\n\n")
	shown := map[string][]string{}
	pkg := ""
	for line := range strings.Lines(block) {
		to := line
		if from, rest, begins := strings.Cut(line, "->"); begins {
			pkg, to = strings.TrimSpace(from), rest
		}
		shown[pkg] = append(shown[pkg], strings.FieldsFunc(to, func(r rune) bool { return strings.ContainsRune(", \n", r) })...)
	}
	for _, pkg := range slices.Sorted(maps.Keys(arrows)) {
		if want := shownArrows(pkg); !slices.Equal(shown[pkg], want) {
			t.Errorf("DEVELOPERS.md shows %q, it should be\n    %-27s -> %s", shown[pkg], pkg, strings.Join(want, ", "))
		}
		delete(shown, pkg)
	}
	for pkg := range shown {
		t.Errorf("DEVELOPERS.md has arrows of %q, which is no package", pkg)
	}
}

// shownArrows gives what a page says that a package imports: modules by their short
// names, and the standard library where that is all or is bounded.
func shownArrows(pkg string) []string {
	var out []string
	for _, path := range arrows[pkg] {
		if first, _, _ := strings.Cut(path, "/"); strings.Contains(first, ".") {
			path = path[strings.LastIndex(path, "/")+1:]
		}
		out = append(out, path)
	}
	if len(out) == 0 && onlyStandard[pkg] == nil {
		return []string{"nothing"}
	}
	return append(out, onlyStandard[pkg]...)
}

// The engines' types are no part of what a package shows: a program that uses
// this module never meets them, and they can be changed for others.
func TestNoForeignTypeIsShown(t *testing.T) {
	for _, f := range goFiles(t) {
		if f.test || within(f.pkg, []string{"rules/internal"}) {
			continue
		}
		for _, shown := range f.foreignShown() {
			t.Error(shown)
		}
	}
}

// What would show such a type is found, in whatever kind of declaration.
func TestForeignTypesAreFound(t *testing.T) {
	const head = "package p\n\nimport (\n\t\"example.org/cogcourt/rules/internal/expr\"\n\tyaml \"gopkg.in/yaml.v3\"\n)\n\n"
	for text, found := range map[string]bool{
		"type Lack = expr.Read":                        true,
		"type Lack expr.Read":                          true,
		"type Lack struct{ Read []expr.Read }":         true,
		"type Lack struct{ expr.Read }":                true,
		"type Lack struct{ read expr.Read }":           false,
		"type lack = expr.Read":                        false,
		"type Reader interface{ Read() yaml.Node }":    true,
		"type Reader func(*yaml.Node) error":           true,
		"type Reader[T expr.Read] struct{}":            true,
		"var Reads []expr.Read":                        true,
		"var reads []expr.Read":                        false,
		"func Read(n *yaml.Node) {}":                   true,
		"func read(n *yaml.Node) {}":                   false,
		"type T struct{}; func (T) Read(expr.Read) {}": true,
		"type t struct{}; func (t) Read(expr.Read) {}": false,
	} {
		f := goFile{path: "p.go", fset: token.NewFileSet()}
		var err error
		if f.syntax, err = parser.ParseFile(f.fset, f.path, head+text, 0); err != nil {
			t.Fatal(err)
		}
		if got := f.foreignShown(); (len(got) == 1) != found {
			t.Errorf("%s: found %q", text, got)
		}
	}
}

// foreignShown lists what the file's exported declarations show of other modules
// and of internal packages.
func (f goFile) foreignShown() []string {
	foreign := map[string]bool{}
	for _, spec := range f.syntax.Imports {
		path, _ := strconv.Unquote(spec.Path.Value)
		first, _, _ := strings.Cut(path, "/")
		if strings.Contains(first, ".") && !strings.HasPrefix(path, module) || strings.HasSuffix(path, "internal/expr") {
			name := path[strings.LastIndex(path, "/")+1:]
			if spec.Name != nil {
				name = spec.Name.Name
			}
			foreign[strings.TrimSuffix(name, ".v3")] = true
		}
	}
	var out []string
	look := func(owner string, n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			if field, ok := n.(*ast.Field); ok && len(field.Names) > 0 && !slices.ContainsFunc(field.Names, (*ast.Ident).IsExported) && owner == "" {
				return false
			}
			if sel, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := sel.X.(*ast.Ident); ok && foreign[x.Name] {
					out = append(out, f.path+":"+strconv.Itoa(f.line(sel.Pos()))+": "+x.Name+"."+sel.Sel.Name+" is shown")
				}
			}
			return true
		})
	}
	for _, decl := range f.syntax.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() && (d.Recv == nil || exportedReceiver(d)) {
				look(d.Name.Name, d.Type)
			}
		case *ast.GenDecl:
			lookAtSpecs(d.Specs, look)
		}
	}
	return out
}

// lookAtSpecs looks at what exported types and variables are declared with. Fields
// that are not exported are left out, parameters are not: a struct has no owner.
func lookAtSpecs(specs []ast.Spec, look func(owner string, n ast.Node)) {
	for _, spec := range specs {
		switch s := spec.(type) {
		case *ast.TypeSpec:
			if !s.Name.IsExported() {
				continue
			}
			if s.TypeParams != nil {
				look(s.Name.Name, s.TypeParams)
			}
			owner := s.Name.Name
			if _, fields := s.Type.(*ast.StructType); fields {
				owner = ""
			}
			look(owner, s.Type)
		case *ast.ValueSpec:
			if s.Type != nil && slices.ContainsFunc(s.Names, (*ast.Ident).IsExported) {
				look(s.Names[0].Name, s.Type)
			}
		}
	}
}

// exportedReceiver says whether a method is one of an exported type.
func exportedReceiver(fn *ast.FuncDecl) bool {
	typ := fn.Recv.List[0].Type
	if star, ok := typ.(*ast.StarExpr); ok {
		typ = star.X
	}
	if index, ok := typ.(*ast.IndexExpr); ok {
		typ = index.X
	}
	name, ok := typ.(*ast.Ident)
	return ok && name.IsExported()
}

// Every problem says what sort of fault it is: whoever adds one sets its code in
// the same breath, and whoever writes one out names it.
func TestProblemsHaveCodes(t *testing.T) {
	for _, f := range goFiles(t) {
		if f.test {
			continue
		}
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ExprStmt:
				call, ok := n.X.(*ast.CallExpr)
				if !ok || len(call.Args) != 4 {
					break
				}
				if sel, ok := call.Fun.(*ast.SelectorExpr); ok && (sel.Sel.Name == "Add" || sel.Sel.Name == "Refuse") {
					t.Errorf("%s: a problem without a code", f.fset.Position(n.Pos()))
				}
			case *ast.CompositeLit:
				if named(n.Type) == "Problems" {
					for _, elem := range n.Elts {
						f.coded(t, elem)
					}
				}
			}
			return true
		})
	}
}

// named is the last word of a type's name.
func named(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}

// coded looks at a problem that is written out.
func (f goFile) coded(t *testing.T, e ast.Expr) {
	lit, ok := e.(*ast.CompositeLit)
	if !ok {
		return
	}
	for _, elem := range lit.Elts {
		if pair, ok := elem.(*ast.KeyValueExpr); ok && named(pair.Key) == "Code" {
			return
		}
	}
	t.Errorf("%s: a problem without a code", f.fset.Position(e.Pos()))
}

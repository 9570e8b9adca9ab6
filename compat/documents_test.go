package compat_test

import (
	"go/ast"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// documents are the pages that people read before the code.
var documents = []string{"README.md", "DEVELOPERS.md"}

// page reads a document.
func page(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// marked gives what stands between single backquotes in a page, fences left out.
func marked(text string) []string {
	text = regexp.MustCompile("(?s)```.*?```").ReplaceAllString(text, "")
	var out []string
	for _, m := range regexp.MustCompile("`([^`\n]+)`").FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	return out
}

// commandLines gives the lines of a page that are set in, without what is said
// behind them.
func commandLines(text string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`(?m)^ {4,}((?:go|cd|\(cd|\.ci/|COGCOURT_)[^\n#]*)`).FindAllStringSubmatch(text, -1) {
		out = append(out, strings.TrimSpace(m[1]))
	}
	return out
}

// A file or folder that a page names is there.
func TestDocumentsNameFiles(t *testing.T) {
	place := regexp.MustCompile(`^(catalog|compat|rules|cmd|testdata|\.ci)(/[A-Za-z0-9_.*-]+)+$`)
	seen := 0
	for _, name := range documents {
		for _, word := range marked(page(t, name)) {
			if !place.MatchString(word) {
				continue
			}
			seen++
			if found, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(word))); err != nil || len(found) == 0 {
				t.Errorf("%s names %s, which is not there", name, word)
			}
		}
	}
	if seen < 30 {
		t.Errorf("only %d places were found", seen)
	}
}

// declared lists what each package declares, by the last part of its path: the
// exported names, and the fields and methods of its types; "tests" has every test,
// benchmark and example.
func declared(files []goFile) map[string]map[string]bool {
	out := map[string]map[string]bool{"tests": {}}
	for _, f := range files {
		pkg := f.pkg[strings.LastIndex(f.pkg, "/")+1:]
		if f.test {
			pkg = "tests"
		}
		if out[pkg] == nil {
			out[pkg] = map[string]bool{}
		}
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			switch d := n.(type) {
			case *ast.FuncDecl:
				out[pkg][d.Name.Name] = true
				return false
			case *ast.TypeSpec:
				out[pkg][d.Name.Name] = true
			case *ast.ValueSpec:
				for _, name := range d.Names {
					out[pkg][name.Name] = true
				}
			case *ast.Field:
				for _, name := range d.Names {
					out[pkg][name.Name] = true
				}
			}
			return true
		})
	}
	return out
}

// A name of the library, a test or an example that a page marks as one is
// declared. What is gone is written without marks.
func TestDocumentsNameWhatIsDeclared(t *testing.T) {
	have := declared(goFiles(t))
	name := regexp.MustCompile(`^([a-z]+)\.([A-Z]\w*)(?:\.([A-Z]\w*))?(?:\(.*\))?$`)
	test := regexp.MustCompile(`^(Test|Benchmark|Example)\w+$`)
	seen := 0
	for _, file := range documents {
		for _, word := range marked(page(t, file)) {
			if test.MatchString(word) {
				seen++
				if !have["tests"][word] {
					t.Errorf("%s names %s, which is no test", file, word)
				}
			}
			m := name.FindStringSubmatch(word)
			if m == nil || have[m[1]] == nil {
				continue
			}
			seen++
			if !have[m[1]][m[2]] || m[3] != "" && !have[m[1]][m[3]] {
				t.Errorf("%s names %s, which package %s has not", file, word, m[1])
			}
		}
	}
	if seen < 20 {
		t.Errorf("only %d names were found", seen)
	}
}

// A line that calls the go command or a script names folders, tests and scripts
// that there are: one that runs no test would pass.
func TestDocumentsRunWhatIsThere(t *testing.T) {
	seen := 0
	for _, file := range documents {
		for _, line := range commandLines(page(t, file)) {
			seen++
			if fault := faultOfLine(t, line); fault != "" {
				t.Errorf("%s: %s: %s", file, line, fault)
			}
		}
	}
	if seen < 15 {
		t.Errorf("only %d lines were found", seen)
	}
	for _, line := range []string{"go test ./compatt", "go test ./compat -run TestNone", "go test ./compat -run FuzzNone", "go test ./compat -bench 'Check|Nope'", ".ci/none", "go frob", "(cd .ci/none && go test ./...)"} {
		if faultOfLine(t, line) == "" {
			t.Errorf("nothing is said against %s", line)
		}
	}
}

// faultOfLine says what is wrong with a command line; empty for nothing.
func faultOfLine(t *testing.T, line string) string {
	root := ".."
	line = strings.Trim(line, "()")
	if dir, rest, moves := strings.Cut(strings.TrimPrefix(line, "cd "), " && "); moves && strings.HasPrefix(line, "cd ") {
		root, line = filepath.Join("..", dir), rest
	}
	for _, step := range strings.Split(line, " && ") {
		if fault := faultOfStep(t, root, step); fault != "" {
			return fault
		}
	}
	return ""
}

func faultOfStep(t *testing.T, root, step string) string {
	words := strings.Fields(strings.ReplaceAll(step, "'", ""))
	for len(words) > 0 && strings.HasPrefix(words[0], "COGCOURT_") {
		words = words[1:]
	}
	if strings.HasPrefix(words[0], ".ci/") {
		if info, err := os.Stat(filepath.Join(root, words[0])); err != nil || info.Mode()&0o111 == 0 {
			return "there is no such script"
		}
		return ""
	}
	if words[0] != "go" || !slices.Contains([]string{"test", "run", "vet", "doc", "build"}, words[1]) {
		return "it is no line of the go command"
	}
	folder := root
	for i, word := range words[2:] {
		if strings.HasPrefix(word, "./") {
			folder = filepath.Join(root, strings.TrimSuffix(word, "/..."))
			if _, err := os.Stat(folder); err != nil {
				return "there is no " + word
			}
		}
		before := words[i+1]
		if before == "-run" && word != "^$" || before == "-bench" {
			for _, one := range strings.Split(word, "|") {
				if kind := map[string]string{"-run": "Test|Fuzz", "-bench": "Benchmark"}[before]; !hasTest(t, root, kind, one) {
					return "nothing of " + kind + " is called " + one
				}
			}
		}
	}
	return ""
}

// hasTest says whether a test below a folder matches a pattern of -run or -bench.
func hasTest(t *testing.T, root, kind, pattern string) bool {
	t.Helper()
	begin := regexp.MustCompile(`(?m)^func ((?:` + kind + `)\w*)\(`)
	wanted := regexp.MustCompile(pattern)
	for _, glob := range []string{"*_test.go", "*/*_test.go", "*/*/*_test.go"} {
		files, _ := filepath.Glob(filepath.Join(root, glob))
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range begin.FindAllSubmatch(text, -1) {
				if pattern == "." || wanted.Match(m[1]) {
					return true
				}
			}
		}
	}
	return false
}

// The modules that a program takes on are named, those that are not needed are not.
func TestReadmeNamesTheWeight(t *testing.T) {
	_, section, _ := strings.Cut(page(t, "README.md"), "## Weight")
	section, _, _ = strings.Cut(section, "\n## ")
	var want []string
	for _, module := range weight {
		_, short, _ := strings.Cut(module, "/")
		if module != "example.org/cogcourt" {
			want = append(want, short)
		}
	}
	var got []string
	for _, word := range marked(section) {
		if strings.Contains(word, "/") || slices.Contains(want, word) {
			got = append(got, word)
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("the README names the modules %q, they are %q", got, want)
	}
}

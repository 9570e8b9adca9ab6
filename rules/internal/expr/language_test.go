package expr

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// The tests speak of boats, so that they say what the package does and not what
// bicycles do.
func boats() (sail, mast *Object) {
	sail = NewObject("sail", "A sail.", fact.NewTable(
		fact.Field{Name: "area_m2", Type: fact.Fraction, Also: []string{"surface"}},
		fact.Field{Name: "reefs", Type: fact.Whole},
		fact.Field{Name: "panels_m2", Type: fact.Fractions, Cap: 8},
		fact.Field{Name: "knots", Type: fact.Wholes, Cap: 8},
		fact.Field{Name: "cloth", Type: fact.Choice, Choices: []string{"canvas", "nylon"}},
		fact.Field{Name: "maker", Type: fact.Name},
		fact.Field{Name: "makers", Type: fact.Names, Cap: 4},
		fact.Field{Name: "wet", Type: fact.Flag}))
	mast = NewObject("mast", "A mast.", fact.NewTable(
		fact.Field{Name: "height_m", Type: fact.Fraction},
		fact.Field{Name: "stays", Type: fact.Whole},
		fact.Field{Name: "limit_size", Type: fact.Whole},
		fact.Field{Name: "makers", Type: fact.Names, Cap: 4}))
	mast.Also = []string{"pole", "spar"}
	return sail, mast
}

func boatLanguage(t testing.TB) *Language {
	t.Helper()
	l, err := NewLanguage(boats())
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// must compiles an expression that is right.
func must(t testing.TB, s *Scope, text string, role Role) *Program {
	t.Helper()
	p, issues := s.Compile(text, role)
	if p == nil {
		t.Fatalf("%s: %v", text, issues)
	}
	return p
}

// set gives a record of an object with these fields stated.
func set(o *Object, values map[string]fact.Value) *Record {
	r := &Record{Values: make([]fact.Value, len(o.Table.Fields()))}
	for name, v := range values {
		i, ok := o.Table.Index(name)
		if !ok {
			panic("no field " + name)
		}
		v.Known = true
		r.Values[i] = v
	}
	return r
}

// TestFunctions holds the closed list of what an expression can call: a new
// version of the engine must not bring functions of its own.
func TestFunctions(t *testing.T) {
	l := boatLanguage(t)
	var lines []string
	for name, f := range l.base.Functions() {
		for _, o := range f.OverloadDecls() {
			args := make([]string, len(o.ArgTypes()))
			for i, a := range o.ArgTypes() {
				args[i] = a.String()
			}
			lines = append(lines, fmt.Sprintf("%s %s(%s) %s", name, o.ID(), strings.Join(args, ", "), o.ResultType()))
		}
	}
	for _, m := range l.base.Macros() {
		lines = append(lines, "macro "+m.Function())
	}
	for _, v := range l.base.Variables() {
		lines = append(lines, "name "+v.Name())
	}
	slices.Sort(lines)
	got := strings.Join(slices.Compact(lines), "\n") + "\n"
	want, err := os.ReadFile(filepath.Join("testdata", "functions.txt"))
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the language declares other functions than testdata/functions.txt:\n%s", got)
	}
}

// TestUsageIsDeclared holds the hints against the functions.
func TestUsageIsDeclared(t *testing.T) {
	l := boatLanguage(t)
	declared := map[string]bool{}
	for name := range l.base.Functions() {
		declared[name] = true
	}
	for _, m := range l.base.Macros() {
		declared[m.Function()] = true
	}
	for _, name := range functionNames() {
		if !declared[name] {
			t.Errorf("%s is in the hints and not in the language", name)
		}
		delete(declared, name)
	}
	for name := range declared {
		if isWord([]rune(name)[0]) && !strings.HasPrefix(name, "_") {
			t.Errorf("%s is in the language and not in the hints", name)
		}
	}
}

func TestNewLanguageRefuses(t *testing.T) {
	table := fact.NewTable(fact.Field{Name: "x", Type: fact.Whole})
	uncapped := fact.NewTable(fact.Field{Name: "xs", Type: fact.Wholes})
	for _, c := range []struct {
		want    string
		objects []*Object
	}{
		{"the object hull stands twice", []*Object{NewObject("hull", "", table), NewObject("hull", "", table)}},
		{"an object cannot be called max", []*Object{NewObject("max", "", table)}},
		{"an object cannot be called in", []*Object{NewObject("in", "", table)}},
		{"an object cannot be called list", []*Object{NewObject("list", "", table)}},
		{"hull.xs is a list without a cap", []*Object{NewObject("hull", "", uncapped)}},
	} {
		_, err := NewLanguage(c.objects...)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("want %q, got %v", c.want, err)
		}
	}
}

func TestNames(t *testing.T) {
	l := boatLanguage(t)
	if i, ok := l.Index("mast"); !ok || i != 1 || l.objects[i].Name != "mast" {
		t.Errorf("mast is at %d, %t", i, ok)
	}
	if _, ok := l.Index("keel"); ok {
		t.Error("there is no keel")
	}
	if got := l.Name(Read{0, 1}) + " " + l.Name(Read{1, -1}); got != "sail.reefs mast" {
		t.Errorf("got %s", got)
	}
	if l.Field(Read{0, 4}).Name != "cloth" || l.Field(Read{0, -1}).Name != "" {
		t.Error("Field describes another field")
	}
}

// TestTaken holds the words that no let-name may have.
func TestTaken(t *testing.T) {
	s := boatLanguage(t).NewScope()
	s.Let("over", 0, must(t, s, "sail.area_m2 - 1", Value))
	s.LetBroken("broken")
	for name, want := range map[string]bool{
		"sail": true, "over": true, "broken": true, "sum": true, "in": true, "list": true, "has": true, "true": true,
		"area_m2": false, "x": false,
	} {
		if s.Taken(name) != want {
			t.Errorf("Taken(%q) is not %t", name, want)
		}
	}
}

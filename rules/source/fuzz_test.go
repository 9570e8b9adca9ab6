package source

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules/fact"
)

// FuzzParse reads any text without a safety net. Nothing may panic, and each
// place that comes out lies within the file: those of problems, of nodes, and
// of the code points of texts, which have to be found.
func FuzzParse(f *testing.F) {
	seeds := []string{goodYAML, goodJSON}
	files, _ := filepath.Glob("testdata/bad/*.*")
	for _, file := range files {
		if text, err := os.ReadFile(file); err == nil {
			seeds = append(seeds, string(text))
		}
	}
	for text := range hostile() {
		if len(text) < 2000 {
			seeds = append(seeds, text)
		}
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		file := []string{"x.yaml", "x.json"}[choice%2]
		root, err := Limits{}.parse(file, text, nil)
		l := wholeLayout(file, string(text))
		var ps Problems
		if err != nil && !errors.As(err, &ps) {
			t.Fatalf("an error of type %T", err)
		}
		if root != nil {
			visit(t, l, root)
			root.ReadRecord(sample(), "", nil, &ps)
			root.Keys("", &ps, "a", "b")
		}
		var more Problems
		if err := readSample(file, text); err != nil && !errors.As(err, &more) {
			t.Fatalf("an error of type %T", err)
		}
		for _, p := range append(ps, more...) {
			sound(t, l, p)
		}
		return root != nil
	})
}

// FuzzNumber reads any text as the value of each field that takes numbers. What is taken
// lies within its range with its whole tolerance, YAML and JSON take the same for it, and
// written as files have numbers it reads back to the last bit.
func FuzzNumber(f *testing.F) {
	seeds := []string{"3.65", "3.95 ± 0.05", "4 +/- 0.1", "-0", "12", "3.0e0", "2 ± 0", "5.9 ± 0.1", "3,65", "3.65 mm", "0.30000000000000004 ± 1e-9", "[3.5, 3.6 ± 0.05]", "[11, 13]", "1e-7"}
	table := sample()
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		field := &table.Fields()[int(choice)%len(table.Fields())]
		v, ok := readAlone(field, "x.yaml", string(text))
		if !ok || field.Type != fact.Fraction && field.Type != fact.Whole && field.Type != fact.Fractions && field.Type != fact.Wholes {
			return ok
		}
		inRange(t, field, v)
		if json, ok := readAlone(field, "x.json", string(text)); ok && !reflect.DeepEqual(json, v) {
			t.Errorf("YAML takes %q for %+v, and JSON for %+v", text, v, json)
		}
		for _, file := range []string{"x.yaml", "x.json"} {
			again, ok := readAlone(field, file, spelled(field, v))
			if !ok || !reflect.DeepEqual(again, v) {
				t.Errorf("%q is %+v, and written as %s it reads in %s as %+v, %t", text, v, spelled(field, v), file, again, ok)
			}
		}
		return true
	})
}

// readAlone reads a text as the value of one field.
func readAlone(f *fact.Field, file, text string) (fact.Value, bool) {
	root, err := Parse(file, []byte(`{"`+f.Name+`": `+text+"}"))
	if err != nil || root.Get(f.Name) == nil {
		return fact.Value{}, false
	}
	var ps Problems
	v := readField(f, root.Get(f.Name), f.Name, &ps)
	return v, ps.Err() == nil
}

// spelled writes the value of a field of numbers so that YAML and JSON read it.
func spelled(f *fact.Field, v fact.Value) string {
	one := func(x, tol float64) string {
		if tol == 0 {
			return spell(x)
		}
		return `"` + spell(x) + " ± " + spell(tol) + `"`
	}
	if f.Type == fact.Fraction || f.Type == fact.Whole {
		return one(v.Num, v.Tol)
	}
	each := make([]string, len(v.List))
	for i, x := range v.List {
		tol := 0.0
		if v.Tols() != nil {
			tol = v.Tols()[i]
		}
		each[i] = one(x, tol)
	}
	return "[" + strings.Join(each, ", ") + "]"
}

// inRange makes sure that numbers are what their field takes, with their tolerances.
func inRange(t testing.TB, f *fact.Field, v fact.Value) {
	t.Helper()
	list, tols := v.List, v.Tols()
	if f.Type == fact.Fraction || f.Type == fact.Whole {
		list, tols = []float64{v.Num}, []float64{v.Tol}
	}
	for i, x := range list {
		tol := 0.0
		if tols != nil {
			tol = tols[i]
		}
		const grain = 1e-9 // as the arithmetic of rules is rounded
		outside := f.Min < f.Max && !(x-tol >= f.Min-grain && x+tol <= f.Max+grain)
		if outside || math.IsNaN(x) || math.IsInf(x, 0) || tol < 0 || spanOf(f).whole && (x != math.Trunc(x) || tol != 0) {
			t.Errorf("%s takes %v ± %v", f.Name, x, tol)
		}
	}
}

// sound makes sure that a problem says what it is, and begins and ends in the file.
func sound(t testing.TB, l *layout, p Problem) {
	within(t, l, p.Pos)
	within(t, l, p.End)
	if p.End != (Pos{}) && (p.End.Line == 0 || p.End.Compare(p.Pos) < 0) {
		t.Errorf("%v ends at %v", p, p.End)
	}
	if p.Code == "" || p.Code == Invalid || p.Text == "" {
		t.Errorf("%v has the code %q", p, p.Code)
	}
}

func visit(t testing.TB, l *layout, n *Node) {
	within(t, l, n.Pos)
	within(t, l, n.End())
	if n.Text != "" {
		if n.End() == (Pos{}) || n.End().Compare(n.Pos) <= 0 {
			t.Errorf("%v: %q ends at %v", n.Pos, n.Text, n.End())
		}
		if n.Kind != Null && n.glyphs() == nil {
			t.Errorf("%v: the places of %q are not found", n.Pos, n.Text)
		}
		for _, i := range []int{0, utf8.RuneCountInString(n.Text) / 2, len(n.Text)} {
			within(t, l, n.At(i))
		}
	}
	for _, item := range n.Items {
		visit(t, l, item)
	}
	for _, p := range n.Pairs {
		visit(t, l, p.Key)
		visit(t, l, p.Value)
	}
}

func within(t testing.TB, l *layout, p Pos) {
	if p.Line == 0 {
		return // the file as a whole
	}
	l.index()
	if p.File != l.name || p.Line < 1 || p.Line > len(l.lines) || p.Col < 1 || l.pos(l.offset(p.Line, p.Col)) != p {
		t.Errorf("%v lies outside of the file", p)
	}
}

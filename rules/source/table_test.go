package source

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules/fact"
)

// read reads one record of a table and gives its values and problems.
func read(t *testing.T, table *fact.Table, text string) ([]fact.Value, string) {
	t.Helper()
	n, err := Parse("x.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var ps Problems
	values := n.ReadRecord(table, "r", nil, &ps)
	if err := ps.Err(); err != nil {
		return values, err.Error()
	}
	return values, ""
}

// TestRelations has the checks between fields, and the defaults.
func TestRelations(t *testing.T) {
	usual := fact.Value{Known: true, Assumed: true, Num: 2}
	table := fact.NewTable(
		fact.Field{Name: "a", Type: fact.Fraction, Excludes: "b"},
		fact.Field{Name: "b", Type: fact.Fraction, Excludes: "a", Default: &usual},
		fact.Field{Name: "c", Type: fact.Fractions, Cap: 9, Sorted: true, OneLess: "d"},
		fact.Field{Name: "d", Type: fact.Wholes, Cap: 9, Unit: "t", Min: 1, Max: 20},
		fact.Field{Name: "e", Type: fact.Name, Required: true, Doc: "the name of it"},
	)
	stated := fact.Value{Known: true, List: []float64{3, 2, 1}, More: &fact.More{Tols: []float64{0.3, 0, 0.1}}}
	for _, c := range []struct {
		text string
		want []fact.Value
		says string
	}{
		{"e: x", []fact.Value{{}, usual, {}, {}, fact.Word("x")}, ""},
		{"{a: 1, e: x}", []fact.Value{fact.Num(1), {}, {}, {}, fact.Word("x")}, ""},
		{"{b: 1, e: x}", []fact.Value{{}, fact.Num(1), {}, {}, fact.Word("x")}, ""},
		{"{b: far, e: x}", make([]fact.Value, 4), "r.b: must be a number, is a text"},
		{"{b: 1, a: 1, e: x}", nil, "x.yaml:1:8: r: b and a say the same twice (leave one out; the other is at x.yaml:1:2)"},
		{"{c: [1 ± 0.1, 3 +/- 0.3, 2], e: x}", []fact.Value{{}, usual, stated, {}, fact.Word("x")}, ""},
		{"{c: [2], d: [1, 2], e: x}", []fact.Value{{}, usual, fact.Nums([]float64{2}), fact.Nums([]float64{1, 2}), fact.Word("x")}, ""},
		{"{c: [2], d: [1, 2, 3], e: x}", nil, "x.yaml:1:5: r.c: has 1 entry, must have 2 (one fewer than d)"},
		{"{c: [2], d: [1, two], e: x}", nil, "r.d[1]: must be a whole number, is a text (write a whole number of teeth from 1 to 20)"},
		{"a: 1", nil, "x.yaml:1:1: r: e is missing (the name of it)"},
		{"e: " + strings.Repeat("x", 65), nil, "x.yaml:1:68: r.e: is too long a name (at most 64 characters)"},
		{"e: é", nil, `x.yaml:1:4: r.e: "é" is no name (lower-case letters, digits and -, with a . between digits only)`},
		{"e: ''", nil, `x.yaml:1:5: r.e: "" is no name`},
		{"{d: [7 t], e: x}", nil, "x.yaml:1:6: r.d[0]: must be a whole number, is a text (write the number of teeth alone)"},
		{"{d: 7, e: x}", nil, "r.d: must be a list of numbers, is a number (write [7])"},
		{"{d: x, e: x}", nil, "r.d: must be a list of numbers, is a text (write a list, each a whole number of teeth from 1 to 20)"},
		{"{a: 1 ± 1e-400, e: x}", nil, `x.yaml:1:9: r.a: "1e-400" is too small a number to tell from 0`},
		{"{" + strings.Repeat("y", 99) + ": 1, e: x}", nil, `r: unknown entry "` + strings.Repeat("y", 60) + `..." (known are a, b, c, d, e)`},
	} {
		got, says := read(t, table, c.text)
		if c.says == "" && says != "" || !strings.Contains(says, c.says) || strings.Contains(says, "\n") {
			t.Errorf("%s: %s, want %s", c.text, says, c.says)
		}
		if c.says == "" && !cmp.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.text, got, c.want)
		}
	}
}

// TestTableMistakes makes tables that are wrong in the program.
func TestTableMistakes(t *testing.T) {
	for _, fields := range [][]fact.Field{
		{{Name: "a"}, {Name: "a"}},
		{{Name: "a", Excludes: "b"}},
		{{Name: "a", OneLess: "b"}},
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%v is taken", fields)
				}
			}()
			fact.NewTable(fields...)
		}()
	}
	table := sample()
	for i, f := range table.Fields() {
		if at, ok := table.Index(f.Name); !ok || at != i || table.Names()[i] != f.Name {
			t.Errorf("%s is at %d", f.Name, at)
		}
	}
	if _, ok := table.Index("no"); ok {
		t.Error("an index of what is not there")
	}
}

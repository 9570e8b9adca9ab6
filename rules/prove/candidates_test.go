package prove

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestNameLists holds what is tried for a list of names: each word of the rule
// alone, beside those of an example and away from them, within the longest list.
func TestNameLists(t *testing.T) {
	f := fact.Field{Name: "makers", Type: fact.Names, Cap: 2}
	var got []string
	for _, v := range nameLists([]fact.Value{fact.Texts("ann", "bob")}, hints{words: []string{"ann", "cid"}}) {
		if within(f, v) {
			got = append(got, written(f, v))
		}
	}
	for _, want := range []string{"[ann]", "[bob]", "[cid]", "[bob, ann]", "[other]"} {
		if !slices.Contains(got, want) {
			t.Errorf("%s is not tried: %v", want, got)
		}
	}
	for _, never := range []string{"[]", "[ann, bob, cid]", "[ann, bob, other]"} {
		if slices.Contains(got, never) {
			t.Errorf("%s is tried", never)
		}
	}
}

// TestLists holds that no number that is tried has more decimals than a file may
// hold, and that lists keep to the range, the order and the longest of their field.
func TestLists(t *testing.T) {
	f := fact.Field{Name: "panels_m2", Type: fact.Fractions, Min: 5, Max: 60, Cap: 4, Rising: true}
	tried := 0
	for _, v := range lists(f, []float64{7.1, 20.2}, hints{numbers: []float64{50, 0.3, 90}, steps: []float64{0.1, 1}, lengths: []int{1, 3, 4, 9}}) {
		if !within(f, v) {
			continue
		}
		tried++
		for i, x := range v.List {
			if x != onGrid(x) || x < 5 || x > 60 || i > 0 && x <= v.List[i-1] || len(v.List) > 4 {
				t.Errorf("%v is tried", v.List)
			}
		}
	}
	if tried < 10 {
		t.Errorf("only %d lists are tried", tried)
	}
	for _, v := range []fact.Value{fact.Nums([]float64{4, 13}), fact.Nums([]float64{13, 61}), fact.Nums([]float64{}), fact.Num(4.9), fact.Nums([]float64{9, 9})} {
		if within(f, v) {
			t.Errorf("%v is within", v)
		}
	}
	for in, want := range map[float64]float64{5.25 + 0.1 + 1e-16: 5.35, 0.1 + 0.2: 0.3, 7: 7} {
		if got := onGrid(in); got != want {
			t.Errorf("%v is rounded to %v", in, got)
		}
	}
}

// TestWith holds that what cannot stand beside a new value is no longer stated.
func TestWith(t *testing.T) {
	o := rules.NewObject("sail", "A sail.",
		fact.Field{Name: "area_m2", Type: fact.Fraction, Max: 99, Excludes: "area_ft2"}, fact.Field{Name: "area_ft2", Type: fact.Fraction, Max: 999},
		fact.Field{Name: "seams_m", Type: fact.Fractions, Max: 9, Cap: 4, OneLess: "panels_m2"}, fact.Field{Name: "panels_m2", Type: fact.Fractions, Max: 9, Cap: 4})
	v, err := rules.NewVocabulary(o)
	if err != nil {
		t.Fatal(err)
	}
	set, err := rules.Load(rules.Config{Vocabulary: v, Files: []fs.FS{fstest.MapFS{"a.yaml": &fstest.MapFile{Data: []byte(
		"pack: a\nrules: [{id: a/a, title: T, why: W, fail_if: sail.area_m2 > 1, say: S, remedy: R, basis: {practice: P}}]\n")}}}})
	if err != nil {
		t.Fatal(err)
	}
	given := []*rules.Record{o.NewRecord([]fact.Value{{}, fact.Num(90), fact.Nums([]float64{1}), fact.Nums([]float64{1, 2})}, nil)}
	for _, c := range []struct {
		field string
		value fact.Value
		gone  string
	}{
		{"area_m2", fact.Num(9), "area_ft2"},
		{"panels_m2", fact.Nums([]float64{1}), "seams_m"},
		{"panels_m2", fact.Nums([]float64{3, 4}), ""},
		{"seams_m", fact.Nums([]float64{1, 2}), "panels_m2"},
		{"seams_m", fact.Value{}, ""},
	} {
		now := with(set, given, change{o.Ref(c.field), c.value})
		gone := ""
		for _, d := range differences(set, given, now) {
			if d.gone && d.name != "sail."+c.field {
				gone += strings.TrimPrefix(d.name, "sail.")
			}
		}
		if gone != c.gone || now[0].Value(o.Ref(c.field).Index).Known != c.value.Known {
			t.Errorf("with %s: %s, %q is gone, want %q", c.field, c.value, gone, c.gone)
		}
	}
}

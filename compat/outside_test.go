package compat_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
)

// Of the tables of outside values, so many rows are held through a mix and its
// figures, and so many of these through a rule as well; a row that is lost fails.
const (
	mixRows  = 239
	ruleRows = 69
)

// noMix are rows that no bicycle's parts can state: another pitch than half an
// inch, a ring of more teeth than any has.
var noMix = []string{
	"exact chain length 762 mm, 34/17, textbook", "exact chain length 762 mm, 80/21, textbook",
	"exact chain length 381 mm, 96/25, textbook", "exact chain length 36 pitches, 63/20, not the paper",
}

// outsideRow is one line of testdata/outside: what a function must give, and who
// says so.
type outsideRow struct {
	file, id, function string
	in                 map[string][]float64
	want, not          []float64
	tolerance          float64
	source             string
	rule, verdict      string
}

// outsideRows reads the tables. Their form is held by the tests of geometry.
func outsideRows(t *testing.T) []outsideRow {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "testdata", "outside", "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no tables of outside values: %v", err)
	}
	var out []outsideRow
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		reader := csv.NewReader(f)
		reader.Comment = '#'
		lines, err := reader.ReadAll()
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range lines[1:] {
			r := outsideRow{
				file: filepath.Base(file), id: line[0], function: line[1], in: map[string][]float64{},
				want: numberList(t, line[3]), tolerance: numberList(t, line[4])[0], not: numberList(t, line[5]),
				source: line[7] + ": " + line[6], rule: line[8], verdict: line[9],
			}
			for entry := range strings.SplitSeq(line[2], "; ") {
				name, value, _ := strings.Cut(entry, "=")
				r.in[name] = numberList(t, value)
			}
			out = append(out, r)
		}
	}
	return out
}

func numberList(t *testing.T, text string) []float64 {
	t.Helper()
	var list []float64
	for word := range strings.FieldsSeq(text) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, x)
	}
	return list
}

// num is a single input, 0 where the row has none.
func (r outsideRow) num(name string) float64 {
	if len(r.in[name]) == 0 {
		return 0
	}
	return r.in[name][0]
}

func (r outsideRow) has(name string) bool { return r.in[name] != nil }

// parts describes parts by kind and field, with bench beside the kinds.
type parts map[string]map[string]any

// load makes the mix of the parts.
func (p parts) load(t *testing.T) compat.Mix {
	t.Helper()
	kinds := maps.Clone(p)
	measured := kinds["bench"]
	delete(kinds, "bench")
	doc := map[string]any{"mix": "A row of a table", "parts": kinds}
	if measured != nil {
		doc["bench"] = measured
	}
	text, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.ReadMix("row.json", text, nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// route is how a function of the tables is asked of a mix: the parts, and the
// result out of the figures.
type route struct {
	parts  func(r outsideRow) parts
	result func(t *testing.T, f figures.Figures, r outsideRow) []float64
}

// figure gives a figure's number, or fails the test.
func figure(t *testing.T, f figures.Figures, name string) float64 {
	t.Helper()
	v, lack := f.Value(name)
	if !v.Known || v.List != nil {
		t.Fatalf("%s is no number: %v, %+v", name, v, lack)
	}
	return v.Num
}

// list gives a figure's list, or fails the test.
func list(t *testing.T, f figures.Figures, name string) []float64 {
	t.Helper()
	v, lack := f.Value(name)
	if !v.Known || len(v.List) == 0 {
		t.Fatalf("%s is no list: %v, %+v", name, v, lack)
	}
	return v.List
}

// numbersOf is the route's result that is nothing but figures of one number.
func numbersOf(names ...string) func(*testing.T, figures.Figures, outsideRow) []float64 {
	return func(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
		t.Helper()
		var out []float64
		for _, name := range names {
			out = append(out, figure(t, f, name))
		}
		return out
	}
}

// listOf is the route's result that is nothing but one list.
func listOf(name string) func(*testing.T, figures.Figures, outsideRow) []float64 {
	return func(t *testing.T, f figures.Figures, _ outsideRow) []float64 { t.Helper(); return list(t, f, name) }
}

// Every row whose function feeds a figure is asked of a whole mix: the figure
// must come out as the source has it, through reading, fields and table.
func TestOutsideValuesThroughMixes(t *testing.T) {
	by := checker(t)
	held, ruled := 0, 0
	asked := map[string]int{}
	for _, r := range outsideRows(t) {
		to, ok := routes[r.function]
		if !ok || slices.Contains(noMix, r.id) {
			continue
		}
		held++
		asked[r.function]++
		t.Run(r.id, func(t *testing.T) {
			report := by.Check(to.parts(r).load(t))
			r.hold(t, to.result(t, report.Figures, r))
			if r.rule == "" || slices.Contains(pendingRules, r.rule) {
				return
			}
			ruled++
			if got, names := saidOf(report, r.rule); got != r.verdict {
				t.Errorf("%s gives %s (%v), want %s (%s)", r.rule, got, names, r.verdict, r.source)
			}
		})
	}
	for _, function := range slices.Sorted(maps.Keys(routes)) {
		if asked[function] == 0 {
			t.Errorf("no row was held through a mix for %q", function)
		}
	}
	if held != mixRows || ruled != ruleRows {
		t.Errorf("%d rows are held through mixes, %d through rules; want %d and %d", held, ruled, mixRows, ruleRows)
	}
}

// hold holds a result against what the row wants and what it must not be.
func (r outsideRow) hold(t *testing.T, got []float64) {
	t.Helper()
	said := fmt.Sprintf("%s, %s", r.file, r.source)
	if len(got) != len(r.want) {
		t.Fatalf("got %v, want %v (%s)", got, r.want, said)
	}
	// Figures are rounded to six decimals.
	tolerance := r.tolerance + 0.5e-6
	for i, x := range got {
		if !(math.Abs(x-r.want[i]) <= tolerance) {
			t.Errorf("entry %d: got %v, want %v within %v (%s)", i, x, r.want[i], r.tolerance, said)
		}
		for _, wrong := range r.not {
			if !(math.Abs(x-wrong) > r.tolerance) {
				t.Errorf("entry %d: got %v, which is the wrong %v (%s)", i, x, wrong, said)
			}
		}
	}
}

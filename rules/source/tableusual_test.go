package source

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules/fact"
)

var usualTable = fact.NewTable(
	fact.Field{Name: "pitch_mm", Type: fact.Fraction, Min: 2, Max: 8},
	fact.Field{Name: "cogs", Type: fact.Whole, Min: 1, Max: 16, Required: true},
	fact.Field{Name: "pulls_mm", Type: fact.Fractions, Cap: 9, Min: 1, Max: 9},
	fact.Field{Name: "body", Type: fact.Name, Required: true, Instead: "even"},
	fact.Field{Name: "even", Type: fact.Flag},
	fact.Field{Name: "side", Type: fact.Choice, Choices: []string{"left", "right"}, Default: new(fact.Word("left"))},
)

// readUsual reads a record of usual values and gives its values and problems.
func readUsual(t *testing.T, text string) ([]fact.Value, string) {
	t.Helper()
	n, err := Parse("x.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var ps Problems
	values := n.ReadUsual(usualTable, "r", nil, &ps)
	if err := ps.Err(); err != nil {
		return values, err.Error()
	}
	return values, ""
}

// TestUsualValues has what a record of usual values holds: nothing is required of it.
func TestUsualValues(t *testing.T) {
	usual := func(v fact.Value) fact.Value {
		v.Usual = fact.ByClass
		return v
	}
	spread := usual(fact.Num(3.65))
	spread = spread.WithSpread(&fact.Spread{Least: 3.55, Most: 3.75, Source: "trade-page"})
	flat := usual(fact.Num(9))
	flat = flat.WithSpread(&fact.Spread{Least: 9, Most: 9, Source: "memory"})
	left := fact.Word("left")
	for text, want := range map[string][]fact.Value{
		"{}": {{}, {}, {}, {}, {}, left},
		"pitch_mm: {usual: 3.65, least: 3.55, most: 3.75, source: trade-page}": {spread, {}, {}, {}, {}, left},
		"{cogs: {most: 9, usual: 9, least: 9, source: memory}, even: true}":    {{}, flat, {}, {}, usual(fact.Truth(true)), left},
		"{pitch_mm: 4, pulls_mm: [2, 3], body: spline-9, side: right}": {usual(fact.Num(4)), {}, usual(fact.Nums([]float64{2, 3})),
			usual(fact.Word("spline-9")), {}, usual(fact.Word("right"))},
	} {
		got, says := readUsual(t, text)
		if says != "" {
			t.Errorf("%s: %s", text, says)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
	}
}

// TestUsualRefusals has what is no usual value, each with its place.
func TestUsualRefusals(t *testing.T) {
	const form = " (write {usual: ..., least: ..., most: ..., source: ...}"
	for text, want := range map[string]string{
		"pitch_mm: {usual: 3.65, least: 3.7, most: 3.75, source: x}":            "x.yaml:1:32: r.pitch_mm.least: 3.7 is above the usual value, 3.65 (one of the two is wrong",
		"pitch_mm: {usual: 3.65, least: 3.5, most: 3.6, source: x}":             "x.yaml:1:43: r.pitch_mm.most: 3.6 is below the usual value, 3.65",
		"pitch_mm: {usual: 3.65, least: 1.5, most: 8.5, source: x}":             "x.yaml:1:32: r.pitch_mm.least: 1.5 is below the least, 2",
		"pitch_mm: {usual: 3.65, most: 3.75, source: x}":                        "x.yaml:1:11: r.pitch_mm.least: the spread has no least" + form,
		"pitch_mm: {least: 3.65, most: 3.75, source: x}":                        "x.yaml:1:11: r.pitch_mm.usual: the spread has no usual" + form,
		"pitch_mm: {usual: 3.65, least: 3.5, most: 3.7}":                        "x.yaml:1:11: r.pitch_mm: the spread has no source (name one, or write source: memory)",
		"pitch_mm: {usual: 3.65, least: 3.5, most: 3.7, source: A page}":        `x.yaml:1:56: r.pitch_mm.source: "A page" is no name`,
		"pitch_mm: {usual: 3.65, least: 3.5, most: 3.7, memory: true}":          `x.yaml:1:48: r.pitch_mm: unknown entry "memory" (known are usual, least, most, source)`,
		"pitch_mm: {usual: 3.65, leats: 3.5, least: 3.5, most: 3.7, source: x}": `x.yaml:1:25: r.pitch_mm: unknown entry "leats" (did you mean "least"?)`,
		"pitch_mm: {usual: 3.65 ± 0.1, least: 3.5, most: 3.7, source: x}":       "x.yaml:1:19: r.pitch_mm.usual: a usual value has a spread and no tolerance (take the tolerance",
		"pitch_mm: {usual: wide, least: 3.5, most: 3.7, source: x}":             "x.yaml:1:19: r.pitch_mm.usual: must be a number, is a text",
		"cogs: {usual: 9, least: 8.5, most: 9, source: x}":                      "x.yaml:1:25: r.cogs.least: ",
		"pitch_mm: 3.65 ± 0.1":                                                  "x.yaml:1:11: r.pitch_mm: a usual value has a spread and no tolerance" + form,
		"pulls_mm: [3 ± 0.1]":                                                   "x.yaml:1:11: r.pulls_mm: a usual value has a spread and no tolerance",
		"pulls_mm: {usual: 3, least: 2, most: 4, source: x}":                    "x.yaml:1:11: r.pulls_mm: has no spread, for it is no single number (write it as it is",
		"even: {usual: true, source: x}":                                        "x.yaml:1:7: r.even: has no spread, for it is no single number",
		"pitch_mm: {}":                                                          "x.yaml:1:11: r.pitch_mm: the spread has no source",
	} {
		values, says := readUsual(t, text)
		if !strings.Contains(says, want) {
			t.Errorf("%s:\n%s\nwant %s", text, says, want)
		}
		for i, f := range usualTable.Fields() {
			if values[i].Known && f.Default == nil {
				t.Errorf("%s: %s is half read: %v", text, f.Name, values[i])
			}
		}
	}
}

// TestSpreadElsewhere holds that a record of anything else takes no spread, and that
// what will do instead of a field is said.
func TestSpreadElsewhere(t *testing.T) {
	for text, want := range map[string]string{
		"{cogs: 9, even: true, pitch_mm: {usual: 3.65, least: 3.5, most: 3.7, source: x}}": "x.yaml:1:33: r.pitch_mm: only a usual value goes over a spread (write the number alone",
		"{cogs: 9, even: true, pulls_mm: {least: 3}}":                                      "x.yaml:1:33: r.pulls_mm: only a usual value goes over a spread",
		"{cogs: 9, even: true, pitch_mm: {to: 3}}":                                         "x.yaml:1:33: r.pitch_mm: must be a number, is a map",
		"{cogs: 9}":     "x.yaml:1:1: r: body is missing ( Where nobody knows, even will do.)",
		"{even: false}": "x.yaml:1:1: r: cogs is missing",
	} {
		if _, says := read(t, usualTable, text); !strings.Contains(says, want) || strings.Contains(says, "\n") {
			t.Errorf("%s:\n%s\nwant %s", text, says, want)
		}
	}
	if values, says := read(t, usualTable, "{cogs: 9, even: true}"); says != "" || values[1].Usual != fact.NotUsual {
		t.Errorf("what will do instead is not taken: %v, %s", values, says)
	}
}

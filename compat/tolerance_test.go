package compat_test

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// toleranceCase is one rule, the facts of a mix, and what the rule must give.
type toleranceCase struct {
	name  string
	rule  string // its conditions
	extra string // more entries of the rule file
	parts map[string]map[string]any
	bench map[string]any

	verdict string   // absent where the rule is not applied
	nominal string   // of the margin; empty for none
	by      []string // the facts that decide
	open    bool
}

// width is a mix of one cassette with a pitch, as a person would write it.
func width(pitch any) map[string]map[string]any {
	return map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13, 15, 18}, "pitch_mm": pitch}}
}

// Facts with a tolerance are moved to both of their ends: a pass must hold at all
// corners, and so must a fail; anything between warns and names what decides.
var toleranceCases = []toleranceCase{
	{name: "no tolerance", rule: "fail_if: cassette.pitch_mm > 4", parts: width(3.98), verdict: "pass"},
	{name: "a pass that holds", rule: "fail_if: cassette.pitch_mm > 4", parts: width("3.90 ± 0.09"), verdict: "pass"},
	{name: "a pass that holds at the lower end only", rule: "fail_if: cassette.pitch_mm > 4", parts: width("3.90 ± 0.11"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "a pass that holds at the upper end only", rule: "fail_if: cassette.pitch_mm < 4", parts: width("4.10 ± 0.11"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "a fail that holds", rule: "fail_if: cassette.pitch_mm > 4", parts: width("4.10 ± 0.09"), verdict: "fail"},
	{name: "a fail that does not", rule: "fail_if: cassette.pitch_mm > 4", parts: width("4.10 ± 0.11"),
		verdict: "warn", nominal: "fail", by: []string{"cassette.pitch_mm"}},
	{name: "a fail that only the lower end mends", rule: "fail_if: cassette.pitch_mm < 4", parts: width("3.90 ± 0.11"),
		verdict: "warn", nominal: "fail", by: []string{"cassette.pitch_mm"}},
	{name: "a warning at one end, a fail at the other", rule: "fail_if: cassette.pitch_mm > 4.2\n    warn_if: cassette.pitch_mm > 4", parts: width("4.1 ± 0.2"),
		verdict: "warn", nominal: "warn", by: []string{"cassette.pitch_mm"}},
	{name: "both ends fail and what is stated does not", rule: "fail_if: abs(cassette.pitch_mm - 4) > 0.1", parts: width("4 ± 0.2"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "through a figure", rule: "fail_if: last(figures.cog_positions_mm) > 12.2", parts: width("4 ± 0.1"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "through a figure that holds", rule: "fail_if: last(figures.cog_positions_mm) > 12.4", parts: width("4 ± 0.1"), verdict: "pass"},
	{name: "a tolerance of what the rule does not read", rule: "fail_if: cassette.pitch_mm > 4",
		parts:   map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13}, "pitch_mm": 3.98, "cog_thickness_mm": "1.6 ± 0.2"}},
		verdict: "pass"},
	{name: "other facts of the part stay", rule: "fail_if: cassette.pitch_mm > 4 || cassette.cog_thickness_mm < 1.5",
		parts:   map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13}, "pitch_mm": "3.9 ± 0.05", "cog_thickness_mm": 1.6}},
		verdict: "pass"},

	{name: "a list that holds", rule: "fail_if: sum(cassette.pitches_mm) > 12.3", parts: lists("4 ± 0.05"), verdict: "pass"},
	{name: "a list moves as one", rule: "fail_if: sum(cassette.pitches_mm) > 12.1", parts: lists("4 ± 0.05"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitches_mm"}},
	{name: "one entry of a list", rule: "fail_if: cassette.pitches_mm.exists(p, p > 4.02)",
		parts:   map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13, 15}, "pitches_mm": []any{4.0, "4.0 ± 0.03"}}},
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitches_mm"}},

	{name: "two facts, either at its end", rule: "fail_if: chain.outer_width_mm - cassette.pitch_mm > 1.5", parts: two("5.4 ± 0.1", "4.0 ± 0.2"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm", "chain.outer_width_mm"}},
	{name: "two facts, one decides", rule: "fail_if: chain.outer_width_mm - cassette.pitch_mm > 1.55", parts: two("5.4 ± 0.01", "4.0 ± 0.2"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "two facts, only together", rule: "fail_if: chain.outer_width_mm - cassette.pitch_mm > 1.65", parts: two("5.4 ± 0.1", "4.0 ± 0.2"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm", "chain.outer_width_mm"}},
	{name: "two facts that hold", rule: "fail_if: chain.outer_width_mm - cassette.pitch_mm > 1.75", parts: two("5.4 ± 0.1", "4.0 ± 0.2"), verdict: "pass"},

	{name: "four facts", rule: "fail_if: " + five4 + " > 17.35", parts: fiveParts(4),
		verdict: "warn", nominal: "pass", by: fiveNames[:4]},
	{name: "four facts that hold", rule: "fail_if: " + five4 + " > 17.45", parts: fiveParts(4), verdict: "pass"},
	{name: "five facts leave no pass", rule: "fail_if: " + five5 + " > 100", parts: fiveParts(5),
		verdict: "warn", nominal: "pass", by: fiveNames, open: true},
	{name: "five facts leave a fail", rule: "fail_if: " + five5 + " > 1", parts: fiveParts(5),
		verdict: "fail", nominal: "fail", by: fiveNames, open: true},

	{name: "assumed and toleranced: the fail is a warning before", rule: "fail_if: cassette.pitch_mm > 4",
		parts:   map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13}, "pitch_mm": "4.2 ± 0.1", "basis": "assumed"}},
		verdict: "warn"},
	{name: "assumed and toleranced: a pass that does not hold", rule: "fail_if: cassette.pitch_mm > 4",
		parts:   map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13}, "pitch_mm": "3.95 ± 0.1", "basis": "assumed"}},
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},

	{name: "adjusted: a pass that does not hold", rule: "fail_if: cassette.pitch_mm > 4", extra: toFail, parts: width("3.95 ± 0.1"),
		verdict: "fail", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "adjusted: a pass that holds", rule: "fail_if: cassette.pitch_mm > 4", extra: toFail, parts: width("3.8 ± 0.1"), verdict: "pass"},
	{name: "adjusted: a fail that does not hold", rule: "fail_if: cassette.pitch_mm > 4", extra: toPass, parts: width("4.05 ± 0.1"),
		verdict: "pass", nominal: "fail", by: []string{"cassette.pitch_mm"}},

	{name: "when is true at an end only", rule: "when: cassette.pitch_mm > 4\n    fail_if: cassette.pitch_mm > 4.02", parts: width("3.99 ± 0.05"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "when is true at an end and nothing is wrong there", rule: "when: cassette.pitch_mm > 4\n    fail_if: cassette.pitch_mm > 4.1", parts: width("3.99 ± 0.05"), verdict: "absent"},
	{name: "when is false everywhere", rule: "when: cassette.pitch_mm > 4\n    fail_if: cassette.pitch_mm > 4.02", parts: width("3.90 ± 0.05"), verdict: "absent"},
	{name: "when is false at an end", rule: "when: cassette.pitch_mm > 4\n    fail_if: cassette.pitch_mm > 3", parts: width("4.01 ± 0.05"),
		verdict: "warn", nominal: "fail", by: []string{"cassette.pitch_mm"}},

	{name: "when is false and five facts leave it so", rule: "when: " + five5 + " > 100\n    fail_if: " + five5 + " > 1", parts: fiveParts(5), verdict: "absent"},

	{name: "undecided stays so", rule: "fail_if: cassette.pitch_mm > 4 || cassette.cog_thickness_mm > 2", parts: width("3.95 ± 0.02"), verdict: "unknown"},
	{name: "an error at an end is no pass", rule: "fail_if: '1 / (cassette.pitch_mm > 4.04 ? 0 : 1) > 2'", parts: width("4.00 ± 0.05"),
		verdict: "warn", nominal: "pass", by: []string{"cassette.pitch_mm"}},
	{name: "measured on the bench", rule: "fail_if: bench.chain_wear_percent > 0.5", bench: map[string]any{"chain_wear_percent": "0.48 ± 0.05"},
		verdict: "warn", nominal: "pass", by: []string{"bench.chain_wear_percent"}},
}

const (
	toFail = "adjust:\n  - {rule: try/it, to: fail, reason: strict, by: the wharf, until: 2100-01-01}\n"
	toPass = "adjust:\n  - {rule: try/it, to: pass, reason: known, by: the wharf, until: 2100-01-01}\n"
	five4  = "cassette.pitch_mm + chain.outer_width_mm + cassette.cog_thickness_mm + crankset.ring_thickness_mm + 4"
	five5  = five4 + " + chain.inner_width_mm"
)

var fiveNames = []string{"cassette.pitch_mm", "cassette.cog_thickness_mm", "chain.outer_width_mm", "crankset.ring_thickness_mm", "chain.inner_width_mm"}

// lists is a cassette of three even pitches.
func lists(pitch string) map[string]map[string]any {
	return map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13, 15, 18}, "pitches_mm": []any{pitch, pitch, pitch}}}
}

func two(outer, pitch string) map[string]map[string]any {
	return map[string]map[string]any{"chain": {"outer_width_mm": outer}, "cassette": {"cogs_t": []int{11, 13}, "pitch_mm": pitch}}
}

// fiveParts states the first n of fiveNames with a tolerance of 0.1 each; as
// stated the first four and 4 come to 17.0.
func fiveParts(n int) map[string]map[string]any {
	inner := any(2.2)
	if n == 5 {
		inner = "2.2 ± 0.1"
	}
	return map[string]map[string]any{
		"cassette": {"cogs_t": []int{11, 13}, "pitch_mm": "4.0 ± 0.1", "cog_thickness_mm": "1.7 ± 0.1"},
		"chain":    {"outer_width_mm": "5.3 ± 0.1", "inner_width_mm": inner},
		"crankset": {"rings_t": []int{32}, "ring_thickness_mm": "2.0 ± 0.1"},
	}
}

// toleranceRules is a pack with the one rule of a case.
func toleranceRules(test toleranceCase) fstest.MapFS {
	text := fmt.Sprintf(`pack: try
rules:
  - id: try/it
    title: It holds
    why: A test says so.
    %s
    say: It does not hold.
    remedy: Another.
    basis: {practice: a test}
`, test.rule)
	return fstest.MapFS{"try.yaml": {Data: []byte(text + test.extra)}}
}

func TestTolerances(t *testing.T) {
	for _, test := range toleranceCases {
		t.Run(test.name, func(t *testing.T) {
			c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{toleranceRules(test)}})
			if err != nil {
				t.Fatal(err)
			}
			var parts []catalog.Part
			for kind, fields := range test.parts {
				p, err := catalog.New(kind, fields)
				if err != nil {
					t.Fatal(err)
				}
				parts = append(parts, p)
			}
			m, err := compat.NewMix("try", compat.ScopeCart, parts...)
			if err != nil {
				t.Fatal(err)
			}
			if test.bench != nil {
				if m, err = m.Measured(test.bench); err != nil {
					t.Fatal(err)
				}
			}
			for range 2 { // a check that wrote into the parts would tell the second time
				holdTolerance(t, test, c.Check(m))
			}
		})
	}
}

// holdTolerance holds a report against what a case wants.
func holdTolerance(t *testing.T, test toleranceCase, r compat.Report) {
	t.Helper()
	found := r.Findings()
	if len(found) == 0 {
		if test.verdict != "absent" {
			t.Fatalf("the rule is not applied: %+v", r.NotApplied())
		}
		return
	}
	f := found[0]
	if f.Verdict.String() != test.verdict {
		t.Fatalf("got %s, want %s: %s", f.Verdict, test.verdict, f.Text)
	}
	if (f.Margin == nil) != (test.nominal == "") {
		t.Fatalf("margin %+v, want %q", f.Margin, test.nominal)
	}
	if f.Margin == nil {
		return
	}
	by := slices.Sorted(slices.Values(f.Margin.By))
	if f.Margin.Nominal.String() != test.nominal || !slices.Equal(by, slices.Sorted(slices.Values(test.by))) || f.Margin.Open != test.open {
		t.Errorf("margin %+v, want %s by %v, open %v", f.Margin, test.nominal, test.by, test.open)
	}
	if !strings.Contains(f.Text, r.Words(f.Margin.By[0])) {
		t.Errorf("the text names no fact that decides: %s", f.Text)
	}
}

// Rules that hang on some of the facts that another hangs on share its corners,
// and each is decided as it would be alone.
func TestTolerancesAreShared(t *testing.T) {
	conditions := []string{
		"chain.outer_width_mm > 5.45", "cassette.pitch_mm > 4.1", "cassette.pitch_mm < 3.9", "chain.outer_width_mm < 5.35",
		"chain.outer_width_mm - cassette.pitch_mm > 1.65", "chain.outer_width_mm + cassette.pitch_mm > 9.9", "chain.outer_width_mm > 5.55",
	}
	pack := "pack: try\nrules:\n"
	for i, condition := range conditions {
		pack += fmt.Sprintf("  - {id: try/r%d, title: It holds, why: A test says so., fail_if: %s, say: No., remedy: Another., basis: {practice: a test}}\n", i, condition)
	}
	c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{fstest.MapFS{"try.yaml": {Data: []byte(pack)}}}})
	if err != nil {
		t.Fatal(err)
	}
	var parts []catalog.Part
	for kind, fields := range two("5.4 ± 0.1", "4.0 ± 0.2") {
		p, err := catalog.New(kind, fields)
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, p)
	}
	m, err := compat.NewMix("shared", compat.ScopeCart, parts...)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range c.Check(m).Findings() {
		says := f.Rule + " " + f.Verdict.String()
		if f.Margin != nil {
			says += " " + strings.Join(f.Margin.By, " ")
		}
		got = append(got, says)
	}
	want := []string{
		"try/r0 warn chain.outer_width_mm", "try/r1 warn cassette.pitch_mm", "try/r2 warn cassette.pitch_mm", "try/r3 warn chain.outer_width_mm",
		"try/r4 warn cassette.pitch_mm chain.outer_width_mm", "try/r5 pass", "try/r6 pass",
	}
	if slices.Sort(got); !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

// An example decides as a check does.
func TestExamplesOfTolerances(t *testing.T) {
	rule := `pack: try
rules:
  - id: try/it
    title: It holds
    why: A test says so.
    fail_if: last(figures.cog_positions_mm) > 12.2
    say: It does not hold.
    remedy: Another.
    basis: {practice: a test}
    examples:
      - {name: within, given: {cassette: {cogs_t: [11, 13, 15, 18], pitch_mm: 4 ± 0.05}}, want: pass}
      - {name: only just, given: {cassette: {cogs_t: [11, 13, 15, 18], pitch_mm: 4 ± 0.1}}, want: warn}
      - {name: a figure that is stated stays, given: {cassette: {cogs_t: [11, 13, 15, 18], pitch_mm: 4 ± 0.1}, figures: {cog_positions_mm: [0, 4, 8, 12]}}, want: pass}
      - {name: beyond, given: {cassette: {cogs_t: [11, 13, 15, 18], pitch_mm: 4.5 ± 0.1}}, want: fail}
      - {name: wrong, given: {cassette: {cogs_t: [11, 13, 15, 18], pitch_mm: 4 ± 0.1}}, want: pass}
`
	c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{fstest.MapFS{"try.yaml": {Data: []byte(rule)}}}})
	if err != nil {
		t.Fatal(err)
	}
	wrong, ran := c.Rules().Prove()
	if ran != 5 || len(wrong) != 1 || wrong[0].Example.Name != "wrong" {
		t.Errorf("%d ran, wrong are %+v", ran, wrong)
	}
}

// A result is the rules' own: a report sorts and judges a copy.
func TestResultStaysInFileOrder(t *testing.T) {
	c := checker(t)
	part, err := catalog.New("cassette", map[string]any{"cogs_t": []int{11, 13, 42}, "pitch_mm": "3.65 ± 0.1", "cog_thickness_mm": "1.6 ± 0.1"})
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.NewMix("order", compat.ScopeCart, part)
	if err != nil {
		t.Fatal(err)
	}
	order := map[*rules.Rule]int{}
	for i, r := range c.Rules().Rules() {
		order[r] = i
	}
	c.Check(m)
	res := c.Rules().Evaluate(m.Facts().Measure().Records())
	if !slices.IsSortedFunc(res.Findings, func(a, b rules.Finding) int { return order[a.Rule] - order[b.Rule] }) {
		t.Error("the findings of a result are not in file order")
	}
}

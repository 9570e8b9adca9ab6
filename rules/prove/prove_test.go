package prove_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/prove"
)

// loose has examples that leave the rule open in several places.
const loose = `
pack: boats
rules:
  - id: boats/loose
    title: The sail suits the mast
    why: Boats sink.
    when: stated(sail.reefs)
    let:
      over: sail.area_m2 - 2 * mast.height_m
    fail_if: over > 10 && sail.reefs > 1
    say: S
    remedy: R
    basis: {practice: P}
    examples:
      - {name: far over, given: {sail: {area_m2: 50, reefs: 3}, mast: {height_m: 8}}, want: fail}
      - {name: fine, given: {sail: {area_m2: 9, reefs: 3}, mast: {height_m: 8}}, want: pass}
`

// tight pins the same rule down.
var tight = strings.TrimRight(loose, "\n") + `
      - {name: just over, given: {sail: {area_m2: 27, reefs: 2}, mast: {height_m: 8}}, want: fail}
      - {name: just not, given: {sail: {area_m2: 26, reefs: 2}, mast: {height_m: 8}}, want: pass}
      - {name: hardly over, given: {sail: {area_m2: 26.5, reefs: 2}, mast: {height_m: 8}}, want: fail}
      - {name: hardly under, given: {sail: {area_m2: 25.5, reefs: 2}, mast: {height_m: 8}}, want: pass}
      - {name: one reef, given: {sail: {area_m2: 50, reefs: 1}, mast: {height_m: 8}}, want: pass}
      - {name: low mast, given: {sail: {area_m2: 13, reefs: 2}, mast: {height_m: 1}}, want: fail}
      - {name: no reefs, given: {sail: {area_m2: 50}, mast: {height_m: 8}}, want: not_applied}
      - {name: no height, given: {sail: {area_m2: 50, reefs: 2}, mast: {stays: 1}}, want: unknown}
`

// TestMutants holds that changes which no example notices are found, with facts
// that would tell them, and that good examples leave none.
func TestMutants(t *testing.T) {
	report, err := prove.Mutants(mustLoad(t, loose))
	if err != nil {
		t.Fatal(err)
	}
	open := map[string]*prove.Proposal{}
	for _, m := range report.Survivors() {
		open[m.In+": "+m.Change] = m.Closing
		if m.Rule.ID != "boats/loose" || m.Pos.Line == 0 || m.Text == "" || m.Killed {
			t.Errorf("a survivor without its place: %+v", m)
		}
	}
	for _, want := range []string{"fail_if: > becomes >=", "fail_if: 10 becomes 11"} {
		if closing, ok := open[want]; !ok || closing == nil {
			t.Errorf("%s does not survive with facts that would tell it: %v", want, open)
		}
	}
	report, err = prove.Mutants(mustLoad(t, tight))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range report.Survivors() {
		t.Errorf("%s in %s survives good examples: %s", m.Change, m.In, m.Closing)
	}
	if len(report.Mutants) < 8 {
		t.Errorf("only %d mutants", len(report.Mutants))
	}
}

// TestWaivers holds that a survivor may be let live for a reason, and that a
// waiver which none needs is found.
func TestWaivers(t *testing.T) {
	set := mustLoad(t, strings.Replace(loose, "    examples:", `    waive:
      - {in: fail_if, change: 10 becomes 11, reason: Nobody measures so well.}
      - {in: fail_if, change: 10 becomes 12, reason: There is no such change.}
    examples:`, 1))
	report, err := prove.Mutants(set)
	if err != nil {
		t.Fatal(err)
	}
	waived := 0
	for _, m := range report.Mutants {
		if m.Waived == "" {
			continue
		}
		waived++
		if m.Change != "10 becomes 11" || m.Waived != "Nobody measures so well." {
			t.Errorf("waived: %+v", m)
		}
	}
	for _, m := range report.Survivors() {
		if m.Change == "10 becomes 11" {
			t.Error("a waived mutant is among the survivors")
		}
	}
	if waived != 1 || len(report.Stale) != 1 || report.Stale[0].Change != "10 becomes 12" {
		t.Errorf("%d waived, stale are %v", waived, report.Stale)
	}
}

// TestDrawnLimitsAreMutated holds that a number which is drawn is changed like any other:
// that a drawing names it as a limit does not take its mutants away.
func TestDrawnLimitsAreMutated(t *testing.T) {
	changes := func(text string) (out []string) {
		report, err := prove.Mutants(mustLoad(t, text))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range report.Mutants {
			out = append(out, fmt.Sprint(m.In, m.Change, m.Killed))
		}
		return out
	}
	drawn := changes(strings.Replace(tight, "    basis:", "    draw: {heel: {fail: 10}}\n    basis:", 1))
	if plain := changes(tight); !slices.Equal(drawn, plain) || !slices.Contains(drawn, "fail_if10 becomes 11true") {
		t.Errorf("with draw: %q\nwithout it %q", drawn, plain)
	}
}

// cover measures a set of one rule.
func cover(t *testing.T, set *rules.Set) prove.Cover {
	t.Helper()
	covered, err := prove.Coverage(set)
	if err != nil || len(covered) != 1 {
		t.Fatalf("%d rules covered: %v", len(covered), err)
	}
	return covered[0]
}

// TestCoverage holds what the examples of a rule reach, and that the gaps are
// named with facts that close them.
func TestCoverage(t *testing.T) {
	c := cover(t, mustLoad(t, loose))
	var gaps []string
	for _, g := range c.Gaps {
		gaps = append(gaps, g.Text)
		if g.Pos.Line == 0 || g.Closing == nil {
			t.Errorf("a gap without a place or facts that close it: %+v", g)
		}
	}
	for _, want := range []string{"no example gives not_applied", "no example gives unknown", "in no example is sail.reefs > 1 false"} {
		if !strings.Contains(strings.Join(gaps, "\n"), want) {
			t.Errorf("%q is not among the gaps %q", want, gaps)
		}
	}
	if c.Total-c.Covered != len(c.Gaps) || len(c.Reached) != 2 {
		t.Errorf("%d of %d covered, %d gaps, reached %v", c.Covered, c.Total, len(c.Gaps), c.Reached)
	}
	if c := cover(t, mustLoad(t, tight)); len(c.Gaps) > 0 || c.Covered != c.Total {
		t.Errorf("good examples leave %+v", c.Gaps)
	}
}

// An error is no outcome that an example reaches, tells no mutant, and closes no
// gap: where the search comes by one, it is shown as what it is.
func TestErrors(t *testing.T) {
	set := mustLoad(t, one(`when: "stated(sail.reefs)", fail_if: "sail.area_m2 / sail.reefs > 9"`,
		`{name: light, given: {sail: {area_m2: 9, reefs: 3}}, want: pass}, {name: heavy, given: {sail: {area_m2: 90, reefs: 3}}, want: fail}`))
	c := cover(t, set)
	if len(c.Faults) != 1 || c.Faults[0].Text != "at sail.reefs: 0 this rule goes wrong: division by zero" || c.Faults[0].Pos.Line == 0 {
		t.Errorf("the search came by %+v", c.Faults)
	}
	for _, g := range c.Gaps {
		if g.Closing == nil || strings.Contains(g.Closing.Text, "reefs: 0") {
			t.Errorf("%s is closed by %v", g.Text, g.Closing)
		}
	}
	for name, rule := range map[string]string{
		// The second entry is never there, so a change to it only goes wrong.
		"an entry that is not there": one(`fail_if: "sail.panels_m2[0] > 20"`,
			`{name: small, given: {sail: {panels_m2: [10]}}, want: pass}, {name: large, given: {sail: {panels_m2: [40]}}, want: fail}`),
		// An example that is itself in error reaches nothing.
		"a rule in error": one(`fail_if: "1 / sail.reefs > 2"`, `{name: none, given: {sail: {reefs: 0}}, want: unknown}`),
		// One of its conditions is false there, and still it shows nothing.
		"an example in error": one(`fail_if: "sail.wet || 1 / sail.reefs > 2"`, `{name: none, given: {sail: {reefs: 0, wet: false}}, want: unknown}`),
	} {
		set := mustLoad(t, rule)
		report, err := prove.Mutants(set)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range report.Mutants {
			if m.Killed && (m.Change == "0 becomes 1" || name == "a rule in error") {
				t.Errorf("%s: %s is killed by an error", name, m.Change)
			}
		}
		if c := cover(t, set); name != "an entry that is not there" && len(c.Reached)+c.Covered > 0 {
			t.Errorf("%s reaches %v, and covers %d", name, c.Reached, c.Covered)
		}
	}
}

// TestContradiction holds that facts which contradict each other are no fault of
// the rule that reads a figure of them.
func TestContradiction(t *testing.T) {
	set := mustLoad(t, one(`fail_if: "rig.load > 9 && sail.cloth == 'nylon'"`,
		`{name: light, given: {sail: {area_m2: 9, cloth: nylon}, mast: {height_m: 3, stays: 0}}, want: unknown}`))
	if c := cover(t, set); len(c.Faults) > 0 || len(c.Reached) > 0 {
		t.Errorf("the search came by %+v, and the example reaches %v", c.Faults, c.Reached)
	}
}

// TestAlone holds that weak examples kill nothing where their rule is proven
// without the rules before it.
func TestAlone(t *testing.T) {
	text := "pack: boats\nrules:\n"
	for _, id := range []string{"first", "second", "third"} {
		text += strings.SplitN(one(`fail_if: "sail.reefs > 3"`, `{name: far below, given: {sail: {reefs: 1}}, want: pass},
      {name: no sail, given: {mast: {stays: 1}}, want: not_applied}`), "rules:\n", 2)[1]
		text = strings.Replace(text, "boats/one", "boats/"+id, 1)
	}
	report, err := prove.Mutants(mustLoad(t, text).Only(func(id string) bool { return id == "boats/third" }))
	if err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprintf("%d of %d survive", len(report.Survivors()), len(report.Mutants)); got != "3 of 3 survive" {
		t.Error(got)
	}
}

// TestSearch holds what the search finds: lists at their limits and of other
// lengths, parts that only a figure reads, names; each with what to want.
func TestSearch(t *testing.T) {
	const load = `{name: light, given: {sail: {area_m2: 9}, mast: {height_m: 3}}, want: pass}`
	const panels = `{name: two, given: {sail: {panels_m2: [7, 20]}}, want: pass}`
	for _, c := range []struct{ rule, gap, want string }{
		{one(`fail_if: "last(sail.panels_m2) > 50"`, panels+`, {name: large, given: {sail: {panels_m2: [7, 60]}}, want: fail}`), "50 becomes 49",
			`like "two", with sail.panels_m2: [7, 50]; want: pass`},
		{one(`fail_if: "first(sail.panels_m2) < 5"`, panels), "no example gives fail", ""}, // 5 is the least
		{one(`fail_if: "size(sail.panels_m2) == 1"`, panels), "no example gives fail", `like "two", with sail.panels_m2: [7]; want: fail`},
		{one(`fail_if: "size(sail.panels_m2) == 4"`, panels), "no example gives fail", `like "two", with sail.panels_m2: [7, 20, 21, 22]; want: fail`},
		{one(`fail_if: "size(sail.panels_m2) == 9"`, panels), "no example gives fail", ""}, // eight are the most
		{one(`fail_if: "rig.load > 9"`, load), "no example gives not_applied", `like "light", without sail; want: not_applied`},
		{one(`fail_if: "rig.load > 9"`, load), "no example gives unknown", `like "light", without sail.area_m2; want: unknown`},
		{one(`fail_if: "rig.load > 9.35"`, load), "no example gives fail", `like "light", with rig.load: 9.36; want: fail`},
		{one(`fail_if: "sail.wet && sail.cloth == 'nylon'"`, `{name: dry, given: {sail: {wet: false, cloth: canvas}}, want: pass}`), "no example gives fail",
			`like "dry", with sail.cloth: nylon and with sail.wet: true; want: fail`},
	} {
		set := mustLoad(t, c.rule)
		report, err := prove.Mutants(set)
		if err != nil {
			t.Fatal(err)
		}
		got := "no such gap"
		for _, m := range report.Survivors() {
			if m.Change == c.gap {
				got = m.Closing.String()
			}
		}
		for _, g := range cover(t, set).Gaps {
			if g.Text == c.gap {
				got = g.Closing.String()
			}
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.gap, got, c.want)
		}
	}
}

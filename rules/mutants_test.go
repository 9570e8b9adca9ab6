package rules_test

import (
	"strings"
	"testing"
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
	report, err := mustLoad(t, loose).Mutants()
	if err != nil {
		t.Fatal(err)
	}
	open := map[string]string{}
	for _, m := range report.Survivors() {
		open[m.In+": "+m.Change] = m.Closing
		if m.Rule.ID != "boats/loose" || m.Pos.Line == 0 || m.Text == "" || m.Killed {
			t.Errorf("a survivor without its place: %+v", m)
		}
	}
	for _, want := range []string{"fail_if: > becomes >=", "fail_if: 10 becomes 11"} {
		if closing, ok := open[want]; !ok || closing == "" {
			t.Errorf("%s does not survive with facts that would tell it: %v", want, open)
		}
	}
	report, err = mustLoad(t, tight).Mutants()
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
	report, err := set.Mutants()
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

// TestCoverage holds what the examples of a rule reach, and that the gaps are
// named with facts that close them.
func TestCoverage(t *testing.T) {
	c := mustLoad(t, loose).Coverage()[0]
	var gaps []string
	for _, g := range c.Gaps {
		gaps = append(gaps, g.Text)
		if g.Pos.Line == 0 || g.Closing == "" && !strings.Contains(g.Text, "not_applied") && !strings.Contains(g.Text, "unknown") {
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
	if c := mustLoad(t, tight).Coverage()[0]; len(c.Gaps) > 0 || c.Covered != c.Total {
		t.Errorf("good examples leave %+v", c.Gaps)
	}
}

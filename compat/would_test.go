package compat_test

import (
	"io/fs"
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// TestWould holds what would make the demo's findings pass against whole checks: both
// ends of a range pass, and a step of the grid beyond them does not.
func TestWould(t *testing.T) {
	c := checker(t)
	told := 0
	for _, name := range demo.Mixes() {
		m := demoMix(t, name)
		for _, f := range c.Check(m).Findings() {
			woulds := c.Check(m).Would(f)
			if f.Verdict == rules.Pass && len(woulds) > 0 || len(woulds) > 3 {
				t.Errorf("%s: %d for a %v", f.Rule, len(woulds), f.Verdict)
			}
			for _, w := range woulds {
				told++
				checkWould(t, c, m, would{f.Rule, w})
			}
		}
	}
	if told < 6 {
		t.Errorf("only %d were told", told)
	}
}

// would is what would make a rule pass.
type would struct {
	rule string
	compat.Would
}

func checkWould(t *testing.T, c *compat.Checker, m compat.Mix, w would) {
	t.Helper()
	passes := func(value any) bool {
		with, err := statedOver(m, refOf(t, w.Name), value)
		return err == nil && slices.Contains(c.Check(with).Verdicts(), compat.RuleVerdict{Rule: w.rule, Verdict: rules.Pass})
	}
	f := refOf(t, w.Name).Field()
	if f.Grid() == 0 {
		for _, v := range everyValue(refOf(t, w.Name)) {
			if word, is := v.(string); is && passes(v) != slices.Contains(w.Words, word) {
				t.Errorf("%s with %s %s: passes %v", w.rule, w.Name, word, passes(v))
			}
		}
		return
	}
	per := math.Round(1 / f.Grid())
	beyond := func(x, by float64) float64 { return math.Round(x*per+by) / per }
	for value, want := range map[float64]bool{w.From: true, w.To: true, beyond(w.From, -1): false, beyond(w.To, 1): false} {
		if inside := f.Min <= value && value <= f.Max; passes(value) != want && inside {
			t.Errorf("%s with %s: %v passes: %v", w.rule, w.Text, value, !want)
		}
	}
}

// TestWouldIsEasiestFirst holds that a usual value comes before a stated one, and is
// worded as a limit.
func TestWouldIsEasiestFirst(t *testing.T) {
	c, m := checker(t), demoMix(t, "phone-question")
	r := c.Check(m)
	if f := r.Findings()[0]; f.Rule != "chain/neighbour-gap" {
		t.Fatalf("%+v", f)
	}
	woulds := r.Would(r.Findings()[0])
	if len(woulds) == 0 || woulds[0].Text != "chain.outer_width_mm up to 5.86 mm" {
		t.Errorf("%+v", woulds)
	}
}

// TestWouldByWholeRanges holds how a range is worded: open on the side where it reaches to
// the end of what can be, on both where any chain will do that has its width stated.
func TestWouldByWholeRanges(t *testing.T) {
	for cond, want := range map[string]string{
		"chain.outer_width_mm > 100":                               "chain.outer_width_mm, whatever it is",
		"chain.outer_width_mm > 5.8":                               "chain.outer_width_mm up to 5.8 mm",
		"chain.outer_width_mm < 5.8":                               "chain.outer_width_mm from 5.8 mm",
		"chain.outer_width_mm < 5.8 || chain.outer_width_mm > 6.4": "chain.outer_width_mm from 5.8 to 6.4 mm",
		"chain.outer_width_mm < 5.8 || chain.outer_width_mm > 5.8": "chain.outer_width_mm 5.8 mm",
		"chain.outer_width_mm > 5.6 && chain.outer_width_mm < 6.4": "chain.outer_width_mm up to 5.6 mm", // what fails between is not passed over
	} {
		c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{toleranceRules(toleranceCase{rule: "fail_if: " + cond})}})
		if err != nil {
			t.Fatal(err)
		}
		m, err := compat.NewMix("a chain", compat.ScopeCart, part(t, "chain", map[string]any{"inner_width_mm": 2.2}))
		if err != nil {
			t.Fatal(err)
		}
		r := c.Check(m)
		if woulds := r.Would(r.Findings()[0]); len(woulds) != 1 || woulds[0].Text != want {
			t.Errorf("%s: %+v, want %s", cond, woulds, want)
		}
	}
}

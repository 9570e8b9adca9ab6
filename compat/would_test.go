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

// TestWouldTellsWhatPasses holds how what passes is told: a range is open on the side where
// it reaches to the end of what can be, of several it is the nearest to what is stated, and
// of words each that passes.
func TestWouldTellsWhatPasses(t *testing.T) {
	const width = "chain.outer_width_mm"
	unstated := map[string]any{"inner_width_mm": 2.2}
	states := func(width float64) map[string]any { return map[string]any{"outer_width_mm": width} }
	for _, c := range []struct {
		cond   string
		stated map[string]any
		want   string
	}{
		{width + " > 100", unstated, width + ", whatever it is"},
		{width + " > 5.8", unstated, width + " up to 5.8 mm"},
		{width + " < 5.8", unstated, width + " from 5.8 mm"},
		{width + " < 5.8 || " + width + " > 6.4", unstated, width + " from 5.8 to 6.4 mm"},
		{width + " < 5.8 || " + width + " > 5.8", unstated, width + " 5.8 mm"},
		// What fails between two that pass is not passed over.
		{width + " > 5.6 && " + width + " < 6.4", unstated, width + " up to 5.6 mm"},
		{width + " > 5.6 && " + width + " < 6.4", states(5.9), width + " up to 5.6 mm"},
		{width + " > 5.6 && " + width + " < 6.4", states(6.1), width + " from 6.4 mm"},
		{"chain.inner_class == 'narrow'", map[string]any{"inner_class": "narrow"}, "chain.inner_class eighth or three-32 or eleven-128 or five-32"},
		{"chain.half_links != 'one'", unstated, "chain.half_links one"},
		{"chain.directional", unstated, "chain.directional false"},
	} {
		checker, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{toleranceRules(toleranceCase{rule: "fail_if: " + c.cond})}})
		if err != nil {
			t.Fatal(err)
		}
		m, err := compat.NewMix("a chain", compat.ScopeCart, part(t, "chain", c.stated))
		if err != nil {
			t.Fatal(err)
		}
		r := checker.Check(m)
		if woulds := r.Would(r.Findings()[0]); len(woulds) != 1 || woulds[0].Text != c.want {
			t.Errorf("%s of %v: %+v, want %s", c.cond, c.stated, woulds, c.want)
		}
	}
}

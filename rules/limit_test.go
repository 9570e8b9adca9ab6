package rules_test

import (
	"math"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestLimitsComeBack holds that the ranges of a fact are all found where a verdict comes
// twice on the way: where the rule is not about some of them, and where it is open first
// whether it warns and then whether it fails.
func TestLimitsComeBack(t *testing.T) {
	for _, c := range []struct {
		area, height fact.Value
		lines        []string
		ends         []float64 // of the ranges
		want         []rules.Verdict
	}{
		{usualOf(12, 10, 15), fact.Num(10), []string{"when: sail.area_m2 < 13 || sail.area_m2 > 13.6", "fail_if: sail.area_m2 > 10.5"},
			[]float64{10, 10.5, 13, 13.6, 15}, []rules.Verdict{rules.Pass, rules.Fail, rules.Pass, rules.Fail}},
		{usualOf(12, 10, 15), fact.Num(10), []string{"fail_if: sail.area_m2 > 11 && sail.area_m2 < 13"},
			[]float64{10, 11, 13, 15}, []rules.Verdict{rules.Pass, rules.Fail, rules.Pass}},
		{usualOf(12, 10, 15), fact.Num(10), []string{"fail_if: sail.area_m2 < 11", "warn_if: sail.area_m2 > 13"},
			[]float64{10, 11, 13, 15}, []rules.Verdict{rules.Fail, rules.Pass, rules.Warn}},
		{usualOf(13, 10, 15), fact.Value{}, []string{"fail_if: sail.area_m2 > 14 && mast.height_m > 3", "warn_if: sail.area_m2 > 12 || mast.height_m > 3"},
			[]float64{10, 12, 14, 15}, []rules.Verdict{rules.Unknown, rules.Warn, rules.Unknown}},
		{usualOf(14.2, 10, 15), fact.Value{}, []string{"fail_if: sail.area_m2 > 14.5 || sail.area_m2 > 14 && mast.height_m > 3",
			"warn_if: sail.area_m2 > 12 || mast.height_m > 3"},
			[]float64{10, 12, 14, 14.5, 15}, []rules.Verdict{rules.Unknown, rules.Warn, rules.Unknown, rules.Fail}},
	} {
		res := byMast(t, c.area, c.height, c.lines...)
		got := res.Limits(res.Findings[0], "sail.area_m2")
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v from %v", c.lines, got, c.want, c.ends)
			continue
		}
		for i, l := range got {
			if l.Verdict != c.want[i] || math.Abs(l.Least-c.ends[i]) > 0.01 || math.Abs(l.Most-c.ends[i+1]) > 0.01 {
				t.Errorf("%s: %v, want %s from %v to %v", c.lines, l, c.want[i], c.ends[i], c.ends[i+1])
			}
		}
	}
}

// TestLimitsOfWhatMayTurn holds that the ranges are all found of a rule that fails between
// two values of a fact, where a computed one is what it reads: one that turns on the way,
// and one of which nobody declares how it goes. The limits themselves pass: the rule fails
// from a hundredth of a m2 inside of them on.
func TestLimitsOfWhatMayTurn(t *testing.T) {
	heel := heelOf(func(area float64) (fact.Value, fact.Lack) { return fact.Num(10 - math.Abs(area-12.5)), fact.Lack{} })
	turns, undeclared := heel, heel
	turns.turns, undeclared.undeclared = true, true
	for name, by := range map[string]heeling{"turns": turns, "undeclared": undeclared} {
		res := leansBy(t, by, facts{"sail.reefs": 1}, "fail_if: rig.heel_deg > 9")
		want := "Its area (sail): it passes up to 11.5, fails from 11.51 to 13.49, passes from 13.5; usual is 12 (10 to 15) m2."
		if said := res.Text(res.Findings[0]); !strings.Contains(said, want) {
			t.Errorf("%s: it is said %q, want %q", name, said, want)
		}
	}
}

package rules_test

import (
	"testing"

	"example.org/cogcourt/rules"
)

// TestLoopOfALetInALoop holds that a let-name with a loop of its own, which is first
// worked out within another loop, leaves that one at its entry.
func TestLoopOfALetInALoop(t *testing.T) {
	for cond, want := range map[string]rules.Verdict{
		"sail.panels_m2.exists(x, dry && x < 1.5)":            rules.Fail,
		"sail.panels_m2.exists(x, x < 1.5 && dry && x < 1.5)": rules.Fail,
		"sail.panels_m2.all(x, dry && x > 1.5)":               rules.Pass,
	} {
		set := mustLoad(t, pack(`let: {dry: "sail.panels_m2.all(y, y > 0.5)"}`, "fail_if: "+quoted(cond)))
		res := set.Evaluate(records(facts{"sail.panels_m2": []float64{1, 2}}))
		if got := res.Findings[0].Verdict; got != want {
			t.Errorf("%s: %s, want %s", cond, got, want)
		}
	}
}

package compat

import (
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
)

// With another chain in its place, the count of the old one is no longer taken
// for that of the new one; what was measured on other parts stays.
func TestRefitForgetsOldMeasurements(t *testing.T) {
	m := lakeBike(t)
	m = m.withBench(map[string]any{"chain_pitches": 110, "hanger_error_mm": 1.5, "chain_wear_percent": 0.75})
	chain := newPart(t, "chain", map[string]any{"speeds": 12, "pitches": 126, "outer_width_mm": "5.25 ± 0.05"})

	refit := m.Refit(chain)
	stated := func(m Mix, name string) bool { return m.facts.Value(figures.Bench.Ref(name)).Known }
	if stated(refit, "chain_pitches") || stated(refit, "chain_wear_percent") || !stated(refit, "hanger_error_mm") {
		t.Error("the old chain's count and wear are to be forgotten, the hanger's error is not")
	}
	if got, _ := refit.Part("chain"); got != chain {
		t.Error("the chain is not fitted")
	}
	if tol := refit.facts.Value(catalog.Chain.Ref("outer_width_mm")).Tol; tol != 0.05 {
		t.Errorf("the new chain's tolerance is %v", tol)
	}
	if !stated(m, "chain_pitches") || !stated(m.With(chain), "chain_pitches") {
		t.Error("the first mix has changed, or With forgets")
	}

	c := standardChecker(t)
	verdict := func(m Mix) string {
		for _, f := range c.Check(m).Findings() {
			if f.Rule == "chain/length" {
				return f.Verdict.String()
			}
		}
		return "none"
	}
	if verdict(m) != "fail" || verdict(refit) != "pass" {
		t.Errorf("chain/length: %s with the chain that was cut too short, %s with a new one", verdict(m), verdict(refit))
	}
}

// Fitting nothing changes nothing.
func TestRefitNothing(t *testing.T) {
	rng := random.Seeded(14)
	for range 100 {
		m := mixOf(random.New(rng))
		if got := m.Refit(); !sameMix(got, m) {
			t.Fatal("a mix has changed")
		}
	}
	if got := (Mix{}).Refit(newPart(t, "chain", map[string]any{"speeds": 9})); len(got.Parts()) != 1 {
		t.Errorf("%d parts", len(got.Parts()))
	}
}

package compat

import (
	"testing"

	"example.org/cogcourt/catalog"
)

// Every measured fact says which parts it was measured on, and nothing else does.
func TestEveryMeasurementHasItsParts(t *testing.T) {
	known := map[string]bool{}
	for _, f := range bench.Table().Fields() {
		known[f.Name] = true
		kinds, listed := measuredOn[f.Name]
		if !listed || len(kinds) == 0 && f.Name != "position" {
			t.Errorf("%s was measured on nothing", f.Name)
		}
		for _, kind := range kinds {
			if _, ok := catalog.KindIndex(kind); !ok {
				t.Errorf("%s: there is no kind %s", f.Name, kind)
			}
		}
	}
	for name := range measuredOn {
		if !known[name] {
			t.Errorf("nothing measured is called %s", name)
		}
	}
}

// With another chain in its place, the count of the old one is no longer taken
// for that of the new one; what was measured on other parts stays.
func TestRefitForgetsOldMeasurements(t *testing.T) {
	m := lakeBike(t)
	m.records[benchPlace] = benchOf(t, map[string]any{"chain_pitches": 110, "hanger_error_mm": 1.5, "chain_wear_percent": 0.75})
	chain := newPart(t, "chain", map[string]any{"speeds": 12, "pitches": 126, "outer_width_mm": "5.25 ± 0.05"})

	refit := m.Refit(chain)
	stated := func(m Mix, name string) bool { return bench.Ref(name).In(m.records[benchPlace]).Known }
	if stated(refit, "chain_pitches") || stated(refit, "chain_wear_percent") || !stated(refit, "hanger_error_mm") {
		t.Error("the old chain's count and wear are to be forgotten, the hanger's error is not")
	}
	if got, _ := refit.Part("chain"); got != chain {
		t.Error("the chain is not fitted")
	}
	if len(refit.loose) != 1 {
		t.Errorf("%d facts with a tolerance, want 1", len(refit.loose))
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
	random := seeded(14)
	for range 100 {
		m := randomDraw(random).mix(t)
		if got := m.Refit(); !sameMix(got, m) {
			t.Fatal("a mix has changed")
		}
	}
	if got := (Mix{}).Refit(newPart(t, "chain", map[string]any{"speeds": 9})); len(got.Parts()) != 1 {
		t.Errorf("%d parts", len(got.Parts()))
	}
}

package compat

import "testing"

// The two links that the trade adds to a chain are supposed where nobody says how many,
// but not beside a table by which the chain is cut: there they decide nothing.
func TestTableOfCountsSupposesNothing(t *testing.T) {
	for wanted, assumed := range map[int]bool{0: true, 112: false} {
		derailleur := map[string]any{"actuation": "cable"}
		if wanted > 0 {
			derailleur["chain_pitches_wanted"] = wanted
		}
		v, lack := usualMix(t, map[string]map[string]any{"rear_derailleur": derailleur,
			"cassette": {"cogs_t": []int{11, 34}}, "crankset": {"rings_t": []int{50}}, "frame": {"chainstay_mm": 430.0, "rear_suspension": "none"},
		}).facts.Measure().Value("chain_pitches_reckoned")
		if !v.Known || v.Assumed != assumed {
			t.Errorf("by a table of %d the count is %v, supposed %t (%+v)", wanted, v, v.Assumed, lack)
		}
	}
}

// Of ring and crank of which one is silent about its bolts nothing is missing but on the
// circle of 110 mm that three interfaces share, on which both must then be.
func TestSilenceAboutBoltsMattersOnOneCircle(t *testing.T) {
	for circles, want := range map[[2]float64]string{{110, 110}: "bolts", {109.4, 110.2}: "bolts", {109.5, 108.8}: "all", {130, 130}: "all"} {
		v, lack := usualMix(t, map[string]map[string]any{
			"chainring": {"rings_t": []int{40}, "bolt_circle_mm": circles[0], "bolts": 5},
			"crankset":  {"rings_t": []int{40}, "bolt_circle_mm": circles[1]},
		}).facts.Measure().Value("ring_compared")
		if v.Text != want {
			t.Errorf("circles %v compare %q, want %q (%+v)", circles, v.Text, want, lack)
		}
	}
}

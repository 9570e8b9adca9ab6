package compat

import (
	"math"
	"testing"
)

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

// From a single cog there is no step to another, large or none.
func TestSingleCogHasNoStep(t *testing.T) {
	for _, cogs := range [][]int{{18}, {16, 20}} {
		v, lack := usualMix(t, map[string]map[string]any{"cassette": {"cogs_t": cogs}}).facts.Measure().Value("largest_step_percent")
		if one := len(cogs) == 1; v.Known == one || one && lack.Reason != "a single cog has no step" || !one && v.Num != 25 {
			t.Errorf("of %v cogs the largest step is %v, %+v", cogs, v, lack)
		}
	}
}

// The spacer that comes with a cassette stands behind it where the body asks for it: not
// where the cassette stands proud enough without it (0.1 mm) and too much with it (2 mm).
func TestSpacerWhereTheBodyAsksForIt(t *testing.T) {
	for _, row := range []struct{ mount, body, spacer, want float64 }{
		{34, 33, 1.85, 1}, {34, 33, 0.5, 1.5}, {34, 34.5, 1.85, 1.35}, {34, 34.5, 3, 2.5}, {34, 34, 2.5, 2.5},
	} {
		v, lack := usualMix(t, map[string]map[string]any{
			"cassette": {"cogs_t": []int{11, 34}, "freehub": []string{"spline-9"}, "mount_height_mm": row.mount, "spacer_mm": row.spacer},
			"hub":      {"freehub": "spline-9", "body_length_mm": row.body},
		}).facts.Measure().Value("lockring_margin_mm")
		if !v.Known || math.Abs(v.Num-row.want) > 1e-9 {
			t.Errorf("%+v: the cassette stands %v mm proud (%+v)", row, v, lack)
		}
	}
}

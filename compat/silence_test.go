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

// Limit screws hold the pulley of a cable mix at both ends: nine steps of 4.42 mm on cogs
// 4.34 mm apart are 0.24 mm off with them, and 0.32 mm without. A motor is held by none.
func TestStopsHoldACable(t *testing.T) {
	teeth := []int{11, 12, 13, 14, 16, 18, 21, 24, 28}
	mix := map[string]map[string]any{"cassette": {"cogs_t": teeth, "pitch_mm": 4.34},
		"rear_derailleur": {"actuation": "cable", "ratio": 1.7}, "rear_shifter": {"actuation": "cable", "pull_mm": 2.6, "clicks": 8}}
	figs := usualMix(t, mix).facts.Measure()
	stops, lack := figs.Value("index_residual_stops_mm")
	free, _ := figs.Value("index_residual_mm")
	if math.Abs(stops.Num-0.24) > 1e-6 || math.Abs(free.Num-0.32) > 1e-6 {
		t.Errorf("%v mm off with stops and %v without (%+v)", stops, free, lack)
	}
	mix["rear_derailleur"] = map[string]any{"actuation": "motor", "steps_mm": []float64{4.42, 4.42, 4.42, 4.42, 4.42, 4.42, 4.42, 4.42}}
	mix["rear_shifter"] = map[string]any{"actuation": "motor"}
	stops, lack = usualMix(t, mix).facts.Measure().Value("index_residual_stops_mm")
	if stops.Known || lack.Reason != "a motor must not push against its stops" {
		t.Errorf("a motor is %v mm off with stops (%+v)", stops, lack)
	}
}

// The smallest cog of a body's family is assumed where no published page gives it.
func TestSmallestCogFromMemoryIsAssumed(t *testing.T) {
	for family, assumed := range map[string]bool{
		"spline-8": true, "spline-8-deep": true, "spline-8-short": true, "spline-9-deep": true, "spline-road-12": true, "driver-bmx": true,
		"spline-9": false, "driver-10": false,
	} {
		v, lack := usualMix(t, map[string]map[string]any{"hub": {"freehub": family}}).facts.Measure().Value("least_cog_t")
		if !v.Known || v.Assumed != assumed {
			t.Errorf("%s: %v, assumed %t (%+v)", family, v, v.Assumed, lack)
		}
	}
}

// A ring of which nobody says that it is oval is taken as round; an oval one of 10 percent
// reaches as far as one of a twentieth more teeth.
func TestRingIsTakenAsRound(t *testing.T) {
	for oval, want := range map[float64]float64{-1: 40, 0: 40, 10: 42} {
		crank := map[string]any{"rings_t": []int{40}}
		if oval >= 0 {
			crank["oval_percent"] = oval
		}
		v, lack := usualMix(t, map[string]map[string]any{"crankset": crank}).facts.Measure().Value("ring_reach_t")
		if v.Num != want {
			t.Errorf("oval by %v it reaches %v (%+v)", oval, v.Num, lack)
		}
	}
}

// The kindest share is that of the clicks that fit best, from two cogs on: of pulls of 3.0,
// 2.6 and 2.6 mm times 1.7 the last two are the 4.42 mm of three cogs.
func TestKindestShareOfSpareClicks(t *testing.T) {
	for n, want := range map[int]string{1: "a single cog", 2: "", 3: ""} {
		v, lack := usualMix(t, map[string]map[string]any{"cassette": {"cogs_t": []int{11, 13, 15}[:n], "pitch_mm": 4.42},
			"rear_derailleur": {"actuation": "cable", "ratio": 1.7}, "rear_shifter": {"actuation": "cable", "pulls_mm": []float64{3, 2.6, 2.6}},
		}).facts.Measure().Value("index_share_kind")
		if v.Known != (want == "") || math.Abs(v.Num) > 1e-6 || want != "" && lack.Reason == "" {
			t.Errorf("%d cogs: %v (%+v)", n, v, lack)
		}
	}
}

// The trade's word stands for a chain sold for just so many cogs, from 5 to 12.
func TestChainSoldForSoManyCogs(t *testing.T) {
	for n, want := range map[int]float64{4: 0, 5: 1, 12: 1, 13: 0} {
		v, lack := usualMix(t, map[string]map[string]any{"chain": {"speeds": n}, "cassette": {"cog_count": n}}).facts.Measure().Value("chain_sold_for_cogs")
		if !v.Known || v.Num != want {
			t.Errorf("for %d cogs: %v, want %v (%+v)", n, v, want, lack)
		}
	}
}

// A connector of which nobody states the width is not said to be no wider than the chain.
func TestConnectorWithoutWidthIsNotCompared(t *testing.T) {
	v, lack := usualMix(t, map[string]map[string]any{"chain": {"outer_width_mm": 6.6}, "chain_connector": {"speeds": 9},
		"cassette": {"cogs_t": []int{11, 13}, "pitch_mm": 4.34, "cog_thickness_mm": 1.78}}).facts.Measure().Value("connector_gap_mm")
	if v.Known || lack.Reason != "" || len(lack.Missing) == 0 {
		t.Errorf("its gap is %v (%+v)", v, lack)
	}
}

package compat

import (
	"bytes"
	"slices"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// Where the guide pulley stands at each step, and how many steps there are to spare, by
// what is known of shifter and derailleur.
func TestStepsByWhatIsKnown(t *testing.T) {
	cable := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17}, "pitch_mm": 4.0},
		"rear_derailleur": {"actuation": "cable", "ratio": 2.0}, "rear_shifter": {"actuation": "cable", "pulls_mm": []float64{2, 3, 4}}}
	uneven := fields{"cassette": cable["cassette"], "rear_derailleur": {"actuation": "cable", "ratios": []float64{2, 1.5, 1}}, "rear_shifter": cable["rear_shifter"]}
	reversed := and(cable, "rear_derailleur", "rest_cog", "largest")
	travel := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17}, "pitch_mm": 4.0}, "rear_derailleur": {"actuation": "cable"},
		"rear_shifter": {"actuation": "cable"}, "bench": {"guide_travel_mm": 12.0}}
	motor := fields{"cassette": {"cogs_t": []int{11, 13, 15}, "pitch_mm": 4.0}, "rear_derailleur": {"steps_mm": []float64{3.9, 4.1}}}
	fixed := fields{"hub": {"kind_of_hub": "fixed"}, "cassette": {"cogs_t": []int{11, 13}}, "rear_derailleur": {"actuation": "cable", "ratio": 1.7}}
	crossed := fields{"rear_derailleur": {"actuation": "motor"}, "rear_shifter": {"actuation": "cable"}}
	for _, row := range []figureRow{
		// Cable: sums of pull x factor x ratio, from the smallest cog.
		{"a pull for each click", cable, "step_positions_mm", []float64{0, 4, 10, 18}},
		{"less what the first takes up", and(cable, "rear_shifter", "first_pull_take_up_mm", 0.5), "step_positions_mm", []float64{0, 3, 9, 17}},
		{"by a converter", and(cable, "rear_shifter", "pull_factor", 1.5), "step_positions_mm", []float64{0, 6, 15, 27}},
		{"a ratio for each click", uneven, "step_positions_mm", []float64{0, 4, 8.5, 12.5}},
		// A spring that draws to the largest cog: the first click of the cable is at the spokes.
		{"reversed, each pull stays at its cogs", reversed, "step_positions_mm", []float64{0, 4, 10, 18}},
		{"and the first that is pulled is the last", and(reversed, "rear_shifter", "first_pull_take_up_mm", 0.5), "step_positions_mm", []float64{0, 4, 10, 17}},
		{"each ratio too", and(uneven, "rear_derailleur", "rest_cog", "largest"), "step_positions_mm", []float64{0, 4, 8.5, 12.5}},
		// The whole way, over one click fewer than there are cogs.
		{"even where nobody lists pulls", travel, "step_positions_mm", []float64{0, 4, 8, 12}},
		{"in the shares of the pulls", and(travel, "rear_shifter", "pulls_mm", []float64{3, 2, 1}), "step_positions_mm", []float64{0, 6, 10, 12}},
		{"of the first ones, where there are more", and(travel, "rear_shifter", "pulls_mm", []float64{3, 2, 1, 4}), "step_positions_mm", []float64{0, 6, 10, 12}},
		{"even where there are fewer", and(travel, "rear_shifter", "pulls_mm", []float64{3, 2}), "step_positions_mm", []float64{0, 4, 8, 12}},
		{"none on a single cog", and(travel, "cassette", "cogs_t", []int{17}), "step_positions_mm", "~single cog"},
		// A motor is told by what is stated of it, though nobody says that it is one.
		{"by its steps", motor, "step_positions_mm", []float64{0, 3.9, 8}},
		{"which are as many as the cogs need", motor, "index_spare_steps", 0},
		{"by a pitch and a number", and(fields{"cassette": motor["cassette"]}, "rear_derailleur", "made_for_pitch_mm", 4.1, "rear_derailleur", "made_for_cogs", 3), "step_positions_mm", []float64{0, 4.1, 8.2}},
		{"by pitches", and(fields{"cassette": motor["cassette"]}, "rear_derailleur", "made_for_pitches_mm", []float64{4.1, 4.2}), "step_positions_mm", []float64{0, 4.1, 8.3}},
		{"one more than they need", and(motor, "rear_derailleur", "steps_mm", []float64{3.9, 4.1, 4}), "index_spare_steps", 1},
		{"measured ones go before", and(motor, "bench", "step_positions_mm", []float64{0, 3.8, 7.9}), "step_positions_mm", []float64{0, 3.8, 7.9}},
		{"and are counted: as many as the cogs need", and(motor, "bench", "step_positions_mm", []float64{0, 3.8, 7.9}), "index_spare_steps", 0},
		{"one more", and(motor, "bench", "step_positions_mm", []float64{0, 3.8, 7.9, 11.9}), "index_spare_steps", 1},
		{"one fewer", and(motor, "bench", "step_positions_mm", []float64{0, 3.8}), "index_spare_steps", -1},
		// Clicks are counted where it is known that they pull a cable.
		{"clicks of a lever of which nobody says what it pulls", fields{"cassette": cable["cassette"], "rear_derailleur": {"max_cog_t": 34},
			"rear_shifter": {"clicks": 3}}, "index_spare_steps", "~rear_derailleur.actuation"},
		{"of one that is said to pull a cable", fields{"cassette": cable["cassette"], "rear_derailleur": {"max_cog_t": 34},
			"rear_shifter": {"clicks": 3, "actuation": "cable"}}, "index_spare_steps", 0},
		{"of one of which a pull is known", fields{"cassette": cable["cassette"], "rear_derailleur": {"max_cog_t": 34},
			"rear_shifter": {"clicks": 3, "pull_mm": 2.5}}, "index_spare_steps", 0},
		// What has no index says why, and asks for nothing.
		{"a fixed hub asks for no shifter", fixed, "step_positions_mm", "~nothing to shift"},
		{"nor how well its steps meet the cogs", and(fixed, "cassette", "pitch_mm", 4.0), "index_share_kind", "~nothing to shift"},
		{"nor how many steps there are", fixed, "index_spare_steps", "~nothing to shift"},
		{"nor for a derailleur, where steps were measured", fields{"hub": fixed["hub"], "cassette": fixed["cassette"], "bench": {"step_positions_mm": []float64{0, 4}}}, "index_spare_steps", "~nothing to shift"},
		{"a lever without clicks", and(cable, "rear_shifter", "indexed", false), "step_positions_mm", "~by ear"},
		{"of which none is to spare", and(cable, "rear_shifter", "indexed", false), "index_spare_steps", "~by ear"},
		{"cable on one end and a motor on the other", and(cable, "rear_derailleur", "actuation", "motor"), "index_spare_steps", "~the other a motor"},
		{"which comes before what is not in the mix", and(crossed, "bench", "guide_travel_mm", 12.0), "step_positions_mm", "~the other a motor"},
		{"and before a single cog", and(crossed, "cassette", "cogs_t", []int{16}), "index_share_kind", "~the other a motor"},
		{"as does a lever without clicks", fields{"rear_derailleur": {"actuation": "cable"}, "rear_shifter": {"indexed": false},
			"bench": {"guide_travel_mm": 12.0}}, "step_positions_mm", "~by ear"},
		{"a geared hub of one cog", and(cable, "hub", "kind_of_hub", "internal", "cassette", "cogs_t", []int{18}), "index_spare_steps", "~in the hub"},
		{"of several is shifted like any other", and(cable, "hub", "kind_of_hub", "internal"), "index_spare_steps", 0},
	} {
		row.hold(t)
	}
}

// How steps meet cogs, beside what the tables of the trade hold.
func TestHowStepsMeetCogs(t *testing.T) {
	cogs := map[string]any{"cogs_t": []int{11, 12, 13}, "pitch_mm": 5.0, "cog_thickness_mm": 2.0}
	cable := fields{"cassette": cogs, "chain": {"outer_width_mm": 6.0}, "rear_derailleur": {"actuation": "cable", "ratio": 2.0},
		"rear_shifter": {"actuation": "cable", "pulls_mm": []float64{2.5, 2.5}}}
	motor := fields{"cassette": {"cogs_t": []int{10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 51}, "pitch_mm": 3.75},
		"rear_derailleur": {"actuation": "motor", "made_for_pitch_mm": 3.65, "made_for_cogs": 12, "trim_step_mm": 0.2, "steps_selectable": []int{9, 11}}}
	set := func(field string) fields {
		mix := fields{}
		for _, kind := range []string{"cassette", "rear_shifter", "rear_derailleur"} {
			mix = and(mix, kind, field, "lake")
		}
		return and(mix, "cassette", "cogs_t", []int{11, 13})
	}
	off := func(pull float64) fields { // two steps of twice the spacing: half of it too far at either cog
		return and(set("index_sets"), "cassette", "pitch_mm", 4.0, "rear_derailleur", "actuation", "cable", "rear_derailleur", "ratio", 2.0,
			"rear_shifter", "actuation", "cable", "rear_shifter", "pulls_mm", []float64{pull})
	}
	travel := fields{"rear_shifter": {"actuation": "cable"}, "bench": {"guide_travel_mm": 12.0}}
	for _, row := range []figureRow{
		{"1 mm of room to each side, and no error", cable, "rub_margins_mm", []float64{1, 1, 1}},
		{"a click too few", and(cable, "rear_shifter", "pulls_mm", []float64{2.5}), "rub_margins_mm", "~fewer steps"},
		{"those there are meet their cogs", and(cable, "rear_shifter", "pulls_mm", []float64{2.5}), "index_share_kind", 0},
		{"three trims of 0.2 mm for 0.55 mm", motor, "trim_clicks", 3},
		{"which leave 0.6 mm", motor, "trim_residual_mm", 0.6},
		{"a cable has no trim", cable, "trim_clicks", "~no trim"},
		{"eleven steps can be set for twelve cogs", motor, "motor_steps_settable", 1},
		{"not for eleven", and(motor, "cassette", "cogs_t", []int{10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42}), "motor_steps_settable", 0},
		{"nor for thirteen", and(motor, "cassette", "cogs_t", []int{10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 51, 52}), "motor_steps_settable", 0},
		{"a part that is not there goes before all else", fields{"cassette": {"cogs_t": []int{17}}}, "index_offset_mm", "~rear_derailleur"},
		{"with it a single cog has no index", fields{"cassette": {"cogs_t": []int{17}}, "rear_derailleur": {"actuation": "cable"}}, "index_offset_mm", "~single cog"},
		{"a shifter for two has one click", fields{"cassette": {"cogs_t": []int{11, 13}}, "rear_derailleur": {"actuation": "cable"},
			"rear_shifter": {"actuation": "cable", "speeds": 2}}, "index_spare_steps", 0},
		{"a published set", set("index_sets"), "index_own_set", 1},
		{"shifts as it should", set("index_sets"), "index_set_warns", 0},
		{"one that is only ridden", set("index_sets_warn"), "index_own_set", 1},
		{"does not", set("index_sets_warn"), "index_set_warns", 1},
		{"a set that misses by half the spacing still stands by its word", off(4), "index_by_name", 1},
		{"by more it does not", off(4.02), "index_by_name", 0},
		{"the whole way alone", travel, "index_travel_alone", 1},
		{"of even clicks", and(travel, "rear_shifter", "even", true), "index_travel_alone", 0},
		{"of one pull for all", and(travel, "rear_shifter", "pull_mm", 2.7), "index_travel_alone", 0},
		{"that are said to be uneven", and(travel, "rear_shifter", "pull_mm", 2.7, "rear_shifter", "even", false), "index_travel_alone", 1},
		{"room at the dropout that passes", fields{"hub": {"freehub": "spline-9"}, "cassette": {"cogs_t": []int{11, 28}}}, "dropout_least_mm", 0.1},
		{"on a thread of freewheels", fields{"hub": {"freehub": "thread-1.375"}, "cassette": {"cogs_t": []int{14, 28}}}, "dropout_least_mm", 1},
		{"once it is measured there", fields{"hub": {"freehub": "thread-1.375"}, "cassette": {"cogs_t": []int{14, 28}}, "bench": {"smallest_cog_inset_mm": 3.0}}, "dropout_least_mm", 0.1},
		{"by the thread of the cogs", fields{"hub": {"over_locknut_mm": 130.0}, "cassette": {"cogs_t": []int{14, 28}, "freehub": []string{"thread-1.375"}}}, "dropout_least_mm", 1},
		{"the smallest cog of the long driver", fields{"hub": {"freehub": "driver-10-long"}}, "least_cog_t", 10},
		{"of 23 splines", fields{"hub": {"freehub": "spline-23"}}, "least_cog_t", 10},
		{"of the small driver", fields{"hub": {"freehub": "driver-bmx"}}, "least_cog_t", 8},
		{"of the short eight", fields{"hub": {"freehub": "spline-8-short"}}, "least_cog_t", 9},
	} {
		row.hold(t)
	}
	if v, lack := usualMix(t, fields{"rear_derailleur": {"made_for_pitches_mm": []float64{4.1, 4.2}}}).facts.Measure().Value("step_positions_mm"); !v.Known || !v.Assumed {
		t.Errorf("that a motor has the steps of a cassette is %v, assumed %t (%+v)", v, v.Assumed, lack)
	}
	v, lack := usualMix(t, fields{"chain": {"inner_width_mm": 3.3}, "crankset": {"rings_t": []int{44}}}).facts.Measure().Value("ring_play_mm")
	if v.Known || lack.Reason != "a chain for 1/8 inch goes on every cog and ring" {
		t.Errorf("1/8 inch asks nothing of a ring: %v (%+v)", v, lack)
	}
	// A list is rounded to six decimals as a number is.
	v, _ = usualMix(t, fields{"cassette": {"cogs_t": []int{17}}, "crankset": {"rings_t": []int{50}}}).facts.Measure().Value("gear_ratios")
	if len(v.List) != 1 || v.List[0] != 2.941176 {
		t.Errorf("50 on 17 is %v, want 2.941176", v.List)
	}
}

// On a geared hub the cogs tell whether a derailleur shifts them: one that does is as
// certain where they are only assumed, and a gap that was measured stays measured.
func TestAMeasuredGapIsNotAssumed(t *testing.T) {
	geared := fields{"hub": {"kind_of_hub": "internal"}, "cassette": {"basis": "assumed", "cogs_t": []int{18, 21}}, "bench": {"b_gap_mm": 6.0}}
	figs := usualMix(t, geared).facts.Measure()
	if v, lack := figs.Value("cog_count"); v.Num != 2 || !v.Assumed {
		t.Fatalf("%v cogs, assumed %t (%+v)", v, v.Assumed, lack)
	}
	if v, lack := figs.Value("b_gap_measured_mm"); v.Num != 6 || v.Assumed {
		t.Errorf("the gap that was measured is %v, assumed %t (%+v)", v, v.Assumed, lack)
	}
}

// How many more cogs there are than the chain is sold for counts where the room to the next
// cog is known to be enough: 0.05 mm as they are, and by the unkind ends no more than
// 0.08 mm too little. A chain of 6.2 mm on cogs of 1.6 mm, 3.95 mm apart, has just that.
func TestCogsOverWhereTheRoomIsEnough(t *testing.T) {
	ten := fields{"chain": {"speeds": 9, "outer_width_mm": 6.2}, "cassette": {"cogs_t": []int{11, 12, 13, 14, 15, 16, 17, 19, 21, 23}}}
	eleven := fields{"chain": {"speeds": 10}, "cassette": {"cogs_t": []int{11, 12, 13, 14, 15, 16, 17, 19, 21, 23, 25}, "pitch_mm": 3.8}}
	for _, row := range []figureRow{
		{"just enough", ten, "neighbour_gap_mm", 0.05},
		{"one more than it is sold for", ten, "chain_cogs_over", 1},
		{"a hair wider, though at worst it does not jam", and(ten, "chain", "outer_width_mm", 6.25), "chain_cogs_over", "~room to the next cog"},
		{"enough as they are, and 0.1 mm too little at worst", eleven, "neighbour_gap_worst_mm", -0.1},
		{"then the room decides", eleven, "chain_cogs_over", "~room to the next cog"},
		{"0.05 mm too little at worst", and(eleven, "cassette", "pitch_mm", 3.85), "chain_cogs_over", 1},
		{"sold for as many too", and(ten, "chain", "also_for", []int{10}), "chain_cogs_over", 0},
		{"fewer than it is sold for", and(ten, "chain", "speeds", 11), "chain_cogs_over", -1},
		{"both widths are stated", and(ten, "cassette", "pitch_mm", 3.95), "chain_cogs_over", "~room to the next cog"},
		{"a belt is sold for no cogs", and(ten, "frame", "drive", "belt"), "chain_cogs_over", "~belt"},
	} {
		row.hold(t)
	}
}

// What steps and cogs lack is asked for at once, of what is made from both.
func TestBothLacksAreAskedFor(t *testing.T) {
	figs := usualMix(t, fields{"cassette": {"cog_count": 4}, "rear_shifter": {"actuation": "cable", "pulls_mm": []float64{3, 2, 1}},
		"rear_derailleur": {"actuation": "cable"}}).facts.Measure()
	for _, name := range []string{"index_offset_mm", "index_residual_mm", "index_errors_mm"} {
		_, lack := figs.Value(name)
		for _, want := range []string{"cassette.pitch_mm", "rear_derailleur.ratio"} {
			if !slices.Contains(lack.Missing, want) {
				t.Errorf("%s lacks %v, and %s is not stated", name, lack.Missing, want)
			}
		}
	}
}

// Where steps go wrong and cogs are not stated as well, it is what went wrong that is told:
// to state the cogs would not mend it.
func TestAFaultIsToldAlone(t *testing.T) {
	figs := usualMix(t, fields{"rear_derailleur": {"actuation": "cable", "ratios": []float64{1.7, 1.8}},
		"rear_shifter": {"actuation": "cable", "pulls_mm": []float64{3, 2, 1}}, "cassette": {"cog_count": 4}}).facts.Measure()
	if _, lack := figs.Value("cog_positions_mm"); len(lack.Missing) == 0 {
		t.Fatalf("the cogs lack %+v", lack)
	}
	_, lack := figs.Value("index_offset_mm")
	if want := (fact.Lack{Fault: "the facts behind step_positions_mm do not fit together"}); !bytes.Equal(lack.AppendKey(nil), want.AppendKey(nil)) {
		t.Errorf("the offset lacks %+v, want %+v", lack, want)
	}
}

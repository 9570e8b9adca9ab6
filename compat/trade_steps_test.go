package compat

import (
	"bytes"
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
		// What has no index says why, and asks for nothing.
		{"a fixed hub asks for no shifter", fixed, "step_positions_mm", "~nothing to shift"},
		{"nor how many steps there are", fixed, "index_spare_steps", "~nothing to shift"},
		{"nor for a derailleur, where steps were measured", fields{"hub": fixed["hub"], "cassette": fixed["cassette"], "bench": {"step_positions_mm": []float64{0, 4}}}, "index_spare_steps", "~nothing to shift"},
		{"a lever without clicks", and(cable, "rear_shifter", "indexed", false), "step_positions_mm", "~by ear"},
		{"of which none is to spare", and(cable, "rear_shifter", "indexed", false), "index_spare_steps", "~by ear"},
		{"cable on one end and a motor on the other", and(cable, "rear_derailleur", "actuation", "motor"), "index_spare_steps", "~the other a motor"},
		{"a geared hub of one cog", and(cable, "hub", "kind_of_hub", "internal", "cassette", "cogs_t", []int{18}), "index_spare_steps", "~in the hub"},
		{"of several is shifted like any other", and(cable, "hub", "kind_of_hub", "internal"), "index_spare_steps", 0},
	} {
		row.hold(t)
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
	} {
		row.hold(t)
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

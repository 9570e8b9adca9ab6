package compat

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules/fact"
)

type fields = map[string]map[string]any

// Figures of the trade, each through a whole mix: what it comes to, or a word of what
// it lacks or of why it means nothing. The numbers are common practice, worked by
// hand, but where a row says otherwise.
func TestFiguresOfTheTrade(t *testing.T) {
	single := fields{"cassette": {"cogs_t": []int{17}}, "crankset": {"rings_t": []int{44}}, "frame": {"chainstay_mm": 405.0}}
	motor := fields{"cassette": {"cogs_t": []int{10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 51}, "pitch_mm": 3.75}, "rear_derailleur": {"actuation": "motor", "made_for_pitch_mm": 3.65}}
	nine := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 23, 26, 30, 32}, "freehub": []string{"spline-9"}}, "hub": {"freehub": "spline-9"}}
	twelve := fields{"cassette": {"cogs_t": []int{11, 12, 13, 14, 15, 16, 17, 19, 21, 24, 27, 30}, "freehub": []string{"spline-road-12"}}, "hub": {"freehub": "spline-9"}}
	heron := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 24, 28}, "freehub": []string{"heron-7"}}, "hub": {"freehub": "heron-7"}}
	two := fields{"cassette": {"cogs_t": []int{11, 15, 21, 34}}, "crankset": {"rings_t": []int{48, 32}}, "rear_derailleur": {"capacity_t": 33}}
	hubGear := fields{"cassette": {"cogs_t": []int{20}}, "crankset": {"rings_t": []int{38}}, "hub": {"kind_of_hub": "internal", "min_drive_ratio": 1.9}}
	for _, row := range []figureRow{
		// A chain that no derailleur takes up.
		{"held by the axle", single, "chain_held_by", "axle"},
		{"cut to the nearest even count", single, "chain_pitches", 94},
		{"which leaves the axle forward", single, "axle_shift_mm", -5.5},
		{"with a cranked link", and(single, "chain", "half_links", "one"), "chain_pitches", 95},
		{"hardly moves it", and(single, "chain", "half_links", "one"), "axle_shift_mm", 0.9},
		{"an axle that only goes back", and(single, "frame", "take_up_mm", 20.0), "chain_pitches", 96},
		{"stands further back", and(single, "frame", "take_up_mm", 20.0), "axle_shift_mm", 7.3},
		{"no margin over pulleys", single, "chain_margin_pitches", "~the axle is moved"},
		{"a tensioner of one pulley", and(single, "frame", "rear_suspension", "none", "chain_tensioner", "pulleys", 1), "chain_pitches", 96},
		{"of two", and(single, "frame", "rear_suspension", "none", "chain_tensioner", "pulleys", 2), "chain_pitches", 98},
		{"of how many nobody says", and(single, "frame", "rear_suspension", "none", "chain_tensioner", "capacity_t", 6), "chain_pitches", "~chain_tensioner.pulleys"},
		{"several cogs mean a derailleur", and(single, "cassette", "cogs_t", []int{11, 34}), "chain_held_by", "derailleur"},
		{"a fixed hub moves its axle", and(single, "hub", "kind_of_hub", "fixed", "cassette", "cogs_t", []int{16}), "chain_held_by", "axle"},
		{"the maker's table is the count to cut", and(single, "rear_derailleur", "chain_pitches_wanted", 118), "chain_pitches", 118},
		{"nobody states a count", and(single, "frame", "rear_suspension", "none"), "chain_count_stated", "~count to cut"},
		{"nobody states it, and the axle may move", and(single, "chain", "speeds", 1), "chain_count_stated", 0},
		// Chains on cogs.
		{"thirteen are of two kinds", counts(13, 13), "chain_inner_mm", "~chain.inner_class"},
		{"the narrow one", and(counts(13, 13), "chain", "inner_class", "narrow"), "chain_outer_mm", 4.9},
		{"the other one", and(counts(13, 13), "chain", "inner_class", "eleven-128"), "chain_outer_mm", 5.25},
		{"a 9 on usual rings", fields{"chain": {"speeds": 9}, "crankset": {"rings_t": []int{44}, "speeds": 9}}, "ring_play_mm", 0.18},
		{"on rings for 8", fields{"chain": {"speeds": 9}, "crankset": {"rings_t": []int{44}, "speeds": 8}}, "ring_play_mm", 0.08},
		{"nobody knows rings of 13", fields{"chain": {"inner_width_mm": 1.75}, "crankset": {"rings_t": []int{44}}}, "ring_play_mm", "~crankset.ring_thickness_mm"},
		{"1/8 asks nothing of a cog", fields{"chain": {"inner_class": "eighth"}, "cassette": {"cogs_t": []int{17}}}, "cog_play_mm", "~goes on every cog"},
		// Steps.
		{"a motor's steps are not counted by its pitch", motor, "index_spare_steps", "~rear_derailleur.made_for_cogs"},
		{"but by what it is made for", and(motor, "rear_derailleur", "made_for_cogs", 12), "index_spare_steps", 0},
		{"13 on 12 cogs are a step too many", and(motor, "rear_derailleur", "made_for_cogs", 13), "index_spare_steps", 1},
		{"a controller's clicks decide nothing", and(motor, "rear_shifter", "clicks", 11, "rear_shifter", "actuation", "motor"), "index_spare_steps", "~rear_derailleur.made_for_cogs"},
		{"the width of its steps", motor, "index_residual_mm", 0.55},
		{"and at the kind end", motor, "index_share_kind", 0.05 * 11 / 2 / 3.75},
		{"the last step stands outboard", motor, "last_step_inboard_mm", -0.55},
		{"or inboard", and(motor, "cassette", "pitch_mm", 3.55), "last_step_inboard_mm", 0.55},
		// Spacers by class.
		{"nine on a body for eight to ten", and(nine, "hub", "body_class", "8-10"), "spacer_off_mm", 0},
		{"nine on the road body, nobody names a spacer", and(nine, "hub", "body_class", "road-11"), "spacer_off_mm", -1.85},
		{"which is wanted", and(nine, "hub", "body_class", "road-11"), "spacer_wanted_mm", 1.85},
		{"fitted", and(nine, "hub", "body_class", "road-11", "bench", "spacer_behind_mm", 1.85), "spacer_off_mm", 0},
		{"a length names the class", and(nine, "hub", "body_length_mm", 36.6), "spacer_off_mm", -1.85},
		{"of no class", and(nine, "hub", "body_length_mm", 35.9), "spacer_off_mm", "~cassette.mount_height_mm"},
		{"both heights decide", and(nine, "hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 36.5), "lockring_margin_mm", 1.55},
		{"then not the class", and(nine, "hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 36.5), "spacer_off_mm", "~both heights"},
		{"road eleven on a body for ten", and(nine, "cassette", "cogs_t", []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28}, "hub", "body_class", "8-10"), "spacer_off_mm", 1.85},
		{"ten of which class, one ring fitted", and(nine, "cassette", "cogs_t", []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25}, "hub", "body_class", "8-10", "bench", "spacer_behind_mm", 1.0), "spacer_off_mm", "~cassette.height_class"},
		{"a freewheel has no lockring", and(nine, "cassette", "freehub", []string{"thread-1.375"}, "hub", "freehub", "thread-1.375"), "lockring_margin_mm", "~screwed on"},
		{"nor has a driver its own", and(nine, "cassette", "freehub", []string{"driver-10"}, "hub", "freehub", "driver-10"), "spacer_off_mm", "~screwed on"},
		{"the short driver on the long", and(nine, "cassette", "freehub", []string{"driver-10"}, "hub", "freehub", "driver-10-long"), "spacer_wanted_mm", 1.85},
		{"every thread is screwed on", and(nine, "cassette", "freehub", []string{"thread-italian-35"}, "hub", "freehub", "thread-italian-35"), "spacer_off_mm", "~screwed on"},
		{"whatever heights it states", and(nine, "cassette", "freehub", []string{"thread-1.375"}, "hub", "freehub", "thread-1.375",
			"hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 36.5), "lockring_margin_mm", "~screwed on"},
		{"and nothing is told by them", and(nine, "cassette", "freehub", []string{"thread-1.375"}, "hub", "freehub", "thread-1.375",
			"hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 36.5), "lockring_by_height", "~screwed on"},
		{"a thread in no table as well", and(nine, "cassette", "freehub", []string{"thread-heron"}, "hub", "freehub", "thread-heron"), "lockring_margin_mm", "~screwed on"},
		{"road twelve on the longer body", and(twelve, "hub", "body_class", "road-11"), "spacer_off_mm", 0},
		{"on the shorter", and(twelve, "hub", "body_class", "8-10"), "spacer_off_mm", 1.85},
		{"on one of the two", twelve, "spacer_off_mm", "~hub.body_class"},
		{"made for nine splines too, twelve cogs must say", and(twelve, "cassette", "freehub", []string{"spline-9", "spline-road-12"}), "spacer_off_mm", "~cassette.height_class"},
		{"a family of its own is not reckoned by class", and(heron, "hub", "body_class", "8-10"), "spacer_off_mm", "~state both heights"},
		{"of which one side is silent neither", fields{"cassette": heron["cassette"], "hub": {"body_class": "8-10"}}, "spacer_off_mm", "~state both heights"},
		{"nor two of them", fields{"cassette": and(heron, "cassette", "freehub", []string{"heron-7", "heron-8"})["cassette"], "hub": {"body_class": "8-10"}}, "spacer_off_mm", "~state both heights"},
		{"unless it states its class", and(heron, "hub", "body_class", "8-10", "cassette", "height_class", "flat"), "spacer_off_mm", 0},
		{"or both heights", and(heron, "hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 36.5), "lockring_margin_mm", 1.55},
		{"a name in no table by its heights", and(heron, "hub", "freehub", "spline-9", "hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 38.35), "lockring_margin_mm", 3.4},
		{"two names that never meet, whatever the heights", and(heron, "cassette", "freehub", []string{"spline-23"}, "hub", "freehub", "spline-9", "hub", "body_length_mm", 34.95, "cassette", "mount_height_mm", 36.5), "lockring_margin_mm", "~does not go on"},
		{"eight splines on the short body by their heights", and(heron, "cassette", "freehub", []string{"spline-8-deep"}, "hub", "freehub", "spline-8-short", "hub", "body_length_mm", 30.0, "cassette", "mount_height_mm", 31.0), "lockring_margin_mm", 1},
		{"and not by a class", and(heron, "cassette", "freehub", []string{"spline-8-deep"}, "hub", "freehub", "spline-8-short", "cassette", "height_class", "flat"), "spacer_off_mm", "~state both heights"},
		{"the body that is sold", and(nine, "cassette", "freehub", []string{"driver-10"}, "hub", "bodies", []string{"driver-10-long", "spline-23"}), "body_sold", "driver-10-long"},
		{"its own before one that takes it too", and(nine, "cassette", "freehub", []string{"driver-10"}, "hub", "bodies", []string{"driver-10-long", "driver-10"}), "body_sold", "driver-10"},
		{"the short body of eight splines", and(nine, "cassette", "freehub", []string{"spline-8-deep"}, "hub", "bodies", []string{"spline-8-short"}), "body_offered", 1},
		{"none that takes it", and(nine, "cassette", "freehub", []string{"driver-10"}, "hub", "bodies", []string{"spline-23"}), "body_sold", "~no body"},
		{"the smallest cog of a name in no table", heron, "least_cog_t", "~hub.min_cog_t"},
		{"of it on nine splines", and(heron, "hub", "freehub", "spline-9"), "least_cog_t", 11},
		{"of the Italian thread nobody says it, and the freewheel goes on", and(nine, "cassette", "freehub", []string{"thread-1.375"}, "hub", "freehub", "thread-italian-35"), "least_cog_t", "~hub.min_cog_t"},
		{"of a body on which it does not go", and(nine, "cassette", "freehub", []string{"driver-10"}), "least_cog_t", "~another body"},
		// Without a derailleur, over the travel.
		{"nothing takes up the growth", and(single, "frame", "rear_suspension", "sprung", "frame", "chain_growth_mm", 10.0), "axle_growth_mm", 10},
		{"a sprung frame has to say", and(single, "frame", "rear_suspension", "sprung"), "axle_growth_mm", "~frame.chain_growth_mm"},
		{"a frame that says nothing is rigid", single, "axle_growth_mm", 0},
		// Cells by their names, connectors by their width.
		{"a cr button is used up once", fields{"cell": {"form": "cr2032"}}, "cell_primary", 1},
		{"a lir button is charged", fields{"cell": {"form": "lir2032"}}, "cell_primary", 0},
		{"a word before the name", fields{"controller_cell": {"form": "cr2032", "primary": false}}, "controller_cell_primary", 0},
		{"a round cell has to say", fields{"controller_cell": {"form": "aaa"}}, "controller_cell_primary", "~controller_cell.primary"},
		{"a connector as wide as its chain", fields{"chain": {"speeds": 9}, "chain_connector": {"outer_width_mm": 6.6}}, "connector_against_chain", "~own width"},
		{"a narrower one is not compared", fields{"chain": {"speeds": 9}, "chain_connector": {"outer_width_mm": 5.9}}, "connector_against_chain", "not-said"},
		// Capacity, pull, hubs, rings, lines.
		{"the cogs alone", two, "wrap_alone_t", 23},
		{"cogs to keep off on the small ring", two, "keep_off_t", 17},
		{"34 teeth with a motor", and(fields{"crankset": {"rings_t": []int{34}, "length_mm": 175.0}}, "frame", "assist", "mid", "frame", "assist_nm", 85.0), "chain_pull_n", 5050},
		{"a motor's small ring of unknown turns", and(fields{"crankset": {"rings_t": []int{18}}}, "frame", "assist", "mid", "frame", "assist_nm", 60.0), "chain_pull_n", "~frame.motor_ring_factor"},
		{"and of known ones", and(fields{"crankset": {"rings_t": []int{18}}}, "frame", "assist", "mid", "frame", "assist_nm", 60.0, "frame", "motor_ring_factor", 2.5), "chain_pull_n", 3530},
		{"two riders", and(fields{"crankset": {"rings_t": []int{38}}}, "frame", "timing_chain", true), "chain_pull_n", 6830},
		{"at a geared hub", and(hubGear, "frame", "assist", "mid", "frame", "assist_nm", 85.0), "hub_input_nm", 176.3},
		{"of it the motor", and(hubGear, "frame", "assist", "mid", "frame", "assist_nm", 85.0), "motor_input_nm", 44.7},
		{"on a belt as well", and(hubGear, "frame", "drive", "belt"), "hub_input_nm", 131.6},
		{"least ratio of one rider", hubGear, "hub_least_ratio", 1.9},
		{"of two", and(hubGear, "frame", "timing_chain", true), "hub_least_ratio", 2.5},
		{"on a small sprocket", and(hubGear, "cassette", "cogs_t", []int{14}), "hub_least_ratio", 3},
		{"39 on 130", fields{"crankset": {"rings_t": []int{53, 39}, "bolt_circle_mm": 130.0}}, "bolt_room_mm", 20.1},
		{"the inner one on a circle of its own", fields{"crankset": {"rings_t": []int{53, 39}, "bolt_circle_mm": 130.0, "inner_bolt_circle_mm": 110.0}}, "bolt_room_mm", 76.6},
		{"the middle of three", fields{"crankset": {"rings_t": []int{52, 39, 30}, "bolt_circle_mm": 130.0}}, "bolt_room_mm", 20.1},
		{"seven cogs at 3.8", fields{"cassette": {"cogs_t": []int{14, 28}}, "hub": {"smallest_cog_inset_mm": 3.8}, "chain": {"outer_width_mm": 7.3}}, "dropout_room_mm", 0.15},
		{"on an end that is hollowed by 1.5", fields{"cassette": {"cogs_t": []int{14, 28}}, "hub": {"smallest_cog_inset_mm": 3.8},
			"chain": {"outer_width_mm": 7.3}, "frame": {"dropout_recess_mm": 1.5}}, "dropout_room_mm", 1.65},
		{"a link of 17 mm", fields{"rear_derailleur": {"max_cog_t": 34}, "hanger_link": {"drop_mm": 17.0}}, "rated_cog_t", 42},
		{"an oval ring", fields{"crankset": {"rings_t": []int{32}, "oval_percent": 12.0}}, "ring_reach_t", 33.92},
		{"a spindle 5 mm longer", fields{"crankset": {"rings_t": []int{42}, "chainline_mm": 43.0, "spindle_length_mm": 113.0}, "bottom_bracket": {"spindle_length_mm": 118.0}}, "ring_lines_mm", 45.5},
		{"a front shifter with a click that misses", fields{"front_shifter": {"pulls_mm": []float64{3, 9, 4}}, "front_derailleur": {"pulls_mm": []float64{8, 8}}}, "front_pulls_off_mm", 4},
		{"and with one between the rings", fields{"front_shifter": {"pulls_mm": []float64{3, 5, 8}}, "front_derailleur": {"pulls_mm": []float64{8, 8}}}, "front_pulls_off_mm", 0},
		{"a ring on splines, a crank with a circle", fields{"chainring": {"rings_t": []int{32}, "bolt_pattern": "direct"}, "crankset": {"rings_t": []int{32}, "bolt_circle_mm": 104.0}}, "ring_direct", "ring-alone"},
		{"nothing else is compared then", fields{"chainring": {"rings_t": []int{32}, "bolt_pattern": "direct"}, "crankset": {"rings_t": []int{32}, "bolt_circle_mm": 104.0}}, "ring_compared", "~differs already"},
		{"both on splines", fields{"chainring": {"rings_t": []int{32}, "bolt_pattern": "direct"}, "crankset": {"rings_t": []int{32}, "bolt_pattern": "direct"}}, "ring_compared", "all"},
		{"one on splines and the other silent", fields{"chainring": {"rings_t": []int{32}, "bolt_pattern": "direct"}, "crankset": {"rings_t": []int{32}}}, "ring_compared", "splines"},
		{"a name beside a circle asks for the other one", fields{"chainring": {"rings_t": []int{32}, "direct_name": "lake", "bolt_circle_mm": 104.0}, "crankset": {"rings_t": []int{32}}}, "ring_direct", "~crankset.direct_name"},
		{"four bolts on five, one pattern silent", fields{"chainring": {"rings_t": []int{32}, "bolt_circle_mm": 110.0, "bolts": 4, "bolt_pattern": "asymmetric"}, "crankset": {"rings_t": []int{32}, "bolt_circle_mm": 110.0, "bolts": 5}}, "ring_compared", "~differs already"},
		{"front cable", fields{"front_shifter": {"pulls_mm": []float64{8, 6}}, "front_derailleur": {"pulls_mm": []float64{7, 7.5}}}, "front_pulls_off_mm", 1},
		{"a tyre of 37 mm on 622", fields{"wheel": {"bead_seat_mm": 622.0, "tyre_width_mm": 37.0}}, "wheel_turn_m", 2.1865},
		{"how an axle is held is asked of the frame, where no hub is in the mix", fields{"frame": {"chainstay_mm": 430.0}}, "axle_kind", "~frame.axle"},
		{"how many rings", fields{"crankset": {"rings_t": []int{50, 34}}}, "ring_count", 2},
		{"nine splines take eleven", nine, "least_cog_t", 11},
		// What runs otherwise.
		{"a belt has no length in links", and(single, "frame", "drive", "belt"), "chain_pitches", "~belt"},
		{"a chain of another pitch has none", and(single, "chain", "pitch_mm", 9.5), "big_big_rest_pitches", "~half an inch"},
		{"12.74 mm is half an inch", and(single, "chain", "pitch_mm", 12.74), "half_inch_drive", 1},
		{"12.753 is not", and(single, "chain", "pitch_mm", 12.753), "half_inch_drive", "~half an inch"},
		{"an idler", and(single, "frame", "idler_t", 16), "big_big_rest_pitches", "~idler"},
		{"nor the slack of its small pair", and(single, "frame", "idler_t", 16, "rear_derailleur", "actuation", "cable", "bench", "chain_pitches", 117), "small_small_slack_pitches", "~idler"},
		{"with one nobody asks for the teeth of the ring either", fields{"chainring": {"wide_tooth_mm": 3.5}, "cassette": {"cogs_t": []int{11, 34}},
			"frame": {"chainstay_mm": 430.0, "rear_suspension": "none", "idler_t": 16}}, "small_small_slack_pitches", "~idler"},
		{"measured at the longest, nothing is still to come", fields{"bench": {"end_to_end_pitches": 113.4, "position": "longest"}}, "big_big_pitches", 113.4},
		{"on the stand all of the growth is", fields{"bench": {"end_to_end_pitches": 110.3}, "cassette": {"cogs_t": []int{10, 51}}, "crankset": {"rings_t": []int{32}}, "frame": {"chainstay_mm": 435.0, "chain_growth_mm": 20.0}}, "big_big_pitches", 113.44},
		{"at sag what is left of it", fields{"bench": {"end_to_end_pitches": 110.3, "position": "at_sag"}, "cassette": {"cogs_t": []int{10, 51}}, "crankset": {"rings_t": []int{32}}, "frame": {"chainstay_mm": 435.0, "chain_growth_mm": 20.0, "growth_at_sag_mm": 20.0}}, "big_big_pitches", 110.3},
	} {
		row.hold(t)
	}
}

// How often the ring turns is in doubt where a motor may turn it otherwise, and nowhere else.
func TestPullByLegsAloneIsSure(t *testing.T) {
	legs := fields{"crankset": {"rings_t": []int{34}, "length_mm": 175.0}, "frame": {"assist": "none", "timing_chain": false}}
	for _, c := range []struct {
		mix     fields
		assumed bool
	}{{legs, false}, {and(legs, "frame", "assist", "mid", "frame", "assist_nm", 85.0), true}} {
		v, lack := Measure(mixOf(random.Draw{Fields: c.mix})).Value("chain_pull_n")
		if !v.Known || v.Assumed != c.assumed {
			t.Errorf("%v: it is %v, assumed %t (%+v)", c.mix, v, v.Assumed, lack)
		}
	}
}

// figureRow is a mix and what one of its figures comes to.
type figureRow struct {
	name   string
	mix    fields
	figure string
	want   any // a number, a list, a word, or "~" and part of a lack
}

func (row figureRow) hold(t *testing.T) {
	t.Helper()
	v, lack := Measure(mixOf(random.Draw{Fields: row.mix})).Value(row.figure)
	switch want := row.want.(type) {
	case string:
		said := strings.Join(slices.Concat(lack.Missing, lack.Absent), " ") + lack.Reason
		if part, lacks := strings.CutPrefix(want, "~"); lacks && !strings.Contains(said, part) || !lacks && v.Text != want {
			t.Errorf("%s: %s is %v (%s), want %s", row.name, row.figure, v, said, want)
		}
	case int:
		holdNumber(t, row.name+": "+row.figure, v, float64(want))
	case float64:
		holdNumber(t, row.name+": "+row.figure, v, want)
	case []float64:
		if !slices.EqualFunc(v.List, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }) {
			t.Errorf("%s: %s is %v (%+v), want %v", row.name, row.figure, v.List, lack, want)
		}
	}
}

// holdNumber wants a figure to within what its row is rounded to: a thousandth of
// it, or six hundredths.
func holdNumber(t *testing.T, name string, v fact.Value, want float64) {
	t.Helper()
	got, within := v.Num, max(0.0006, math.Abs(want)/1000)
	if len(v.List) > 0 {
		got = v.List[0]
	}
	if strings.HasSuffix(name, "shift_mm") || strings.HasSuffix(name, "bolt_room_mm") || strings.HasSuffix(name, "motor_input_nm") {
		within = 0.06
	}
	if !v.Known || !(math.Abs(got-want) <= within+1e-9) {
		t.Errorf("%s is %v (known: %v), want %v", name, got, v.Known, want)
	}
}

// and is a mix with more fields: kind, field, value and so on.
func and(mix fields, more ...any) fields {
	d := random.Draw{Fields: mix}
	for i := 0; i+2 < len(more); i += 3 {
		d = d.With(more[i].(string), more[i+1].(string), more[i+2])
	}
	return d.Fields
}

// counts is a chain sold for so many cogs on a cassette of so many, and no more.
func counts(speeds, cogs int) fields {
	teeth := make([]int, cogs)
	for i := range teeth {
		teeth[i] = 11 + 2*i
	}
	return fields{"chain": {"speeds": speeds}, "cassette": {"cogs_t": teeth}}
}

// A name goes before numbers only as long as nobody measured what it stands for, no
// converter changes the pull, and the numbers do not miss by more than half a pitch.
func TestSetsByName(t *testing.T) {
	set := fields{
		"cassette":        {"cogs_t": []int{11, 13, 15, 17}, "pitch_mm": 3.95, "index_family": "lake"},
		"rear_shifter":    {"actuation": "cable", "pull_mm": 2.7, "clicks": 3, "index_family": "lake"},
		"rear_derailleur": {"actuation": "cable", "ratio": 1.9, "index_family": "lake"},
	}
	for _, row := range []struct {
		name       string
		mix        fields
		own, name2 float64
	}{
		{"stated as one", set, 1, 1},
		{"with a converter", and(set, "rear_shifter", "pull_factor", 1.2), 0, 0},
		{"with a factor of one", and(set, "rear_shifter", "pull_factor", 1.0), 1, 1},
		{"with measured steps", and(set, "bench", "step_positions_mm", []float64{0, 5.1, 10.3, 15.4}), 0, 0},
		{"with measured cogs", and(set, "bench", "cog_positions_mm", []float64{0, 3.9, 7.9, 11.9}), 0, 0},
		{"more than half a pitch off", and(set, "rear_derailleur", "ratio", 2.95), 1, 0},
		{"of another family", and(set, "rear_derailleur", "index_family", "reed"), 0, 0},
		{"without numbers", and(fields{"cassette": {"cogs_t": []int{11, 13}, "index_family": "lake"}, "rear_shifter": {"index_family": "lake"}},
			"rear_derailleur", "index_family", "lake"), 1, 1},
	} {
		figs := Measure(mixOf(random.Draw{Fields: row.mix}))
		own, _ := figs.Value("index_own_set")
		name, lack := figs.Value("index_by_name")
		if !own.Known || !name.Known || own.Num != row.own || name.Num != row.name2 {
			t.Errorf("%s: own set %v, by name %v (%+v); want %v and %v", row.name, own, name, lack, row.own, row.name2)
		}
	}
}

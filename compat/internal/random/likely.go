package random

import "math"

// rare are fields that take figures away where they stand: most mixes do
// without.
var rare = map[string]bool{
	"idler_t": true, "kind_of_hub": true,
	"drive": true, "chain.pitch_mm": true, "timing_chain": true, "chain_pitches_wanted": true, "half_links": true,
}

// rareKinds are parts that few bicycles have.
var rareKinds = map[string]bool{"chain_tensioner": true}

// likelyRanges narrow the range of a field to what bicycles have, so that rules
// are decided either way and not always far beyond their limits.
var likelyRanges = map[string][2]float64{
	"cog_thickness_mm": {1.5, 2}, "mount_height_mm": {30, 40}, "body_length_mm": {30, 40}, "overhang_mm": {-10, 5},
	"outer_width_mm": {4.8, 7.4}, "inner_width_mm": {1.8, 2.7}, "ring_thickness_mm": {1.6, 2.6}, "speeds": {5, 14},
	"max_cog_t": {25, 52}, "min_largest_cog_t": {22, 52}, "capacity_t": {12, 50}, "max_front_difference_t": {0, 20}, "add_pitches": {0, 4},
	"add_pitches_rest": {3, 7}, "guide_pulley_t": {10, 15}, "guide_pulley_tip_radius_mm": {20, 35}, "b_gap_mm": {2, 20},
	"b_gap_gauge_step_mm": {4, 24}, "trim_step_mm": {0.1, 0.4}, "trim_range_mm": {0.2, 3},
	"first_pull_take_up_mm": {0, 1}, "pull_factor": {0.8, 1.2},
	"chainline_mm": {43, 56}, "max_ring_t": {30, 56}, "chainstay_mm": {395, 470}, "chain_growth_mm": {0, 30}, "growth_at_sag_mm": {-5, 12},
	"over_locknut_mm": {130, 150}, "smallest_cog_inset_mm": {2, 9}, "shoulder_inset_mm": {34, 46}, "spoke_clearance_mm": {0, 8},
	"bead_seat_mm": {406, 630}, "tyre_width_mm": {20, 60}, "strength_n": {6000, 10000}, "min_cog_t": {9, 12},
	"spacer_mm": {0, 3}, "spacer_behind_mm": {0, 4}, "hanger_error_mm": {0, 6},
	"chain_wear_percent": {0, 1.2}, "guide_bolt_to_cog_mm": {30, 50},
	"cage_to_spoke_mm": {-1, 8}, "jockey_play_mm": {0, 2}, "torque_nm": {2, 40}, "mount_torque_nm": {2, 30}, "clamp_diameter_mm": {22, 24},
	"spindle_length_mm": {110, 125}, "length_mm": {160, 180}, "assist_nm": {0, 90}, "motor_ring_factor": {1, 2.5},
	"bolt_circle_mm":       {64, 135},
	"inner_bolt_circle_mm": {58, 80}, "dropout_recess_mm": {0, 3}, "min_drive_ratio": {1.5, 3},
	"max_input_nm": {60, 200}, "take_up_mm": {0, 30},
	"free_bar_mm": {0, 80}, "clamp_width_mm": {8, 30}, "nominal_v": {1, 8}, "cell_max_v": {1, 8}, "end_to_end_pitches": {98, 118},
}

// likelyValues draw what depends on the rest of the mix.
var likelyValues = map[string]func(d *drawer) any{
	"cassette.cogs_t":        func(d *drawer) any { return d.teeth },
	"cassette.cog_count":     func(d *drawer) any { return len(d.teeth) },
	"cassette.pitch_mm":      func(d *drawer) any { return d.near(0.03) },
	"cassette.pitches_mm":    func(d *drawer) any { return d.nearly(len(d.teeth) - 1) },
	"cassette.index_family":  func(d *drawer) any { return d.word() },
	"cassette.freehub":       func(d *drawer) any { return d.freehub() },
	"cassette.roller_class":  func(d *drawer) any { return d.rollers() },
	"crankset.roller_class":  func(d *drawer) any { return d.rollers() },
	"chainring.roller_class": func(d *drawer) any { return d.rollers() },
	"chain.roller_class":     func(d *drawer) any { return d.rollers() },
	"chain.pitches":          func(d *drawer) any { return 100 + d.IntN(28) },
	"cell.chemistry":         func(d *drawer) any { return d.oftenFirst("li-ion", "lithium-manganese") },
	"charger.chemistry":      func(d *drawer) any { return d.oftenFirst("li-ion", "nickel-metal-hydride") },
	"charger.min_c":          func(d *drawer) any { return d.between(-20, 20) },
	"charger.max_c":          func(d *drawer) any { return d.between(30, 60) },
	"hub.freehub":            func(d *drawer) any { return d.freehub() },
	"hub.bodies":             func(d *drawer) any { return []string{d.freehub()} },
	"hub.kind_of_hub":        func(d *drawer) any { return d.oftenFirst("cassette", "freewheel", "internal", "fixed") },
	"frame.hanger":           func(d *drawer) any { return d.oftenFirst("fixed", "replaceable", "direct", "universal", "claw") },
	"frame.idler_t":          func(d *drawer) any { return 14 + d.IntN(5) },

	"cassette.stack_height_mm": func(d *drawer) any { return d.between(0, 0.4) + 1.5 + d.pitch*float64(len(d.teeth)-1) },

	"rear_derailleur.actuation":           func(d *drawer) any { return d.drives() },
	"rear_shifter.actuation":              func(d *drawer) any { return d.drives() },
	"rear_derailleur.steps_mm":            func(d *drawer) any { return d.nearly(d.steps()) },
	"rear_derailleur.made_for_pitch_mm":   func(d *drawer) any { return d.near(0.03) },
	"rear_derailleur.made_for_pitches_mm": func(d *drawer) any { return d.nearly(d.steps()) },
	"rear_derailleur.steps_selectable":    func(d *drawer) any { return []int{d.steps(), d.steps()} },
	"rear_derailleur.ratio":               func(d *drawer) any { return d.ratio },
	"rear_derailleur.ratios":              func(d *drawer) any { return d.list(d.steps(), d.ratio-0.05, d.ratio+0.05) },
	"rear_derailleur.rest_cog":            func(d *drawer) any { return []string{"smallest", "largest"}[d.IntN(2)] },
	"rear_derailleur.hanger":              func(d *drawer) any { return d.oftenFirst("fixed", "replaceable", "direct", "universal", "claw") },
	"rear_shifter.indexed":                func(d *drawer) any { return d.chance(0.9) },
	"rear_shifter.clicks":                 func(d *drawer) any { return d.steps() },
	"rear_shifter.pull_mm":                func(d *drawer) any { return d.pull() },
	"rear_shifter.pulls_mm":               func(d *drawer) any { return d.pulls() },

	"frame.shell":            func(d *drawer) any { return d.shell() },
	"bottom_bracket.shell":   func(d *drawer) any { return d.shell() },
	"bottom_bracket.spindle": func(d *drawer) any { return d.spindle() },
	"crankset.spindle":       func(d *drawer) any { return d.spindle() },
	"cell.form":              func(d *drawer) any { return d.cell() },
	"controller_cell.form":   func(d *drawer) any { return d.cell() },
	"charger.form":           func(d *drawer) any { return d.cell() },
	"rear_derailleur.cell":   func(d *drawer) any { return d.cell() },
	"rear_shifter.cell":      func(d *drawer) any { return d.cell() },
	"frame.axle_thread":      func(d *drawer) any { return d.oftenFirst("m12-1.0", "m12-1.5", "m12-1.75") },
	"axle.thread":            func(d *drawer) any { return d.oftenFirst("m12-1.0", "m12-1.5", "m12-1.75") },
	"crankset.bolt_pattern":  func(d *drawer) any { return d.oftenFirst("even", "asymmetric", "direct") },
	"chainring.bolt_pattern": func(d *drawer) any { return d.oftenFirst("even", "asymmetric", "direct") },

	"crankset.rings_t":        func(d *drawer) any { return d.rings() },
	"crankset.ring_offset_mm": func(d *drawer) any { return []float64{0} },
	"chainring.rings_t":       func(d *drawer) any { return d.rings() },

	"chain.pitch_mm":                       func(d *drawer) any { return []float64{12.7, 12.7, 12.7, 9.5}[d.IntN(4)] },
	"chain.inner_class":                    func(d *drawer) any { return d.oftenFirst("eleven-128", "three-32", "narrow", "eighth") },
	"frame.drive":                          func(d *drawer) any { return d.oftenFirst("chain", "belt") },
	"rear_derailleur.made_for_cogs":        func(d *drawer) any { return max(d.steps()+1, 2) },
	"rear_derailleur.chain_pitches_wanted": func(d *drawer) any { return 104 + 2*d.IntN(10) },
	"hub.body_class":                       func(d *drawer) any { return d.oftenFirst("8-10", "road-11", "7") },
	"hub.body_length_mm":                   func(d *drawer) any { return []float64{31, 34.95, 34.95, 36.75, 36.75, 33}[d.IntN(6)] },

	"bench.chain_pitches":         func(d *drawer) any { return 100 + d.IntN(24) },
	"bench.cog_positions_mm":      func(d *drawer) any { return d.rising(len(d.teeth)) },
	"bench.step_positions_mm":     func(d *drawer) any { return d.rising(d.steps() + 1) },
	"bench.smallest_cog_inset_mm": func(d *drawer) any { return d.between(2, 9) },
	"bench.b_gap_mm":              func(d *drawer) any { return d.between(-1, 20) },
}

// oftenFirst draws the usual word in two of three cases.
func (d *drawer) oftenFirst(words ...string) string {
	if d.chance(0.65) {
		return words[0]
	}
	return words[d.IntN(len(words))]
}

// rollers are those of the other parts in most mixes.
func (d *drawer) rollers() string {
	if d.chance(0.8) {
		return d.roll
	}
	return d.oftenFirst("standard", "large")
}

func (d *drawer) freehub() string {
	return d.oftenFirst("spline-9", "spline-9-deep", "spline-8", "spline-8-deep", "driver-10", "driver-10-long", "spline-23",
		"spline-road-12", "heron-7")
}

func (d *drawer) shell() string {
	return d.oftenFirst("threaded-68", "threaded-73", "threaded-68-73", "press-41-92", "heron")
}

func (d *drawer) spindle() string {
	return d.oftenFirst("through-24", "through-30", "square-taper", "taper-jis", "heron")
}

func (d *drawer) cell() string { return d.oftenFirst("cr2032", "br2032", "lir2032", "heron-pack") }

// drives is how one end is driven, as the other end is in most mixes.
func (d *drawer) drives() string {
	if d.chance(0.9) {
		return d.drive
	}
	return d.oftenFirst("cable", "motor")
}

// pull is what the ratio turns into a step near the aim.
func (d *drawer) pull() float64 { return math.Round(d.near(0.05)/d.ratio*100) / 100 }

func (d *drawer) pulls() []float64 {
	out := make([]float64, d.steps())
	for i := range out {
		out[i] = d.pull()
	}
	return out
}

package compat

import "testing"

// What one word of a figure stands for, by the definition in its own text: of chains and
// how they close, of what moves and holds them.
func TestWordsOfTheDrive(t *testing.T) {
	single := fields{"cassette": {"cogs_t": []int{17}}, "crankset": {"rings_t": []int{44}}}
	lug := fields{"hub": {"kind_of_hub": "internal", "freehub": "lug-3"}, "cassette": {"cogs_t": []int{18}, "freehub": []string{"lug-3"}}}
	fixed := fields{"hub": {"kind_of_hub": "fixed", "freehub": "track-1.375"}, "cassette": {"cogs_t": []int{16}, "freehub": []string{"track-1.375"}}}
	geared := fields{"hub": {"kind_of_hub": "internal", "min_drive_ratio": 1.9}, "cassette": {"cogs_t": []int{20}}}
	for _, row := range []figureRow{
		{"a single cog has no neighbour", and(single, "chain", "speeds", 1), "neighbour_gap_mm", "~no neighbour"},
		{"nor one for each", and(single, "chain", "speeds", 1), "neighbour_gaps_mm", "~no neighbour"},
		{"nor a spacing", single, "cog_spacing_mm", "~no neighbour"},
		{"a way on no cassette", fields{"rear_derailleur": {"actuation": "cable"}, "bench": {"guide_travel_mm": 30.0}}, "step_positions_mm", "~cassette"},
		// How an odd count closes.
		{"nobody knows of a half link", single, "chain_closing", "perhaps"},
		{"a half link", and(single, "chain", "half_links", "one"), "chain_closing", "cranked"},
		{"one that was seen", and(single, "bench", "half_link", true), "chain_closing", "cranked"},
		{"none was seen", and(single, "bench", "half_link", false), "chain_closing", "even-only"},
		{"with a derailleur", and(single, "chain", "half_links", "one", "rear_derailleur", "actuation", "cable"), "chain_closing", "cranked-and-derailleur"},
		{"several cogs have a derailleur", and(single, "bench", "half_link", true, "cassette", "cogs_t", []int{11, 28}), "chain_closing", "cranked-and-derailleur"},
		{"several rings and no half link", and(single, "crankset", "rings_t", []int{44, 32}), "chain_closing", "even-only"},
		// What takes the chain up.
		{"nothing but the axle", single, "chain_held_by", "axle"},
		{"two rings mean a derailleur", and(single, "crankset", "rings_t", []int{44, 32}), "chain_held_by", "derailleur"},
		{"rings of their own as well", and(single, "chainring", "rings_t", []int{44, 32}), "chain_held_by", "derailleur"},
		{"a tensioner", and(single, "chain_tensioner", "pulleys", 1), "chain_held_by", "tensioner"},
		{"a derailleur on one fixed cog takes nothing up", and(fixed, "rear_derailleur", "actuation", "cable"), "chain_held_by", "axle"},
		{"what the travel adds", fields{"bench": {"end_to_end_pitches": 110.3}, "cassette": {"cogs_t": []int{10, 51}}, "crankset": {"rings_t": []int{32}},
			"frame": {"chainstay_mm": 435.0, "chain_growth_mm": 20.0}}, "chain_growth_pitches", 3.14},
		{"sold shorter than the count to cut", and(single, "frame", "chainstay_mm", 430.0, "frame", "rear_suspension", "none", "rear_derailleur", "actuation", "cable",
			"cassette", "cogs_t", []int{11, 34}, "chain", "pitches", 100), "chain_count_pitches", 100},
		// How cogs hold.
		{"one lug cog on its body", lug, "cog_hold", "body"},
		{"two of them", and(lug, "cassette", "cogs_t", []int{16, 18}), "cog_hold", "kind"},
		{"a splined one on lugs", and(lug, "cassette", "freehub", []string{"spline-9"}), "cog_hold", "kind"},
		{"a fixed cog on its thread", fixed, "cog_hold", "body"},
		{"on the thread of freewheels", and(fixed, "hub", "freehub", "thread-1.375"), "cog_hold", "thread"},
		{"several on a fixed hub", and(fixed, "cassette", "cogs_t", []int{14, 16}), "cog_hold", "kind"},
		{"a fixed cog alone", fixed, "fixed_cog", "alone"},
		{"a freewheel on a fixed hub", and(fixed, "cassette", "freehub", []string{"thread-1.375"}), "fixed_cog", "none"},
		{"said to be none", and(fixed, "cassette", "fixed_cog", false), "fixed_cog", "none"},
		{"with a derailleur on it", and(fixed, "rear_derailleur", "actuation", "cable"), "fixed_cog", "derailleur"},
		{"with a tensioner", and(fixed, "chain_tensioner", "pulleys", 1), "fixed_cog", "tensioner"},
		{"of any other hub none", and(geared, "hub", "kind_of_hub", "cassette"), "fixed_cog", "none"},
		{"a geared hub by its ratio", geared, "hub_input_by", "ratio"},
		{"by ratio and motor", and(geared, "frame", "assist", "mid"), "hub_input_by", "both"},
		{"by ratio and torque", and(geared, "hub", "max_input_nm", 100.0), "hub_input_by", "both"},
		{"of several cogs by nothing", and(geared, "cassette", "cogs_t", []int{18, 20}), "hub_input_by", "~shifted by a derailleur"},
		// Who pulls.
		{"a motor", fields{"frame": {"assist": "mid"}}, "chain_pulled_by", "rider-and-motor"},
		{"two riders", fields{"frame": {"assist": "none", "timing_chain": true}}, "chain_pulled_by", "two-riders"},
		{"both", fields{"frame": {"assist": "mid", "timing_chain": true}}, "chain_pulled_by", "two-riders-and-motor"},
		{"one rider", fields{"frame": {"assist": "hub"}}, "chain_pulled_by", "~one rider alone"},
		{"nobody says", fields{"frame": {"use": "adult"}}, "chain_pulled_by", "~frame.assist"},
		{"a chain of which nobody says for how many cogs", fields{"chain": {"outer_width_mm": 6.6}, "cassette": {"cogs_t": []int{11, 13}}}, "chain_cogs_over", "~chain.speeds"},
		// Connectors.
		{"for 8 on a chain for 10, on ten cogs", and(counts(10, 10), "chain_connector", "speeds", 8), "connector_overlap_mm", 0.15},
		{"where no cassette is in the mix", fields{"chain": {"speeds": 10}, "chain_connector": {"speeds": 8}}, "connector_overlap_mm", 0.15},
		{"for 9 it clears", fields{"chain": {"speeds": 10}, "chain_connector": {"speeds": 9}}, "connector_overlap_mm", 0},
		{"5 to 8 have one width", fields{"chain": {"speeds": 6}, "chain_connector": {"speeds": 8}}, "connector_against_chain", "same"},
		{"8 on 9 is wider", fields{"chain": {"speeds": 9}, "chain_connector": {"speeds": 8}}, "connector_against_chain", "wider"},
		{"10 on 9 is narrower", fields{"chain": {"speeds": 9}, "chain_connector": {"speeds": 10}}, "connector_against_chain", "narrower-by-one"},
		{"11 on 9 by more", fields{"chain": {"speeds": 9}, "chain_connector": {"speeds": 11}}, "connector_against_chain", "narrower-by-more"},
		{"a chain of two counts", fields{"chain": {"speeds": 10, "also_for": []int{9}}, "chain_connector": {"speeds": 9}}, "connector_against_chain", "same"},
		{"nobody says", fields{"chain": {"outer_width_mm": 6.6}, "chain_connector": {"speeds": 9}}, "connector_against_chain", "not-said"},
	} {
		row.hold(t)
	}
}

// The same of rings and cranks, of front derailleurs, hangers, axles, brakes and cells.
func TestWordsOfWhatIsJoined(t *testing.T) {
	joint := func(ring, crank map[string]any) fields {
		mix := fields{"chainring": {"rings_t": []int{40}}, "crankset": {"rings_t": []int{40}}}
		for k, x := range ring {
			mix = and(mix, "chainring", k, x)
		}
		for k, x := range crank {
			mix = and(mix, "crankset", k, x)
		}
		return mix
	}
	type of = map[string]any
	front := func(shifter, derailleur of) fields {
		return fields{"front_shifter": shifter, "front_derailleur": derailleur}
	}
	link := fields{"frame": {"hanger": "universal"}, "rear_derailleur": {"max_cog_t": 34}, "hanger_link": {"drop_mm": 17.0, "gives_hanger": "replaceable"}}
	clamped := fields{"frame": {"hanger": "universal", "axle": "through"}, "rear_derailleur": {"mount": "full"}, "hub": {"axle": "quick"}}
	charger := func(cell, charger string) fields { return fields{"cell": {"form": cell}, "charger": {"form": charger}} }
	taken := fields{"cell": {"form": "cr2032", "nominal_v": 3.0}, "rear_derailleur": {"actuation": "motor", "cell": "cr2032", "cell_max_v": 3.2}}
	theirs := fields{"cell": taken["cell"], "rear_shifter": {"actuation": "motor", "cell": "cr2032", "cell_max_v": 3.2}}
	bent := fields{"cassette": {"cogs_t": []int{10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 51}, "pitch_mm": 3.75}, "wheel": {"bead_seat_mm": 622.0},
		"rear_derailleur": {"actuation": "motor", "made_for_pitch_mm": 3.65, "made_for_cogs": 12}, "bench": {"hanger_error_mm": 4.0}}
	for _, row := range []figureRow{
		{"the crank is silent about its circle", joint(of{"bolt_circle_mm": 104.0}, nil), "ring_compared", "circle"},
		{"so is the ring", joint(nil, of{"bolt_circle_mm": 104.0}), "ring_compared", "circle"},
		{"both are", joint(nil, nil), "ring_compared", "~chainring.bolt_circle_mm"},
		{"a crank on splines, a ring with bolts", joint(of{"bolt_circle_mm": 104.0}, of{"bolt_pattern": "direct"}), "ring_direct", "crank-alone"},
		{"neither has splines", joint(of{"bolt_circle_mm": 104.0}, of{"bolt_circle_mm": 104.0}), "ring_direct", "~to have splines"},
		{"circles 1.1 mm apart", joint(of{"bolt_circle_mm": 104.0}, of{"bolt_circle_mm": 105.1}), "ring_told", "circle"},
		{"1 mm apart, four bolts and five", joint(of{"bolt_circle_mm": 104.0, "bolts": 4}, of{"bolt_circle_mm": 105.0, "bolts": 5}), "ring_told", "bolts"},
		{"alike so far", joint(of{"bolt_circle_mm": 104.0, "bolts": 4}, of{"bolt_circle_mm": 104.0, "bolts": 4}), "ring_told", "pattern"},
		{"the ring says of extended plates", joint(of{"extended_inner_plates": false}, nil), "ring_extended_stated", 1},
		{"the crank alone does", joint(nil, of{"extended_inner_plates": true}), "ring_extended_stated", 0},
		{"of its own ring", fields{"crankset": {"rings_t": []int{40}, "extended_inner_plates": true}}, "ring_extended_stated", 1},
		// Front.
		{"pulls on both sides", front(of{"pulls_mm": []float64{8}}, of{"pulls_mm": []float64{8}}), "front_compared", "pulls"},
		{"classes", front(of{"pull_class": "road"}, of{"pull_class": "road"}), "front_compared", "class"},
		{"a class of the shifter alone", front(of{"pull_class": "road"}, of{"max_ring_t": 50}), "front_compared", "derailleur"},
		{"of the derailleur alone", front(of{"indexed": true}, of{"pull_class": "road"}), "front_compared", "shifter"},
		{"a motor on one side", front(of{"actuation": "motor"}, of{"pull_class": "road"}), "front_compared", "~no cable"},
		{"on the other", front(of{"pull_class": "road"}, of{"actuation": "motor"}), "front_compared", "~no cable"},
		{"no clicks", front(of{"indexed": false}, of{"pull_class": "road"}), "front_compared", "~by ear"},
		{"the step of two rings", fields{"crankset": {"rings_t": []int{50, 34}}}, "front_step_t", 16},
		{"the outer one of three", fields{"crankset": {"rings_t": []int{50, 39, 30}}}, "front_step_t", 11},
		{"a cage for another number", fields{"crankset": {"rings_t": []int{50, 34}}, "front_derailleur": {"rings": 3}}, "front_step_t", "~rings"},
		// Hangers.
		{"a link gives another", link, "mount_hanger", "replaceable"},
		{"or says nothing", and(fields{"frame": {"hanger": "fixed"}}, "hanger_link", "drop_mm", 17.0), "mount_hanger", "fixed"},
		{"both of the usual place", link, "link_reach_t", 8},
		{"one that brings it elsewhere", and(link, "hanger_link", "gives_hanger", "direct"), "link_reach_t", 0},
		{"from elsewhere", and(link, "frame", "hanger", "direct"), "link_reach_t", 0},
		{"twice the same place", and(link, "frame", "hanger", "direct", "hanger_link", "gives_hanger", "direct"), "link_reach_t", 8},
		{"the frame says which axle", clamped, "clamp_axle", "through"},
		{"the hub where it does not", and(fields{"frame": {"hanger": "universal"}, "rear_derailleur": clamped["rear_derailleur"]}, "hub", "axle", "quick"), "clamp_axle", "quick"},
		{"not clamped", and(clamped, "rear_derailleur", "mount", "direct"), "clamp_axle", "any"},
		{"bent by 4 mm at the rim, half of the drift on top", bent, "index_residual_with_hanger_mm", 0.8156},
		// Axles and brakes.
		{"the frame's thread", fields{"frame": {"axle_thread": "m12-1.5", "hanger": "universal"}}, "axle_thread", "m12-1.5"},
		{"that of the universal hanger", fields{"frame": {"hanger": "universal"}}, "axle_thread", "m12-1.0"},
		{"of another nobody says it", fields{"frame": {"hanger": "fixed"}}, "axle_thread", "~frame.axle_thread"},
		{"alike", fields{"frame": {"axle": "quick"}, "hub": {"axle": "quick"}}, "axle_compared", "alike"},
		{"another", fields{"frame": {"axle": "quick"}, "hub": {"axle": "through"}}, "axle_compared", "differ"},
		{"silent", fields{"frame": {"axle": "quick"}}, "axle_compared", "silent"},
		{"silent, and an axle is bought", fields{"frame": {"axle": "through"}, "axle": {"length_mm": 172.0}}, "axle_compared", "asked"},
		{"which brake a lever moves", fields{"rear_shifter": {"integrated_brake": "hydraulic"}, "brake": {"pull": "hydraulic"}}, "lever_brake", "hydraulic"},
		{"it does not say", fields{"rear_shifter": {"speeds": 9}, "brake": {"pull": "hydraulic"}}, "lever_brake", "unstated"},
		// Cells.
		{"a charger for the same form", charger("pochard-pack", "pochard-pack"), "charger_for_cell", "same"},
		{"for a button of the same size", charger("lir2032", "cr2032"), "charger_for_cell", "same"},
		{"of another size", charger("lir2032", "lir2450"), "charger_for_cell", "other"},
		{"its own cell is judged", taken, "cell_judged", 1},
		{"that of the controller is not", theirs, "cell_judged", "~other part's"},
		{"but there", theirs, "controller_judged", "only"},
		{"and that of the derailleur not there", and(taken, "rear_shifter", "actuation", "motor", "rear_shifter", "cell_max_v", 3.2), "controller_judged", "~other part's"},
		{"a limit is enough to ask", and(fields{"controller_cell": {"form": "cr2032", "nominal_v": 3.0}}, "rear_shifter", "cell_max_v", 3.2), "controller_judged", "own"},
	} {
		row.hold(t)
	}
}

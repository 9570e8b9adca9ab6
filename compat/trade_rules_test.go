package compat

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
)

// Figures behind rules that a pass must not slip through.
func TestFiguresThatRulesAskFor(t *testing.T) {
	sprung := fields{"cassette": {"cogs_t": []int{10, 51}}, "crankset": {"rings_t": []int{32}},
		"frame": {"chainstay_mm": 430.0, "chain_growth_mm": 20.0, "rear_suspension": "sprung"},
		"bench": {"end_to_end_pitches": 111.0, "position": "sag"}}
	table := fields{"cassette": {"cogs_t": []int{10, 51}}, "crankset": {"rings_t": []int{32}},
		"frame": {"chainstay_mm": 435.0, "chain_growth_mm": 20.0}, "rear_derailleur": {"chain_pitches_wanted": 114}}
	single := fields{"cassette": {"cogs_t": []int{17}}, "crankset": {"rings_t": []int{44}}, "frame": {"chainstay_mm": 405.0}}
	clamped := fields{"rear_derailleur": {"mount": "full"}}
	tandem := fields{"crankset": {"rings_t": []int{38}}, "frame": {"timing_chain": true}}
	hubGear := fields{"cassette": {"cogs_t": []int{20}}, "hub": {"kind_of_hub": "internal", "min_drive_ratio": 1.9}}
	pack := fields{"cell": {"form": "pack-1", "chemistry": "li-ion", "nominal_v": 7.4}, "rear_derailleur": {"cell": "pack-1"}}
	button := fields{"cell": {"form": "cr2032", "chemistry": "lithium-manganese"}, "charger": {"form": "pack-2", "chemistry": "li-ion"}}
	flat := fields{"cassette": {"cogs_t": []int{11, 13, 15, 17, 20, 23, 26, 30, 32}}, "hub": {"freehub": "spline-9"}}
	ten := and(flat, "cassette", "cogs_t", []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25})
	eleven := and(flat, "cassette", "cogs_t", []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28})
	wheel := fields{"cassette": {"cogs_t": []int{14, 28}}, "hub": {"over_locknut_mm": 126.0}}
	rigid := fields{"cassette": sprung["cassette"], "crankset": sprung["crankset"], "bench": sprung["bench"],
		"frame": {"chainstay_mm": 430.0, "rear_suspension": "none"}}
	cage := fields{"cassette": sprung["cassette"], "crankset": sprung["crankset"], "frame": rigid["frame"],
		"rear_derailleur": {"max_cog_t": 51}}
	driver := fields{"hub": {"freehub": "driver-10", "min_cog_t": 10}}
	for _, row := range []figureRow{
		// A length that was measured where nobody knows how far the axle had moved.
		{"at sag and its growth not stated", sprung, "big_big_pitches", "~frame.growth_at_sag_mm"},
		{"nor what is left at rest", sprung, "big_big_rest_pitches", "~frame.growth_at_sag_mm"},
		{"at sag and its growth stated", and(sprung, "frame", "growth_at_sag_mm", 20.0), "big_big_pitches", 111},
		{"at sag on a rigid frame", rigid, "big_big_pitches", 111},
		{"and at rest", rigid, "big_big_rest_pitches", 111},
		{"at the longest, and what is left at rest", fields{"cassette": sprung["cassette"], "crankset": sprung["crankset"],
			"frame": {"chainstay_mm": 430.0}, "bench": {"end_to_end_pitches": 113.4, "position": "longest"}}, "big_big_rest_pitches", "~frame.chain_growth_mm"},
		// Counts of a chain.
		{"the table is the count to cut", table, "chain_pitches", 114},
		{"whatever the length asks for", table, "chain_pitches_reckoned", 116},
		{"cut to the table", and(table, "bench", "chain_pitches", 114), "chain_by_table", 1},
		{"not cut to it", and(table, "bench", "chain_pitches", 116), "chain_by_table", 0},
		{"no table", single, "chain_by_table", 0},
		{"nobody counted", single, "chain_counted", 0},
		{"sold longer than the count to cut", and(single, "chain", "pitches", 112), "chain_counted", 0},
		{"sold shorter", and(single, "chain", "pitches", 92), "chain_counted", 1},
		{"counted", and(single, "bench", "chain_pitches", 96), "chain_counted", 1},
		{"clamped to the frame and its table not stated", clamped, "chain_table_unsaid", 1},
		{"and stated", and(clamped, "rear_derailleur", "chain_pitches_wanted", 116), "chain_table_unsaid", 0},
		{"on a hanger", fields{"rear_derailleur": {"mount": "hanger"}}, "chain_table_unsaid", 0},
		{"on what nobody says", fields{"rear_derailleur": {"max_cog_t": 34}}, "chain_table_unsaid", 0},
		// 32 on 51 less 32 on 10, by the sum of a textbook: half of 41 teeth, and (19² - 22²) / (2 pi)² x 12.7 / 430.
		{"between the smallest pair and the largest", cage, "cage_range_used_pitches", 20.41},
		// Who pulls.
		{"two riders pull", tandem, "chain_pulled_by", "two-riders"},
		{"and a motor in the hub does not", and(tandem, "frame", "assist", "hub"), "chain_pulled_by", "two-riders"},
		{"and one at the crank does", and(tandem, "frame", "assist", "mid"), "chain_pulled_by", "two-riders-and-motor"},
		{"one rider and a motor", and(tandem, "frame", "timing_chain", false, "frame", "assist", "mid"), "chain_pulled_by", "rider-and-motor"},
		{"one rider", and(tandem, "frame", "timing_chain", false, "frame", "assist", "none"), "chain_pulled_by", "~any chain"},
		{"one rider, and whether there is a motor nobody says", and(tandem, "frame", "timing_chain", false), "chain_pulled_by", "~frame.assist"},
		// Limits of a hub gear.
		{"the least ratio alone", hubGear, "hub_input_by", "ratio"},
		{"and the most torque", and(hubGear, "hub", "max_input_nm", 130.0), "hub_input_by", "both"},
		{"a motor at the crank asks for it", and(hubGear, "frame", "assist", "mid"), "hub_input_by", "both"},
		// Cells.
		{"what is inside can be charged", pack, "cell_judged", 1},
		{"what is inside cannot", and(pack, "cell", "chemistry", "alkaline"), "cell_judged", "~rear_derailleur.cell_max_v"},
		{"digits alone are no button", fields{"cell": {"form": "2032"}, "rear_derailleur": {"cell": "br2032"}}, "cell_fit", "other"},
		{"a charger for another", button, "charger_for_cell", "other"},
		{"one for its digits", and(button, "charger", "form", "lir2032"), "charger_for_cell", "same"},
		{"one for its chemistry in another form", and(button, "charger", "chemistry", "lithium-manganese"), "charger_for_cell", "same"},
		// Spacers of a body that nobody named.
		{"none on the shorter one", flat, "spacer_rows", "long"},
		{"of which there is nothing to say", flat, "spacer_short_mm", "~wants no spacer"},
		{"one on the longer", flat, "spacer_long_mm", 1.85},
		{"ten cogs, with a ring or without", ten, "spacer_rows", "both-and-ring"},
		{"on the shorter one", ten, "spacer_short_mm", 1},
		{"on the longer one", ten, "spacer_long_mm", 2.85},
		{"ten cogs on a named body", and(ten, "hub", "body_class", "8-10"), "spacer_rows", "ring"},
		{"which needs no second row", and(ten, "hub", "body_class", "8-10"), "spacer_long_mm", "~the body is named"},
		{"the road eleven goes on the longer one alone", eleven, "spacer_rows", "only-long"},
		{"seven on either", and(flat, "cassette", "cogs_t", []int{11, 13, 15, 17, 20, 24, 28}), "spacer_rows", "both"},
		{"a named body leaves nothing open", and(flat, "hub", "body_class", "road-11"), "spacer_rows", "one"},
		// The smallest cog of a body: one that carries ten may carry nine as its kind does, and no other carries less than it states.
		{"as the driver states", driver, "least_cog_t", 10},
		{"some carry nine", driver, "least_cog_kind_t", 9},
		{"splines from twelve", fields{"hub": {"freehub": "spline-9", "min_cog_t": 12}}, "least_cog_kind_t", 12},
		{"a body that nobody knows", fields{"hub": {"freehub": "heron-7", "min_cog_t": 12}}, "least_cog_kind_t", 12},
		// Room beside the smallest cog.
		{"a hub of which nothing is said", wheel, "dropout_least_mm", 0.1},
		{"a freewheel hub", and(wheel, "hub", "kind_of_hub", "freewheel"), "dropout_least_mm", 1},
		{"a freewheel on a silent hub", and(wheel, "cassette", "freehub", []string{"thread-1.375"}), "dropout_least_mm", 1},
		{"measured with it on", and(wheel, "hub", "kind_of_hub", "freewheel", "bench", "smallest_cog_inset_mm", 4.0), "dropout_least_mm", 0.1},
		// Belts and other chains.
		{"a chain drives where nobody says otherwise", single, "half_inch_drive", 1},
		{"a belt", and(single, "frame", "drive", "belt"), "half_inch_drive", "~belt"},
		{"another chain", and(single, "chain", "pitch_mm", 10.0), "half_inch_drive", "~half an inch"},
		{"a pulley of a belt on splines", and(flat, "frame", "drive", "belt"), "least_cog_t", "~belt"},
		{"and one in front", and(single, "frame", "drive", "belt"), "ring_reach_t", "~belt"},
		{"rollers of another chain", fields{"chain": {"pitch_mm": 10.0, "roller_class": "large"}}, "chain_roller_class", "~half an inch"},
	} {
		row.hold(t)
	}
}

// What a rule says of a whole mix, in its text, its remedy and what to order.
func TestWhatRulesSay(t *testing.T) {
	c := standardChecker(t)
	for _, row := range []saidRow{
		{"hub gear over its torque", `hub: {kind_of_hub: internal, min_drive_ratio: 1.9, max_input_nm: 130}, crankset: {rings_t: [38]}, cassette: {cogs_t: [20]},
			frame: {assist: mid, assist_nm: 85}`, "hub/input-ratio", rules.Warn,
			"stand 1.90 to 1. For this hub 1.90 to 1 or more is wanted. It is driven by up to 176 N m, 45 of them of the motor, and bears 130.|!though"},
		{"hub gear of a small cog", `hub: {kind_of_hub: internal, min_drive_ratio: 1.9}, crankset: {rings_t: [40]}, cassette: {cogs_t: [13]}`,
			"hub/input-ratio", rules.Pass, "3.00 to 1 or more is wanted|!allows|!N m"},
		{"hub gear under what a small cog wants", `hub: {kind_of_hub: internal, min_drive_ratio: 1.9}, crankset: {rings_t: [38]}, cassette: {cogs_t: [13]}`,
			"hub/input-ratio", rules.Warn, "3.00 to 1 or more is wanted, for two riders|though its maker states less"},
		{"tandem", `crankset: {rings_t: [38], length_mm: 175}, chain: {strength_n: 6000}, frame: {timing_chain: true, assist: none}`,
			"chain/assist-pull", rules.Warn, "With 1500 N of each rider the chain is pulled with 6827 N|!of the motor"},
		{"motor at the crank", `crankset: {rings_t: [34], length_mm: 175}, chain: {strength_n: 8010}, frame: {assist: mid, assist_nm: 85}`,
			"chain/assist-pull", rules.Pass, "With 1500 N on a pedal|The 85 N m of the motor are part of that."},
		{"table of another stay", `cassette: {cogs_t: [10, 51]}, crankset: {rings_t: [32]}, frame: {chainstay_mm: 435, chain_growth_mm: 20},
			rear_derailleur: {mount: full, chain_pitches_wanted: 114}, chain: {pitches: 114}`, "chain/length", rules.Fail,
			"count of its maker's table, which cannot be right for this chainstay|wants 116 half-inch links|chain of 116|second chain|!114 half-inch links or more"},
		{"table kept", `cassette: {cogs_t: [10, 51]}, crankset: {rings_t: [32]}, frame: {chainstay_mm: 430, chain_growth_mm: 20},
			rear_derailleur: {mount: full, chain_pitches_wanted: 114}, chain: {pitches: 114}`, "chain/length", rules.Pass, "1.4 are left|!cannot be right"},
		{"sold two short of the table", `cassette: {cogs_t: [10, 51]}, crankset: {rings_t: [32]}, frame: {chainstay_mm: 435, chain_growth_mm: 20},
			rear_derailleur: {mount: full, chain_pitches_wanted: 118}, chain: {pitches: 116}`, "chain/length", rules.Warn,
			"The chain has 116|Its maker wants another count|chain of 118 half-inch links or more|second chain of the same kind"},
		{"nobody counted", `cassette: {cogs_t: [17]}, crankset: {rings_t: [44]}, frame: {chainstay_mm: 405, dropout: track}`, "chain/length", rules.Pass,
			"A chain is cut to 94 half-inch links.|!The chain has"},
		{"b-gap on a rigid frame", `rear_derailleur: {b_gap_mm: 6}, frame: {rear_suspension: none}|b_gap_mm: 9`, "b-gap/measured", rules.Warn,
			"Screw the B-screw out, and measure again.|!sag|!rider"},
		{"b-gap on a sprung frame", `rear_derailleur: {b_gap_mm: 6, b_adjust: angle}, frame: {rear_suspension: sprung}|b_gap_mm: 9, position: sag`, "b-gap/measured", rules.Warn,
			"Bolt the rear derailleur on at another angle|The rider sits on the bicycle meanwhile"},
		{"b-gap of one that clamps the frame", `rear_derailleur: {b_gap_mm: 6, mount: full}|b_gap_mm: 9`, "b-gap/measured", rules.Warn,
			"Nothing sets this gap: look at the chain count|!B-screw|!at sag"},
		{"nine on an unnamed body", `cassette: {cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34], freehub: spline-9}, hub: {freehub: spline-9}`, "hub/lockring-margin", rules.Warn,
			"On a body of 36.75 mm 1.85 mm of spacers are wanted behind it, on one of 34.95 mm none.|on a freehub body of 36.75 mm (one of 34.95 mm wants none)|!by class,|!Nobody stated by class"},
		{"ten on an unnamed body", `cassette: {cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 23, 25], freehub: spline-9}, hub: {freehub: spline-9}`, "hub/lockring-margin", rules.Warn,
			"On a body of 36.75 mm 2.85 mm|On one of 34.95 mm 1.00 mm are.|came without a ring of 1.0 mm|on a freehub body of 34.95 mm"},
		{"nine on the named body", `cassette: {cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34], freehub: spline-9}, hub: {freehub: spline-9, body_class: road-11}`, "hub/lockring-margin", rules.Warn,
			"On this body 1.85 mm of spacers are wanted behind it.|!34.95|!Measure the body"},
		{"a chemistry in no table", `cell: {primary: false, chemistry: heron-salt}, charger: {chemistry: li-ion}`, "charger/chemistry", rules.Warn, "are in no table together"},
		{"two of the table", `cell: {primary: false, chemistry: li-ion}, charger: {chemistry: lead}`, "charger/chemistry", rules.Fail, "made for lead.|!no table"},
		{"a fixed cog a little tight", `cassette: {cogs_t: [17], fixed_cog: true}, crankset: {rings_t: [44]}|chain_play_mm: 3.4`, "chain/play", rules.Warn, "moves 3.4 mm|it is tight|!binds"},
		{"a fixed cog that binds", `cassette: {cogs_t: [17], fixed_cog: true}, crankset: {rings_t: [44]}|chain_play_mm: 1.9`, "chain/play", rules.Warn, "moves 1.9 mm|it binds"},
		{"a freewheel that binds", `cassette: {cogs_t: [17], fixed_cog: false}, crankset: {rings_t: [44]}|chain_play_mm: 2.9`, "chain/play", rules.Warn, "moves 2.9 mm|it binds"},
		{"a fixed cog on splines", `cassette: {cogs_t: [16], fixed_cog: true}, hub: {freehub: spline-9}`, "hub/fixed-cog", rules.Warn, "stated to be fixed|spline-9, which is no track thread|!The cog is fixed, and"},
	} {
		parts, bench, _ := strings.Cut(row.mix, "|")
		m, err := ReadMix(row.name, []byte("mix: "+row.name+"\nparts: {"+parts+"}\nbench: {"+bench+"}\n"), nil)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		row.hold(t, c.Check(m))
	}
}

// saidRow is a mix and what one rule says of it.
type saidRow struct {
	name, mix, rule string // of the mix its parts, and behind a bar what was measured
	verdict         rules.Verdict
	says            string // texts that it must say, or with "!" must not, parted by |
}

// hold looks at the verdict, and at what the rule says, what it does about it and what
// is ordered.
func (row saidRow) hold(t *testing.T, r Report) {
	t.Helper()
	findings := r.Findings()
	i := slices.IndexFunc(findings, func(f Finding) bool { return f.Rule == row.rule })
	if i < 0 || findings[i].Verdict != row.verdict {
		t.Errorf("%s: %s does not give %s", row.name, row.rule, row.verdict)
		return
	}
	said := findings[i].Text + " " + findings[i].Remedy
	for _, n := range r.Needs() {
		said += " " + n.What
	}
	for part := range strings.SplitSeq(row.says, "|") {
		if text, never := strings.CutPrefix(part, "!"); never == strings.Contains(said, text) {
			t.Errorf("%s: %s: %q is said: %v\n%s", row.name, row.rule, text, never, said)
		}
	}
}

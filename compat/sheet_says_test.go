package compat_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
)

// Bicycles that other cases are changed from, as JSON without the outer braces.
const (
	rigid    = `"frame": {"rear_suspension": "none", "chainstay_mm": 430, "hanger": "fixed"}, "crankset": {"rings_t": [32], "chainline_mm": 52}, "chain": {"speeds": 12}`
	sprung   = `"frame": {"rear_suspension": "sprung", "chain_growth_mm": 20, "chainstay_mm": 430, "hanger": "universal", "axle": "through"}, "crankset": {"rings_t": [32], "chainline_mm": 52}, "chain": {"speeds": 12}`
	twelve   = `"cassette": {"cogs_t": [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], "pitch_mm": 3.65, "freehub": "driver-10"}`
	fullOver = sprung + ", " + twelve + `, "rear_derailleur": {"actuation": "motor", "mount": "full", "max_cog_t": 51, "made_for_pitch_mm": 3.75, "made_for_cogs": 12, "trim_step_mm": 0.2}`
	overs    = rigid + ", " + twelve + `, "rear_shifter": {"actuation": "cable", "pull_mm": 3.5, "clicks": 11}, "rear_derailleur": {"actuation": "cable", "mount": "hanger", "ratio": 1.0714}`
	even     = rigid + ", " + twelve + `, "rear_shifter": {"actuation": "cable", "pull_mm": 3.5, "clicks": 11}, "rear_derailleur": {"actuation": "cable", "mount": "hanger", "ratio": 1.0429}`
	single   = `"frame": {"dropout": "track", "rear_suspension": "none", "chainstay_mm": 405}, "crankset": {"rings_t": [44]}, "chain": {"speeds": 1}`
	onTrack  = single + `, "cassette": {"cogs_t": [17], "freehub": "thread-1.375"}, "hub": {"kind_of_hub": "fixed", "freehub": "track-1.375", "axle": "quick"}`
	held     = `"frame": {"dropout": "vertical", "rear_suspension": "none", "chainstay_mm": 405}, "crankset": {"rings_t": [44]}, "chain": {"speeds": 1, "pitches": 114}, "cassette": {"cogs_t": [17], "freehub": "spline-9"}, "hub": {"kind_of_hub": "cassette", "freehub": "spline-9"}, "chain_tensioner": {"pulleys": 1}`
	short    = rigid + `, "cassette": {"cogs_t": [11, 13, 15, 17, 19, 21, 24, 28], "pitch_mm": 4.8}, "rear_derailleur": {"actuation": "motor", "made_for_pitch_mm": 4.4, "made_for_cogs": 7, "trim_step_mm": 0.2}`
)

// TestSheetSays holds what single steps say and leave unsaid, all by common practice
// of the trade: has are pieces that the step must say, not what it must not; a step
// with neither must not stand.
func TestSheetSays(t *testing.T) {
	const no = "(does not stand)"
	for name, c := range map[string]struct{ parts, step, has, not string }{
		"no stops, and the last step inboard": {fullOver, "fine-trim-unguarded",
			"3 more clicks towards the dropout|0.55 mm inboard|1.10 mm towards the dropout|No screw stands between this step and the spokes. Trim 3 clicks towards the dropout", "second largest"},
		"and not the usual trim":       {fullOver, "fine-trim", no, ""},
		"nor the usual noise":          {fullOver, "noise", no, ""},
		"but all of it at one end":     {fullOver, "noise-unguarded", "1.10 mm too far towards the dropout", ""},
		"and no click back":            {fullOver, "one-click", "spend none towards them", ""},
		"with a trim that nobody read": {strings.Replace(fullOver, `, "trim_step_mm": 0.2`, "", 1), "fine-trim-unguarded", "0.55 mm inboard|No screw stands", "clicks"},
		"the same with stops": {strings.Replace(fullOver, `"mount": "full"`, `"mount": "full", "limit_stops": "screws"`, 1), "fine-trim",
			"Cogs 6 and 7 equally quiet", "No screw"},
		"a cable that overshoots":            {overs, "low-stop", "this stop is the only thing between chain and spokes", ""},
		"once more":                          {overs, "low-stop-again", "this stop is the only thing between chain and spokes", ""},
		"and at the other end":               {overs, "high-stop", "this stop is the only thing between chain and dropout", ""},
		"a cable that meets its cogs":        {even, "low-stop", "fingers out of the spokes", "only thing"},
		"and at its other end":               {even, "high-stop", "rests on this stop", "only thing"},
		"a lever without clicks":             {strings.Replace(even, `"pull_mm": 3.5, "clicks": 11`, `"indexed": false`, 1), "low-stop-by-ear", "a lever without clicks pulls on", "the index has moved"},
		"and no offset to look at later":     {strings.Replace(even, `"pull_mm": 3.5, "clicks": 11`, `"indexed": false`, 1), "recheck-gap", "B-gap", "offset"},
		"a full mount has one":               {fullOver, "recheck-offset", "offset", "B-gap"},
		"a freewheel on a track hub":         {onTrack, "freewheel", "by hand", ""},
		"which is no fixed cog":              {onTrack, "fixed-cog", no, ""},
		"nor tightened as one":               {onTrack, "tension", "8 to 20 mm", "tensioner"},
		"nor measured as one later":          {onTrack, "recheck-play", "8 to 20 mm", "fixed"},
		"but brakes by its brakes alone":     {onTrack, "brakes-first", "a brake at the front and one at the rear", "legs alone"},
		"a fixed cog by its thread":          {strings.Replace(onTrack, "thread-1.375", "track-1.375", 1), "tension-fixed", "4 to 12 mm", ""},
		"a cog that is said to freewheel":    {strings.Replace(onTrack, `"freehub": "thread-1.375"`, `"fixed_cog": false`, 1), "fixed-cog", no, ""},
		"a skewer in slots":                  {onTrack, "axle-nuts", "inside cam and a steel nut", ""},
		"a tensioner":                        {held, "tensioner", "half-inch links are left for it", "vertical"},
		"is threaded":                        {held, "thread-tensioner", "before it is closed", ""},
		"and not measured through":           {held, "chain-measure-rigid", "does not go through the tensioner", "the derailleur"},
		"nor set by play":                    {held, "tension", no, ""},
		"nor looked at so later":             {held, "recheck-play", no, ""},
		"one cog on splines":                 {held, "spacer-single", "in line with the ring", "lockring touches the smallest cog"},
		"and not as a cassette":              {held, "spacer", no, ""},
		"fewer steps than cogs":              {short, "fine-trim", "the last cog that has a step|cogs that have a step", "second largest|stacks"},
		"and what is heard of them":          {short, "noise", "the last that has a step", "largest"},
		"and how the chain gets there":       {short, "rough-trim", "lay the chain on it by hand", ""},
		"no chainstay":                       {strings.ReplaceAll(even, `"chainstay_mm": 430, `, ""), "two-looks", "Not worked out", ""},
		"nor a count to cut":                 {strings.ReplaceAll(fullOver, `"chainstay_mm": 430, `, ""), "chain-cut", "Not worked out|goes before all reckoning", ""},
		"nor a place to come down":           {strings.Replace(even, `, "chainline_mm": 52`, "", 1), "back-pedal", "Not worked out", "0.90"},
		"over capacity":                      {strings.Replace(even, `"ratio"`, `"capacity_t": 38, "ratio"`, 1), "two-looks", "down to cogs of 13 teeth: keep off the smaller ones", "there"},
		"within capacity":                    {strings.Replace(even, `"ratio"`, `"capacity_t": 42, "ratio"`, 1), "two-looks", "takes up 28.0|down to cogs of 10 teeth", "keep off"},
		"an angle on a rigid frame":          {strings.Replace(even, `"ratio"`, `"b_adjust": "angle", "b_gap_mm": 13, "ratio"`, 1), "b-gap-angle", "On the stand|tab against its stop", "sag"},
		"and on a sprung one":                {strings.Replace(strings.Replace(even, `"ratio"`, `"b_adjust": "angle", "ratio"`, 1), `"rear_suspension": "none"`, `"rear_suspension": "sprung"`, 1), "b-gap-angle-sag", "one sits on the bicycle|at sag, and at rest at least 4 mm|tab against its stop", "On the stand"},
		"which then is the only one":         {strings.Replace(strings.Replace(even, `"ratio"`, `"b_adjust": "angle", "ratio"`, 1), `"rear_suspension": "none"`, `"rear_suspension": "sprung"`, 1), "b-gap-angle", no, ""},
		"a hanger with room":                 {even + `, "wheel": {"bead_seat_mm": 622}`, "hanger", "At most 4.0 mm|Aim at 1 mm", "used up"},
		"a hanger with hardly any":           {strings.Replace(overs, "1.0714", "1.0825", 1) + `, "wheel": {"bead_seat_mm": 622}`, "hanger", "used up what is left for a hanger", "Aim at"},
		"a hanger that nobody can work out":  {even, "hanger", "At most 4 mm|1 mm is aimed at", ""},
		"a crank of one piece":               {`"bottom_bracket": {"shell": "one-piece-51"}`, "bearing-one-piece", "left-hand thread", "N m"},
		"a shell in no table":                {`"bottom_bracket": {"shell": "heron-9"}`, "bearing-by-sheet", "by its maker's sheet", "N m"},
		"a shell that nobody names":          {`"bottom_bracket": {"spindle": "through-24"}`, "bearing-by-sheet", "by its maker's sheet", "N m"},
		"a shell with a thread":              {`"bottom_bracket": {"shell": "threaded-73"}`, "bearing", "34 to 41 N m", ""},
		"rings of their own":                 {`"crankset": {"rings_t": [42]}, "chainring": {"rings_t": [38, 24]}`, "ring", "Bolt the rings", ""},
		"oval rings and a motor at the cage": {`"crankset": {"rings_t": [46, 30], "oval_percent": 10}, "front_derailleur": {"actuation": "motor"}`, "front", "long axis|The motor moves", "cable"},
		"round rings and a cable":            {`"crankset": {"rings_t": [46, 30]}, "front_derailleur": {"actuation": "cable"}`, "front", "bare cable", "long axis|motor"},
		"a belt to be looked at":             {`"frame": {"drive": "belt"}, "crankset": {"rings_t": [50]}, "cassette": {"cogs_t": [22]}, "hub": {"kind_of_hub": "internal"}`, "look-belt", "belt for cracks", "chain"},
		"a belt's pulley":                    {`"frame": {"drive": "belt"}, "crankset": {"rings_t": [50]}, "cassette": {"cogs_t": [22]}, "hub": {"kind_of_hub": "internal"}`, "lug-pulley", "pulley", "cog|chain"},
		"and no cog":                         {`"frame": {"drive": "belt"}, "crankset": {"rings_t": [50]}, "cassette": {"cogs_t": [22]}, "hub": {"kind_of_hub": "internal"}`, "lug-cog", no, ""},
		"and the pulley in front":            {`"frame": {"drive": "belt"}, "crankset": {"rings_t": [50]}, "cassette": {"cogs_t": [22]}, "hub": {"kind_of_hub": "internal"}`, "ring-belt", "front pulley", "the ring"},
	} {
		t.Run(name, func(t *testing.T) {
			m, err := compat.ReadMix("says.json", []byte(`{"mix": "says", "parts": {`+c.parts+`}}`), nil)
			if err != nil {
				t.Fatal(err)
			}
			said := ""
			for _, s := range checker(t).Rules().Sheet(compat.Measure(m).Records()) {
				if s.Step.ID == c.step {
					said = strings.Join([]string{s.Do, s.Value, s.Check, s.Because, s.Caution}, " | ")
				}
			}
			if c.has == no {
				if said != "" {
					t.Errorf("%s has no place here: %s", c.step, said)
				}
				return
			}
			for _, want := range strings.Split(c.has, "|") {
				if !strings.Contains(said, want) {
					t.Errorf("%s lacks %q: %s", c.step, want, said)
				}
			}
			for _, not := range strings.Split(c.not, "|") {
				if not != "" && strings.Contains(said, not) {
					t.Errorf("%s says %q: %s", c.step, not, said)
				}
			}
		})
	}
}

// TestSheetOfFault holds that a sheet which ends at a fault says nothing of the ride,
// while the report, whose reader may mend the mix, does.
func TestSheetOfFault(t *testing.T) {
	of := func(freehub string) (compat.Sheet, compat.Report) {
		m, err := compat.ReadMix("fault.json", []byte(`{"mix": "fault", "parts": {`+rigid+`, "hub": {"kind_of_hub": "cassette", "freehub": "spline-9"},
			"cassette": {"cogs_t": [11, 13, 15], "freehub": "`+freehub+`"}}}`), nil)
		if err != nil {
			t.Fatal(err)
		}
		return checker(t).Sheet(m), checker(t).Check(m)
	}
	rides := func(c string) bool { return strings.Contains(c, "ride") }
	sheet, report := of("spline-8-deep")
	if slices.ContainsFunc(sheet.Cautions(), rides) || !slices.ContainsFunc(report.Cautions(), rides) {
		t.Errorf("the sheet of a fault says %q, its report %q", sheet.Cautions(), report.Cautions())
	}
	if !slices.Contains(sheet.Cautions(), "See that the axle is closed before the first turn of the wheel.") || len(sheet.Bolts()) > 0 {
		t.Errorf("%q, and bolts %v", sheet.Cautions(), sheet.Bolts())
	}
	if sheet, report = of("spline-9"); !slices.Equal(sheet.Cautions(), report.Cautions()) || !slices.ContainsFunc(sheet.Cautions(), rides) || len(sheet.Bolts()) == 0 {
		t.Errorf("a sound sheet says %q, its report %q, and bolts %v", sheet.Cautions(), report.Cautions(), sheet.Bolts())
	}
}

package compat_test

import (
	"math"
	"testing"

	"example.org/cogcourt/compat/figures"
)

// routes are the functions of the tables that a mix can be asked for.
var routes = map[string]route{
	"cassette stack":   {stackParts, numbersOf("cassette_stack_mm")},
	"pitch from stack": {stackParts, pitchResult},
	"mean pitch":       {stackParts, pitchResult},
	"neighbour gap":    {gapParts, numbersOf("neighbour_gap_mm")},

	"exact chain length": {chainParts, numbersOf("big_big_rest_pitches")},
	"even up":            {evenParts, numbersOf("chain_pitches")},
	"chain pitches":      {chainParts, numbersOf("chain_pitches")},
	"chain margin":       {chainParts, numbersOf("chain_margin_pitches")},
	"chain slack":        {chainParts, numbersOf("small_small_slack_pitches")},
	"chain growth":       {chainParts, numbersOf("chain_growth_pitches")},

	"chain wrap":       {toothParts, numbersOf("chain_wrap_t")},
	"front difference": {toothParts, numbersOf("front_difference_t")},
	"cog step":         {toothParts, numbersOf("cog_step_mm")},
	"gear ratio":       {gearParts, listOf("gear_ratios")},
	"development":      {gearParts, numbersOf("development_high_m")},
	"tyre circumference": {gearParts, func(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
		return []float64{1000 * figure(t, f, "development_high_m")}
	}},

	"index step": {cableParts, func(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
		return list(t, f, "step_positions_mm")[1:]
	}},
	"step positions":   {indexParts, listOf("step_positions_mm")},
	"index offset":     {indexParts, numbersOf("index_offset_mm")},
	"index residual":   {indexParts, numbersOf("index_residual_mm")},
	"index share":      {indexParts, numbersOf("index_residual_share")},
	"index errors":     {indexParts, listOf("index_errors_mm")},
	"worst if aligned": {indexParts, listOf("index_worst_if_aligned_mm")},
	"index window":     {indexParts, numbersOf("index_first_click", "index_residual_mm")},
	"stack difference": {indexParts, numbersOf("stack_difference_mm")},
	"trim clicks":      {indexParts, numbersOf("trim_clicks", "trim_residual_mm")},

	"cog lines":     {lineParts, listOf("cog_lines_mm")},
	"cog line last": {lineParts, lastLine},
	"cog line middle": {lineParts, func(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
		lines := list(t, f, "cog_lines_mm")
		return []float64{(lines[0] + lines[len(lines)-1]) / 2}
	}},
	"chain angle":     {lineParts, numbersOf("chain_angle_largest_deg")},
	"backpedal entry": {lineParts, numbersOf("backpedal_entry_mm")},

	"hanger drift":         {hangerParts, numbersOf("hanger_drift_mm")},
	"residual with hanger": {hangerParts, numbersOf("index_residual_with_hanger_mm")},
	"hanger limit":         {hangerParts, numbersOf("hanger_limit_mm")},

	"guide tip radius": {guideParts, func(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
		return []float64{figure(t, f, "guide_bolt_to_cog_mm") - leastGap}
	}},
	"guide bolt to cog": {guideParts, numbersOf("guide_bolt_to_cog_mm")},
}

// leastGap is a B-gap that every derailleur may state.
const leastGap = 1

// ladder is a cassette of so many cogs where only their number counts.
func ladder(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = 11 + 2*i
	}
	return out
}

// cassetteOf is the row's cassette: its pitch, pitches or stack, as far as given.
func cassetteOf(r outsideRow) map[string]any {
	n := int(r.num("cogs"))
	if n == 0 {
		n = len(r.in["pitches_mm"]) + 1
	}
	fields := map[string]any{"cogs_t": ladder(n)}
	if r.has("pitches_mm") {
		fields["pitches_mm"] = r.in["pitches_mm"]
	}
	for input, field := range map[string]string{"pitch_mm": "pitch_mm", "cog_mm": "cog_thickness_mm", "stack_mm": "stack_height_mm"} {
		if r.num(input) != 0 { // of a single cog the tables give a pitch of 0
			fields[field] = r.num(input)
		}
	}
	return fields
}

func stackParts(r outsideRow) parts { return parts{"cassette": cassetteOf(r)} }

// pitchResult is the mean distance between the positions.
func pitchResult(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
	at := list(t, f, "cog_positions_mm")
	return []float64{at[len(at)-1] / float64(len(at)-1)}
}

func gapParts(r outsideRow) parts {
	r.in["cogs"] = []float64{3}
	return parts{"cassette": cassetteOf(r), "chain": {"outer_width_mm": r.num("outer_mm")}}
}

// chainParts is a frame with one ring and one cog.
func chainParts(r outsideRow) parts {
	p := parts{
		"cassette":        {"cogs_t": []float64{r.num("cog_t")}},
		"crankset":        {"rings_t": []float64{r.num("ring_t")}},
		"frame":           {"chainstay_mm": r.num("chainstay_mm"), "chain_growth_mm": r.num("chain_growth_mm")},
		"rear_derailleur": {"add_pitches": 2, "max_cog_t": 51},
	}
	if r.has("teeth") {
		p["crankset"]["rings_t"], p["cassette"]["cogs_t"] = r.in["teeth"][:1], r.in["teeth"][1:]
		p["frame"]["chainstay_mm"] = r.num("centre_mm")
	}
	for _, name := range []string{"add_pitches", "add_pitches_rest", "capacity_t"} {
		if r.has(name) {
			p["rear_derailleur"][name] = r.num(name)
		}
	}
	if r.has("pitches") {
		p["bench"] = map[string]any{"chain_pitches": r.num("pitches")}
	}
	return p
}

// evenParts is a chain that was measured end to end and to which nothing is added.
func evenParts(r outsideRow) parts {
	return parts{
		"frame":           {"rear_suspension": "none"},
		"rear_derailleur": {"add_pitches": 0},
		"bench":           {"end_to_end_pitches": r.num("pitches")},
	}
}

func toothParts(r outsideRow) parts {
	p := parts{"crankset": {"rings_t": []int{40}}}
	if r.has("rings_t") {
		p["crankset"]["rings_t"] = r.in["rings_t"]
	}
	if r.has("cogs_t") {
		p["cassette"] = map[string]any{"cogs_t": r.in["cogs_t"]}
	}
	return p
}

// gearParts is a wheel with one gear. A circumference is given to a tyre of
// 30 mm, whose rim has what is left of it.
func gearParts(r outsideRow) parts {
	p := parts{"crankset": {"rings_t": []int{30}}, "cassette": {"cogs_t": []int{30}}}
	if r.has("ring_t") {
		p["crankset"]["rings_t"], p["cassette"]["cogs_t"] = r.in["ring_t"], r.in["cog_t"]
	}
	if r.has("circumference_mm") {
		p["wheel"] = map[string]any{"tyre_width_mm": 30, "bead_seat_mm": r.num("circumference_mm")/math.Pi - 60}
	}
	if r.has("bead_seat_mm") {
		p["wheel"] = map[string]any{"tyre_width_mm": r.num("tyre_width_mm"), "bead_seat_mm": r.num("bead_seat_mm")}
	}
	return p
}

// cableParts is a shifter of one click on two cogs.
func cableParts(r outsideRow) parts {
	return parts{
		"cassette":        {"cogs_t": ladder(2), "pitch_mm": 4},
		"rear_shifter":    {"actuation": "cable", "pull_mm": r.num("pull_mm"), "clicks": 1},
		"rear_derailleur": {"actuation": "cable", "ratio": r.num("ratio")},
	}
}

// indexParts is a cassette with steps of a motor, or of a shifter by its pulls.
func indexParts(r outsideRow) parts {
	p := parts{"cassette": cassetteOf(r), "rear_derailleur": {"actuation": "cable"}}
	switch {
	case r.has("step_mm"):
		steps := make([]float64, len(p["cassette"]["cogs_t"].([]int))-1)
		for i := range steps {
			steps[i] = r.num("step_mm")
		}
		p["rear_derailleur"] = map[string]any{"actuation": "motor", "steps_mm": steps}
	case !r.has("cogs"):
		p["cassette"] = map[string]any{"cogs_t": ladder(len(r.in["pulls_mm"]) + 1), "pitch_mm": 4}
		fallthrough
	default:
		p["rear_shifter"] = map[string]any{"actuation": "cable", "pulls_mm": r.in["pulls_mm"]}
	}
	if r.has("ratio") {
		p["rear_derailleur"]["ratio"] = r.num("ratio")
	}
	if r.has("ratios") {
		p["rear_derailleur"]["ratios"] = r.in["ratios"]
	}
	if r.has("trim_step_mm") {
		p["rear_derailleur"]["trim_step_mm"] = r.num("trim_step_mm")
	}
	return p
}

// lineParts is a hub with the row's cogs, or with one cog on the row's line.
func lineParts(r outsideRow) parts {
	p := parts{"cassette": cassetteOf(r), "hub": {"over_locknut_mm": r.num("over_locknut_mm"), "smallest_cog_inset_mm": r.num("inset_mm")}}
	if r.has("cog_line_mm") {
		const width = 140
		p["cassette"] = map[string]any{"cogs_t": []int{20}}
		p["hub"] = map[string]any{"over_locknut_mm": width, "smallest_cog_inset_mm": width/2 - r.num("cog_line_mm")}
		p["crankset"] = map[string]any{"rings_t": []int{40}, "chainline_mm": r.num("ring_line_mm")}
		p["frame"] = map[string]any{"chainstay_mm": r.num("chainstay_mm")}
	}
	return p
}

func lastLine(t *testing.T, f figures.Figures, _ outsideRow) []float64 {
	lines := list(t, f, "cog_lines_mm")
	return lines[len(lines)-1:]
}

// hangerParts is a cassette of the row's two cogs, with a step that leaves the
// row's residual: half of what it is short.
func hangerParts(r outsideRow) parts {
	pitch := 4.0
	if r.has("pitch_mm") {
		pitch = r.num("pitch_mm")
	}
	p := parts{
		"cassette":        {"cogs_t": r.in["cogs_t"], "pitch_mm": pitch},
		"rear_derailleur": {"actuation": "motor", "steps_mm": []float64{pitch - 2*r.num("residual_mm")}},
		"wheel":           {"bead_seat_mm": r.num("bead_seat_mm")},
	}
	if r.has("hanger_error_mm") {
		p["bench"] = map[string]any{"hanger_error_mm": r.num("hanger_error_mm")}
	}
	return p
}

func guideParts(r outsideRow) parts {
	gap := float64(leastGap)
	if r.has("b_gap_mm") {
		gap = r.num("b_gap_mm")
	}
	return parts{"rear_derailleur": {"guide_pulley_t": r.num("guide_pulley_t"), "b_gap_mm": gap}}
}

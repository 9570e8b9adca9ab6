package reckon

import (
	"math"
	"slices"
)

// steps are the twins of what shifter and derailleur make of clicks, and of counts that
// hang on who moves what.
var steps = map[string]twin{
	"step_positions_mm": positionsOfSteps,
	"index_spare_steps": plain(func(b bike) float64 {
		return float64(countSteps(b)) - b.num("figures.cog_count") + 1
	}),
	"motor_steps_settable": holds(func(b bike) bool {
		return slices.Contains(b.list("rear_derailleur.steps_selectable"), b.num("figures.cog_count")-1)
	}),
	"index_travel_alone": holds(func(b bike) bool {
		if b.known("bench.step_positions_mm") || !b.known("bench.guide_travel_mm") || b.known("rear_shifter.pulls_mm") {
			return false
		}
		if even := b.value("rear_shifter.even"); even.Known {
			return even.Num == 0
		}
		return !b.known("rear_shifter.pull_mm")
	}),
	"index_share_kind": shareKind,
	"chain_spare_pitches": plain(func(b bike) float64 {
		return b.num("figures.chain_count_pitches") - b.num("figures.big_big_pitches")
	}),
	"axle_shift_mm": plain(func(b bike) float64 { // two runs share what it is longer by, each along its own line
		r, c, stay := slices.Max(b.rings()), slices.Max(b.cogs()), b.num("frame.chainstay_mm")
		along := math.Cos(lean(max(radius(r), radius(c)), min(radius(r), radius(c)), stay))
		return (b.num("figures.chain_count_pitches") - b.num("figures.big_big_rest_pitches")) * pitch / 2 / along
	}),
	"chain_off_table_pitches": plain(func(b bike) float64 {
		if wants := b.value("rear_derailleur.chain_pitches_wanted"); wants.Known {
			return b.num("figures.chain_count_pitches") - wants.Num
		}
		return 0
	}),
	"chain_by_table": holds(func(b bike) bool {
		wants := b.value("rear_derailleur.chain_pitches_wanted")
		return wants.Known && wants.Num == b.num("figures.chain_count_pitches")
	}),
	"chain_cogs_over": plain(func(b bike) float64 {
		n := b.num("figures.cog_count")
		if slices.Contains(b.list("chain.also_for"), n) {
			return 0
		}
		return n - b.num("chain.speeds")
	}),
	"axle_growth_mm": plain(func(b bike) float64 {
		if b.text("frame.rear_suspension") == "none" {
			return 0
		}
		return b.num("frame.chain_growth_mm")
	}),
	"link_reach_t": plain(func(b bike) float64 {
		drop, teeth := b.num("hanger_link.drop_mm"), 0.0
		own, gives := b.text("frame.hanger"), b.text("hanger_link.gives_hanger")
		usual := []string{"fixed", "replaceable", "universal"}
		if gives != "" && gives != own && !(slices.Contains(usual, own) && slices.Contains(usual, gives)) {
			return 0
		}
		for (teeth+1)*2.02 <= drop+1e-9 && teeth < 8 { // the whole teeth that it lowers
			teeth++
		}
		return teeth
	}),
	"connector_gap_mm": plain(func(b bike) float64 {
		room := math.Inf(1)
		at := b.list("figures.cog_positions_mm")
		for i := range at {
			if i > 0 {
				room = min(room, exact([]float64{at[i]}, at[i-1], b.num("chain_connector.outer_width_mm")/2, b.num("cassette.cog_thickness_mm")/2))
			}
		}
		return room
	}),
	"lockring_margin_mm": plain(func(b bike) float64 {
		return exact([]float64{b.num("cassette.mount_height_mm"), behind(b)}, b.num("hub.body_length_mm"))
	}),
	"spoke_gap_mm": plain(func(b bike) float64 {
		spacer := 0.0
		if b.known("bench.spacer_behind_mm") || b.known("cassette.mount_height_mm") && b.value("cassette.mount_height_mm").Usual == 0 && b.known("hub.body_length_mm") {
			spacer = behind(b)
		}
		return exact([]float64{b.num("hub.spoke_clearance_mm"), spacer}, b.num("cassette.overhang_mm"))
	}),
	"dropout_room_mm": plain(func(b bike) float64 {
		inset := b.num("hub.smallest_cog_inset_mm")
		if at := b.value("bench.smallest_cog_inset_mm"); at.Known {
			inset = at.Num
		} else if b.known("hub.shoulder_inset_mm") && b.known("cassette.mount_height_mm") && b.known("cassette.cog_thickness_mm") && b.known("figures.cog_thickness_mm") {
			inset = exact([]float64{b.num("hub.shoulder_inset_mm"), b.num("cassette.cog_thickness_mm") / 2}, behind(b), b.num("cassette.mount_height_mm"))
		}
		return exact([]float64{inset, b.num("frame.dropout_recess_mm")}, b.num("chain.outer_width_mm")/2)
	}),
}

// behind is the spacer that stands behind the cassette: as measured, or what comes with it
// unless the cogs are proud enough without, and too proud with it.
func behind(b bike) float64 {
	if at := b.value("bench.spacer_behind_mm"); at.Known {
		return at.Num
	}
	comes := b.num("cassette.spacer_mm")
	if b.known("cassette.mount_height_mm") && b.known("hub.body_length_mm") {
		proud := b.num("cassette.mount_height_mm") - b.num("hub.body_length_mm")
		if proud >= 0.1 && proud+comes > 2 {
			return 0
		}
	}
	return comes
}

// drive is what moves the derailleur.
func drive(b bike) string {
	if word := b.either("rear_derailleur.actuation", "rear_shifter.actuation").Text; word != "" {
		return word
	}
	for _, name := range []string{"steps_mm", "made_for_pitch_mm", "made_for_pitches_mm", "made_for_cogs"} {
		if b.known("rear_derailleur." + name) {
			return "motor"
		}
	}
	return "cable"
}

// countSteps counts the steps that there are.
func countSteps(b bike) int {
	if at := b.value("bench.step_positions_mm"); at.Known {
		return len(at.List) - 1
	}
	if drive(b) == "motor" {
		if list := b.either("rear_derailleur.steps_mm", "rear_derailleur.made_for_pitches_mm"); list.Known {
			return len(list.List)
		}
		return int(b.num("rear_derailleur.made_for_cogs")) - 1
	}
	if list := b.value("rear_shifter.pulls_mm"); list.Known {
		return len(list.List)
	}
	return int(b.num("rear_shifter.clicks"))
}

// widths are those of all steps, from the smallest cog; false where they were measured.
func widths(b bike) ([]float64, bool) {
	if b.known("bench.step_positions_mm") || b.known("bench.guide_travel_mm") {
		return nil, false
	}
	each := func(name, one string, n int) []float64 {
		if list := b.value(name); list.Known && len(list.List) == n {
			return list.List
		}
		if list := b.value(name); list.Known { // one for all
			return slices.Repeat(list.List, n)
		}
		return slices.Repeat([]float64{b.num(one)}, n)
	}
	if drive(b) == "motor" {
		if list := b.either("rear_derailleur.steps_mm", "rear_derailleur.made_for_pitches_mm"); list.Known {
			return list.List, true
		}
		n := b.num("figures.cog_count")
		if made := b.value("rear_derailleur.made_for_cogs"); made.Known {
			n = made.Num
		}
		return slices.Repeat([]float64{b.num("rear_derailleur.made_for_pitch_mm")}, int(n)-1), true
	}
	n := countSteps(b)
	pulls, ratios := each("rear_shifter.pulls_mm", "rear_shifter.pull_mm", n), each("rear_derailleur.ratios", "rear_derailleur.ratio", n)
	factor := 1.0
	if f := b.value("rear_shifter.pull_factor"); f.Known {
		factor = f.Num
	}
	out := make([]float64, n)
	for i := range out {
		slack, first := 0.0, 0
		if b.text("rear_derailleur.rest_cog") == "largest" { // its first pull is the last step
			first = n - 1
		}
		if i == first {
			slack = b.num("rear_shifter.first_pull_take_up_mm")
		}
		out[i] = (pulls[i] - slack) * ratios[i] * factor
	}
	return out, true
}

// running adds widths up.
func running(widths []float64) []float64 {
	out := []float64{0}
	for i, w := range widths {
		out = append(out, out[i]+w)
	}
	return out
}

// positionsOfSteps tries every run of clicks where there are more than cogs, and takes the
// first of those that miss least.
func positionsOfSteps(b bike) (any, bool) {
	of, ok := widths(b)
	if !ok {
		return nil, false
	}
	return bestRun(b, of), true
}

func bestRun(b bike, of []float64) []float64 {
	all, cogs := running(of), b.list("figures.cog_positions_mm")
	if drive(b) == "motor" || len(cogs) < 2 || len(all) <= len(cogs) {
		return all
	}
	best, at := math.Inf(1), 0
	for i := 0; i+len(cogs) <= len(all); i++ {
		if r := met(running(of[i:i+len(cogs)-1]), cogs).residual; r < best-1e-8 {
			best, at = r, i
		}
	}
	return running(of[at : at+len(cogs)-1])
}

// shareKind is the least share; of steps that are taken from the pitch which a motor is
// made for it looks at many that are wider or narrower by up to 0.05 mm, and finds it as
// closely as two of them stand.
func shareKind(b bike) (any, bool) {
	of, ok := widths(b)
	cogs := b.list("figures.cog_positions_mm")
	if !ok {
		return nil, false
	}
	const give, looks = 0.05, 40
	made := drive(b) == "motor" && !b.known("rear_derailleur.steps_mm")
	if !made {
		of = diffs(bestRun(b, of))
	}
	n := min(len(of)+1, len(cogs))
	if n < 2 {
		return nil, false
	}
	share := func(wider float64) float64 {
		steps := slices.Clone(of)
		for i := range steps {
			steps[i] += wider
		}
		return met(running(steps)[:n], cogs[:n]).share(cogs[:n])
	}
	if !made {
		return share(0), true
	}
	best, close := math.Inf(1), math.Inf(1)
	for i := range looks + 1 {
		best = min(best, share(give*(2*float64(i)/looks-1)))
	}
	for i := range n {
		close = min(close, beside(cogs[:n], i))
	}
	return about{best, give / looks * float64(n) / close}, true
}

// diffs are the widths between positions.
func diffs(at []float64) []float64 {
	var out []float64
	for i := 1; i < len(at); i++ {
		out = append(out, at[i]-at[i-1])
	}
	return out
}

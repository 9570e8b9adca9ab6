package reckon

import (
	"math"
	"slices"
)

// twin works one figure out; it is false where this road does not lead to it, as where a
// length was measured.
type twin func(b bike) (any, bool)

func plain(f func(b bike) float64) twin { return func(b bike) (any, bool) { return f(b), true } }

// about is a number that what it begins with leaves open by so much.
type about struct{ x, within float64 }

// numbers are the twins of figures of numbers.
var numbers = map[string]twin{
	"cog_count": plain(func(b bike) float64 {
		if b.known("cassette.cogs_t") {
			return float64(len(b.cogs()))
		}
		return b.num("cassette.cog_count")
	}),
	"cog_positions_mm": positions,
	"chain_outer_mm":   plain(func(b bike) float64 { return b.num("chain.outer_width_mm") }),
	"chain_inner_mm":   plain(func(b bike) float64 { return b.num("chain.inner_width_mm") }),
	"neighbour_gap_mm": plain(func(b bike) float64 {
		room := math.Inf(1)
		at := b.list("figures.cog_positions_mm")
		for i := 1; i < len(at); i++ { // from the chain's face to that of the next cog
			face := at[i-1] + b.num("chain.outer_width_mm")/2
			room = min(room, at[i]-b.num("cassette.cog_thickness_mm")/2-face)
		}
		return room
	}),
	"cog_play_mm": plain(func(b bike) float64 {
		return exact([]float64{b.num("chain.inner_width_mm")}, b.num("cassette.cog_thickness_mm"))
	}),
	"ring_play_mm": plain(func(b bike) float64 {
		return exact([]float64{b.num("chain.inner_width_mm")}, b.ofRing("ring_thickness_mm").Num)
	}),
	"index_offset_mm":      indexed(func(ix index, _ []float64) any { return ix.offset }),
	"index_errors_mm":      indexed(func(ix index, _ []float64) any { return ix.errors }),
	"index_residual_mm":    indexed(func(ix index, _ []float64) any { return ix.residual }),
	"index_residual_share": indexed(func(ix index, cogs []float64) any { return ix.share(cogs) }),
	"chain_wrap_t": plain(func(b bike) float64 {
		low, high := overall(b.rings(), b.cogs(), func(r, c float64) float64 { return r + c })
		return high - low
	}),
	"wrap_alone_t": plain(func(b bike) float64 {
		_, most := overall(b.cogs(), b.cogs(), func(x, y float64) float64 { return x - y })
		return most
	}),
	"front_difference_t": plain(func(b bike) float64 {
		_, most := overall(b.rings(), b.rings(), func(x, y float64) float64 { return x - y })
		return most
	}),
	"ring_count": plain(func(b bike) float64 { return float64(len(b.rings())) }),
	"front_step_t": plain(func(b bike) float64 {
		s := sorted(b.rings())
		return s[len(s)-1] - s[len(s)-2]
	}),
	"lowest_ratio": plain(func(b bike) float64 {
		low, _ := overall(b.rings(), b.cogs(), func(r, c float64) float64 { return r / c })
		return low
	}),
	"chain_growth_pitches": func(b bike) (any, bool) {
		if b.known("bench.end_to_end_pitches") {
			return nil, false
		}
		growth := b.num("frame.chain_growth_mm")
		if b.text("frame.rear_suspension") == "none" {
			growth = 0
		}
		stay, r, c := b.num("frame.chainstay_mm"), slices.Max(b.rings()), slices.Max(b.cogs())
		return round(stay+growth, r, c) - round(stay, r, c), true
	},
	"small_small_slack_pitches": plain(func(b bike) float64 {
		count := b.num("figures.chain_pitches")
		if sold := b.value("chain.pitches"); sold.Known && sold.Num < count {
			count = sold.Num
		}
		if cut := b.value("bench.chain_pitches"); cut.Known {
			count = cut.Num
		}
		return count - round(b.num("frame.chainstay_mm"), slices.Min(b.rings()), slices.Min(b.cogs()))
	}),
	"cog_step_mm": plain(func(b bike) float64 {
		s := sorted(b.cogs())
		return radius(s[len(s)-1]) - radius(s[len(s)-2])
	}),
	"bolt_room_mm": plain(func(b bike) float64 {
		r := sorted(b.rings())
		slices.Reverse(r)
		ring := r[min(len(r), 2)-1]
		if b.ofRing("inner_bolt_circle_mm").Known && len(r) == 2 {
			ring = r[0]
		}
		return 2*radius(ring) - roller - b.either("chainring.bolt_circle_mm", "crankset.bolt_circle_mm").Num
	}),
	"b_gap_measured_mm": plain(func(b bike) float64 {
		if gap := b.value("bench.b_gap_mm"); gap.Known {
			return gap.Num
		}
		tip := b.num("rear_derailleur.guide_pulley_tip_radius_mm")
		if !b.known("rear_derailleur.guide_pulley_tip_radius_mm") { // the mean of the two limits
			z := b.num("rear_derailleur.guide_pulley_t")
			tip = (2*radius(z) - roller + (1.25*pitch+pitch*(1-1.6/z))/2) / 2
		}
		return b.num("bench.guide_bolt_to_cog_mm") - tip
	}),
	"b_gap_off_mm": plain(func(b bike) float64 {
		return exact([]float64{b.num("figures.b_gap_measured_mm")}, b.num("rear_derailleur.b_gap_mm"))
	}),
	"rated_cog_t": plain(func(b bike) float64 {
		return b.num("rear_derailleur.max_cog_t") + b.num("figures.link_reach_t")
	}),
	"ring_wide_tooth_mm": plain(func(b bike) float64 { return b.ofRing("wide_tooth_mm").Num }),
	"ring_reach_t": plain(func(b bike) float64 { // the circle about an oval of so much between its axes
		teeth := slices.Max(b.rings())
		return teeth + teeth*b.ofRing("oval_percent").Num/100/2
	}),
	"index_free_play_mm": plain(func(b bike) float64 {
		float := 0.2
		if f := b.value("rear_derailleur.guide_pulley_float_mm"); f.Known {
			float = f.Num
		}
		return exact([]float64{b.num("figures.neighbour_gap_mm"), b.num("figures.cog_play_mm") / 2, float})
	}),
	"front_pulls_off_mm": plain(pullsOff),
	"hub_least_ratio": plain(func(b bike) float64 {
		all := []float64{b.num("hub.min_drive_ratio")}
		if b.num("frame.timing_chain") == 1 || b.known("frame.idler_t") {
			all = append(all, 2.5)
		}
		if slices.Min(b.cogs()) < 14.5 {
			all = append(all, 3)
		}
		return slices.Max(all)
	}),
}

// positions of the cogs, as exact fractions.
func positions(b bike) (any, bool) {
	if at := b.value("bench.cog_positions_mm"); at.Known {
		return at.List, true
	}
	out, n := []float64{0}, int(b.num("figures.cog_count"))
	if list := b.list("cassette.pitches_mm"); list != nil && n > 1 {
		for i := range list {
			out = append(out, exact(list[:i+1]))
		}
		return out, true
	}
	for i := 1; i < n; i++ {
		if p := b.value("cassette.pitch_mm"); p.Known {
			out = append(out, exact(slices.Repeat([]float64{p.Num}, i)))
			continue
		}
		middle := exact([]float64{b.num("cassette.stack_height_mm")}, b.num("cassette.cog_thickness_mm"))
		out = append(out, middle*float64(i)/float64(n-1))
	}
	return out, true
}

// indexed is a twin of how steps and cogs meet, where there are as many steps as cogs.
func indexed(f func(ix index, cogs []float64) any) twin {
	return func(b bike) (any, bool) {
		steps, cogs := b.list("figures.step_positions_mm"), b.list("figures.cog_positions_mm")
		if len(steps) != len(cogs) || len(cogs) < 2 {
			return nil, false
		}
		return f(met(steps, cogs), cogs), true
	}
}

// pullsOff holds each ring against the nearest of all sums of pulls that are left for it,
// and gives the largest difference.
func pullsOff(b bike) float64 {
	a, w := b.list("front_shifter.pulls_mm"), b.list("front_derailleur.pulls_mm")
	n, off, from := min(len(a), len(w)), 0.0, 0
	for i := range n {
		nearest := math.Inf(1)
		for k := len(a) - (n - i); k >= from; k-- {
			if d := exact(a[:k+1], w[:i+1]...); math.Abs(d) <= math.Abs(nearest) {
				nearest = d
			}
		}
		for k := from; k < len(a); k++ { // it is taken
			if from = k + 1; exact(a[:k+1], w[:i+1]...) == nearest {
				break
			}
		}
		if math.Abs(nearest) > math.Abs(off)+1e-9 {
			off = nearest
		}
	}
	return off
}

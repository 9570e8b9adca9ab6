package reckon

import (
	"math"
	"slices"
)

// lines are the twins of lines, angles, gaps beside them, and forces.
var lines = map[string]twin{
	"ring_lines_mm": func(b bike) (any, bool) {
		line := b.num("crankset.chainline_mm")
		if at := b.value("bench.chainline_mm"); at.Known {
			line = at.Num
		} else if has, wants := b.value("bottom_bracket.spindle_length_mm"), b.value("crankset.spindle_length_mm"); has.Known && wants.Known {
			line += has.Num/2 - wants.Num/2
		}
		out := make([]float64, len(b.rings()))
		for i := range out {
			out[i] = line
			if off := b.list("crankset.ring_offset_mm"); len(off) == len(out) {
				out[i] = exact([]float64{line, off[i]})
			}
		}
		return out, true
	},
	"chain_angle_largest_deg":  plain(func(b bike) float64 { return angle(b, true) }),
	"chain_angle_smallest_deg": plain(func(b bike) float64 { return angle(b, false) }),
	"backpedal_entry_mm": plain(func(b bike) float64 { // sideways over a link, by the angle
		a := angle(b, true) * math.Pi / 180
		return pitch * math.Sin(a) / math.Cos(a)
	}),
	"hanger_limit_mm": func(b bike) (any, bool) {
		steps, cogs := b.list("figures.step_positions_mm"), b.list("figures.cog_positions_mm")
		if len(steps) != len(cogs) || len(cogs) < 2 {
			return nil, false
		}
		ix, teeth := met(steps, cogs), b.cogs()
		climb := radius(slices.Max(teeth)) - radius(slices.Min(teeth))
		lost := 0.2 * ix.residual / ix.share(cogs)
		if ix.residual < 1e-9 {
			return nil, false // every cog is as good as another, and none is the worst
		}
		x := between(-1e7, 4, func(off float64) float64 { // half of the drift is left on top
			return ix.residual + off/b.num("wheel.bead_seat_mm")*climb/2 - lost
		})
		// A rounded residual is told at the rim many times over.
		return about{x, 2e-6 * max(1, 2*b.num("wheel.bead_seat_mm")/climb)}, true
	},
	"rub_margins_mm": rub,
	"chain_tyre_gap_mm": plain(func(b bike) float64 {
		rings, cogs := b.list("figures.ring_lines_mm"), b.list("figures.cog_lines_mm")
		r, half := radius(slices.Max(b.cogs())), b.num("wheel.tyre_width_mm")/2
		widest := b.num("wheel.bead_seat_mm")/2 + half
		stay, cog := b.num("frame.chainstay_mm"), cogs[len(cogs)-1]
		x := between(0, widest, func(x float64) float64 { return math.Hypot(x, r) - widest })
		there := cog*(1-x/stay) + rings[0]*x/stay
		return there - b.num("chain.outer_width_mm")/2 - half
	}),
	"b_gap_sag_shift_mm": plain(func(b bike) float64 {
		r, c, stay := radius(slices.Max(b.rings())), radius(slices.Max(b.cogs())), b.num("frame.chainstay_mm")
		run := math.Sqrt(stay*stay-(r-c)*(r-c)) / stay
		return 2 * run * b.num("frame.growth_at_sag_mm") * b.num("rear_derailleur.guide_offset_mm") / b.num("rear_derailleur.cage_length_mm")
	}),
	"chain_pull_n": plain(func(b bike) float64 {
		riders, crank, factor := 1.0, 175.0, 1.0
		if b.num("frame.timing_chain") == 1 {
			riders = 2
		}
		if l := b.value("crankset.length_mm"); l.Known {
			crank = l.Num
		}
		if f := b.value("frame.motor_ring_factor"); f.Known {
			factor = f.Num
		}
		moment := riders * 1500 * crank // N mm
		if b.text("frame.assist") == "mid" {
			moment += 1000 * b.num("frame.assist_nm")
		}
		return moment / radius(slices.Min(b.rings())) / factor
	}),
	"hub_input_nm":   plain(func(b bike) float64 { return atHub(b, 250) }),
	"motor_input_nm": plain(func(b bike) float64 { return atHub(b, 0) }),
}

// atHub is the torque of a rider and a motor at the crank behind ring and cog.
func atHub(b bike, rider float64) float64 {
	if b.text("frame.assist") == "mid" {
		rider += b.num("frame.assist_nm")
	}
	return rider * slices.Max(b.cogs()) / slices.Min(b.rings())
}

// angle is that between the chain seen from above and the frame's plane, in degrees, on
// the largest pair or the smallest, by the product of the two directions.
func angle(b bike, largest bool) float64 {
	rings, cogs, stay := b.list("figures.ring_lines_mm"), b.list("figures.cog_lines_mm"), b.num("frame.chainstay_mm")
	side := rings[len(rings)-1] - cogs[0]
	if largest {
		side = rings[0] - cogs[len(cogs)-1]
	}
	return math.Asin(side/math.Hypot(stay, side)) * 180 / math.Pi
}

// rub is the room beside the chain on each cog, less half of the error towards each
// neighbour; a smaller neighbour counts where it is at most three teeth smaller.
func rub(b bike) (any, bool) {
	at, errors, teeth := b.list("figures.cog_positions_mm"), b.list("figures.index_errors_mm"), b.cogs()
	if len(at) != len(errors) || len(teeth) != len(at) {
		return nil, false
	}
	out := make([]float64, len(at))
	for i := range at {
		room := func(k int) float64 {
			return math.Abs(at[k]-at[i]) - b.num("chain.outer_width_mm")/2 - b.num("cassette.cog_thickness_mm")/2
		}
		if i+1 < len(at) {
			out[i] = room(i+1) - max(0, errors[i])/2
		} else {
			out[i] = room(i - 1)
		}
		if i > 0 && teeth[i]-teeth[i-1] <= 3 {
			out[i] = min(out[i], room(i-1)-max(0, -errors[i])/2)
		}
	}
	return out, true
}

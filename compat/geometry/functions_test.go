package geometry_test

import (
	"example.org/cogcourt/compat/geometry"
)

func sprocketFunctions() map[string]function {
	return map[string]function{
		"pitch diameter": func(in inputs) []float64 {
			var list []float64
			for _, teeth := range in.list("teeth") {
				list = append(list, geometry.PitchDiameter(in.num("pitch_mm"), teeth))
			}
			return list
		},
		"tip diameter": func(in inputs) []float64 {
			return one(geometry.TipDiameter(in.num("pitch_mm"), in.num("roller_mm"), in.num("teeth")))
		},
		"guide tip radius": func(in inputs) []float64 { return one(guideTipRadius(in)) },
		"guide bolt to cog": func(in inputs) []float64 {
			return one(geometry.BoltToCog(in.num("b_gap_mm"), guideTipRadius(in)))
		},
		"cog step": func(in inputs) []float64 { return one(climb(in)) },
	}
}

func guideTipRadius(in inputs) float64 {
	return geometry.TipDiameter(geometry.Pitch, geometry.Roller, in.num("guide_pulley_t")) / 2
}

// climb is the radial step from the first to the last of the cogs.
func climb(in inputs) float64 {
	cogs := in.list("cogs_t")
	return geometry.RadialStep(cogs[0], cogs[len(cogs)-1])
}

func chainFunctions() map[string]function {
	return map[string]function{
		"exact chain length": func(in inputs) []float64 {
			teeth := in.list("teeth")
			return one(geometry.ChainLength(in.num("pitch_mm"), in.num("centre_mm"), teeth[0], teeth[1]))
		},
		"even up": func(in inputs) []float64 { return one(geometry.EvenUp(in.num("pitches"))) },
		"chain growth": func(in inputs) []float64 {
			return one(geometry.ChainGrowth(in.num("chainstay_mm"), in.num("chain_growth_mm"), in.num("ring_t"), in.num("cog_t")))
		},
		"chain pitches": func(in inputs) []float64 {
			longest := pairLength(in, in.num("chain_growth_mm")) + in.num("add_pitches")
			if !in.has("add_pitches_rest") {
				return one(geometry.EvenUp(longest))
			}
			return one(geometry.EvenUp(longest, pairLength(in, 0)+in.num("add_pitches_rest")))
		},
		"chain margin": func(in inputs) []float64 {
			return one(geometry.ChainSpare(in.num("pitches"), pairLength(in, in.num("chain_growth_mm"))))
		},
		"chain slack": func(in inputs) []float64 {
			in.forRule("capacity_t")
			return one(geometry.ChainSpare(in.num("pitches"), pairLength(in, 0)))
		},
	}
}

// pairLength is the length on the row's ring and cog with the axle moved away.
func pairLength(in inputs, growth float64) float64 {
	return geometry.ChainLength(geometry.Pitch, in.num("chainstay_mm")+growth, in.num("ring_t"), in.num("cog_t"))
}

func cassetteFunctions() map[string]function {
	return map[string]function{
		"cassette stack": func(in inputs) []float64 {
			return one(geometry.StackHeight(cogPositions(in), in.num("cog_mm")))
		},
		"pitch from stack": func(in inputs) []float64 {
			return one(geometry.PitchFromStack(in.num("stack_mm"), in.num("cog_mm"), in.count("cogs")))
		},
		"mean pitch": func(in inputs) []float64 {
			at := geometry.Positions(nil, in.list("pitches_mm"))
			return one(at[len(at)-1] / float64(len(at)-1))
		},
		"neighbour gap": func(in inputs) []float64 {
			pair := geometry.EvenPositions(nil, 2, in.num("pitch_mm"))
			return one(geometry.NeighbourGap(pair, in.num("outer_mm"), in.num("cog_mm")))
		},
	}
}

// cogPositions are those of the row's cassette, even or by a list of distances.
func cogPositions(in inputs) []float64 {
	if !in.has("pitches_mm") {
		return geometry.EvenPositions(nil, in.count("cogs"), in.num("pitch_mm"))
	}
	at := geometry.Positions(nil, in.list("pitches_mm"))
	if in.has("cogs") && len(at) != in.count("cogs") {
		in.t.Fatalf("%d cogs with %d positions", in.count("cogs"), len(at))
	}
	return at
}

func lineFunctions() map[string]function {
	return map[string]function{
		"cog lines": func(in inputs) []float64 { return cogLines(in) },
		"cog line last": func(in inputs) []float64 {
			lines := cogLines(in)
			return one(lines[len(lines)-1])
		},
		"cog line middle": func(in inputs) []float64 {
			lines := cogLines(in)
			return one((lines[0] + lines[len(lines)-1]) / 2)
		},
		"chain angle":     func(in inputs) []float64 { return one(chainLine(in).Angle()) },
		"backpedal entry": func(in inputs) []float64 { return one(chainLine(in).BackpedalEntry()) },
	}
}

func cogLines(in inputs) []float64 {
	return geometry.CogLines(nil, in.num("over_locknut_mm"), in.num("inset_mm"), cogPositions(in))
}

func chainLine(in inputs) geometry.Line {
	return geometry.Line{Ring: in.num("ring_line_mm"), Cog: in.num("cog_line_mm"), Chainstay: in.num("chainstay_mm")}
}

func wheelFunctions() map[string]function {
	return map[string]function{
		"hanger drift": func(in inputs) []float64 {
			return one(rim(in).HangerDrift(in.num("hanger_error_mm"), climb(in)))
		},
		"residual with hanger": func(in inputs) []float64 {
			in.forRule("pitch_mm")
			return one(rim(in).ResidualWithHanger(in.num("residual_mm"), in.num("hanger_error_mm"), climb(in)))
		},
		"hanger limit": func(in inputs) []float64 {
			return one(rim(in).HangerLimit(in.num("residual_mm"), in.num("pitch_mm"), climb(in)))
		},
		"tyre circumference": func(in inputs) []float64 {
			w := rim(in)
			w.TyreWidth = in.num("tyre_width_mm")
			return one(w.Circumference())
		},
		"gear ratio": func(in inputs) []float64 { return gears(in).Ratios(nil) },
		"development": func(in inputs) []float64 {
			return one(geometry.Development(in.num("circumference_mm"), gears(in).Range().Highest))
		},
		"chain wrap": func(in inputs) []float64 {
			return one(geometry.Gears{Rings: in.list("rings_t"), Cogs: in.list("cogs_t")}.Wrap())
		},
		"front difference": func(in inputs) []float64 {
			return one(geometry.Gears{Rings: in.list("rings_t")}.FrontDifference())
		},
	}
}

func rim(in inputs) geometry.Wheel { return geometry.Wheel{BeadSeat: in.num("bead_seat_mm")} }

func gears(in inputs) geometry.Gears {
	return geometry.Gears{Rings: in.list("ring_t"), Cogs: in.list("cog_t")}
}

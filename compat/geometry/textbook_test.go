package geometry_test

import (
	"math"

	"example.org/cogcourt/compat/geometry"
)

// The formulas below serve no figure. They tie what the sources compute to the
// package: the textbooks' own chain formulas, tooth forms of ISO 606, and units.

// approximateLength is the chain length of the textbooks, in pitches:
// 2 C/P + (N + n)/2 + (P/C) ((N - n)/(2 pi))^2.
func approximateLength(pitch, centre, a, b float64) float64 {
	turn := (a - b) / (2 * math.Pi)
	return 2*centre/pitch + (a+b)/2 + pitch/centre*turn*turn
}

// centreFromLength is the textbooks' inverse of it, in mm.
func centreFromLength(pitch, pitches, a, b float64) float64 {
	v, turn := pitches-(a+b)/2, (a-b)/(2*math.Pi)
	return pitch / 4 * (v + math.Sqrt(v*v-8*turn*turn))
}

// spanAngle is the angle of the straight run against the line of the axles, in
// radians, from the radii that the package gives.
func spanAngle(pitch, centre, a, b float64) float64 {
	return math.Asin(math.Abs(geometry.PitchDiameter(pitch, a)-geometry.PitchDiameter(pitch, b)) / (2 * centre))
}

func textbookFunctions() map[string]function {
	return map[string]function{
		"approximate chain length": func(in inputs) []float64 {
			teeth := in.list("teeth")
			return one(approximateLength(in.num("pitch_mm"), in.num("centre_mm"), teeth[0], teeth[1]))
		},
		"centre from length": func(in inputs) []float64 {
			teeth := in.list("teeth")
			centre := centreFromLength(in.num("pitch_mm"), in.num("pitches"), teeth[0], teeth[1])
			return one(centre * (1 - in.num("sag_share")))
		},
		"span angle": func(in inputs) []float64 {
			teeth := in.list("teeth")
			return one(spanAngle(in.num("pitch_mm"), in.num("centre_mm"), teeth[0], teeth[1]) * 180 / math.Pi)
		},
		"tip diameter max": func(in inputs) []float64 {
			return one(pitchDiameter(in) + 1.25*in.num("pitch_mm") - in.num("roller_mm"))
		},
		"tip diameter min": func(in inputs) []float64 {
			return one(pitchDiameter(in) + in.num("pitch_mm")*(1-1.6/in.num("teeth")) - in.num("roller_mm"))
		},
		"root diameter": func(in inputs) []float64 { return one(pitchDiameter(in) - in.num("roller_mm")) },
		"root diameter seated": func(in inputs) []float64 {
			return one(pitchDiameter(in) - seatingLeast(in) - seatingMost(in))
		},
		"seating radius min": func(in inputs) []float64 { return one(seatingLeast(in)) },
		"seating radius max": func(in inputs) []float64 { return one(seatingMost(in)) },
		"spacing rest": func(in inputs) []float64 {
			return one(in.num("pitch_mm") - in.num("cog_mm") - in.num("spacer_mm"))
		},
		"mismatch percent": func(in inputs) []float64 {
			return one(100 * math.Abs(in.num("a_mm")-in.num("b_mm")) / in.num("base_mm"))
		},
	}
}

func pitchDiameter(in inputs) float64 {
	return geometry.PitchDiameter(in.num("pitch_mm"), in.num("teeth"))
}

// Least and greatest roller seating radius of ISO 606, in mm.
func seatingLeast(in inputs) float64 { return 0.505 * in.num("roller_mm") }

func seatingMost(in inputs) float64 {
	return 0.505*in.num("roller_mm") + 0.069*math.Cbrt(in.num("roller_mm"))
}

// newtonMetre is that of one pound-force inch, exactly.
const newtonMetre = 0.1129848290276167

func unitFunctions() map[string]function {
	return map[string]function{
		"bolt spacing": func(in inputs) []float64 {
			return one(in.num("bolt_circle_mm") * math.Sin(math.Pi/in.num("arms")))
		},
		"wear percent": func(in inputs) []float64 {
			return one(100 * (in.num("measured")/in.num("new") - 1))
		},
		"worn length": func(in inputs) []float64 {
			return one(24 * geometry.Pitch * (1 + in.num("percent")/100))
		},
		"gain ratio": func(in inputs) []float64 {
			return one(in.num("wheel_radius_mm") / in.num("crank_mm") * gears(in).Ratios(nil)[0])
		},
		"development of inches": func(in inputs) []float64 {
			return one(geometry.Development(math.Pi*25.4, in.num("gear_in")))
		},
		"circumference of inches": func(in inputs) []float64 {
			wheel := geometry.Wheel{BeadSeat: in.num("gear_in") - 2, TyreWidth: 1}
			return one(wheel.Circumference())
		},
		"speed": func(in inputs) []float64 {
			return one(in.num("development_m") * in.num("rpm") * 0.06)
		},
		"torque in N m":    func(in inputs) []float64 { return one(in.num("lbf_in") * newtonMetre) },
		"torque in lbf in": func(in inputs) []float64 { return one(in.num("nm") / newtonMetre) },
		"force in N":       func(in inputs) []float64 { return one(in.num("lbf") * 4.4482216152605) },
	}
}

package geometry

import "math"

// Pitch and roller of a bicycle chain, in mm. The pitch is half an inch exactly.
// The roller is the greatest of the cycle chains of ISO 606 (081 to 084) and
// ISO 9633 (from memory; lists of other kinds give 7.65 to 7.94).
const (
	Pitch  = 12.7
	Roller = 7.75
)

// leastTeeth is the smallest polygon that a chain can lie on.
const leastTeeth = 3

// PitchDiameter is the diameter, in mm, of the circle through the pins of a
// chain of this pitch (mm) that lies on a sprocket of that many teeth (3 or
// more): D = P / sin(180 deg / z), as the chain textbooks have it.
//
// It is not z P / pi, which is 1.4 percent short for 11 teeth.
func PitchDiameter(pitch, teeth float64) float64 {
	if !positive(pitch, teeth) || teeth < leastTeeth {
		return nan()
	}
	return bounded(pitch / math.Sin(math.Pi/teeth))
}

// TipDiameter is the diameter over the tooth tips, in mm, for a chain of this
// pitch and roller diameter (mm, the roller thinner than the pitch): the mean of
// the two limits of ISO 606,
//
//	largest   D + 1.25 P - d
//	smallest  D + P (1 - 1.6 / z) - d
//	mean      D + P (1.125 - 0.8 / z) - d
//
// The smaller limit is from memory; a textbook's worked example confirms the
// mean. At 10 to 14 teeth the limits lie 4.6 to 5.2 mm apart, and real guide
// pulleys are on the low side: a measured radius is worth more.
func TipDiameter(pitch, roller, teeth float64) float64 {
	if !positive(roller) || roller >= pitch {
		return nan()
	}
	return bounded(PitchDiameter(pitch, teeth) + pitch*(1.125-0.8/teeth) - roller)
}

// RadialStep is how much further out, in mm, a half-inch chain lies on a
// sprocket of to teeth than on one of from teeth: half the difference of their
// pitch diameters, negative where to is the smaller. About 2.02 mm a tooth.
func RadialStep(from, to float64) float64 {
	return bounded((PitchDiameter(Pitch, to) - PitchDiameter(Pitch, from)) / 2)
}

// BoltToCog is the distance, in mm, from the tooth tips of the largest cog to
// the middle of the guide pulley's bolt, along the line through both axes: the
// gap between the tips (mm, negative where they overlap) and the tip radius of
// the pulley (mm).
func BoltToCog(gap, tipRadius float64) float64 {
	if !finite(gap) || !positive(tipRadius) {
		return nan()
	}
	return bounded(gap + tipRadius)
}

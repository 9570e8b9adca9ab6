package geometry

import "math"

// wholeTolerance is how far above an even count a length may lie and still
// count as that even count, in pitches: rounding of the sums, no more.
const wholeTolerance = 1e-9

// ChainLength is the length, in pitches, of a chain of this pitch (mm) drawn
// round two sprockets of a and b teeth whose axes are centre mm apart:
//
//	L = 2 (C/P) cos w + (N + n) / 2 + w (N - n) / 180, sin w = (D2 - D1) / (2 C)
//
// with w in degrees, N the larger count and D2, D1 the pitch diameters: equation
// 14.22(k) of a machine-design data handbook. The order of the sprockets does
// not matter. NaN where the pitch circles would overlap.
//
// The usual approximation of textbooks differs by less than 0.0065 pitch on
// bicycles. The length of a belt on the pitch circles is 0.04 to 0.11 pitch
// longer, because an arc is longer than its chords, and no measure of a chain.
func ChainLength(pitch, centre, a, b float64) float64 {
	small, large := min(a, b), max(a, b)
	d1, d2 := PitchDiameter(pitch, small), PitchDiameter(pitch, large)
	if !finite(d1, d2, centre) || !(centre >= (d1+d2)/2) {
		return nan()
	}
	w := math.Asin((d2 - d1) / (2 * centre))
	return bounded(2*centre/pitch*math.Cos(w) + (large+small)/2 + w*(large-small)/math.Pi)
}

// ChainGrowth is how many pitches more a half-inch chain needs on a ring and a
// cog (teeth) when the rear axle has moved growth mm (0 or more) away from
// where the chainstay length (mm) was measured.
func ChainGrowth(chainstay, growth, ring, cog float64) float64 {
	if !notNegative(growth) {
		return nan()
	}
	return bounded(ChainLength(Pitch, chainstay+growth, ring, cog) - ChainLength(Pitch, chainstay, ring, cog))
}

// EvenUp is the smallest even count of pitches that covers every length given:
// 2 ceil((x - 1e-9) / 2) of the longest. Inner and outer links alternate, so a
// chain without an offset link has an even count.
//
// A chain is cut to EvenUp of the length on the largest ring and cog at the
// longest axle distance and what is added there, and, where a maker states one,
// of the length at rest and what is added to that. The two sums belong to two
// positions of the bicycle: adding the second to the first length counts the
// growth twice. NaN for no length, or where one is not positive.
func EvenUp(lengths ...float64) float64 {
	_, longest, ok := extent(lengths)
	if !ok {
		return nan()
	}
	return bounded(2 * math.Ceil((longest-wholeTolerance)/2))
}

// ChainSpare is what a chain of count pitches has beyond a length, in pitches,
// negative where it is too short. Against the largest ring and cog at the
// longest axle distance it is the margin that the guide pulleys live on; against
// the smallest ring and cog at rest it is the slack that the cage takes up.
func ChainSpare(count, length float64) float64 {
	if !positive(count, length) {
		return nan()
	}
	return bounded(count - length)
}

// EvenNearest is the even count of pitches nearest to a length, the longer of two.
// A chain that no derailleur takes up is cut to it, and the axle moves by the rest.
func EvenNearest(length float64) float64 {
	if !positive(length) {
		return nan()
	}
	return bounded(2 * math.Floor(length/2+0.5+wholeTolerance))
}

// WholeNearest is the count of pitches nearest to a length, the longer of two: what
// a chain with a cranked link can have.
func WholeNearest(length float64) float64 {
	if !positive(length) {
		return nan()
	}
	return bounded(math.Floor(length + 0.5 + wholeTolerance))
}

// AxleShift is how far, in mm, the rear axle stands behind the given chainstay when
// a half-inch chain with so many pitches to spare on a ring and a cog (teeth) is
// pulled taut; negative is forward:
//
//	spare x 6.35 / cos w
//
// with w that of ChainLength. Two runs share what the chain is longer by: about 6.4
// mm a pitch. Geometry, for the few mm that an axle moves.
func AxleShift(spare, chainstay, ring, cog float64) float64 {
	if !finite(spare, ChainLength(Pitch, chainstay, ring, cog)) {
		return nan()
	}
	w := math.Asin(RadialStep(ring, cog) / chainstay)
	return bounded(spare * Pitch / 2 / math.Cos(w))
}

// AxlePlay is how far, in mm, an axle must move to take up the whole play of the
// lower run, up and down together at its middle, over a span of so many mm:
// t^2 / (4 span). Geometry; about a quarter of a millimetre for 20 mm.
func AxlePlay(play, span float64) float64 {
	if !notNegative(play) || !positive(span) {
		return nan()
	}
	return bounded(play * play / (4 * span))
}

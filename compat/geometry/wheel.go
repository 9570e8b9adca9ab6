package geometry

import "math"

// Wheel is a rim and its tyre: the two numbers of an ISO 5775 designation, such
// as 25-622, in mm.
type Wheel struct {
	BeadSeat  float64
	TyreWidth float64
}

// Circumference is that of the tyre, in mm: pi (d + 2 w). Published tables of
// head units lie within 0.35 percent of it for tyres 20 to 35 mm wide on 622.
func (w Wheel) Circumference() float64 {
	if !positive(w.BeadSeat, w.TyreWidth) {
		return nan()
	}
	return bounded(math.Pi * (w.BeadSeat + 2*w.TyreWidth))
}

// hangerMost is the error at the rim, in mm, that common practice allows any
// hanger; failShare the share of the pitch beyond which an index is lost.
const (
	hangerMost = 4
	failShare  = 0.2
)

// HangerDrift is how far sideways, in mm, a bent hanger lets the guide pulley
// drift over the cassette: deviation / bead seat x climb. The deviation is the
// difference that an alignment gauge shows at opposite points of the rim, climb
// the RadialStep from the smallest to the largest cog, both in mm. Geometry.
func (w Wheel) HangerDrift(deviation, climb float64) float64 {
	if !positive(w.BeadSeat, climb) || !finite(deviation) {
		return nan()
	}
	return bounded(deviation / w.BeadSeat * climb)
}

// ResidualWithHanger is the index residual, in mm, with half of such a drift on
// top of it, whichever way the hanger is bent: the worse sign counts.
func (w Wheel) ResidualWithHanger(residual, deviation, climb float64) float64 {
	if !notNegative(residual) {
		return nan()
	}
	return bounded(residual + math.Abs(w.HangerDrift(deviation, climb))/2)
}

// HangerLimit is the deviation at the rim, in mm, at which ResidualWithHanger
// reaches a fifth of the pitch (mm, Index.Pitch), and never more than the 4 mm
// of common practice. Negative where the residual alone is beyond a fifth.
func (w Wheel) HangerLimit(residual, pitch, climb float64) float64 {
	if !positive(w.BeadSeat, pitch, climb) || !notNegative(residual) {
		return nan()
	}
	return bounded(min(hangerMost, 2*(failShare*pitch-residual)*w.BeadSeat/climb))
}

// Development is how far the bicycle goes, in m, on one turn of the cranks: the
// wheel's circumference (mm) and the gear ratio.
func Development(circumference, ratio float64) float64 {
	if !positive(circumference, ratio) {
		return nan()
	}
	return bounded(circumference / 1000 * ratio)
}

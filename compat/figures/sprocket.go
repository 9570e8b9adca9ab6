package figures

import (
	"math"

	"example.org/cogcourt/compat/geometry"
)

// Sprocket gives the radii, in mm, of a sprocket of so many teeth (3 or more) for a
// half-inch chain: of the circle through the pins of a chain that lies on it, and over
// the tips of its teeth, by the mean of the two limits of ISO 606. Both are rounded as
// figures are. It is not ok for fewer teeth.
func Sprocket(teeth float64) (pitch, tip float64, ok bool) {
	pitch = geometry.PitchDiameter(geometry.Pitch, teeth) / 2
	tip = geometry.TipDiameter(geometry.Pitch, geometry.Roller, teeth) / 2
	if math.IsNaN(tip) { // as it is where the other is
		return 0, 0, false
	}
	return round(pitch), round(tip), true
}

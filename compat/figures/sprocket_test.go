package figures_test

import (
	"math"
	"testing"

	"example.org/cogcourt/compat/figures"
)

// A sprocket of fewer than three teeth has no radii. One of four is a square of half an
// inch: its pins lie 12.7 / sqrt(2) mm from the middle, and its tips, by the mean of the
// limits of ISO 606, (12.7 (1.125 - 0.8 / 4) - 7.75) / 2 mm further out.
func TestSprocketRadii(t *testing.T) {
	for _, teeth := range []float64{-4, 0, 2, math.NaN(), math.Inf(1)} {
		if pitch, tip, ok := figures.Sprocket(teeth); pitch != 0 || tip != 0 || ok {
			t.Errorf("%v teeth have radii %v and %v, %t", teeth, pitch, tip, ok)
		}
	}
	if pitch, tip, ok := figures.Sprocket(4); !ok || math.Abs(pitch-8.980256) > 5e-7 || math.Abs(tip-10.979006) > 5e-7 {
		t.Errorf("four teeth have radii %v and %v, %t", pitch, tip, ok)
	}
}

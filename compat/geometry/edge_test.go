package geometry_test

import (
	"math"
	"testing"

	"example.org/cogcourt/compat/geometry"
)

func TestListsNeedNotStartAtZero(t *testing.T) {
	// Measured cogs are counted from wherever the caliper stood.
	cogs, steps := []float64{2, 6, 10.5}, []float64{3, 7, 11}
	if got := geometry.StackHeight(cogs, 1.8); !near(got, 10.3, 1e-9) {
		t.Errorf("stack %v, want 10.3", got)
	}
	if got := geometry.StackHeight(cogs[:1], 1.8); !near(got, 1.8, 1e-9) {
		t.Errorf("stack of one cog %v, want its thickness", got)
	}
	if got := geometry.NeighbourGap(cogs, 5, 1.8); !near(got, 0.6, 1e-9) {
		t.Errorf("gap %v, want 0.6", got)
	}
	if got := geometry.NeighbourGap([]float64{2, 6.5, 10.5, 15}, 5, 1.8); !near(got, 0.6, 1e-9) {
		t.Errorf("the least gap stands second and is %v, want 0.6", got)
	}
	if got := geometry.ScaledPositions([]float64{7}, []float64{3, 2, 1}, 12); !nearList(got, []float64{7, 0, 6, 10, 12}, 1e-9) {
		t.Errorf("12 mm in the shares of 3, 2 and 1 behind another list: %v", got)
	}
	// Where screws hold the ends, the second cog's 1 mm inward and the last one's 0.5 share
	// the half between them.
	if got := geometry.MeasureIndex(steps, cogs).StopsResidual; !near(got, 0.25, 1e-9) {
		t.Errorf("with stops %v are left, want 0.25", got)
	}
	// Errors 1, 1, 0.5: from cog 1 exact the last is half a mm short, and one
	// click of 0.3 leaves 0.3 and 0.2.
	if clicks, left := geometry.TrimClicks(steps, cogs, 0.3); clicks != 1 || !near(left, 0.3, 1e-9) {
		t.Errorf("%v clicks leave %v, want 1 and 0.3", clicks, left)
	}
}

func TestRubMarginOfTheEnds(t *testing.T) {
	// Inward errors bring the chain nearer to a larger neighbour, which the last
	// cog does not have; outward ones nearer to a smaller, which the first has not.
	got := geometry.RubMargins(nil, []float64{0.4}, []float64{-0.2, 0.2}, []float64{11, 13})
	if !nearList(got, []float64{0.4, 0.4}, 1e-12) {
		t.Errorf("errors away from the neighbours: %v, want the gap", got)
	}
	got = geometry.RubMargins(nil, []float64{0.4}, []float64{0.2, -0.2}, []float64{11, 13})
	if !nearList(got, []float64{0.3, 0.3}, 1e-12) {
		t.Errorf("errors towards the neighbours: %v, want 0.3", got)
	}
}

func TestCogInsetWithSpacer(t *testing.T) {
	// A spacer moves the cassette outboard, nearer to the dropout.
	if got := geometry.CogInset(40, 1.85, 34, 1.6); !near(got, 4.95, 1e-9) {
		t.Errorf("inset %v, want 4.95", got)
	}
}

func TestOneBadInputIsEnough(t *testing.T) {
	good, bad := []float64{0.3}, []float64{nan}
	pair := []float64{11, 13}
	cable := geometry.Cable{Clicks: 1, Pulls: []float64{2.5}, Ratios: []float64{1.7}, Factor: 1, TakeUp: -1}
	for name, x := range map[string]float64{
		"gap not known":          geometry.RubMargins(nil, bad, []float64{0, 0}, pair)[0],
		"error not known":        geometry.RubMargins(nil, good, []float64{0, nan}, pair)[0],
		"teeth not known":        geometry.RubMargins(nil, good, []float64{0, 0}, []float64{11, nan})[0],
		"no way to share out":    geometry.ScaledPositions(nil, pair, 0)[0],
		"no shares of a way":     geometry.ScaledPositions(nil, nil, 12)[0],
		"no gap for free play":   geometry.FreePlay(nan, 2.18, 1.6, 0.2),
		"float below nothing":    geometry.FreePlay(0.2, 2.18, 1.6, -0.2),
		"no thickness":           geometry.FreePlay(0.2, 2.18, 0, 0.2),
		"ratio of a bad cog":     geometry.Gears{Rings: pair, Cogs: []float64{0}}.Ratios(nil)[0],
		"ratio of a bad ring":    geometry.Gears{Rings: []float64{-1}, Cogs: pair}.Ratios(nil)[0],
		"range without cogs":     geometry.Gears{Rings: pair}.Range().Highest,
		"range without rings":    geometry.Gears{Cogs: pair}.Range().LargestStep,
		"chainstay below zero":   geometry.Line{Ring: 52, Cog: 26, Chainstay: -430}.Angle(),
		"take-up below nothing":  cable.StepPositions(nil)[0],
		"bead seat below zero":   geometry.Wheel{BeadSeat: -622}.HangerDrift(2, 80),
		"residual below nothing": geometry.Wheel{BeadSeat: 622}.HangerLimit(-0.1, 4, 80),
	} {
		if !math.IsNaN(x) {
			t.Errorf("%s: %v, want NaN", name, x)
		}
	}
}

func TestZeroHasNoSign(t *testing.T) {
	matched := geometry.MeasureIndex(even(8, 4), even(8, 4))
	clicks, _ := geometry.TrimClicks(even(8, 3.99), even(8, 4), 0.2)
	for name, x := range map[string]float64{
		"offset": matched.Offset,
		"drift":  geometry.Wheel{BeadSeat: 622}.HangerDrift(math.Copysign(0, -1), 80),
		"clicks": clicks,
	} {
		if x != 0 || math.Signbit(x) {
			t.Errorf("%s: %v, want plain zero", name, x)
		}
	}
}

// At the very limit of a domain there is an answer: sprockets that touch leave a chain of
// two straight runs around two halves, and a chain that meets the tyre above the ring's
// axle stands on the ring's line.
func TestLimitsOfTheDomainBelongToIt(t *testing.T) {
	d := geometry.PitchDiameter(geometry.Pitch, 20)
	if got, want := geometry.ChainLength(geometry.Pitch, d, 20, 20), 2*d/geometry.Pitch+20; !near(got, want, 1e-9) {
		t.Errorf("a chain around sprockets that touch has %v pitches, want %v", got, want)
	}
	wheel := geometry.Wheel{BeadSeat: 622, TyreWidth: 32}
	radius, lever := geometry.PitchDiameter(geometry.Pitch, 20)/2, 654.0/2
	line := geometry.Line{Ring: 50, Cog: 40, Chainstay: math.Sqrt((lever - radius) * (lever + radius))}
	if got := line.TyreGap(wheel, 20, 7); !near(got, 50-3.5-16, 1e-9) {
		t.Errorf("at the ring's line the gap is %v, want 30.5", got)
	}
	if got := geometry.EvenPositions(nil, 2, math.MaxFloat64); len(got) != 2 || got[1] != math.MaxFloat64 {
		t.Errorf("rows as far apart as numbers go stand at %v", got)
	}
	if got := geometry.ScaledPositions([]float64{1}, []float64{2, 2}, 0); len(got) != 2 || got[0] != 1 || !math.IsNaN(got[1]) {
		t.Errorf("rows on no way at all stand at %v, want one that is not known", got)
	}
}

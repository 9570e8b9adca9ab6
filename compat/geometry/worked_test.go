package geometry_test

import (
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/compat/geometry"
)

// uneven are the distances of a published cassette of 8 (a newsgroup text on the
// spacing of 7 and 8 cogs).
var uneven = [...]float64{5.2, 5.2, 4.9, 4.9, 4.7, 4.7, 4.7}

// near says that two results agree to the last digit that the source gives.
func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// nearList is near for lists.
func nearList(a, b []float64, tolerance float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return near(x, y, tolerance) })
}

// even is a short name for a row of positions.
func even(n int, pitch float64) []float64 { return geometry.EvenPositions(nil, n, pitch) }

func TestStopsResidual(t *testing.T) {
	// Worked example: limit screws take the outward error of the first and the
	// inward error of the last cog, where the steps are wider than the cogs.
	for _, c := range []struct {
		n               int
		step, pitch     float64
		residual, stops float64
	}{
		{10, 4.08, 3.95, 0.585, 0.455},
		{10, 4.20, 3.95, 1.125, 0.875},
		{9, 4.42, 4.34, 0.320, 0.240},
		{9, 4.25, 4.34, 0.360, 0.360}, // narrower steps: the stops hold nothing
		{2, 4.20, 3.95, 0.125, 0},     // both errors lie against a stop
	} {
		ix := geometry.MeasureIndex(even(c.n, c.step), even(c.n, c.pitch))
		if !near(ix.Residual, c.residual, 1e-9) || !near(ix.StopsResidual, c.stops, 1e-9) {
			t.Errorf("%v on %d at %v: %v and %v with stops, want %v and %v", c.step, c.n, c.pitch, ix.Residual, ix.StopsResidual, c.residual, c.stops)
		}
	}
}

func TestWorstAndAlign(t *testing.T) {
	cogs8 := geometry.Positions(nil, uneven[:])
	for _, c := range []struct {
		name         string
		steps, cogs  []float64
		worst, align int
		pitch        float64
	}{
		{"cassette wider", even(12, 3.65), even(12, 3.75), 1, 6, 3.75},
		{"cassette narrower", even(12, 3.75), even(12, 3.65), 1, 6, 3.65},
		{"odd count", even(11, 3.65), even(11, 3.75), 1, 6, 3.75},
		{"matched", even(11, 3.78), even(11, 3.78), 1, 6, 3.78}, // all alike: the middle one
		{"uneven", even(8, 5), cogs8, 3, 6, 4.7},                // -0.55 at cog 3, +0.55 at cog 8, -0.05 at cog 6
	} {
		ix := geometry.MeasureIndex(c.steps, c.cogs)
		if ix.Worst != c.worst || ix.Align != c.align || !near(ix.Pitch, c.pitch, 1e-9) {
			t.Errorf("%s: worst %d, align %d, pitch %v; want %d, %d, %v (errors %v)", c.name,
				ix.Worst, ix.Align, ix.Pitch, c.worst, c.align, c.pitch, geometry.IndexErrors(nil, c.steps, c.cogs))
		}
	}
}

func TestTakeUpAndConverter(t *testing.T) {
	// The take-up is of the first pull alone, and of cable before the converter.
	cable := geometry.Cable{Clicks: 3, Pulls: []float64{3, 2.5, 2.5}, Ratios: []float64{1.4}, Factor: 0.5, TakeUp: 0.5}
	if got := cable.StepPositions(nil); !nearList(got, []float64{0, 1.75, 3.5, 5.25}, 1e-12) {
		t.Errorf("steps %v", got)
	}
	cable = geometry.Cable{Clicks: 2, Pulls: []float64{2}, Ratios: []float64{1.5, 2}, Factor: 1}
	if got := cable.StepPositions([]float64{9}); !nearList(got, []float64{9, 0, 3, 7}, 1e-12) {
		t.Errorf("steps %v", got)
	}
}

func TestBestWindow(t *testing.T) {
	// Even steps: every window is as good, and rounding must not choose another.
	window, first := geometry.BestWindow(nil, even(11, 4.42), even(9, 4.34))
	if first != 0 || !nearList(window, even(9, 4.42), 1e-9) {
		t.Errorf("even steps: window %d %v", first, window)
	}
	// The window starts at its own first step.
	window, first = geometry.BestWindow(nil, []float64{0, 3, 7, 11, 15}, even(3, 4))
	if first != 1 || !nearList(window, []float64{0, 4, 8}, 1e-12) {
		t.Errorf("one odd step: window %d %v", first, window)
	}
	// What two windows leave is equal within a billionth of a mm, far below what sums of
	// pulls are exact to: the first is taken. Three halves of that are no tie any more.
	for wide, want := range map[float64]int{1.2e-9: 0, 3e-9: 1} {
		if _, first = geometry.BestWindow(nil, []float64{0, 4 + wide, 8 + wide}, even(2, 4)); first != want {
			t.Errorf("%v mm left at the first window and nothing at the second: window %d, want %d", wide/2, first, want)
		}
	}
	if window, first = geometry.BestWindow(nil, even(3, 4), even(4, 4)); first != -1 || len(window) != 1 || !math.IsNaN(window[0]) {
		t.Errorf("too few steps: window %d %v", first, window)
	}
}

// What lies beside each cog, and the steps of the gears, worked by hand.
func TestBesideAndSteps(t *testing.T) {
	if got, want := geometry.PitchesBeside(nil, []float64{0, 4, 7, 12}), []float64{4, 3, 3, 5}; !nearList(got, want, 1e-9) {
		t.Errorf("beside the cogs %v, want %v", got, want)
	}
	if got, want := (geometry.Gears{Cogs: []float64{10, 12, 15}}).Steps(nil), []float64{20, 25}; !nearList(got, want, 1e-9) {
		t.Errorf("steps %v, want %v", got, want)
	}
}

func TestClearances(t *testing.T) {
	cogs := geometry.Positions(nil, uneven[:])
	want := []float64{0.65, 0.65, 0.35, 0.35, 0.15, 0.15, 0.15}
	if got := geometry.NeighbourGaps(nil, cogs, 7.2, 1.9); !nearList(got, want, 1e-9) {
		t.Errorf("gaps %v, want %v", got, want)
	}
	if got := geometry.NeighbourGap(cogs, 7.2, 1.9); !near(got, 0.15, 1e-9) {
		t.Errorf("least gap %v, want 0.15", got)
	}
	// A cassette 1.1 mm wider than the steps, gap 0.325: at the smallest cog
	// 0.325 - 0.5 x 0.55 = 0.05 is left (worked example).
	ladder := []float64{10, 12, 14, 16, 18, 21, 24, 28, 32, 38, 44, 51}
	gaps := geometry.NeighbourGaps(nil, even(12, 3.75), 5.25, 1.6)
	errors := geometry.IndexErrors(nil, even(12, 3.65), even(12, 3.75))
	margins := geometry.RubMargins(nil, gaps, errors, ladder)
	if len(margins) != 12 || !near(margins[0], 0.05, 1e-9) || !near(margins[6], 0.30, 1e-9) || !near(margins[11], 0.325, 1e-9) {
		t.Errorf("rub margins %v", margins)
	}
	// 51 after 49 teeth: the smaller neighbour is near enough to rub on.
	ladder[10] = 49
	if margins = geometry.RubMargins(nil, gaps, errors, ladder); !near(margins[11], 0.05, 1e-9) {
		t.Errorf("last rub margin %v, want 0.05", margins[11])
	}
	// 12 cogs: 0.225 + 0.29 + 0.2, just under a fifth of a pitch of 3.65 (worked example).
	if got := geometry.FreePlay(0.225, 2.18, 1.6, 0.2); !near(got, 0.715, 1e-9) {
		t.Errorf("free play %v, want 0.715", got)
	}
}

func TestLockringMargin(t *testing.T) {
	// Mount heights are from memory, bodies and spacers of freehub tables and
	// trade pages.
	for _, c := range []struct{ mount, spacer, body, want float64 }{
		{31.5, 4.5, 34.95, 1.05},
		{31.5, 4.0, 34.95, 0.55},
		{35.5, 1.85, 36.75, 0.60},
		{35.5, 0, 36.75, -1.25},
		{34.5, 1.0, 34.95, 0.55},
		{34.5, 2.85, 36.75, 0.60},
		{34.5, 0, 34.95, -0.45},
		{37.3, 0, 34.95, 2.35},
	} {
		if got := geometry.LockringMargin(c.mount, c.spacer, c.body); !near(got, c.want, 1e-9) {
			t.Errorf("%v + %v on a body of %v: %v, want %v", c.mount, c.spacer, c.body, got, c.want)
		}
	}
}

func TestLinesWorked(t *testing.T) {
	if got := geometry.CogInset(38.5, 0, 35.5, 1.6); !near(got, 3.8, 1e-9) {
		t.Errorf("inset %v, want 3.8 (worked example)", got)
	}
	rings := geometry.RingLines(nil, 43.5, []float64{2.5, -2.5})
	if !nearList(rings, []float64{46, 41}, 1e-9) {
		t.Errorf("ring lines %v, want 46 and 41 (forum texts on chainline, read)", rings)
	}
	// A two-ring bicycle, big to big and small to small.
	cogs := geometry.CogLines(nil, 130, 3.8, even(10, 3.95))
	angles := geometry.ChainAngles(nil, rings, cogs, 410)
	bigBig := geometry.Line{Ring: 46, Cog: 25.65, Chainstay: 410}.Angle()
	smallSmall := geometry.Line{Ring: 41, Cog: 61.2, Chainstay: 410}.Angle()
	if len(angles) != 20 || !near(angles[9], bigBig, 1e-9) || !near(angles[10], smallSmall, 1e-9) {
		t.Errorf("angles %v, want %v and %v in the middle", angles, bigBig, smallSmall)
	}
	// 61-622 on a 148 mm hub with a cog of 51 (worked example).
	line := geometry.Line{Ring: 52, Cog: 26.55, Chainstay: 430}
	tyre := geometry.Wheel{BeadSeat: 622, TyreWidth: 61}
	if got := line.TyreGap(tyre, 51, 5.25); !near(got, 12.7, 0.06) {
		t.Errorf("tyre gap %v, want 12.7", got)
	}
}

func TestGearRange(t *testing.T) {
	// Gear mathematics: 34/28 to 50/11, the largest step from 11 to 13 teeth.
	r := geometry.Gears{Rings: []float64{34, 50}, Cogs: []float64{11, 13, 15, 17, 19, 21, 24, 28}}.Range()
	if !near(r.Lowest, 1.2143, 5e-5) || !near(r.Highest, 4.5455, 5e-5) || !near(r.Percent, 374.3, 0.05) || !near(r.LargestStep, 18.18, 0.005) {
		t.Errorf("range %+v", r)
	}
	ratios := geometry.Gears{Rings: []float64{50, 34}, Cogs: []float64{10, 20}}.Ratios(nil)
	if !nearList(ratios, []float64{5, 2.5, 3.4, 1.7}, 1e-12) {
		t.Errorf("ratios %v", ratios)
	}
	r = geometry.Gears{Rings: []float64{46}, Cogs: []float64{16}}.Range()
	if r.Percent != 100 || !math.IsNaN(r.LargestStep) {
		t.Errorf("one gear: %+v", r)
	}
}

func TestHangerLimitOfMatchedMix(t *testing.T) {
	// A matched mix may use all of the 4 mm of common practice.
	if got := (geometry.Wheel{BeadSeat: 622}).HangerLimit(0, 3.65, geometry.RadialStep(10, 51)); got != 4 {
		t.Errorf("limit %v, want 4", got)
	}
	if got := (geometry.Wheel{BeadSeat: 622}).HangerLimit(0.9, 3.65, geometry.RadialStep(10, 51)); !(got < 0) {
		t.Errorf("limit %v, want it negative: the mix alone is past a fifth of the pitch", got)
	}
}

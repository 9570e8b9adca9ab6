package geometry_test

import (
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/compat/geometry"
)

// Worked numbers of common practice: what a mechanic reckons at the counter.
func TestChainWithoutDerailleur(t *testing.T) {
	length := geometry.ChainLength(geometry.Pitch, 405, 44, 17)
	if !near(length, 94.86, 0.005) {
		t.Errorf("44 on 17 at 405 mm: %v half-inch links, want 94.86", length)
	}
	if even, any := geometry.EvenNearest(length), geometry.WholeNearest(length); even != 94 || any != 95 {
		t.Errorf("nearest counts %v and %v, want 94 and 95", even, any)
	}
	for count, want := range map[float64]float64{94: -5.5, 96: 7.3, 95: 0.9} {
		if got := geometry.AxleShift(count-length, 405, 44, 17); !near(got, want, 0.06) {
			t.Errorf("%v half-inch links move the axle by %v mm, want %v", count, got, want)
		}
	}
	for play, want := range map[float64]float64{12: 0.09, 20: 0.25, 25: 0.39} {
		if got := geometry.AxlePlay(play, 405); !near(got, want, 0.005) {
			t.Errorf("%v mm of play take %v mm of axle, want %v", play, got, want)
		}
	}
	for x, want := range map[float64][2]float64{95: {96, 95}, 94.999: {94, 95}, 95.5: {96, 96}, 93.2: {94, 93}} {
		if got := [2]float64{geometry.EvenNearest(x), geometry.WholeNearest(x)}; got != want {
			t.Errorf("nearest counts to %v: %v, want %v", x, got, want)
		}
	}
}

// The axle that AxleShift gives takes the chain up: the exact length there is the
// count, to the second order of the few mm.
func TestAxleShiftIsWhereTheChainIsTaut(t *testing.T) {
	r := seeded()
	for range 2000 {
		stay, ring, cog := between(r, 380, 460), math.Floor(between(r, 28, 52)), math.Floor(between(r, 11, 24))
		length := geometry.ChainLength(geometry.Pitch, stay, ring, cog)
		count := geometry.EvenNearest(length)
		shift := geometry.AxleShift(count-length, stay, ring, cog)
		if got := geometry.ChainLength(geometry.Pitch, stay+shift, ring, cog); !near(got, count, 0.01) || math.Abs(shift) > 6.5 {
			t.Fatalf("%v on %v at %v mm: shift %v leaves %v of %v", ring, cog, stay, shift, got, count)
		}
		if more := geometry.AxleShift(count+2-length, stay, ring, cog); !near(more-shift, 12.7, 0.6) {
			t.Fatalf("two more links move the axle by %v", more-shift)
		}
	}
}

func TestPulls(t *testing.T) {
	for _, c := range []struct {
		drive      geometry.Drive
		ring, want float64
	}{
		{geometry.Drive{Riders: 1, Crank: 175, Assist: 85, Factor: 1}, 34, 5050},
		{geometry.Drive{Riders: 1, Crank: 175, Assist: 60, Factor: 2.5}, 18, 3530},
		{geometry.Drive{Riders: 1, Crank: 175, Assist: 60, Factor: 1}, 18, 8820},
		{geometry.Drive{Riders: 2, Crank: 175, Factor: 1}, 38, 6830},
	} {
		if got := c.drive.ChainPull(c.ring); !near(got, c.want, 8) {
			t.Errorf("%+v on %v teeth: %v N, want %v", c.drive, c.ring, got, c.want)
		}
	}
	if got := geometry.HubInput(85, 38, 20); !near(got, 176, 0.5) {
		t.Errorf("hub input %v, want 176", got)
	}
	if got := geometry.HubInput(100, 25, 10); !near(got, 140, 1e-9) { // a hub maker's own example
		t.Errorf("hub input %v, want 140", got)
	}
	if got := geometry.MotorInput(85, 38, 20); !near(got, 44.74, 0.01) {
		t.Errorf("motor input %v, want 44.74", got)
	}
}

func TestCapacityAlone(t *testing.T) {
	g := geometry.Gears{Rings: []float64{48, 32}, Cogs: []float64{11, 15, 21, 34}}
	if alone, off := g.WrapAlone(), g.KeepOff(33); alone != 23 || off != 17 {
		t.Errorf("alone %v, keep off under %v, want 23 and 17", alone, off)
	}
	// At just the capacity the cogs to keep off are none: the smallest cog itself.
	if off := g.KeepOff(g.Wrap()); off != 11 {
		t.Errorf("with capacity to spare: keep off under %v, want 11", off)
	}
}

func TestRoomsOfTheTrade(t *testing.T) {
	for teeth, want := range map[float64]float64{39: 20.1, 37: 12.0, 35: 3.9} {
		if got := geometry.BoltRoom(teeth, 130); !near(got, want, 0.06) {
			t.Errorf("%v teeth on 130 leave %v mm, want %v", teeth, got, want)
		}
	}
	for outer, want := range map[float64]float64{7.3: 0.15, 7.1: 0.25} {
		if got := geometry.DropoutRoom(3.8, outer, 0); !near(got, want, 1e-9) {
			t.Errorf("a chain of %v at 3.8: %v, want %v", outer, got, want)
		}
	}
	if got := geometry.DropoutRoom(-(31.9 - 29.5 - 3.8), 7.3, 0); !near(got, -2.25, 1e-9) {
		t.Errorf("seven cogs on a hub for six: %v, want -2.25", got)
	}
	for drop, want := range map[float64]float64{12: 5, 17: 8, 40: 8, 2: 0, 2.02: 1, 0: 0} {
		if got := geometry.LinkReach(drop); got != want {
			t.Errorf("a drop of %v gives %v teeth, want %v", drop, got, want)
		}
	}
	for _, c := range []struct {
		pitch, outer, cog, want float64
	}{{4.15, 7, 1.6, -0.15}, {4.15, 6.5, 1.6, 0.1}, {3.5, 5.15, 1.5, 0.175}, {3.9, 6.5, 1.6, -0.15}, {3.75, 5.84, 1.6, 0.03}} {
		if got := geometry.Gap(c.pitch, c.outer, c.cog); !near(got, c.want, 1e-9) {
			t.Errorf("gap of %v: %v", c, got)
		}
	}
}

func TestRunningOff(t *testing.T) {
	for _, c := range []struct {
		pulls, wants []float64
		want         float64
	}{
		{[]float64{8, 6}, []float64{8, 6}, 0},
		{[]float64{8, 6}, []float64{7, 7.5}, 1},        // 1, then -0.5
		{[]float64{6, 6}, []float64{7, 7}, -2},         // each is off by one, the sum by two
		{[]float64{6, 9, 3}, []float64{7, 7}, -1},      // a third change that nobody wants: -1, then 1
		{[]float64{3, 9, 4}, []float64{8, 8}, 4},       // 3 and 12 both miss the middle ring
		{[]float64{2, 5}, []float64{7}, 0},             // a click between the rings
		{[]float64{7, 8}, []float64{7}, 0},             // a third ring that is not there
		{[]float64{3, 5, 8}, []float64{8, 8}, 0},       // a click before the middle ring
		{[]float64{8, 3, 5}, []float64{8, 8}, 0},       // and behind it
		{[]float64{2, 3}, []float64{7}, -2},            // all clicks together stay short
		{[]float64{8.7, 5, 5}, []float64{8, 1.5}, 4.2}, // no click is for two rings
		{[]float64{2, 2, 2}, []float64{9, 2}, -5},      // the last is kept for the last ring
		{[]float64{6, 2}, []float64{7}, -1},            // as near before the click as behind it: the first counts
		{[]float64{9, 5}, []float64{8, 7}, 1},          // 1, then -1: the first counts
		{[]float64{8}, []float64{6.5, 7}, 1.5},         // one change alone is compared
		{[]float64{7.5, 7.5}, []float64{10, 10}, -5},   // a road lever on a mountain cage
	} {
		if got := geometry.RunningOff(c.pulls, c.wants); !near(got, c.want, 1e-9) {
			t.Errorf("%v for %v: %v, want %v", c.pulls, c.wants, got, c.want)
		}
	}
}

// The cog to listen on: the middle one of a matched set, of the mix 1.1 mm apart
// the sixth, and never one that is left with more than the least and 0.05 mm.
func TestAlignCog(t *testing.T) {
	for _, c := range []struct {
		steps, cogs []float64
		want        int
	}{
		{even(12, 3.65), even(12, 3.65), 6},
		{even(11, 3.8), even(11, 3.8), 6},
		{even(12, 3.65), even(12, 3.75), 6},
		{even(12, 3.75), even(12, 3.65), 6},
		{[]float64{0, 4, 8, 12.3}, []float64{0, 4, 8, 12}, 2},     // 0.15 off at all four: the middle
		{[]float64{0, 4.2, 8, 12}, []float64{0, 4, 8.2, 12}, 1},   // nothing left at the ends, 0.2 in the middle
		{[]float64{0, 4.04, 8, 12}, []float64{0, 4, 8.04, 12}, 2}, // 0.04 is heard by nobody
	} {
		if got := geometry.MeasureIndex(c.steps, c.cogs).Align; got != c.want {
			t.Errorf("%v on %v: listen on cog %d, want %d", c.steps, c.cogs, got, c.want)
		}
	}
}

// Between pitches that differ the share jumps where other cogs become the worst: the least
// of it is looked for beside every place where two errors can be one, which are all where
// it can turn or jump.
func TestKindestShareOfUnevenPitches(t *testing.T) {
	r := seeded()
	const give, beside = 0.05, 1e-7
	for range 2000 {
		_, cogs := randomIndex(r)
		steps := []float64{0}
		for i := 1; i < len(cogs); i++ { // about as wide, so that many errors meet within the give
			steps = append(steps, steps[i-1]+cogs[i]-cogs[i-1]+between(r, -0.1, 0.1))
		}
		at := func(by float64) float64 {
			moved := slices.Clone(steps)
			for i := range moved {
				moved[i] += by * float64(i)
			}
			return geometry.MeasureIndex(moved, cogs).Share
		}
		want := min(at(-give), at(0), at(give))
		for _, meet := range meetings(steps, cogs) {
			for _, by := range []float64{meet - 20*beside, meet + 20*beside} { // beyond sameWorst
				if math.Abs(by) <= give {
					want = min(want, at(by))
				}
			}
		}
		if got := geometry.KindestShare(steps, cogs, give); !near(got, want, 1e-4) {
			t.Fatalf("steps %v on %v: %v, want %v", steps, cogs, got, want)
		}
	}
}

// meetings are the gives at which two errors are one.
func meetings(steps, cogs []float64) []float64 {
	var out []float64
	for i := range cogs {
		for j := range i {
			out = append(out, ((steps[j]-cogs[j])-(steps[i]-cogs[i]))/float64(i-j))
		}
	}
	return out
}

// A cassette that is a little wider than the steps are made for is met by steps that
// are a little wider; what is left is never more than without the give.
func TestKindestShare(t *testing.T) {
	if got := geometry.KindestShare(even(12, 3.65), even(12, 3.7), 0.05); !near(got, 0, 1e-6) {
		t.Errorf("0.05 mm a step of give for 0.05 mm: %v left, want nothing", got)
	}
	if got := geometry.KindestShare(even(6, 3.65), even(6, 5), 0.05); !near(got, 1.3*5/2/5, 1e-6) {
		t.Errorf("steps of 3.65 on 5: %v, want 0.65", got)
	}
	// Two are level and the lowest, a hair behind the beginning of the way: the one that rises
	// slower stays so, 2 mm below the highest there and 1.9 mm at the end.
	const from = -0.05 + 1e-9
	if got := geometry.KindestShare([]float64{1, 3 - from, 7 - 2*from}, even(3, 4), 0.05); !near(got, 0.95/4, 1e-6) {
		t.Errorf("of two that are level the slower one leaves %v, want 0.2375", got)
	}
	r := seeded()
	for range 1000 {
		steps, cogs := randomIndex(r)
		cogs = even(len(cogs), 4) // the pitch beside the worst cogs is one
		as := geometry.MeasureIndex(steps, cogs).Share
		kind, none := geometry.KindestShare(steps, cogs, 0.05), geometry.KindestShare(steps, cogs, 0)
		if kind > as+1e-9 || !near(none, as, 1e-9) {
			t.Fatalf("%v and with give %v, without %v", as, kind, none)
		}
		for _, d := range []float64{-0.05, -0.02, 0.01, 0.04} {
			moved := slices.Clone(steps)
			for i := range moved {
				moved[i] += d * float64(i)
			}
			if ix := geometry.MeasureIndex(moved, cogs); ix.Share < kind-1e-6 {
				t.Fatalf("a give of %v leaves %v, the kindest %v", d, ix.Share, kind)
			}
		}
	}
}

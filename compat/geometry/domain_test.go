package geometry_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/cogcourt/compat/geometry"
)

var nan, inf = math.NaN(), math.Inf(1)

func TestOutsideTheDomain(t *testing.T) {
	wheel, none := geometry.Wheel{BeadSeat: 622, TyreWidth: 32}, geometry.Wheel{}
	line := geometry.Line{Ring: 52, Cog: 26, Chainstay: 430}
	for name, x := range map[string]float64{
		"two teeth":              geometry.PitchDiameter(12.7, 2),
		"no pitch":               geometry.PitchDiameter(0, 11),
		"teeth not known":        geometry.PitchDiameter(12.7, nan),
		"roller as thick":        geometry.TipDiameter(12.7, 12.7, 11),
		"no roller":              geometry.TipDiameter(12.7, 0, 11),
		"step to nothing":        geometry.RadialStep(11, 0),
		"no tip radius":          geometry.BoltToCog(13, 0),
		"sprockets overlap":      geometry.ChainLength(12.7, 150, 51, 32),
		"axles in one place":     geometry.ChainLength(12.7, 0, 32, 32),
		"endless chainstay":      geometry.ChainLength(12.7, inf, 51, 32),
		"growth inward":          geometry.ChainGrowth(430, -1, 32, 51),
		"no length":              geometry.EvenUp(),
		"one length not known":   geometry.EvenUp(112, nan),
		"length below nothing":   geometry.EvenUp(-4),
		"no chain":               geometry.ChainSpare(0, 110),
		"stack of one cog":       geometry.PitchFromStack(20, 1.8, 1),
		"stack thinner than cog": geometry.PitchFromStack(1.5, 1.8, 8),
		"stack of no cogs":       geometry.StackHeight(nil, 1.8),
		"stack of falling cogs":  geometry.StackHeight([]float64{0, 4, 3}, 1.8),
		"gap of one cog":         geometry.NeighbourGap([]float64{0}, 7.1, 1.8),
		"gap of equal cogs":      geometry.NeighbourGap([]float64{0, 4, 4}, 7.1, 1.8),
		"gap without a chain":    geometry.NeighbourGap([]float64{0, 4}, 0, 1.8),
		"chain does not fit":     geometry.FreePlay(0.2, 1.5, 1.6, 0.2),
		"no length to be near":   geometry.EvenNearest(0),
		"nothing to be near":     geometry.WholeNearest(nan),
		"shift of no chain":      geometry.AxleShift(nan, 430, 44, 17),
		"shift on overlap":       geometry.AxleShift(94, 50, 44, 17),
		"kindest of nothing":     geometry.KindestShare(nil, nil, 0.05),
		"play of no span":        geometry.AxlePlay(12, 0),
		"gap of nothing":         geometry.Gap(0, 5, 1.6),
		"bolts of nothing":       geometry.BoltRoom(39, 0),
		"recess below nothing":   geometry.DropoutRoom(3.8, 7.1, -1),
		"drop upwards":           geometry.LinkReach(-1),
		"pulls of nothing":       geometry.RunningOff(nil, []float64{7}),
		"nobody pedals":          geometry.Drive{Crank: 175, Factor: 1}.ChainPull(34),
		"a motor backwards":      geometry.HubInput(-1, 38, 20),
		"hub without a ring":     geometry.MotorInput(85, 0, 20),
		"no cogs alone":          geometry.Gears{}.WrapAlone(),
		"no capacity":            geometry.Gears{Rings: []float64{50}, Cogs: []float64{11}}.KeepOff(-1),
		"no body":                geometry.LockringMargin(35, 0, 0),
		"spacer below nothing":   geometry.LockringMargin(35, -1, 35),
		"no shoulder":            geometry.CogInset(0, 0, 35.5, 1.6),
		"no chainstay":           geometry.Line{Ring: 52, Cog: 26}.Angle(),
		"ring not known":         geometry.Line{Ring: nan, Cog: 26, Chainstay: 430}.BackpedalEntry(),
		"cog larger than wheel":  line.TyreGap(wheel, 200, 5.25),
		"tyre past the ring":     geometry.Line{Ring: 52, Cog: 26, Chainstay: 250}.TyreGap(wheel, 51, 5.25),
		"no wheel for a gap":     line.TyreGap(none, 51, 5.25),
		"no wheel":               none.Circumference(),
		"drift without a wheel":  none.HangerDrift(2, 80),
		"drift without a climb":  wheel.HangerDrift(2, 0),
		"residual not known":     wheel.ResidualWithHanger(nan, 2, 80),
		"limit without a pitch":  wheel.HangerLimit(0.5, 0, 80),
		"no development":         geometry.Development(0, 4),
		"no rings":               geometry.Gears{Cogs: []float64{11, 28}}.Wrap(),
		"no cogs":                geometry.Gears{Rings: []float64{50}}.Wrap(),
		"ring of no teeth":       geometry.Gears{Rings: []float64{50, 0}}.FrontDifference(),
		"range of nothing":       geometry.Gears{}.Range().Percent,
		"overflow of a length":   geometry.ChainLength(1e-300, 1e300, 51, 32),
		"overflow of a ratio":    geometry.Development(math.MaxFloat64, math.MaxFloat64),
		"overflow of a tyre":     geometry.Wheel{BeadSeat: math.MaxFloat64, TyreWidth: 1}.Circumference(),
	} {
		if !math.IsNaN(x) {
			t.Errorf("%s: %v, want NaN", name, x)
		}
	}
}

func TestListsThatCannotBeFormed(t *testing.T) {
	two, three := []float64{0, 4}, []float64{0, 4, 8}
	cable := geometry.Cable{Clicks: 2, Pulls: []float64{2.5}, Ratios: []float64{1.7}, Factor: 1}
	with := func(change func(c *geometry.Cable)) []float64 {
		c := cable
		change(&c)
		return c.StepPositions([]float64{7})
	}
	dst := []float64{7}
	window, _ := geometry.BestWindow(dst, two, three)
	for name, list := range map[string][]float64{
		"no cogs":              geometry.EvenPositions(dst, 0, 4),
		"no pitch":             geometry.EvenPositions(dst, 3, 0),
		"distance not known":   geometry.Positions(dst, []float64{4, nan}),
		"distance backwards":   geometry.Positions(dst, []float64{4, -1}),
		"gaps of one cog":      geometry.NeighbourGaps(dst, two[:1], 7.1, 1.8),
		"pitches beside one":   geometry.PitchesBeside(dst, two[:1]),
		"steps of one cog":     geometry.Gears{Cogs: two[1:]}.Steps(dst),
		"steps of falling":     geometry.Gears{Cogs: []float64{12, 11}}.Steps(dst),
		"errors of a few":      geometry.IndexErrors(dst, two, three),
		"errors of nothing":    geometry.IndexErrors(dst, nil, nil),
		"aligned falling cogs": geometry.WorstIfAligned(dst, two, []float64{4, 0}),
		"window too short":     window,
		"margins of others":    geometry.RubMargins(dst, two, three, two),
		"lines of no cogs":     geometry.CogLines(dst, 130, 3.8, nil),
		"no hub":               geometry.CogLines(dst, 0, 3.8, two),
		"lines of no rings":    geometry.RingLines(dst, 45, nil),
		"angles of no rings":   geometry.ChainAngles(dst, nil, two, 430),
		"ratios of no cogs":    geometry.Gears{Rings: []float64{50}}.Ratios(dst),
		"no clicks":            with(func(c *geometry.Cable) { c.Clicks = 0 }),
		"no pulls":             with(func(c *geometry.Cable) { c.Pulls = nil }),
		"pulls of others":      with(func(c *geometry.Cable) { c.Pulls = []float64{2, 2, 2} }),
		"ratios of others":     with(func(c *geometry.Cable) { c.Ratios = []float64{1, 1, 1} }),
		"no converter factor":  with(func(c *geometry.Cable) { c.Factor = 0 }),
		"all of it taken up":   with(func(c *geometry.Cable) { c.TakeUp = 2.5 }),
		"pull backwards":       with(func(c *geometry.Cable) { c.Pulls = []float64{2, -1} }),
	} {
		if len(list) != 2 || list[0] != 7 || !math.IsNaN(list[1]) {
			t.Errorf("%s: %v, want one NaN after what dst held", name, list)
		}
	}
	for name, ix := range map[string]geometry.Index{
		"nothing":      geometry.MeasureIndex(nil, nil),
		"one cog":      geometry.MeasureIndex(two[:1], two[:1]),
		"unequal":      geometry.MeasureIndex(two, three),
		"cogs falling": geometry.MeasureIndex(two, []float64{4, 0}),
		"not known":    geometry.MeasureIndex([]float64{0, nan}, two),
		"endless":      geometry.MeasureIndex([]float64{0, inf}, two),
	} {
		if !math.IsNaN(ix.Offset) || !math.IsNaN(ix.Residual) || !math.IsNaN(ix.StopsResidual) || !math.IsNaN(ix.Pitch) ||
			!math.IsNaN(ix.Share) || !math.IsNaN(ix.StackDifference) || ix.Worst != 0 || ix.Align != 0 {
			t.Errorf("%s: %+v, want all of it NaN", name, ix)
		}
	}
	if clicks, left := geometry.TrimClicks(two, two, 0); !math.IsNaN(clicks) || !math.IsNaN(left) {
		t.Errorf("trim clicks of nothing: %v and %v", clicks, left)
	}
}

// TestAnyNumbers feeds every function numbers of all kinds: none may panic or
// give an infinite result.
func TestAnyNumbers(t *testing.T) {
	r := seeded()
	for range 20000 {
		a, b, c, d := anyNumber(r), anyNumber(r), anyNumber(r), anyNumber(r)
		p, q, s := anyList(r), anyList(r), anyList(r)
		n := r.IntN(8) - 1
		ix := geometry.MeasureIndex(p, q)
		clicks, left := geometry.TrimClicks(p, q, a)
		wheel, line := geometry.Wheel{BeadSeat: a, TyreWidth: b}, geometry.Line{Ring: a, Cog: b, Chainstay: c}
		gears := geometry.Gears{Rings: p, Cogs: q}
		span := gears.Range()
		results := []float64{
			geometry.PitchDiameter(a, b), geometry.TipDiameter(a, b, c), geometry.RadialStep(a, b), geometry.BoltToCog(a, b),
			geometry.ChainLength(a, b, c, d), geometry.ChainGrowth(a, b, c, d), geometry.EvenUp(p...), geometry.ChainSpare(a, b),
			geometry.PitchFromStack(a, b, n), geometry.StackHeight(p, a), geometry.NeighbourGap(p, a, b), geometry.FreePlay(a, b, c, d),
			geometry.LockringMargin(a, b, c), geometry.CogInset(a, b, c, d), line.Angle(), line.BackpedalEntry(), line.TyreGap(wheel, c, d),
			wheel.Circumference(), wheel.HangerDrift(c, d), wheel.ResidualWithHanger(b, c, d), wheel.HangerLimit(b, c, d),
			geometry.Development(a, b), gears.Wrap(), gears.FrontDifference(), span.Lowest, span.Highest, span.Percent, span.LargestStep,
			geometry.EvenNearest(a), geometry.WholeNearest(a), geometry.AxleShift(a, b, c, d), geometry.AxlePlay(a, b), geometry.Gap(a, b, c), geometry.KindestShare(p, q, a),
			geometry.BoltRoom(a, b), geometry.DropoutRoom(a, b, c), geometry.LinkReach(a), geometry.RunningOff(p, q),
			geometry.Drive{Riders: a, Crank: b, Assist: c, Factor: d}.ChainPull(a), geometry.HubInput(a, b, c), geometry.MotorInput(a, b, c),
			gears.WrapAlone(), gears.KeepOff(a),
			ix.Offset, ix.Residual, ix.StopsResidual, ix.Pitch, ix.Share, ix.StackDifference, clicks, left,
		}
		results = geometry.EvenPositions(results, n, a)
		results = geometry.Positions(results, p)
		results = geometry.Cable{Clicks: n, Pulls: p, Ratios: q, Factor: a, TakeUp: b}.StepPositions(results)
		results, _ = geometry.BestWindow(results, p, q)
		results = geometry.IndexErrors(results, p, q)
		results = geometry.WorstIfAligned(results, p, q)
		results = geometry.NeighbourGaps(results, p, a, b)
		results = geometry.RubMargins(results, p, q, s)
		results = geometry.CogLines(results, a, b, p)
		results = geometry.RingLines(results, a, p)
		results = geometry.ChainAngles(results, p, q, a)
		results = gears.Ratios(results)
		for i, x := range results {
			if math.IsInf(x, 0) {
				t.Fatalf("result %d is infinite for %v %v %v %v, %v, %v", i, a, b, c, d, p, q)
			}
		}
		if !math.IsNaN(ix.Share) && (ix.Worst < 1 || ix.Align < 1 || ix.Residual < 0 || ix.Share < 0) {
			t.Fatalf("index %+v of %v on %v", ix, p, q)
		}
	}
}

// anyNumber draws from sensible, extreme and impossible numbers.
func anyNumber(r *rand.Rand) float64 {
	extreme := []float64{0, math.Copysign(0, -1), 1, -1, nan, inf, -inf, math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, 1e300, 1e-300, 1e17}
	if k := r.IntN(3 * len(extreme)); k < len(extreme) {
		return extreme[k]
	}
	return between(r, -20, 500)
}

// anyList draws a short list, now and then a rising one.
func anyList(r *rand.Rand) []float64 {
	list := make([]float64, r.IntN(5))
	at := 0.0
	rise := r.IntN(2) == 0
	for i := range list {
		list[i] = anyNumber(r)
		if rise {
			at += math.Abs(list[i])
			list[i] = at
		}
	}
	return list
}

func TestNothingIsAllocated(t *testing.T) {
	cogs, steps := even(12, 3.75), even(13, 3.65)
	pulls, ratios := []float64{2.5}, []float64{1.5}
	dst := make([]float64, 0, 64)
	run := func() {
		dst = geometry.EvenPositions(dst[:0], 12, 3.75)
		dst = geometry.Cable{Clicks: 12, Pulls: pulls, Ratios: ratios, Factor: 1}.StepPositions(dst)
		dst, _ = geometry.BestWindow(dst, steps, cogs)
		dst = geometry.IndexErrors(dst[:0], steps[:12], cogs)
		dst = geometry.WorstIfAligned(dst, steps[:12], cogs)
		_ = geometry.MeasureIndex(steps[:12], cogs)
		_, _ = geometry.TrimClicks(steps[:12], cogs, 0.2)
		_ = geometry.EvenUp(geometry.ChainLength(12.7, 430, 51, 32)+2, geometry.ChainLength(12.7, 450, 51, 32)+2)
		_ = geometry.NeighbourGap(cogs, 5.25, 1.6)
		dst = geometry.CogLines(dst[:0], 148, 7.3, cogs)
		_ = geometry.Gears{Rings: ratios, Cogs: pulls}.Range()
	}
	if n := testing.AllocsPerRun(100, run); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

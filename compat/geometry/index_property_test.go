package geometry_test

import (
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/compat/geometry"
)

// worstError is the greatest error that an offset leaves, written out plainly.
func worstError(steps, cogs []float64, offset float64) float64 {
	worst := 0.0
	for i := range cogs {
		worst = max(worst, math.Abs(steps[i]-cogs[i]+offset))
	}
	return worst
}

func TestNoOtherOffsetIsBetter(t *testing.T) {
	r := seeded()
	for range rounds {
		steps, cogs := randomIndex(r)
		ix := geometry.MeasureIndex(steps, cogs)
		if !near(worstError(steps, cogs, ix.Offset), ix.Residual, 1e-9) {
			t.Errorf("offset %v leaves %v, not %v", ix.Offset, worstError(steps, cogs, ix.Offset), ix.Residual)
		}
		for range 50 {
			other := ix.Offset + between(r, -2, 2)
			if worstError(steps, cogs, other) < ix.Residual-1e-9 {
				t.Errorf("offset %v leaves less than %v does", other, ix.Offset)
			}
		}
		if ix.StopsResidual > ix.Residual+1e-12 || ix.StopsResidual < 0 {
			t.Errorf("with stops %v, without %v", ix.StopsResidual, ix.Residual)
		}
	}
}

func TestConstantMovesOnlyTheOffset(t *testing.T) {
	r := seeded()
	for range rounds {
		steps, cogs := randomIndex(r)
		by := between(r, -5, 5)
		moved := make([]float64, len(steps))
		for i, s := range steps {
			moved[i] = s + by
		}
		a, b := geometry.MeasureIndex(steps, cogs), geometry.MeasureIndex(moved, cogs)
		if !near(a.Offset, b.Offset+by, 1e-9) || !near(a.Residual, b.Residual, 1e-9) || !near(a.Share, b.Share, 1e-9) ||
			!near(a.StopsResidual, b.StopsResidual, 1e-9) || a.Worst != b.Worst || a.Align != b.Align {
			t.Errorf("moved by %v: %+v becomes %+v", by, a, b)
		}
		if !nearList(geometry.IndexErrors(nil, steps, cogs), geometry.IndexErrors(nil, moved, cogs), 1e-9) ||
			!nearList(geometry.WorstIfAligned(nil, steps, cogs), geometry.WorstIfAligned(nil, moved, cogs), 1e-9) {
			t.Errorf("moved by %v: the errors change", by)
		}
		clicks, left := geometry.TrimClicks(steps, cogs, 0.2)
		if k, l := geometry.TrimClicks(moved, cogs, 0.2); k != clicks || !near(l, left, 1e-9) {
			t.Errorf("moved by %v: %v clicks become %v", by, clicks, k)
		}
	}
}

func TestEvenSeriesHaveClosedForms(t *testing.T) {
	r := seeded()
	for range rounds {
		n, step, pitch := 2+r.IntN(12), between(r, 3, 6), between(r, 3, 6)
		ix := geometry.MeasureIndex(even(n, step), even(n, pitch))
		half := float64(n-1) * (pitch - step) / 2
		if !near(ix.Offset, half, 1e-9) || !near(ix.Residual, math.Abs(half), 1e-9) ||
			!near(ix.StackDifference, 2*half, 1e-9) || !near(ix.Share, math.Abs(half)/pitch, 1e-9) {
			t.Errorf("%v on %d at %v: %+v, want half of the difference %v", step, n, pitch, ix, 2*half)
		}
		same := geometry.MeasureIndex(even(n, pitch), even(n, pitch))
		if same.Residual != 0 || same.Offset != 0 || same.Share != 0 {
			t.Errorf("matched: %+v", same)
		}
	}
}

func TestWorstCogAndShareAreThoseOfTheErrors(t *testing.T) {
	r := seeded()
	for range rounds {
		steps, cogs := randomIndex(r)
		ix := geometry.MeasureIndex(steps, cogs)
		errors := geometry.IndexErrors(nil, steps, cogs)
		worst, align, pitch := 0, listenOn(errors), math.Inf(1)
		for i, e := range errors {
			if math.Abs(e) >= ix.Residual-1e-6 {
				if worst == 0 {
					worst = i + 1
				}
				if i > 0 {
					pitch = min(pitch, cogs[i]-cogs[i-1])
				}
				if i < len(cogs)-1 {
					pitch = min(pitch, cogs[i+1]-cogs[i])
				}
			}
		}
		if ix.Worst != worst || ix.Align != align || !near(ix.Share, ix.Residual/pitch, 1e-12) {
			t.Errorf("%+v, want worst %d, align %d, pitch %v (errors %v)", ix, worst, align, pitch, errors)
		}
		aligned := geometry.WorstIfAligned(nil, steps, cogs)
		for k, got := range aligned {
			if want := worstError(steps, cogs, cogs[k]-steps[k]); !near(got, want, 1e-9) {
				t.Errorf("cog %d made perfect leaves %v, want %v", k+1, got, want)
			}
		}
		if least := slices.Min(aligned); !(aligned[ix.Align-1] <= least+0.05+1e-9) { // what no ear tells apart
			t.Errorf("aligning on cog %d leaves %v, another leaves %v", ix.Align, aligned[ix.Align-1], least)
		}
	}
}

// listenOn finds the cog to align on the long way: of those that are left with the
// least error, or with 0.05 mm more, the first that no other is nearer the middle than.
func listenOn(errors []float64) int {
	left := func(k int) float64 { return math.Abs(errors[k]) }
	middle := float64(len(errors)-1) / 2
	best := 0
	for k := range errors {
		quiet := true
		for i := range errors {
			quiet = quiet && left(k) <= left(i)+0.05+1e-9
		}
		if quiet && (best == 0 || math.Abs(float64(k)-middle) < math.Abs(float64(best-1)-middle)) {
			best = k + 1
		}
	}
	return best
}

func TestNoOtherTrimIsBetter(t *testing.T) {
	r := seeded()
	for range rounds {
		steps, cogs := randomIndex(r)
		size := between(r, 0.05, 0.5)
		clicks, residual := geometry.TrimClicks(steps, cogs, size)
		first := cogs[0] - steps[0]
		if clicks != math.Round(clicks) || !near(worstError(steps, cogs, first+clicks*size), residual, 1e-9) {
			t.Errorf("%v clicks of %v leave %v", clicks, size, residual)
		}
		for _, other := range []float64{clicks - 1, clicks + 1} {
			if worstError(steps, cogs, first+other*size) < residual-1e-9 {
				t.Errorf("%v clicks leave less than %v", other, clicks)
			}
		}
		if best := geometry.MeasureIndex(steps, cogs).Residual; residual > best+size/2+1e-9 || residual < best-1e-9 {
			t.Errorf("trim leaves %v, any offset %v", residual, best)
		}
	}
}

func TestBestWindowIsTheBest(t *testing.T) {
	r := seeded()
	for range rounds {
		steps, cogs := randomIndex(r)
		n := 2 + r.IntN(len(cogs)-1)
		cogs = cogs[:n]
		window, first := geometry.BestWindow(nil, steps, cogs)
		best := geometry.MeasureIndex(window, cogs).Residual
		for i := 0; i+n <= len(steps); i++ {
			other := geometry.MeasureIndex(steps[i:i+n], cogs).Residual
			if other < best-1e-9 || (i < first && other < best+1e-10) {
				t.Errorf("window %d leaves %v, chosen was %d with %v", i, other, first, best)
			}
		}
		if window[0] != 0 || !near(window[n-1], steps[first+n-1]-steps[first], 1e-9) {
			t.Errorf("window %v does not start at its own first step", window)
		}
	}
}

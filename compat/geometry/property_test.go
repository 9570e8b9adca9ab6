package geometry_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/cogcourt/compat/geometry"
)

// rounds is how many random cases each property is tried on.
const rounds = 300

// seeded gives the same random cases on every run.
func seeded() *rand.Rand { return rand.New(rand.NewPCG(606, 9633)) }

// between draws a number of a range.
func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

// teethOf draws a tooth count of a bicycle.
func teethOf(r *rand.Rand) float64 { return float64(9 + r.IntN(45)) }

// randomIndex draws steps and cogs of one length that nearly meet.
func randomIndex(r *rand.Rand) (steps, cogs []float64) {
	n := 2 + r.IntN(12)
	steps, cogs = []float64{0}, []float64{0}
	for i := 1; i < n; i++ {
		cogs = append(cogs, cogs[i-1]+between(r, 3.3, 5.5))
		steps = append(steps, steps[i-1]+between(r, 3, 6))
	}
	return steps, cogs
}

func TestPitchDiameterProperties(t *testing.T) {
	for z := 3.0; z <= 120; z++ {
		d := geometry.PitchDiameter(geometry.Pitch, z)
		if back := math.Pi / math.Asin(geometry.Pitch/d); !near(back, z, 1e-9) {
			t.Errorf("%v teeth: the inverse gives %v", z, back)
		}
		// A polygon's corners lie outside the circle of the same perimeter.
		if !(d > z*geometry.Pitch/math.Pi) || !(geometry.PitchDiameter(geometry.Pitch, z+1) > d) {
			t.Errorf("%v teeth: %v is no polygon or does not grow", z, d)
		}
		if !near(geometry.PitchDiameter(2*geometry.Pitch, z), 2*d, 1e-9) {
			t.Errorf("%v teeth: not in proportion to the pitch", z)
		}
	}
}

func TestTipDiameterIsTheMean(t *testing.T) {
	for z := 9.0; z <= 60; z++ {
		d := geometry.PitchDiameter(geometry.Pitch, z)
		most := d + 1.25*geometry.Pitch - geometry.Roller
		least := d + geometry.Pitch*(1-1.6/z) - geometry.Roller
		if got := geometry.TipDiameter(geometry.Pitch, geometry.Roller, z); !near(got, (most+least)/2, 1e-9) {
			t.Errorf("%v teeth: %v, want the mean of %v and %v", z, got, least, most)
		}
	}
}

func TestRadialStepProperties(t *testing.T) {
	r := seeded()
	for range rounds {
		a, b, c := teethOf(r), teethOf(r), teethOf(r)
		if there := geometry.RadialStep(a, b); !near(there, -geometry.RadialStep(b, a), 1e-12) ||
			!near(there+geometry.RadialStep(b, c), geometry.RadialStep(a, c), 1e-9) || (there > 0) != (b > a) {
			t.Errorf("%v, %v, %v teeth: steps do not add up", a, b, c)
		}
	}
}

func TestChainLengthProperties(t *testing.T) {
	r := seeded()
	for range rounds {
		c, a, b := between(r, 400, 460), teethOf(r), teethOf(r)
		l := geometry.ChainLength(geometry.Pitch, c, a, b)
		w := spanAngle(geometry.Pitch, c, a, b)
		if back := geometry.ChainLength(geometry.Pitch, c, b, a); l != back {
			t.Errorf("%v mm, %v/%v: %v, but %v the other way round", c, a, b, l, back)
		}
		if near := approximateLength(geometry.Pitch, c, a, b); math.Abs(l-near) >= 0.0065 {
			t.Errorf("%v mm, %v/%v: %v, the textbooks' approximation gives %v", c, a, b, l, near)
		}
		// Two straight runs and the teeth that the chain lies on.
		large, small := max(a, b), min(a, b)
		wrapped := 2*c*math.Cos(w)/geometry.Pitch + large*(0.5+w/math.Pi) + small*(0.5-w/math.Pi)
		if !near(l, wrapped, 1e-9) {
			t.Errorf("%v mm, %v/%v: %v, but runs and wrapped teeth are %v", c, a, b, l, wrapped)
		}
		// Its slope is 2 cos(w) / P, but for what the sprockets' corners add: the
		// pitch circles are larger than those of the same perimeter.
		const h = 1e-3
		slope := (geometry.ChainLength(geometry.Pitch, c+h, a, b) - geometry.ChainLength(geometry.Pitch, c-h, a, b)) / (2 * h)
		corners := math.Tan(w) / c * (2*c*math.Sin(w)/geometry.Pitch - (large-small)/math.Pi)
		if ideal := 2 * math.Cos(w) / geometry.Pitch; !near(slope, ideal+corners, 1e-8) || !near(slope, ideal, 3e-5) {
			t.Errorf("%v mm, %v/%v: slope %v, want 2 cos(w)/P = %v and %v", c, a, b, slope, ideal, corners)
		}
		// Equal sprockets: half of each is wrapped.
		if got := geometry.ChainLength(geometry.Pitch, c, a, a); !near(got, 2*c/geometry.Pitch+a, 1e-9) {
			t.Errorf("%v mm, %v/%v: %v", c, a, a, got)
		}
		// The approximate inverse leads back to the axle distance.
		if back := centreFromLength(geometry.Pitch, l, a, b); !near(back, c, 0.05) {
			t.Errorf("%v mm, %v/%v: the inverse gives %v", c, a, b, back)
		}
	}
}

func TestFourTeethAreTwoPitches(t *testing.T) {
	// A rider's rule (forum post on chain length, read): four teeth more use one
	// inch of chain. It holds to the third term of the formula, and on equal
	// sprockets, four teeth on each, exactly: one inch on either.
	for _, c := range []struct{ centre, a, b, tolerance float64 }{
		{415, 46, 36, 0.1}, {430, 32, 28, 0.1}, {430, 32, 32, 0.02},
	} {
		more := geometry.ChainLength(geometry.Pitch, c.centre, c.a+4, c.b) - geometry.ChainLength(geometry.Pitch, c.centre, c.a, c.b)
		if !near(more, 2, c.tolerance) {
			t.Errorf("four teeth more than %v/%v use %v pitches", c.a, c.b, more)
		}
	}
	both := geometry.ChainLength(geometry.Pitch, 430, 36, 36) - geometry.ChainLength(geometry.Pitch, 430, 32, 32)
	if !near(both, 4, 1e-9) {
		t.Errorf("four teeth more on both use %v pitches, want 4", both)
	}
}

func TestChainCountProperties(t *testing.T) {
	r := seeded()
	for range rounds {
		a, b := between(r, 60, 140), between(r, 60, 140)
		got := geometry.EvenUp(a, b)
		if math.Mod(got, 2) != 0 || got < max(a, b)-1e-9 || got >= max(a, b)+2 || got != geometry.EvenUp(b, a) {
			t.Errorf("%v and %v up to even: %v", a, b, got)
		}
		if got != max(geometry.EvenUp(a), geometry.EvenUp(b)) || geometry.EvenUp(got) != got {
			t.Errorf("%v and %v up to even: %v is not the larger, or moves on", a, b, got)
		}
		stay, growth, ring, cog := between(r, 400, 460), between(r, 0, 40), teethOf(r), teethOf(r)
		grown := geometry.ChainGrowth(stay, growth, ring, cog)
		if !(grown >= 0) || !(geometry.ChainGrowth(stay, growth+1, ring, cog) > grown) || geometry.ChainGrowth(stay, 0, ring, cog) != 0 {
			t.Errorf("growth %v of %v mm is %v pitches", growth, stay, grown)
		}
	}
	if got := geometry.EvenUp(116 + 5e-10); got != 116 {
		t.Errorf("rounding alone makes 116 to %v", got)
	}
}

func TestPositionsProperties(t *testing.T) {
	r := seeded()
	for range rounds {
		n, pitch, thickness := 2+r.IntN(12), between(r, 3, 6), between(r, 1.4, 2.4)
		at := even(n, pitch)
		if back := geometry.PitchFromStack(geometry.StackHeight(at, thickness), thickness, n); !near(back, pitch, 1e-9) {
			t.Errorf("%d cogs at %v: the stack gives %v", n, pitch, back)
		}
		distances := make([]float64, n-1)
		for i := range distances {
			distances[i] = pitch
		}
		if sums := geometry.Positions(nil, distances); !nearList(sums, at, 1e-9) {
			t.Errorf("%d cogs at %v: %v and %v", n, pitch, sums, at)
		}
		outer := between(r, 4.9, 7.8)
		if gap := geometry.NeighbourGap(at, outer, thickness); !(geometry.NeighbourGap(at, outer+0.1, thickness) < gap) ||
			!(geometry.NeighbourGap(at, outer, thickness+0.1) < gap) || !near(gap, pitch-outer/2-thickness/2, 1e-9) {
			t.Errorf("gap %v does not shrink with chain and cog", gap)
		}
	}
}

func TestLineProperties(t *testing.T) {
	r := seeded()
	for range rounds {
		l := geometry.Line{Ring: between(r, 40, 56), Cog: between(r, 20, 65), Chainstay: between(r, 400, 460)}
		mirrored := geometry.Line{Ring: -l.Ring, Cog: -l.Cog, Chainstay: l.Chainstay}
		if !near(l.Angle(), -mirrored.Angle(), 1e-12) || (l.Angle() > 0) != (l.Ring > l.Cog) {
			t.Errorf("%+v: angle %v, mirrored %v", l, l.Angle(), mirrored.Angle())
		}
		if !near(l.BackpedalEntry(), geometry.Pitch*math.Tan(l.Angle()*math.Pi/180), 1e-9) {
			t.Errorf("%+v: entry %v", l, l.BackpedalEntry())
		}
		wheel, climb := geometry.Wheel{BeadSeat: between(r, 400, 622)}, geometry.RadialStep(11, 11+float64(5+r.IntN(40)))
		residual, pitch := between(r, 0, 0.6), between(r, 3.3, 5.5)
		limit := wheel.HangerLimit(residual, pitch, climb)
		worst := wheel.ResidualWithHanger(residual, limit, climb)
		if limit > 0 && limit < 4 && !near(worst, 0.2*pitch, 1e-9) {
			t.Errorf("at the limit %v the residual is %v, want a fifth of %v", limit, worst, pitch)
		}
		if worst != wheel.ResidualWithHanger(residual, -limit, climb) {
			t.Errorf("a hanger bent the other way counts otherwise")
		}
	}
}

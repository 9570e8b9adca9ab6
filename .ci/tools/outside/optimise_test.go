// Package outside holds cogcourt's formulas against programs that know nothing of
// it: a numerical optimiser and GNU units.
package outside

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/optimize"

	"example.org/cogcourt/compat/geometry"
)

const inputs = 10_000

// TestOffsetAgainstOptimiser looks for the offset that leaves the least worst
// error, by simplex search on the definition alone.
func TestOffsetAgainstOptimiser(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for range inputs {
		n := 2 + random.IntN(12)
		steps, cogs := make([]float64, n), make([]float64, n)
		for i := 1; i < n; i++ {
			steps[i] = steps[i-1] + 3 + 2.5*random.Float64()
			cogs[i] = cogs[i-1] + 3 + 2.5*random.Float64()
		}
		worst := func(b float64) float64 {
			w := 0.0
			for i := range steps {
				w = max(w, math.Abs(steps[i]-cogs[i]+b))
			}
			return w
		}
		res, err := optimize.Minimize(optimize.Problem{Func: func(x []float64) float64 { return worst(x[0]) }}, []float64{0}, nil, &optimize.NelderMead{})
		if err != nil {
			t.Fatal(err)
		}
		ix := geometry.MeasureIndex(steps, cogs)
		if math.Abs(ix.Residual-res.F) > 1e-4 || math.Abs(ix.Offset-res.X[0]) > 1e-4 {
			t.Fatalf("steps %v, cogs %v: offset %v leaves %v, the optimiser finds %v leaving %v", steps, cogs, ix.Offset, ix.Residual, res.X[0], res.F)
		}
		if got := worst(ix.Offset); math.Abs(got-ix.Residual) > 1e-9 {
			t.Fatalf("offset %v leaves %v, not %v", ix.Offset, got, ix.Residual)
		}
	}
}

// TestChainLengthAgainstOptimiser inverts the length: the centre distance that
// gives a length must be the one that the length was worked out for. And it puts
// the chain together from its parts: two straight runs between tangent points of
// the pitch circles, and the wrapped teeth.
func TestChainLengthAgainstOptimiser(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 2))
	for range inputs {
		centre := 380 + 120*random.Float64()
		a, b := float64(20+random.IntN(40)), float64(9+random.IntN(44))
		length := geometry.ChainLength(geometry.Pitch, centre, a, b)
		off := func(c float64) float64 {
			d := geometry.ChainLength(geometry.Pitch, c, a, b) - length
			return d * d
		}
		res, err := optimize.Minimize(optimize.Problem{Func: func(x []float64) float64 { return off(x[0]) }}, []float64{440}, nil, &optimize.NelderMead{})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(res.X[0]-centre) > 0.01 {
			t.Fatalf("%v teeth and %v at %v mm: the optimiser finds %v mm for %v pitches", a, b, centre, res.X[0], length)
		}
		if parts := wrapped(centre, a, b); math.Abs(parts-length) > 1e-9 {
			t.Fatalf("%v teeth and %v at %v mm: %v pitches, from its parts %v", a, b, centre, length, parts)
		}
	}
}

// wrapped adds up a chain: the tangent between the pitch circles twice, and on
// each sprocket the share of its teeth that the angle of the tangent leaves.
func wrapped(centre, a, b float64) float64 {
	large, small := max(a, b), min(a, b)
	r := func(z float64) float64 { return 12.7 / 2 / math.Sin(math.Pi/z) }
	rise := r(large) - r(small)
	tangent := math.Sqrt(centre*centre - rise*rise)
	lean := math.Atan2(rise, tangent)
	return 2*tangent/12.7 + large*(0.5+lean/math.Pi) + small*(0.5-lean/math.Pi)
}

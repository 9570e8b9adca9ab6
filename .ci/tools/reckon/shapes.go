package reckon

import (
	"math"
	"slices"
)

const (
	pitch  = 12.7
	roller = 7.75
)

// between finds where a rising function passes through nothing, by halving.
func between(low, high float64, f func(x float64) float64) float64 {
	for range 200 {
		if middle := (low + high) / 2; f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// radius is that of the circle on which a polygon of so many links closes: the corners
// take one full turn together.
func radius(teeth float64) float64 {
	return between(pitch/2, 1000, func(r float64) float64 { return 2*math.Pi - teeth*2*math.Asin(min(1, pitch/2/r)) })
}

// lean is the angle by which the chain's run leans against the line of the axes, radii
// and their distance given: the line that touches both circles on one side.
func lean(large, small, centre float64) float64 {
	return between(-math.Pi/2, math.Pi/2, func(w float64) float64 { return centre*math.Sin(w) - (large - small) })
}

// round is the length of a chain round a ring and a cog, in links: the two straight runs
// between the points of touch, and the teeth that each wheel is wrapped over.
func round(centre, a, b float64) float64 {
	large, small := max(a, b), min(a, b)
	r, s := radius(large), radius(small)
	w := lean(r, s, centre)
	// The points of touch above the line of the axes.
	x1, y1 := r*math.Sin(w), r*math.Cos(w)
	x2, y2 := centre+s*math.Sin(w), s*math.Cos(w)
	run := math.Hypot(x2-x1, y2-y1) / pitch
	return 2*run + large*(math.Pi+2*w)/(2*math.Pi) + small*(math.Pi-2*w)/(2*math.Pi)
}

// least finds the least of a function that falls and then rises.
func least(low, high float64, f func(x float64) float64) float64 {
	for range 300 {
		a, b := low+(high-low)/3, high-(high-low)/3
		if f(a) <= f(b) {
			high = b
		} else {
			low = a
		}
	}
	return (low + high) / 2
}

// index is what an offset leaves of the errors of steps on cogs, found by search.
type index struct {
	offset, residual float64
	errors           []float64
}

func met(steps, cogs []float64) index {
	worst := func(o float64) float64 {
		w := 0.0
		for i := range cogs {
			w = max(w, math.Abs(steps[i]-cogs[i]+o))
		}
		return w
	}
	ix := index{offset: least(-500, 500, worst)}
	ix.residual = worst(ix.offset)
	for i := range cogs {
		ix.errors = append(ix.errors, steps[i]-cogs[i]+ix.offset)
	}
	return ix
}

// beside is the distance from a cog to the nearer of its neighbours.
func beside(cogs []float64, i int) float64 {
	d := math.Inf(1)
	for k := range cogs {
		if k != i {
			d = min(d, math.Abs(cogs[k]-cogs[i]))
		}
	}
	return d
}

// share is the residual as a fraction of the least distance beside any of the worst cogs.
func (ix index) share(cogs []float64) float64 {
	d := math.Inf(1)
	for i, e := range ix.errors {
		if math.Abs(e) >= ix.residual-1e-6 {
			d = min(d, beside(cogs, i))
		}
	}
	return ix.residual / d
}

// sorted gives a list from the least.
func sorted(xs []float64) []float64 { return slices.Sorted(slices.Values(xs)) }

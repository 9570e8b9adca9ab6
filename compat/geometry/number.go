package geometry

import "math"

// nan stands for every result outside the domain of its formula.
func nan() float64 { return math.NaN() }

// finite says that none of the numbers is NaN or infinite.
func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x - x) {
			return false
		}
	}
	return true
}

// positive says that all numbers are finite and above zero.
func positive(xs ...float64) bool {
	for _, x := range xs {
		if !(x > 0 && x <= math.MaxFloat64) {
			return false
		}
	}
	return true
}

// notNegative says that all numbers are finite and zero or above.
func notNegative(xs ...float64) bool {
	for _, x := range xs {
		if !(x >= 0 && x <= math.MaxFloat64) {
			return false
		}
	}
	return true
}

// bounded turns an overflow into NaN, and minus zero into zero.
func bounded(x float64) float64 {
	if math.IsInf(x, 0) {
		return nan()
	}
	return x + 0
}

// rising says that a list has two entries or more, all finite and each above
// the one before it by a finite distance.
func rising(xs []float64) bool {
	if len(xs) < 2 {
		return false
	}
	for i := 1; i < len(xs); i++ {
		if !positive(xs[i]-xs[i-1]) || !finite(xs[i], xs[i-1]) {
			return false
		}
	}
	return true
}

// extent gives the least and the greatest of a list of positive numbers; it is
// not ok for an empty list or one that holds anything else.
func extent(xs []float64) (least, most float64, ok bool) {
	if len(xs) == 0 || !positive(xs...) {
		return 0, 0, false
	}
	least, most = xs[0], xs[0]
	for _, x := range xs[1:] {
		least, most = min(least, x), max(most, x)
	}
	return least, most, true
}

package geometry

import "math"

// KindestShare is the least Index.Share of steps which may each be wider or narrower
// by up to give mm than these, all alike: what no measure of them could better.
//
// The error of the i-th cog goes in a line with the give, and rises by i mm for each. Of
// all lines the highest is a chain of pieces, and so is the lowest: along a piece of both,
// two cogs are the worst, and their residual is least at one of its ends. Where two pieces
// meet three cogs are worst, and the closest pitch beside any of them counts: what comes as
// near to that as one likes is the least then.
func KindestShare(steps, cogs []float64, give float64) float64 {
	if _, _, ok := errorExtent(steps, cogs); !ok || !notNegative(give) {
		return nan()
	}
	if give < 4*tie {
		return MeasureIndex(steps, cogs).Share
	}
	w := wider{steps, cogs}
	least := math.Inf(1)
	for at := -give; at < give; {
		from := at + tie // where those that meet here have parted by more than rounding does
		low, high := w.worst(from)
		to := w.reach(from, give, low, high)
		if to-at > 2*tie { // else three meet but for rounding
			pitch := min(pitchBeside(cogs, low), pitchBeside(cogs, high))
			for _, end := range [2]float64{at, to} {
				least = min(least, (w.off(high, end)-w.off(low, end))/2/pitch)
			}
		}
		at = to
	}
	return bounded(max(least, 0)) // rounding may have two that meet cross by a hair
}

// wider is steps that are all wider by the same.
type wider struct{ steps, cogs []float64 }

// off is the error of the i-th cog where each step is wider by so much.
func (w wider) off(i int, by float64) float64 { return w.steps[i] + by*float64(i) - w.cogs[i] }

// worst are the cogs with the least and the greatest error.
func (w wider) worst(by float64) (low, high int) {
	for i := range w.cogs {
		if w.off(i, by) >= w.off(high, by) { // of two that are level the one that rises faster
			high = i
		}
		if w.off(i, by) < w.off(low, by) {
			low = i
		}
	}
	return low, high
}

// reach is how far beyond from the two that are the worst there stay so, at most to an end.
func (w wider) reach(from, end float64, low, high int) float64 {
	for i := range w.cogs {
		for _, meets := range [2]float64{w.meet(high, i), w.meet(i, low)} {
			if meets > from && meets < end {
				end = meets
			}
		}
	}
	return end
}

// meet is where the error of the second of two cogs overtakes that of the first; no number
// where the first rises as fast or faster.
func (w wider) meet(first, second int) float64 {
	if second <= first {
		return math.NaN()
	}
	return (w.off(first, 0) - w.off(second, 0)) / float64(second-first)
}

package geometry

import "math"

// Cogs within sameWorst mm of the worst error are all worst; what differs by less
// than tie (mm, or a share of a click) is equal. Both only absorb rounding. Cogs
// within asQuiet mm of the least error run equally quiet for whoever listens.
const (
	sameWorst = 1e-6
	tie       = 1e-9
	asQuiet   = 0.05
)

// Index is how a row of steps meets the cogs of a cassette when the offset is
// chosen so that the worst error is as small as it can be.
type Index struct {
	Offset          float64 // mm to move all steps, positive towards the spokes: -(max e + min e) / 2
	Residual        float64 // worst error left, mm: (max e - min e) / 2
	StopsResidual   float64 // worst error left where limit screws hold both ends, mm
	Pitch           float64 // smallest distance beside any of the worst cogs, mm
	Share           float64 // Residual / Pitch, a fraction
	StackDifference float64 // last cog less last step, mm
	Worst           int     // first of the worst cogs, 1 for the smallest cog
	Align           int     // of the cogs within 0.05 mm of the least error left the one nearest the middle, then the smaller; from 1
}

// MeasureIndex compares steps with cogs, both positions in mm and of one length,
// two or more; cogs rise. The error of a cog is e = step - cog. All fields are
// NaN, and the cogs 0, where the lists do not allow it.
//
// The offset is the minimax one, by geometry: no other leaves a smaller worst
// error. StopsResidual is the least worst error when the pulley can stand
// neither outside the smallest cog nor inside the largest, as limit screws see
// to in a cable mix: an outward error there and an inward one here count as
// none. It is never larger than Residual.
func MeasureIndex(steps, cogs []float64) Index {
	least, most, ok := errorExtent(steps, cogs)
	if !ok {
		none := nan()
		return Index{Offset: none, Residual: none, StopsResidual: none, Pitch: none, Share: none, StackDifference: none}
	}
	last := len(cogs) - 1
	ix := Index{
		Offset:          bounded(-(most + least) / 2),
		Residual:        (most - least) / 2,
		StopsResidual:   stopsResidual(steps, cogs),
		Pitch:           math.Inf(1),
		StackDifference: bounded(cogs[last] - steps[last]),
	}
	for i := range cogs {
		e := steps[i] - cogs[i]
		if e >= most-sameWorst || e <= least+sameWorst {
			if ix.Worst == 0 {
				ix.Worst = i + 1
			}
			ix.Pitch = min(ix.Pitch, pitchBeside(cogs, i))
		}
	}
	ix.Align = alignCog(steps, cogs, ix.Offset)
	ix.Share = bounded(ix.Residual / ix.Pitch)
	return ix
}

// alignCog is the cog, from 1, on which to listen: the one nearest the middle of
// those that are left with as little error as any, to within what an ear tells
// apart; the smaller of two. All cogs of a matched set are alike, and the middle
// one halves what hub and hanger add.
func alignCog(steps, cogs []float64, offset float64) int {
	least := math.Inf(1)
	for i := range cogs {
		least = min(least, math.Abs(steps[i]-cogs[i]+offset))
	}
	best, off := 0, len(cogs)
	for i := range cogs {
		fromMiddle := 2*i - (len(cogs) - 1)
		fromMiddle = max(fromMiddle, -fromMiddle)
		if math.Abs(steps[i]-cogs[i]+offset) <= least+asQuiet+tie && fromMiddle < off {
			best, off = i+1, fromMiddle
		}
	}
	return best
}

// IndexErrors appends what is left at each cog after the offset, in mm: step -
// cog + Offset, positive where the pulley stands too far towards the spokes.
func IndexErrors(dst, steps, cogs []float64) []float64 {
	least, most, ok := errorExtent(steps, cogs)
	if !ok {
		return append(dst, nan())
	}
	offset := -(most + least) / 2
	for i := range cogs {
		dst = append(dst, bounded(steps[i]-cogs[i]+offset))
	}
	return dst
}

// WorstIfAligned appends, for each cog, the worst error in mm that stands
// somewhere when this cog is made perfect: the greatest of |e_i - e_k|.
func WorstIfAligned(dst, steps, cogs []float64) []float64 {
	least, most, ok := errorExtent(steps, cogs)
	if !ok {
		return append(dst, nan())
	}
	for k := range cogs {
		e := steps[k] - cogs[k]
		dst = append(dst, bounded(max(most-e, e-least)))
	}
	return dst
}

// TrimClicks is the whole number of trim clicks of size mm each, counted from
// where the smallest cog is exactly right, that leaves the least worst error,
// and that error in mm. Positive clicks go towards the spokes. Half-way between
// two clicks it takes the one further out: it spares the spokes' side.
func TrimClicks(steps, cogs []float64, size float64) (clicks, residual float64) {
	least, most, ok := errorExtent(steps, cogs)
	if !ok || !positive(size) {
		return nan(), nan()
	}
	first := steps[0] - cogs[0]
	clicks = bounded(math.Ceil((first-(most+least)/2)/size - 0.5 - tie))
	moved := clicks*size - first
	residual = bounded(max(math.Abs(most+moved), math.Abs(least+moved)))
	if !finite(clicks, residual) {
		return nan(), nan()
	}
	return clicks, residual
}

// errorExtent gives the least and the greatest error of steps on cogs.
func errorExtent(steps, cogs []float64) (least, most float64, ok bool) {
	if len(steps) != len(cogs) || !rising(cogs) || !finite(steps...) {
		return 0, 0, false
	}
	least, most = math.Inf(1), math.Inf(-1)
	for i := range cogs {
		e := steps[i] - cogs[i]
		least, most = min(least, e), max(most, e)
	}
	return least, most, finite(least, most, most-least, most+least)
}

// stopsResidual is the minimax without an outward error of the first cog and
// without an inward error of the last.
func stopsResidual(steps, cogs []float64) float64 {
	last := len(cogs) - 1
	inward, outward := steps[0]-cogs[0], steps[last]-cogs[last]
	for i := 1; i < last; i++ {
		e := steps[i] - cogs[i]
		inward, outward = max(inward, e), min(outward, e)
	}
	return bounded(max(0, (inward-outward)/2))
}

// PitchesBeside appends, for each cog at these positions (mm, rising, 2 or more), the
// smaller of the distances to its neighbours, in mm: what a share of the pitch is a
// share of.
func PitchesBeside(dst, cogs []float64) []float64 {
	if !rising(cogs) {
		return append(dst, nan())
	}
	for i := range cogs {
		dst = append(dst, bounded(pitchBeside(cogs, i)))
	}
	return dst
}

// pitchBeside is the smaller of the distances from a cog to its neighbours.
func pitchBeside(cogs []float64, i int) float64 {
	switch i {
	case 0:
		return cogs[1] - cogs[0]
	case len(cogs) - 1:
		return cogs[i] - cogs[i-1]
	}
	return min(cogs[i]-cogs[i-1], cogs[i+1]-cogs[i])
}

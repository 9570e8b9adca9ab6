package geometry

import "math"

// NeighbourGaps appends the room, in mm, between a chain that stands in the
// middle of each cog but the last and the face of the next larger cog:
//
//	gap = pitch - outer / 2 - thickness / 2
//
// for cogs at these positions (mm, rising, 2 or more), a chain of this width
// over its pins and cogs of this thickness (mm). Negative where the chain
// overlaps its neighbour. Geometry; matched sets that are published as working
// have 0.10 mm and more.
func NeighbourGaps(dst, cogs []float64, outer, thickness float64) []float64 {
	if !rising(cogs) || !positive(outer, thickness) {
		return append(dst, nan())
	}
	for i := 1; i < len(cogs); i++ {
		dst = append(dst, bounded(cogs[i]-cogs[i-1]-outer/2-thickness/2))
	}
	return dst
}

// NeighbourGap is the least of the NeighbourGaps.
func NeighbourGap(cogs []float64, outer, thickness float64) float64 {
	if !rising(cogs) || !positive(outer, thickness) {
		return nan()
	}
	least := cogs[1] - cogs[0]
	for i := 2; i < len(cogs); i++ {
		least = min(least, cogs[i]-cogs[i-1])
	}
	return bounded(least - outer/2 - thickness/2)
}

// Gap is the room, in mm, that a chain of this width over its pins has between two
// cogs of this thickness that stand pitch mm apart: pitch - outer / 2 - thickness / 2.
func Gap(pitch, outer, thickness float64) float64 {
	if !positive(pitch, outer, thickness) {
		return nan()
	}
	return bounded(pitch - outer/2 - thickness/2)
}

// The chain runs beside the larger neighbour for about half of its free span to
// the guide pulley (from 12 to 14 teeth 19.6 of some 43 mm), so half of an index
// error shows there. Beside a smaller neighbour it runs at all only where that
// is no more than three teeth smaller.
const (
	rubShare    = 0.5
	rubTeethGap = 3
)

// RubMargins appends the running clearance, in mm, of the chain on each cog:
// the gap to the next larger cog less half of an index error towards it, and,
// where the next smaller cog is at most three teeth smaller, the gap to that
// less half of an index error towards it; the lesser of the two. The last cog
// has its smaller neighbour alone. Negative: expect noise on that cog.
//
// gaps are the NeighbourGaps, one fewer than the cogs; errors the IndexErrors;
// teeth the counts of the cogs. An estimate, for texts and not for verdicts.
func RubMargins(dst, gaps, errors, teeth []float64) []float64 {
	n := len(errors)
	if n < 2 || len(gaps) != n-1 || len(teeth) != n ||
		!finite(gaps...) || !finite(errors...) || !positive(teeth...) {
		return append(dst, nan())
	}
	for k := range n {
		margin := gaps[min(k, n-2)]
		if k < n-1 {
			margin -= rubShare * max(0, errors[k])
		}
		if k > 0 && teeth[k]-teeth[k-1] <= rubTeethGap {
			margin = min(margin, gaps[k-1]-rubShare*max(0, -errors[k]))
		}
		dst = append(dst, bounded(margin))
	}
	return dst
}

// FreePlay is how far, in mm, a step may miss its cog before the chain is
// pressed against the next cog's face: the neighbour gap, the side play of the
// chain on its cog, and the side float of the guide pulley, all in mm:
//
//	gap + (inner - thickness) / 2 + float
//
// inner is the chain's inner width. NaN where the chain does not go over the
// cog. Geometry; a float of 0.2 is common practice.
func FreePlay(gap, inner, thickness, float float64) float64 {
	if !finite(gap) || !positive(inner, thickness) || !notNegative(float, inner-thickness) {
		return nan()
	}
	return bounded(gap + (inner-thickness)/2 + float)
}

// LockringMargin is how far, in mm, the smallest cog's outer face stands proud
// of the freehub body, so that the lockring can clamp it: mount height (shoulder
// of the body to that face) and spacers behind the cassette, less the body
// length. Negative: the lockring bottoms on the body and the cassette is loose.
func LockringMargin(mountHeight, spacer, bodyLength float64) float64 {
	if !positive(mountHeight, bodyLength) || !notNegative(spacer) {
		return nan()
	}
	return bounded(mountHeight + spacer - bodyLength)
}

// BoltRoom is what lies between the roots of a ring's teeth and the circle of its
// bolts, in mm over the diameter: pitch diameter - roller - bolt circle.
func BoltRoom(teeth, circle float64) float64 {
	if !positive(circle) {
		return nan()
	}
	return bounded(PitchDiameter(Pitch, teeth) - Roller - circle)
}

// DropoutRoom is the room, in mm, between a chain on the smallest cog and the
// inside of the dropout: the cog's inset from the face that touches the dropout,
// less half the chain's width over its pins, and how far the end is hollowed there.
func DropoutRoom(inset, outer, recess float64) float64 {
	if !finite(inset) || !positive(outer) || !notNegative(recess) {
		return nan()
	}
	return bounded(inset - outer/2 + recess)
}

// LinkReach is how many teeth more a derailleur reaches that a link lowers by drop
// mm: one for each 2.02 mm of radius, and no more than the eight that have been
// ridden (riders' reports; ten stuck).
func LinkReach(drop float64) float64 {
	if !notNegative(drop) {
		return nan()
	}
	return min(math.Floor(drop/radiusOfTooth+tie), mostReach)
}

const (
	radiusOfTooth = 2.02
	mostReach     = 8
)

// RunningOff is where the cable of a shifter is furthest off what the mechanism
// wants, in mm: the difference of the running sums of pulls and wants (mm, all
// positive, one a change) that is largest, with its sign, positive where too much
// is pulled. Of more pulls than are wanted some are clicks between the rings: each
// ring is held against the running sum nearest to it, further on than that of the
// ring before. Of fewer, the changes that both have count.
func RunningOff(pulls, wants []float64) float64 {
	n := min(len(pulls), len(wants))
	if n == 0 || !positive(pulls...) || !positive(wants[:n]...) {
		return nan()
	}
	wanted, pulled, worst, next := 0.0, 0.0, 0.0, 0
	for i := range n {
		wanted += wants[i]
		pulled += pulls[next]
		next++
		// one pull is kept for each ring that is still to come
		for spare := len(pulls) - (n - i - 1); next < spare && math.Abs(pulled+pulls[next]-wanted) < math.Abs(pulled-wanted); next++ {
			pulled += pulls[next]
		}
		if off := pulled - wanted; math.Abs(off) > math.Abs(worst)+tie {
			worst = off
		}
	}
	return bounded(worst)
}

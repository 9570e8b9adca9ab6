package geometry

import "math"

// CogLines appends the distance of each cog from the frame's middle plane, in
// mm: over-locknut / 2 - inset - position, smallest cog (the outermost) first.
// The inset leads from the face that touches the dropout to the middle of the
// smallest cog; positions are those of the cogs from that one. All in mm, the
// inset as a signed number. As a published chainline worksheet does it.
func CogLines(dst []float64, overLocknut, inset float64, positions []float64) []float64 {
	if !positive(overLocknut) || !finite(inset) || len(positions) == 0 || !finite(positions...) {
		return append(dst, nan())
	}
	for _, p := range positions {
		dst = append(dst, bounded(overLocknut/2-inset-p))
	}
	return dst
}

// CogInset is the inset of the smallest cog, in mm, where it is not measured but
// follows from the freehub's shoulder: shoulder inset (dropout face to shoulder)
// less the spacers behind the cassette, less the mount height (shoulder to the
// smallest cog's outer face), and half a cog's thickness. All in mm. Geometry.
func CogInset(shoulderInset, spacer, mountHeight, thickness float64) float64 {
	if !positive(shoulderInset, mountHeight, thickness) || !notNegative(spacer) {
		return nan()
	}
	return bounded(shoulderInset - spacer - mountHeight + thickness/2)
}

// RingLines appends the distance of each ring from the frame's middle plane, in
// mm: chainline and offset, offsets positive outboard. The trade's offset of a
// direct-mount ring counts the other way.
func RingLines(dst []float64, chainline float64, offsets []float64) []float64 {
	if !positive(chainline) || len(offsets) == 0 || !finite(offsets...) {
		return append(dst, nan())
	}
	for _, o := range offsets {
		dst = append(dst, bounded(chainline+o))
	}
	return dst
}

// ChainAngles appends the Line.Angle of every cog on every ring, in degrees:
// the first ring with all cogs, then the next. Lines and chainstay are mm.
func ChainAngles(dst, rings, cogs []float64, chainstay float64) []float64 {
	if len(rings) == 0 || len(cogs) == 0 {
		return append(dst, nan())
	}
	for _, ring := range rings {
		for _, cog := range cogs {
			dst = append(dst, Line{Ring: ring, Cog: cog, Chainstay: chainstay}.Angle())
		}
	}
	return dst
}

// Line is the run of the chain, seen from above, between a ring and a cog.
// Ring and Cog are distances from the frame's middle plane, Chainstay that of
// the axles, in mm.
type Line struct {
	Ring, Cog, Chainstay float64
}

// slope is the sideways move of the chain a mm of its run, positive where the
// ring stands further out.
func (l Line) slope() float64 {
	if !finite(l.Ring, l.Cog) || !positive(l.Chainstay) {
		return nan()
	}
	return bounded((l.Ring - l.Cog) / l.Chainstay)
}

// Angle is that of the chain against the frame's middle plane, in degrees:
// atan((ring - cog) / chainstay). Positive where the ring stands further out,
// as it usually does at the largest cog. Geometry; no limit is published.
func (l Line) Angle() float64 {
	return math.Atan(l.slope()) * 180 / math.Pi
}

// BackpedalEntry is how far outboard of the cog, in mm, the chain comes down on
// it one pitch before the tooth when pedalling back: 12.7 tan(Angle), negative
// where it comes from inboard. Geometry.
func (l Line) BackpedalEntry() float64 {
	return bounded(Pitch * l.slope())
}

// TyreGap is the room, in mm, between the chain's plates and the tyre where the
// chain runs level with the widest part of the tyre, negative where they touch:
//
//	cog line + x (ring line - cog line) / chainstay - outer / 2 - tyre / 2
//	x = sqrt((bead seat / 2 + tyre / 2)^2 - (D / 2)^2)
//
// for a cog of so many teeth and a chain of this width over its pins (mm). NaN
// where the cog is larger than the tyre or the tyre reaches past the ring's axle.
func (l Line) TyreGap(w Wheel, teeth, outer float64) float64 {
	if !positive(w.BeadSeat, w.TyreWidth, outer) {
		return nan()
	}
	radius, lever := PitchDiameter(Pitch, teeth)/2, (w.BeadSeat+w.TyreWidth)/2
	x := math.Sqrt((lever - radius) * (lever + radius))
	if !(x <= l.Chainstay) {
		return nan()
	}
	return bounded(l.Cog + x*l.slope() - outer/2 - w.TyreWidth/2)
}

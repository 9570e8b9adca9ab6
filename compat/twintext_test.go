package compat

import (
	"math"

	"example.org/cogcourt/compat/geometry"
)

// twinText works out the figures that explain findings.
func (b *bike) twinText(f *twinFigures) {
	var stops, cage, spokes twinTally
	stops.takes(&f.all[figIndexOffset])
	by, assumed := b.drive()
	if stops.assumed = stops.assumed || assumed; !stops.open() && by == "motor" {
		stops.senseless("a motor must not push against its stops")
	}
	f.set(figResidualStops, stops.value(f.index.StopsResidual))
	f.set(figRubMargins, b.rubMargins(f))
	f.set(figFreePlay, b.freePlay(f))
	slack, margin := cage.takes(&f.all[figSmallSmallSlack]), cage.takes(&f.all[figChainMargin])
	f.set(figCageRange, cage.value(slack.x-margin.x))
	f.set(figTyreGap, b.tyreGap(f))
	room := spokes.num(b.hub.kindOf, "spoke_clearance_mm", b.hub.spokes)
	over := spokes.num(b.cassette.kindOf, "overhang_mm", b.cassette.overhang)
	f.set(figSpokeGap, spokes.value(room+b.spacer(&spokes)-over))
	f.set(figSagShift, b.sagShift())
	f.set(figRingReach, b.ringReach())
}

func (b *bike) rubMargins(f *twinFigures) twinFound {
	var t twinTally
	at, outer := t.takes(&f.all[figCogPositions]), t.takes(&f.all[figChainOuter])
	thick, errors, cogs := t.takes(&f.all[figCogThickness]), t.takes(&f.all[figIndexErrors]), b.cogs(&t)
	if !t.open() && len(errors.xs) != len(cogs) {
		t.senseless("there are fewer steps than cogs")
	}
	if t.open() {
		return t.value(0)
	}
	gaps := f.keep(geometry.NeighbourGaps(f.free(), at.xs, outer.x, thick.x))
	return t.list(f.keep(geometry.RubMargins(f.free(), gaps, errors.xs, cogs)))
}

func (b *bike) freePlay(f *twinFigures) twinFound {
	var t twinTally
	gap, inner, thick := t.takes(&f.all[figNeighbourGap]), t.takes(&f.all[figChainInner]), t.takes(&f.all[figCogThickness])
	float := b.rear.float.x
	if t.assumed = t.assumed || b.rear.float.assumed; !b.rear.float.known {
		float, t.assumed = 0.2, true
	}
	return t.value(geometry.FreePlay(gap.x, inner.x, thick.x, float))
}

func (b *bike) tyreGap(f *twinFigures) twinFound {
	var t twinTally
	rings, lines, outer := t.takes(&f.all[figRingLines]), t.takes(&f.all[figCogLines]), t.takes(&f.all[figChainOuter])
	w := b.rim(&t)
	w.TyreWidth = t.num(b.wheel.kindOf, "tyre_width_mm", b.wheel.tyre)
	cogs, stay := b.cogs(&t), t.num(b.frame.kindOf, "chainstay_mm", b.frame.stay)
	if t.open() {
		return t.value(0)
	}
	line := geometry.Line{Ring: rings.xs[0], Cog: lines.xs[len(lines.xs)-1], Chainstay: stay}
	return t.value(line.TyreGap(w, cogs[len(cogs)-1], outer.x))
}

func (b *bike) sagShift() twinFound {
	var t twinTally
	if why := b.unshifted(); why != "" {
		t.senseless(why)
		return t.value(0)
	}
	sag := t.num(b.frame.kindOf, "growth_at_sag_mm", b.frame.growthAtSag)
	offset, cage := t.num(b.rear.kindOf, "guide_offset_mm", b.rear.offset), t.num(b.rear.kindOf, "cage_length_mm", b.rear.cage)
	rings, cogs, stay := b.rings(&t), b.cogs(&t), t.num(b.frame.kindOf, "chainstay_mm", b.frame.stay)
	if t.open() {
		return t.value(0)
	}
	slope := math.Asin(geometry.RadialStep(rings[0], cogs[len(cogs)-1]) / stay)
	return t.value(2 * math.Cos(slope) * sag * offset / cage)
}

func (b *bike) ringReach() twinFound {
	var t twinTally
	rings, oval := b.rings(&t), b.crank.oval
	t.assumed = t.assumed || oval.assumed
	if b.ring.there {
		oval = b.ring.oval
		t.assumed = t.assumed || oval.assumed
	}
	if t.open() {
		return t.value(0)
	}
	return t.value(rings[0] * (1 + oval.x/200))
}

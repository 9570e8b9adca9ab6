package compat

import "example.org/cogcourt/compat/geometry"

func (b *bike) twinGears(f *twinFigures) {
	var t, step twinTally
	g := geometry.Gears{Rings: b.rings(&t), Cogs: b.cogs(&t)}
	span := g.Range()
	f.set(figGearRatios, t.value(0))
	if !t.open() {
		f.set(figGearRatios, t.list(f.keep(g.Ratios(f.free()))))
	}
	f.set(figLowest, t.value(span.Lowest))
	f.set(figHighest, t.value(span.Highest))
	f.set(figRange, t.value(span.Percent))
	switch cogs := b.cogs(&step); len(cogs) {
	case 0:
		f.set(figLargestStep, step.value(0))
	case 1:
		step.senseless("a single cog has no step")
		f.set(figLargestStep, step.value(0))
	default:
		f.set(figLargestStep, step.value(geometry.Gears{Rings: cogs[:1], Cogs: cogs}.Range().LargestStep))
	}
	f.set(figDevelopmentLow, b.roll(&f.all[figLowest]))
	f.set(figDevelopmentHigh, b.roll(&f.all[figHighest]))
}

func (b *bike) roll(ratio *twinFound) twinFound {
	var t twinTally
	t.takes(ratio)
	w := b.rim(&t)
	w.TyreWidth = t.num(b.wheel.kindOf, "tyre_width_mm", b.wheel.tyre)
	return t.value(geometry.Development(w.Circumference(), ratio.x))
}

// twinRings is what the chain finds in use: a ring bought by itself stands before
// the crankset's own, a hanger link before the frame's hanger.
func (b *bike) twinRings(f *twinFigures) {
	f.set(figRingThickness, b.inUse("ring_thickness_mm", b.crank.thickness, b.ring.thickness))
	f.set(figRingNarrowWide, b.inUse("narrow_wide", b.crank.narrowWide, b.ring.narrowWide))
	f.set(figRingExtended, b.inUse("extended_inner_plates", b.crank.extended, b.ring.extended))
	guided := twinTally{assumed: b.guide.largest.assumed}
	f.set(figGuided, guided.value(0))
	if b.guide.there {
		f.set(figGuided, guided.value(1))
	}
	hanger, k, name := b.frame.hanger, b.frame.kindOf, "hanger"
	if b.link.there {
		hanger, k, name = b.link.gives, b.link.kindOf, "gives_hanger"
	}
	found := twinTally{assumed: hanger.assumed}
	found.lackWord(k, name, hanger)
	f.set(figMountHanger, found.value(0))
	f.all[figMountHanger].s = hanger.s
}

func (b *bike) inUse(name string, crank, ring twinNum) twinFound {
	var t twinTally
	if b.ring.there {
		return t.value(t.num(b.ring.kindOf, name, ring))
	}
	return t.value(t.num(b.crank.kindOf, name, crank))
}

package compat

import "example.org/cogcourt/compat/geometry"

func (b *bike) twinGears(f *twinFigures) {
	var t, step twinTally
	g := geometry.Gears{Rings: b.rings(&t), Cogs: b.cogs(&t)}
	span := g.Range()
	f.all[figGearRatios] = t.value(0)
	if !t.open() {
		f.all[figGearRatios] = t.list(f.keep(g.Ratios(f.free())))
	}
	f.all[figLowest], f.all[figHighest], f.all[figRange] = t.value(span.Lowest), t.value(span.Highest), t.value(span.Percent)
	switch cogs := b.cogs(&step); len(cogs) {
	case 0:
		f.all[figLargestStep] = step.value(0)
	case 1:
		step.senseless("a single cog has no step")
		f.all[figLargestStep] = step.value(0)
	default:
		f.all[figLargestStep] = step.value(geometry.Gears{Rings: cogs[:1], Cogs: cogs}.Range().LargestStep)
	}
	f.all[figDevelopmentLow], f.all[figDevelopmentHigh] = b.roll(&f.all[figLowest]), b.roll(&f.all[figHighest])
}

func (b *bike) roll(ratio *twinFound) twinFound {
	var t twinTally
	t.takes(ratio)
	w := b.rim(&t)
	w.TyreWidth = t.num(b.wheel.kindOf, "tyre_width_mm", b.wheel.tyre)
	return t.value(geometry.Development(w.Circumference(), ratio.x))
}

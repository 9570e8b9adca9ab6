package compat

import (
	"example.org/cogcourt/compat/geometry"
)

func (b *bike) twinOwnSet() twinFound {
	var t twinTally
	if why := b.unindexed(); why != "" {
		t.senseless(why)
		return t.value(0)
	}
	if len(b.cassette.cogs.xs) == 1 {
		t.senseless("a single cog needs no index")
		return t.value(0)
	}
	s, d, c := b.shifter.family, b.rear.family, b.cassette.family
	if s.known && d.known && c.known && s.s == d.s && d.s == c.s {
		t.assumed = s.assumed || d.assumed || c.assumed
		return t.value(1)
	}
	return t.value(0)
}

func (b *bike) twinIndex(f *twinFigures) {
	var t twinTally
	if t.assumed = b.cassette.cogs.assumed; len(b.cassette.cogs.xs) == 1 {
		t.senseless("a single cog needs no index")
	} else {
		t.takes(&f.all[figStepPositions])
		t.takes(&f.all[figCogPositions])
	}
	steps, at := f.meeting()
	if !t.open() {
		f.index = geometry.MeasureIndex(steps, at)
	}
	f.set(figIndexOffset, t.value(f.index.Offset))
	if offset := &f.all[figIndexOffset]; !offset.known {
		for i := figIndexErrors; i <= figTrimResidual; i++ {
			f.set(i, *offset)
		}
		return
	}
	f.set(figIndexErrors, t.list(f.keep(geometry.IndexErrors(f.free(), steps, at))))
	f.set(figIndexResidual, t.value(f.index.Residual))
	f.set(figIndexWorst, t.value(float64(f.index.Worst)))
	f.set(figIndexShare, t.value(f.index.Share))
	f.set(figStackDifference, t.value(f.index.StackDifference))
	f.set(figIndexAlign, t.value(float64(f.index.Align)))
	f.set(figWorstIfAligned, t.list(f.keep(geometry.WorstIfAligned(f.free(), steps, at))))
	b.twinTrim(f, t)
}

// meeting gives the steps and the cogs that meet.
func (f *twinFigures) meeting() (steps, at []float64) {
	steps, at = f.all[figStepPositions].xs, f.all[figCogPositions].xs
	n := min(len(steps), len(at))
	return steps[:n], at[:n]
}

func (b *bike) twinTrim(f *twinFigures, t twinTally) {
	d := &b.rear
	if by, assumed := b.drive(); !d.trim.known {
		t.assumed = t.assumed || assumed
		if by == "cable" {
			t.senseless("a derailleur moved by cable has no trim clicks")
		} else {
			t.lack(d.kindOf, "trim_step_mm")
		}
		f.set(figTrimClicks, t.value(0))
		f.set(figTrimResidual, t.value(0))
		return
	}
	t.assumed = t.assumed || d.trim.assumed
	steps, at := f.meeting()
	clicks, residual := geometry.TrimClicks(steps, at, d.trim.x)
	f.set(figTrimClicks, t.value(clicks))
	f.set(figTrimResidual, t.value(residual))
}

// rings are those of the ring bought by itself, else those of the crankset.
func (b *bike) rings(t *twinTally) []float64 {
	if b.ring.rings.known {
		t.assumed = t.assumed || b.ring.rings.assumed
		return b.ring.rings.xs
	}
	return t.nums(b.crank.kindOf, "rings_t", b.crank.rings)
}

func (b *bike) cogs(t *twinTally) []float64 {
	return t.nums(b.cassette.kindOf, "cogs_t", b.cassette.cogs)
}

func (b *bike) twinChain(f *twinFigures) {
	var wrap, front twinTally
	rings, cogs := b.rings(&wrap), b.cogs(&wrap)
	f.set(figChainWrap, wrap.value(geometry.Gears{Rings: rings, Cogs: cogs}.Wrap()))
	f.set(figFrontDifference, front.value(geometry.Gears{Rings: b.rings(&front)}.FrontDifference()))

	var rest, long twinTally
	f.set(figBigBigRest, rest.value(b.bigBig(&rest, 0)))
	if growth := b.growth(&long); long.open() {
		f.set(figBigBig, long.value(0))
	} else {
		f.set(figBigBig, long.value(b.bigBig(&long, growth)))
	}
	var grows, cut, margin, slack twinTally
	far, near := grows.takes(&f.all[figBigBig]), grows.takes(&f.all[figBigBigRest])
	f.set(figChainGrowth, grows.value(far.x-near.x))
	f.set(figChainPitches, cut.value(b.cut(&cut, f)))
	count, longest := b.fitted(&margin, f), margin.takes(&f.all[figBigBig])
	f.set(figChainMargin, margin.value(geometry.ChainSpare(count, longest.x)))
	f.set(figSmallSmallSlack, slack.value(b.slack(&slack, f)))
}

func (b *bike) growth(t *twinTally) float64 {
	if s := b.frame.suspension; s.known {
		t.assumed = t.assumed || s.assumed
		if s.s == "none" {
			return 0
		}
	}
	return t.num(b.frame.kindOf, "chain_growth_mm", b.frame.growth)
}

func (b *bike) onLargest(t *twinTally, beyond float64) float64 {
	rings, cogs, stay := b.rings(t), b.cogs(t), t.num(b.frame.kindOf, "chainstay_mm", b.frame.stay)
	if t.open() {
		return 0
	}
	return geometry.ChainLength(geometry.Pitch, stay+beyond, rings[0], cogs[len(cogs)-1])
}

const twinIdler = "the frame has an idler: measure the chain on the bicycle"

func (b *bike) bigBig(t *twinTally, beyond float64) float64 {
	if b.frame.idler.known {
		t.senseless(twinIdler)
		return 0
	}
	if !b.bench.ends.known {
		return b.onLargest(t, beyond)
	}
	then := twinNum{known: true}
	switch b.bench.position.s {
	case "longest":
		then = b.frame.growth
		if still := b.frame.suspension; still.known {
			t.assumed = t.assumed || still.assumed
			if still.s == "none" {
				then = twinNum{known: true}
			}
		}
	case "sag":
		then = b.frame.growthAtSag
	}
	if !then.known {
		return b.onLargest(t, beyond)
	}
	t.assumed = t.assumed || then.assumed
	at := then.x
	if at == beyond {
		return b.bench.ends.x
	}
	return b.bench.ends.x + b.onLargest(t, beyond) - b.onLargest(t, at)
}

func (b *bike) cut(t *twinTally, f *twinFigures) float64 {
	long := t.takes(&f.all[figBigBig])
	if t.open() {
		return 0
	}
	add := 2.0
	if b.rear.add.known {
		add = b.rear.add.x
	}
	t.assumed = t.assumed || b.rear.add.assumed || !b.rear.add.known
	count := geometry.EvenUp(long.x + add)
	if b.rear.addRest.known {
		t.assumed = t.assumed || b.rear.addRest.assumed
		count = max(count, geometry.EvenUp(t.takes(&f.all[figBigBigRest]).x+b.rear.addRest.x))
	}
	return count
}

func (b *bike) fitted(t *twinTally, f *twinFigures) float64 {
	if b.bench.chain.known {
		return b.bench.chain.x
	}
	before := t.assumed
	count := t.takes(&f.all[figChainPitches]).x
	if sold := b.chain.sold; sold.known {
		t.assumed = t.assumed || sold.assumed
		if sold.x < count {
			t.assumed = before || sold.assumed
			return sold.x
		}
	}
	return count
}

func (b *bike) slack(t *twinTally, f *twinFigures) float64 {
	if b.frame.idler.known {
		t.senseless(twinIdler)
		return 0
	}
	count, rings, cogs := b.fitted(t, f), b.rings(t), b.cogs(t)
	stay := t.num(b.frame.kindOf, "chainstay_mm", b.frame.stay)
	if t.open() {
		return 0
	}
	return geometry.ChainSpare(count, geometry.ChainLength(geometry.Pitch, stay, rings[len(rings)-1], cogs[0]))
}

func (b *bike) twinLines(f *twinFigures) {
	f.set(figRingLines, b.ringLines(f))
	f.set(figCogLines, b.cogLines(f))
	var t twinTally
	rings, cogs := t.takes(&f.all[figRingLines]), t.takes(&f.all[figCogLines])
	stay := t.num(b.frame.kindOf, "chainstay_mm", b.frame.stay)
	if t.open() {
		for i := figChainAngles; i <= figBackpedal; i++ {
			f.set(i, t.value(0))
		}
		return
	}
	f.set(figChainAngles, t.list(f.keep(geometry.ChainAngles(f.free(), rings.xs, cogs.xs, stay))))
	angles := f.all[figChainAngles].xs
	largest, smallest := 0.0, 0.0
	if len(angles) > 0 {
		largest, smallest = angles[len(cogs.xs)-1], angles[len(angles)-len(cogs.xs)]
	}
	f.set(figAngleLargest, t.value(largest))
	f.set(figAngleSmallest, t.value(smallest))
	f.set(figBackpedal, t.value(geometry.Line{Ring: rings.xs[0], Cog: cogs.xs[len(cogs.xs)-1], Chainstay: stay}.BackpedalEntry()))
}

func (b *bike) ringLines(f *twinFigures) twinFound {
	var t twinTally
	line := b.bench.line
	if !line.known {
		line = b.crank.line
	}
	x := t.num(b.crank.kindOf, "chainline_mm", line)
	rings, off := b.rings(&t), b.crank.offsets
	if t.open() {
		return t.value(0)
	}
	t.assumed = t.assumed || off.assumed
	switch {
	case off.known && len(off.xs) == len(rings):
		return t.list(f.keep(geometry.RingLines(f.free(), x, off.xs)))
	case len(rings) == 1:
		return t.list(f.keep(append(f.free(), x)))
	case off.known:
		t.senseless("ring_offset_mm is stated for other rings than the ones that are fitted")
	default:
		t.lack(b.crank.kindOf, "ring_offset_mm")
	}
	return t.value(0)
}

func (b *bike) cogLines(f *twinFigures) twinFound {
	var t twinTally
	width := t.num(b.hub.kindOf, "over_locknut_mm", b.hub.width)
	at := t.takes(&f.all[figCogPositions])
	if t.open() {
		return t.value(0)
	}
	inset := b.insetOf(&t, f)
	if t.open() {
		return t.value(0)
	}
	return t.list(f.keep(geometry.CogLines(f.free(), width, inset, at.xs)))
}

func (b *bike) insetOf(t *twinTally, f *twinFigures) float64 {
	if b.bench.inset.known {
		return b.bench.inset.x
	}
	shoulder, mount, thick := b.hub.shoulder, b.cassette.mount, &f.all[figCogThickness]
	t.assumed = t.assumed || shoulder.assumed || mount.assumed || thick.assumed
	if shoulder.known && mount.known && thick.known {
		return geometry.CogInset(shoulder.x, b.spacer(t), mount.x, thick.x)
	}
	return t.num(b.hub.kindOf, "smallest_cog_inset_mm", b.hub.inset)
}

func (b *bike) spacer(t *twinTally) float64 {
	if b.bench.spacer.known {
		return b.bench.spacer.x
	}
	t.assumed = true
	return b.cassette.spacer.x
}

func (b *bike) twinFit(f *twinFigures) {
	var step, bolt, lock twinTally
	if why := b.unshifted(); why != "" {
		step.senseless(why)
		bolt.senseless(why)
		f.set(figCogStep, step.value(0))
		f.set(figBoltToCog, bolt.value(0))
	} else {
		b.twinBGap(f, &step, &bolt)
	}
	mount, body := lock.num(b.cassette.kindOf, "mount_height_mm", b.cassette.mount), lock.num(b.hub.kindOf, "body_length_mm", b.hub.body)
	f.set(figLockringMargin, lock.value(geometry.LockringMargin(mount, b.spacer(&lock), body)))
	b.twinHanger(f)
}

func (b *bike) twinBGap(f *twinFigures, step, bolt *twinTally) {
	if cogs := b.cogs(step); len(cogs) > 1 {
		f.set(figCogStep, step.value(geometry.RadialStep(cogs[len(cogs)-2], cogs[len(cogs)-1])))
	} else {
		if len(cogs) == 1 {
			step.senseless("a single cog has no step")
		}
		f.set(figCogStep, step.value(0))
	}
	gap, radius := bolt.num(b.rear.kindOf, "b_gap_mm", b.rear.gap), b.rear.guideRadius
	if bolt.assumed = bolt.assumed || radius.assumed; !radius.known {
		radius.x = geometry.TipDiameter(geometry.Pitch, geometry.Roller, bolt.num(b.rear.kindOf, "guide_pulley_t", b.rear.guideTeeth)) / 2
		bolt.assumed = true
	}
	f.set(figBoltToCog, bolt.value(geometry.BoltToCog(gap, radius.x)))
}

func (b *bike) twinHanger(f *twinFigures) {
	var drift, with, limit twinTally
	w, climb := b.rim(&drift), b.climb(&drift)
	off := drift.num(b.bench.kindOf, "hanger_error_mm", b.bench.hanger)
	f.set(figHangerDrift, drift.value(w.HangerDrift(off, climb)))
	b.rim(&with)
	b.climb(&with)
	with.num(b.bench.kindOf, "hanger_error_mm", b.bench.hanger)
	residual := with.takes(&f.all[figIndexResidual])
	f.set(figResidualWithHanger, with.value(w.ResidualWithHanger(residual.x, off, climb)))
	b.rim(&limit)
	b.climb(&limit)
	limit.takes(&f.all[figIndexResidual])
	f.set(figHangerLimit, limit.value(w.HangerLimit(residual.x, f.index.Pitch, climb)))
}

func (b *bike) rim(t *twinTally) geometry.Wheel {
	return geometry.Wheel{BeadSeat: t.num(b.wheel.kindOf, "bead_seat_mm", b.wheel.bead)}
}

func (b *bike) climb(t *twinTally) float64 {
	switch c := b.cogs(t); len(c) {
	case 0:
		return 0
	case 1:
		t.senseless("a single cog needs no index")
		return 0
	default:
		return geometry.RadialStep(c[0], c[len(c)-1])
	}
}

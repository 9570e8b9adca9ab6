package compat

import (
	"math"
	"slices"

	"example.org/cogcourt/compat/geometry"
)

// twinFigures are the figures of a bike, in the order of the table.
type twinFigures struct {
	all   [figureCount]twinFound
	room  []float64 // for the lists
	index geometry.Index
	spare bool
	first int
}

// measureTwin works out all figures of a bike.
func (b *bike) measureTwin() *twinFigures {
	f := &twinFigures{}
	f.room = make([]float64, 0, arenaSize)
	b.twinCassette(f)
	b.twinSteps(f)
	b.twinIndex(f)
	b.twinChain(f)
	b.twinRings(f)
	b.twinLines(f)
	b.twinFit(f)
	b.twinGears(f)
	b.twinText(f)
	return f
}

// value is what a figure comes to: a rounded number, or what it lacks. Where the
// facts are there and make no number, they do not fit together.
func (t *twinTally) value(x float64) twinFound {
	why := *t
	if !t.open() {
		if x = math.Round(x*1e6)/1e6 + 0; !math.IsNaN(x) {
			return twinFound{x: x, known: true, assumed: t.assumed}
		}
		why.fault = misfit
	}
	return t.none(why)
}

// list is the same for a list, which is rounded in its place.
func (t *twinTally) list(xs []float64) twinFound {
	for i, x := range xs {
		if xs[i] = math.Round(x*1e6)/1e6 + 0; math.IsNaN(x) && !t.open() {
			return t.value(x)
		}
	}
	if t.open() {
		return t.value(0)
	}
	return twinFound{xs: xs, known: true, assumed: t.assumed}
}

func (t *twinTally) none(why twinTally) twinFound { return twinFound{why: &why} }

// misfit stands for a fault that gets the name of its figure when that is set.
const misfit = "?"

// set puts a figure in its place.
func (f *twinFigures) set(i int, v twinFound) {
	if v.why != nil && v.why.fault == misfit {
		v.why.fault = "the facts behind " + figureTable[i].Name + " do not fit together"
	}
	f.all[i] = v
}

// free is room for a list; keep takes what was written there.
func (f *twinFigures) free() []float64 { return f.room[len(f.room):] }

func (f *twinFigures) keep(xs []float64) []float64 {
	if len(f.room)+len(xs) <= cap(f.room) {
		f.room = f.room[:len(f.room)+len(xs)]
	}
	return xs
}

// usualOf is a stated width, or the usual one of its table for so many cogs.
func usualOf(v twinNum, usual float64, lack func(t *twinTally)) twinFound {
	if v.known {
		return twinFound{x: math.Round(v.x*1e6) / 1e6, known: true, assumed: v.assumed}
	}
	t := twinTally{assumed: true}
	if usual == 0 {
		lack(&t)
	}
	return t.value(usual)
}

func (b *bike) twinCassette(f *twinFigures) {
	c, h := &b.cassette, &b.chain
	f.set(figCogThickness, usualOf(c.thickness, usualThickness[len(c.cogs.xs)], func(t *twinTally) { t.lack(c.kindOf, "cog_thickness_mm") }))
	f.set(figCogPositions, b.twinPositions(f))
	var stack twinTally
	at, thick := stack.takes(&f.all[figCogPositions]), stack.takes(&f.all[figCogThickness])
	if stack.open() {
		f.set(figCassetteStack, stack.value(0))
	} else {
		f.set(figCassetteStack, stack.value(geometry.StackHeight(at.xs, thick.x)))
	}
	f.set(figChainOuter, usualOf(h.outer, usualOuter[int(h.speeds.x)], func(t *twinTally) { t.lack(h.kindOf, "outer_width_mm") }))
	f.set(figChainInner, usualOf(h.inner, usualInner[int(h.speeds.x)], func(t *twinTally) { t.lack(h.kindOf, "inner_width_mm") }))
	f.set(figNeighbourGap, b.twinGap(f))
}

func (b *bike) twinPositions(f *twinFigures) twinFound {
	var t twinTally
	if b.bench.cogs.known {
		return t.list(f.keep(append(f.free(), b.bench.cogs.xs...)))
	}
	c := &b.cassette
	n := len(t.nums(c.kindOf, "cogs_t", c.cogs))
	switch {
	case t.open():
	case n == 1:
		return t.list(f.keep(append(f.free(), 0)))
	case c.pitches.known:
		return t.list(f.keep(geometry.Positions(f.free(), c.pitches.xs)))
	case c.pitch.known:
		return t.list(f.keep(geometry.EvenPositions(f.free(), n, c.pitch.x)))
	case c.stack.known:
		if thick := t.takes(&f.all[figCogThickness]); !t.open() {
			return t.list(f.keep(geometry.EvenPositions(f.free(), n, geometry.PitchFromStack(c.stack.x, thick.x, n))))
		}
	default:
		t.lack(c.kindOf, "pitch_mm")
	}
	return t.value(0)
}

func (b *bike) twinGap(f *twinFigures) twinFound {
	var t twinTally
	if len(b.cassette.cogs.xs) == 1 {
		t.senseless("a single cog has no neighbour")
		return t.value(0)
	}
	t.assumed = b.cassette.cogs.assumed
	at, outer, thick := t.takes(&f.all[figCogPositions]), t.takes(&f.all[figChainOuter]), t.takes(&f.all[figCogThickness])
	if t.open() {
		return t.value(0)
	}
	return t.value(geometry.NeighbourGap(at.xs, outer.x, thick.x))
}

// unshifted says why the rear derailleur shifts nothing, or nothing.
func (b *bike) unshifted() string {
	if b.hub.kind.s == "internal" || b.hub.kind.s == "fixed" {
		return "the gears are in the hub: there is no rear derailleur to index"
	}
	return ""
}

// unindexed says why there is no index to judge, or nothing.
func (b *bike) unindexed() string {
	switch why := b.unshifted(); {
	case why != "":
		return why
	case b.shifter.indexed.known && b.shifter.indexed.x == 0:
		return "the shifter is not indexed: the rider sets the position by ear"
	}
	return ""
}

// drive says what moves the derailleur, and whether that is only assumed.
func (b *bike) drive() (by string, assumed bool) {
	d, s := &b.rear, &b.shifter
	switch {
	case d.actuation.known:
		return d.actuation.s, d.actuation.assumed
	case s.actuation.known:
		return s.actuation.s, s.actuation.assumed
	case d.steps.known || d.madeForPitch.known || d.madeForPitches.known:
		return "motor", d.steps.assumed || d.madeForPitch.assumed || d.madeForPitches.assumed
	case d.ratio.known || d.ratios.known:
		return "cable", d.ratio.assumed || d.ratios.assumed
	case s.pull.known || s.pulls.known:
		return "cable", s.pull.assumed || s.pulls.assumed
	case !s.there:
		return "cable", false
	}
	return "", false
}

func (b *bike) twinSteps(f *twinFigures) {
	f.set(figStepPositions, b.twinStepPositions(f))
	var first twinTally
	first.takes(&f.all[figStepPositions])
	first.takes(&f.all[figCogPositions])
	if !first.open() && !f.spare {
		first.senseless("there is no spare click")
	}
	f.set(figFirstClick, first.value(float64(f.first)))
	f.set(figSpareSteps, b.twinSpare())
	f.set(figOwnSet, b.twinOwnSet())
}

func (b *bike) twinStepPositions(f *twinFigures) twinFound {
	var t twinTally
	if why := b.unindexed(); why != "" {
		t.senseless(why)
		return t.value(0)
	}
	xs := b.twinAllSteps(f, &t)
	at := &f.all[figCogPositions]
	t.assumed = t.assumed || at.assumed
	if t.open() || !at.known || len(at.xs) < 2 || len(xs) <= len(at.xs) {
		return t.list(xs)
	}
	by, assumed := b.drive()
	t.assumed = t.assumed || assumed
	if by == "motor" {
		return t.list(xs)
	}
	window, first := geometry.BestWindow(f.free(), xs, at.xs)
	if first < 0 {
		t.fault = "the steps do not rise"
		return t.value(0)
	}
	f.spare, f.first = true, first
	return t.list(f.keep(window))
}

func (b *bike) twinAllSteps(f *twinFigures, t *twinTally) []float64 {
	if b.bench.steps.known {
		return f.keep(append(f.free(), b.bench.steps.xs...))
	}
	if !b.rear.there {
		t.lack(b.rear.kindOf, "actuation")
		return nil
	}
	by, assumed := b.drive()
	t.assumed = t.assumed || assumed
	switch by {
	case "motor":
		return b.twinMotor(f, t)
	case "cable":
		return b.twinCable(f, t)
	}
	t.lack(b.rear.kindOf, "actuation")
	return nil
}

func (b *bike) twinMotor(f *twinFigures, t *twinTally) []float64 {
	d := &b.rear
	switch {
	case d.steps.known:
		t.assumed = t.assumed || d.steps.assumed
		return f.keep(geometry.Positions(f.free(), d.steps.xs))
	case d.madeForPitches.known:
		t.assumed = true
		return f.keep(geometry.Positions(f.free(), d.madeForPitches.xs))
	}
	p := t.num(d.kindOf, "made_for_pitch_mm", d.madeForPitch)
	n := len(t.nums(b.cassette.kindOf, "cogs_t", b.cassette.cogs))
	if t.open() {
		return nil
	}
	t.assumed = true
	return f.keep(geometry.EvenPositions(f.free(), n, p))
}

func (b *bike) twinCable(f *twinFigures, t *twinTally) []float64 {
	s, d := &b.shifter, &b.rear
	c := geometry.Cable{Pulls: s.pulls.xs, Clicks: len(s.pulls.xs), Ratios: d.ratios.xs, Factor: 1}
	if s.pulls.known {
		t.assumed = t.assumed || s.pulls.assumed
	} else {
		c.Pulls, c.Clicks = append(f.free(), t.num(s.kindOf, "pull_mm", s.pull)), int(t.num(s.kindOf, "clicks", s.clicks))
		f.keep(c.Pulls)
	}
	if d.ratios.known {
		t.assumed = t.assumed || d.ratios.assumed
	} else {
		c.Ratios = f.keep(append(f.free(), t.num(d.kindOf, "ratio", d.ratio)))
	}
	if s.factor.known {
		c.Factor = s.factor.x
	}
	c.TakeUp = s.takeUp.x
	t.assumed = t.assumed || s.factor.assumed || s.takeUp.assumed
	if t.open() {
		return nil
	}
	t.assumed = t.assumed || d.rest.assumed
	if d.rest.s != "largest" {
		return f.keep(c.StepPositions(f.free()))
	}
	c.Pulls, c.Ratios = backwards(c.Pulls), backwards(c.Ratios)
	at := c.StepPositions(f.free())
	for i, last := 0, at[len(at)-1]; i < len(at); i++ {
		at[i] = last - at[i]
	}
	slices.Reverse(at)
	return f.keep(at)
}

func backwards(xs []float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[len(xs)-1-i] = x
	}
	return out
}

func (b *bike) twinSpare() twinFound {
	var t twinTally
	if why := b.unindexed(); why != "" {
		t.senseless(why)
		return t.value(0)
	}
	if !b.rear.there {
		t.lack(b.rear.kindOf, "actuation")
	}
	needed := len(t.nums(b.cassette.kindOf, "cogs_t", b.cassette.cogs)) - 1
	if t.open() {
		return t.value(0)
	}
	if needed == 0 {
		t.senseless("a single cog needs no index")
		return t.value(0)
	}
	return t.value(float64(b.twinCount(&t, needed) - needed))
}

func (b *bike) twinCount(t *twinTally, needed int) int {
	if b.bench.steps.known {
		return len(b.bench.steps.xs) - 1
	}
	d, s := &b.rear, &b.shifter
	by, assumed := b.drive()
	t.assumed = t.assumed || assumed
	switch {
	case by == "motor" && d.steps.known:
		t.assumed = t.assumed || d.steps.assumed
		return len(d.steps.xs)
	case by == "motor" && d.madeForPitches.known:
		t.assumed = t.assumed || d.madeForPitches.assumed
		return len(d.madeForPitches.xs)
	case by == "motor":
		t.num(d.kindOf, "made_for_pitch_mm", d.madeForPitch)
		t.assumed = true
		return needed
	case by == "cable" && s.pulls.known:
		t.assumed = t.assumed || s.pulls.assumed
		return len(s.pulls.xs)
	case by == "cable":
		return int(t.num(s.kindOf, "clicks", s.clicks))
	}
	t.lack(d.kindOf, "actuation")
	return 0
}

package twin

import (
	"math"

	"example.org/cogcourt/rules"
)

// The facts that the rules read, in the order of the vocabulary.
const (
	cogsT = iota
	ownLockring
	cassetteRoller
	cassetteFreehub
	chainRoller
	rearActuation
	stepsSelectable
	rearRadio
	maxCog
	capacity
	shifterActuation
	shifterRadio
	ringsT
	ringOffsets
	narrowWide
	hubWidth
	hubFreehub
	hubAxle
	minCog
	frameWidth
	spareSteps
	cogCount
	ownSet
	residualShare
	chainWrap
	neighbourGap
	chainMargin
	lockringMargin
	ringRoller
	factCount
)

var names = [factCount]string{
	cogsT: "cassette.cogs_t", ownLockring: "cassette.own_lockring_small_cog", cassetteRoller: "cassette.roller_class", cassetteFreehub: "cassette.freehub",
	chainRoller: "chain.roller_class", rearActuation: "rear_derailleur.actuation", stepsSelectable: "rear_derailleur.steps_selectable",
	rearRadio: "rear_derailleur.radio", maxCog: "rear_derailleur.max_cog_t", capacity: "rear_derailleur.capacity_t",
	shifterActuation: "rear_shifter.actuation", shifterRadio: "rear_shifter.radio", ringsT: "crankset.rings_t", ringOffsets: "crankset.ring_offset_mm", narrowWide: "crankset.narrow_wide",
	hubWidth: "hub.over_locknut_mm", hubFreehub: "hub.freehub", hubAxle: "hub.axle", minCog: "hub.min_cog_t", frameWidth: "frame.over_locknut_mm",
	spareSteps: "figures.index_spare_steps", cogCount: "figures.cog_count", ownSet: "figures.index_own_set",
	residualShare: "figures.index_residual_share", chainWrap: "figures.chain_wrap_t", neighbourGap: "figures.neighbour_gap_mm",
	chainMargin: "figures.chain_margin_pitches", lockringMargin: "figures.lockring_margin_mm", ringRoller: "figures.ring_roller_class",
}

// rule is one rule by hand: what it asks to be stated, when it applies, and its
// conditions.
type rule struct {
	id               string
	asks             []int
	when, fail, warn func(v *view) truth
	adjusted         rules.Verdict // Unknown for most
}

// byHand are the rules in the order of the file.
var byHand = []rule{
	{id: "twin/largest-cog",
		fail: func(v *view) truth { return v.nums(cogsT).at(-1).minus(v.num(maxCog)).above(4) },
		warn: func(v *view) truth { return v.nums(cogsT).at(-1).minus(v.num(maxCog)).above(0) }},
	{id: "twin/capacity",
		fail: func(v *view) truth { return v.num(chainWrap).minus(v.num(capacity)).above(3) },
		warn: func(v *view) truth { return v.num(chainWrap).minus(v.num(capacity)).above(0) }},
	{id: "twin/neighbour-gap",
		fail: func(v *view) truth { return v.num(neighbourGap).below(-0.08) },
		warn: func(v *view) truth { return v.num(neighbourGap).below(0.05) }},
	{id: "twin/length", adjusted: rules.Warn,
		fail: func(v *view) truth { return v.num(chainMargin).below(1) },
		warn: func(v *view) truth { return v.num(chainMargin).below(1.95) }},
	{id: "twin/roller", asks: []int{chainRoller}, fail: rollersClash},
	{id: "twin/actuation",
		fail: func(v *view) truth { return not(v.word(shifterActuation).equals(v.word(rearActuation))) }},
	{id: "twin/radio",
		when: func(v *view) truth {
			return and(v.word(shifterActuation).says("motor"), v.word(rearActuation).says("motor"))
		},
		fail: func(v *view) truth { return not(v.word(shifterRadio).equals(v.word(rearRadio))) }},
	{id: "twin/smallest-cog", asks: []int{minCog, cogsT},
		fail: func(v *view) truth {
			return and(v.nums(cogsT).at(0).belowOther(v.num(minCog)), not(v.flag(ownLockring)))
		}},
	{id: "twin/odd-ring", asks: []int{narrowWide, ringsT},
		when: func(v *view) truth { return v.flag(narrowWide) },
		fail: func(v *view) truth { return v.nums(ringsT).any(func(t float64) bool { return int(t)%2 == 1 }) }},
	{id: "twin/offsets",
		warn: func(v *view) truth { return v.nums(ringOffsets).any(func(x float64) bool { return math.Abs(x) > 5 }) }},
	{id: "twin/residual",
		fail: func(v *view) truth { return and(not(v.flag(ownSet)), v.num(residualShare).above(0.2)) },
		warn: func(v *view) truth { return and(not(v.flag(ownSet)), v.num(residualShare).above(0.125)) }},
	{id: "twin/steps", fail: stepsCannotBeSet, warn: stepsAreOff},
	{id: "twin/over-locknut", fail: widthsAreFarApart,
		warn: func(v *view) truth { return widthsApart(v).above(1) }},
	{id: "twin/lockring", when: goesOn,
		fail: func(v *view) truth { return or(v.num(lockringMargin).below(0.1), v.num(lockringMargin).above(2.5)) },
		warn: func(v *view) truth { return v.num(lockringMargin).above(0.8) }},
}

func rollersClash(v *view) truth {
	return and(v.word(chainRoller).says("large"), or(v.word(cassetteRoller).says("standard"), v.word(ringRoller).says("standard")))
}

// stepsCannotBeSet: a motor that makes too many steps must be able to make as
// many as the cassette needs.
func stepsCannotBeSet(v *view) truth {
	spare := v.num(spareSteps).above(0)
	if spare.lacks != 0 || !spare.holds {
		return spare
	}
	needed, selectable := v.num(cogCount), v.nums(stepsSelectable)
	found := selectable.any(func(n float64) bool { return n == needed.x-1 })
	found.lacks |= needed.lacks
	return and(v.word(rearActuation).says("motor"), not(found))
}

func stepsAreOff(v *view) truth {
	spare := v.num(spareSteps)
	return or(spare.below(0), and(spare.above(2), not(v.word(rearActuation).says("motor"))))
}

func widthsApart(v *view) number {
	off := v.num(hubWidth).minus(v.num(frameWidth))
	off.x = math.Round(math.Abs(off.x)*1e9) / 1e9 // as the rules do arithmetic
	return off
}

func widthsAreFarApart(v *view) truth {
	off := widthsApart(v)
	return or(off.above(3), and(off.above(0.5), v.word(hubAxle).says("through")))
}

// goesOn: a cassette goes onto a body of the same splines, or of others one way.
func goesOn(v *view) truth {
	cassette, hub := v.words(cassetteFreehub), v.word(hubFreehub)
	oneWay := or(and(cassette.hold("spline-9-deep"), hub.says("spline-9")), and(cassette.hold("driver-10"), hub.says("driver-10-long")))
	return and(not(cassette.hold("thread-1.375")), or(cassette.holdWord(hub), oneWay))
}

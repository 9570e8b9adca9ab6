package compat

import (
	"math"

	"example.org/cogcourt/rules"
)

// The rules that keep quiet until their facts are stated.

// quiet is what such a rule comes to where one is not.
func quiet(t *twinTally) twinFinding {
	f := twinOpen(t)
	switch {
	case f.err != "":
		return twinFinding{reason: rules.ReasonFigure, names: []string{f.err}}
	case f.reason == "":
		f.reason = rules.ReasonUnstated
	}
	return f
}

// unless is a rule whose facts are stated and which is about another case.
var unless = twinFinding{reason: rules.ReasonWhen}

func warnIf(warn bool) twinFinding { return twinVerdict(false, warn) }

func smallestLargestCog(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	least, cogs := t.num(b.rear.kindOf, "min_largest_cog_t", b.rear.minLargest), b.cogs(&t)
	if t.open() {
		return quiet(&t)
	}
	return warnIf(cogs[len(cogs)-1] < least)
}

func smallestCog(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	least, cogs := t.num(b.hub.kindOf, "min_cog_t", b.hub.minCog), b.cogs(&t)
	if t.open() {
		return quiet(&t)
	}
	own := b.cassette.ownLockring
	if !(cogs[0] < least && own.x == 0) {
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("cassette.cogs_t", b.cassette.cogs.assumed,
		"cassette.own_lockring_small_cog", own.assumed, "hub.min_cog_t", b.hub.minCog.assumed)...)
}

// assisted is a rule about bicycles whose motor pulls through the chain: what is
// not rated for it warns.
func (b *bike) assisted(k kindOf, name string, rated twinNum) twinFinding {
	var t twinTally
	t.lackWord(b.frame.kindOf, "assist", b.frame.assist)
	ok := t.num(k, name, rated)
	switch {
	case t.open():
		return quiet(&t)
	case b.frame.assist.s != "mid":
		return unless
	}
	return warnIf(ok == 0)
}

func cassetteAssist(b *bike, _ *twinFigures) twinFinding {
	return b.assisted(b.cassette.kindOf, "assist_rated", b.cassette.assistRated)
}

func chainAssist(b *bike, _ *twinFigures) twinFinding {
	return b.assisted(b.chain.kindOf, "assist_rated", b.chain.assistRated)
}

func singleStep(b *bike, _ *twinFigures) twinFinding {
	return b.assisted(b.shifter.kindOf, "single_step", b.shifter.singleStep)
}

func chainDirection(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	chain := t.num(b.chain.kindOf, "directional", b.chain.directional)
	link := t.num(b.connector.kindOf, "directional", b.connector.directional)
	if t.open() {
		return quiet(&t)
	}
	return warnIf(chain != 0 && link == 0)
}

func chainConnector(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	chain, link := t.num(b.chain.kindOf, "speeds", b.chain.speeds), t.num(b.connector.kindOf, "speeds", b.connector.speeds)
	if t.open() {
		return quiet(&t)
	}
	return warnIf(chain != link && !(min(chain, link) >= 5 && max(chain, link) <= 8))
}

func chainParity(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	count := t.num(b.bench.kindOf, "chain_pitches", b.bench.chain)
	if t.open() {
		return quiet(&t)
	}
	return twinVerdict(int(count)%2 == 1, false)
}

func chainSlack(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	slack := t.takes(&f.all[figSmallSmallSlack])
	rated := t.num(b.rear.kindOf, "capacity_t", b.rear.capacity)
	if t.open() {
		return quiet(&t)
	}
	return warnIf(slack.x-rated/2 > 7)
}

func chainStrength(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	strength := t.num(b.chain.kindOf, "strength_n", b.chain.strength)
	t.lackWord(b.frame.kindOf, "use", b.frame.use)
	if t.open() {
		return quiet(&t)
	}
	least := 8010.0
	if b.frame.use.s == "sidewalk" {
		least = 6230
	}
	if strength >= least-10 {
		return warnIf(strength < least)
	}
	return twinVerdict(true, true, marked("chain.strength_n", b.chain.strength.assumed, "frame.use", b.frame.use.assumed)...)
}

func chainWear(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	wear, cogs := t.num(b.bench.kindOf, "chain_wear_percent", b.bench.wear), b.cogs(&t)
	if t.open() {
		return quiet(&t)
	}
	limit := 0.75
	if len(cogs) >= 11 {
		limit = 0.5
	}
	return warnIf(wear >= limit)
}

func frontDifference(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	teeth := t.takes(&f.all[figFrontDifference])
	over := teeth.x - t.num(b.rear.kindOf, "max_front_difference_t", b.rear.maxFront)
	if t.open() {
		return quiet(&t)
	}
	if over > 2 {
		return twinVerdict(true, true, marked("rear_derailleur.max_front_difference_t", b.rear.maxFront.assumed, "figures.front_difference_t", teeth.assumed)...)
	}
	return warnIf(over > 0)
}

// bolt is a rule about the torque of the derailleur's bolt.
func (b *bike) bolt(t *twinTally, torque float64) twinFinding {
	t.lackWord(b.rear.kindOf, "mount", b.rear.mount)
	switch {
	case t.open():
		return quiet(t)
	case b.rear.mount.s == "full":
		return unless
	}
	return warnIf(torque < 4 || torque > 20)
}

func torquePlausible(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	return b.bolt(&t, t.num(b.rear.kindOf, "mount_torque_nm", b.rear.torque))
}

func torqueTightened(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	return b.bolt(&t, t.num(b.bench.kindOf, "torque_nm", b.bench.torque))
}

func spacerTall(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	spacer := t.num(b.bench.kindOf, "spacer_behind_mm", b.bench.spacer)
	if t.open() {
		return quiet(&t)
	}
	return warnIf(spacer > 3)
}

func indexFamily(_ *bike, f *twinFigures) twinFinding {
	var t twinTally
	own, share := t.takes(&f.all[figOwnSet]), t.takes(&f.all[figIndexShare])
	switch {
	case t.open():
		return quiet(&t)
	case own.x == 0:
		return unless
	}
	return warnIf(share.x > 0.5)
}

func trimRange(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	offset := t.takes(&f.all[figIndexOffset])
	reach := t.num(b.rear.kindOf, "trim_range_mm", b.rear.trimRange)
	if t.open() {
		return quiet(&t)
	}
	return warnIf(math.Abs(offset.x) > reach/2)
}

func angleLargest(_ *bike, f *twinFigures) twinFinding {
	var t twinTally
	entry := t.takes(&f.all[figBackpedal])
	if t.takes(&f.all[figAngleLargest]); t.open() {
		return quiet(&t)
	}
	return warnIf(math.Abs(entry.x) > 0.82)
}

func angleSmallest(_ *bike, f *twinFigures) twinFinding {
	var t twinTally
	angle := t.takes(&f.all[figAngleSmallest])
	if t.open() {
		return quiet(&t)
	}
	return warnIf(math.Abs(angle.x) > 3.7)
}

func extendedPlates(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	chain := t.num(b.chain.kindOf, "extended_inner_plates", b.chain.extended)
	switch {
	case t.open():
		return quiet(&t)
	case chain == 0:
		return unless
	}
	rings := t.takes(&f.all[figRingExtended])
	if t.open() {
		return twinOpen(&t)
	}
	return warnIf(rings.x == 0)
}

func retention(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	wide, front := t.takes(&f.all[figRingNarrowWide]), t.takes(&f.all[figFrontDifference])
	t.lackWord(b.rear.kindOf, "clutch", b.rear.clutch)
	guided := t.takes(&f.all[figGuided])
	switch {
	case t.open():
		return quiet(&t)
	case front.x != 0:
		return unless
	}
	return warnIf((wide.x == 0 || b.rear.clutch.s == "none") && guided.x == 0)
}

// narrowWide is a rule about rings whose teeth alternate: an odd count cannot.
func narrowWide(k kindOf, alternate twinNum, rings twinNums) twinFinding {
	var t twinTally
	wide, teeth := t.num(k, "narrow_wide", alternate), t.nums(k, "rings_t", rings)
	switch {
	case t.open():
		return quiet(&t)
	case wide == 0:
		return unless
	}
	for _, n := range teeth {
		if int(n)%2 == 1 {
			return twinVerdict(true, false, marked(k.name+".rings_t", rings.assumed, k.name+".narrow_wide", alternate.assumed)...)
		}
	}
	return twinVerdict(false, false)
}

func crankNarrowWide(b *bike, _ *twinFigures) twinFinding {
	return narrowWide(b.crank.kindOf, b.crank.narrowWide, b.crank.rings)
}

func ringNarrowWide(b *bike, _ *twinFigures) twinFinding {
	return narrowWide(b.ring.kindOf, b.ring.narrowWide, b.ring.rings)
}

package compat

import (
	"slices"

	"example.org/cogcourt/rules"
)

// twinVerdict is fail, warn or pass by two conditions; what a fail hangs on and is
// only assumed makes it a warning.
func twinVerdict(fail, warn bool, assumed ...string) twinFinding {
	switch {
	case fail && len(assumed) > 0:
		return twinFinding{verdict: rules.Warn, assumed: assumed}
	case fail:
		return twinFinding{verdict: rules.Fail}
	case warn:
		return twinFinding{verdict: rules.Warn}
	}
	return twinFinding{verdict: rules.Pass}
}

// twinOpen is what a rule comes to that lacks facts: absent parts and figures
// without meaning take it away, facts that nobody stated leave it open.
func twinOpen(t *twinTally) twinFinding {
	switch {
	case len(t.absent) > 0:
		return twinFinding{reason: rules.ReasonAbsent, names: t.absent}
	case t.reason != "":
		return twinFinding{reason: rules.ReasonFigure, names: []string{t.reason}}
	case t.fault != "":
		return twinFinding{err: t.fault}
	}
	return twinFinding{names: t.missing}
}

// marked lists the names that are marked: name and mark in turn.
func marked(pairs ...any) []string {
	var out []string
	for i := 0; i < len(pairs); i += 2 {
		if pairs[i+1].(bool) {
			out = append(out, pairs[i].(string))
		}
	}
	return out
}

func largestCog(b *bike, _ *twinFigures) twinFinding {
	var t twinTally
	cogs := b.cogs(&t)
	rated := t.num(b.rear.kindOf, "max_cog_t", b.rear.maxCog)
	if t.open() {
		return twinOpen(&t)
	}
	over := cogs[len(cogs)-1] - rated
	if over > 4 && t.assumed {
		return twinVerdict(true, true, marked("cassette.cogs_t", b.cassette.cogs.assumed, "figures.rated_cog_t", b.rear.maxCog.assumed)...)
	}
	return twinVerdict(over > 4, over > 0)
}

func capacity(b *bike, f *twinFigures) twinFinding {
	var t twinTally
	rated := t.num(b.rear.kindOf, "capacity_t", b.rear.capacity)
	wrap := t.takes(&f.all[figChainWrap])
	if t.open() {
		return twinOpen(&t)
	}
	over := wrap.x - rated
	if over > 3 && t.assumed {
		return twinVerdict(true, true, marked("rear_derailleur.capacity_t", b.rear.capacity.assumed, "figures.chain_wrap_t", wrap.assumed)...)
	}
	return twinVerdict(over > 3, over > 0)
}

func neighbourGap(_ *bike, f *twinFigures) twinFinding {
	gap := &f.all[figNeighbourGap]
	switch {
	case !gap.known:
		return twinOpen(gap.why)
	case gap.x < -0.08 && gap.assumed:
		return twinVerdict(true, true, "figures.neighbour_gap_mm")
	}
	return twinVerdict(gap.x < -0.08, gap.x < 0.05)
}

func chainLength(_ *bike, f *twinFigures) twinFinding {
	margin := &f.all[figChainMargin]
	switch {
	case !margin.known:
		return twinOpen(margin.why)
	case margin.x < 1 && margin.assumed:
		return twinVerdict(true, true, "figures.chain_margin_pitches")
	}
	return twinVerdict(margin.x < 1, margin.x < 1.95)
}

// roller asks for the chain and for the teeth of cogs and rings; teeth that are
// all cut for large rollers take any chain.
func roller(b *bike, _ *twinFigures) twinFinding {
	chain, cogs, rings := b.chain.rollers, b.cassette.rollers, b.crank.rollers
	if !chain.known {
		var t twinTally
		t.lackWord(b.chain.kindOf, "roller_class", chain)
		return quiet(&t)
	}
	small := cogs.s == "standard" || rings.s == "standard"
	switch {
	case chain.s != "large", !small && cogs.known && rings.known:
		return twinVerdict(false, false)
	case small:
		firm := cogs.s == "standard" && !cogs.assumed || rings.s == "standard" && !rings.assumed
		return twinVerdict(true, true, marked("cassette.roller_class", !firm && cogs.assumed, "chain.roller_class", chain.assumed, "figures.ring_roller_class", !firm && rings.assumed)...)
	}
	var t twinTally
	t.lackWord(b.cassette.kindOf, "roller_class", cogs)
	t.lackWord(b.crank.kindOf, "roller_class", rings)
	return twinOpen(&t)
}

// lackWord notes a word that is not stated.
func (t *twinTally) lackWord(k kindOf, name string, w twinWord) {
	if !w.known {
		t.lack(k, name)
	}
}

func actuation(b *bike, _ *twinFigures) twinFinding {
	rear, shifter := b.rear.actuation, b.shifter.actuation
	if !rear.known || !shifter.known {
		var t twinTally
		t.lackWord(b.rear.kindOf, "actuation", rear)
		t.lackWord(b.shifter.kindOf, "actuation", shifter)
		return twinOpen(&t)
	}
	if rear.s == shifter.s {
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("rear_derailleur.actuation", rear.assumed, "rear_shifter.actuation", shifter.assumed)...)
}

func radioFamily(b *bike, _ *twinFigures) twinFinding {
	rear, shifter := b.rear.actuation, b.shifter.actuation
	if rear.known && rear.s != "motor" || shifter.known && shifter.s != "motor" {
		return twinFinding{reason: rules.ReasonWhen}
	}
	if !rear.known || !shifter.known {
		var t twinTally
		t.lackWord(b.rear.kindOf, "actuation", rear)
		t.lackWord(b.shifter.kindOf, "actuation", shifter)
		return twinOpen(&t)
	}
	r, s := b.rear.radio, b.shifter.radio
	if !r.known || !s.known {
		var t twinTally
		t.lackWord(b.rear.kindOf, "radio", r)
		t.lackWord(b.shifter.kindOf, "radio", s)
		return twinOpen(&t)
	}
	if r.s == s.s {
		return twinVerdict(false, false)
	}
	return twinVerdict(true, true, marked("rear_derailleur.radio", r.assumed, "rear_shifter.radio", s.assumed,
		"rear_derailleur.actuation", rear.assumed, "rear_shifter.actuation", shifter.assumed)...)
}

// indexSteps has three terms in its fail and is left open only where none of
// them settles it.
func indexSteps(b *bike, f *twinFigures) twinFinding {
	spare, drive, cogs, can := &f.all[figSpareSteps], b.rear.actuation, b.cassette.cogs, b.rear.selectable
	motor := drive.s == "motor"
	settable := can.known && cogs.known && slices.Contains(can.xs, float64(len(cogs.xs)-1))
	settled := spare.known && (spare.x <= 0 || drive.known && !motor || settable)
	if !spare.known { // then nobody asks for the rest
		var t twinTally
		t.takes(spare)
		return twinOpen(&t)
	}
	if !settled && !(drive.known && can.known && cogs.known) {
		var t twinTally
		t.lackNums(b.cassette.kindOf, "cogs_t", cogs)
		t.lackWord(b.rear.kindOf, "actuation", drive)
		t.lackNums(b.rear.kindOf, "steps_selectable", can)
		return twinOpen(&t)
	}
	if !settled && spare.assumed {
		return twinVerdict(true, true, "figures.index_spare_steps")
	}
	if !settled {
		return twinVerdict(true, true, marked("cassette.cogs_t", cogs.assumed, "rear_derailleur.actuation", drive.assumed,
			"rear_derailleur.steps_selectable", can.assumed)...)
	}
	return fewSteps(b, spare)
}

// fewSteps is the warning: too few steps, or more spare clicks than a limit
// screw should block.
func fewSteps(b *bike, spare *twinFound) twinFinding {
	drive := b.rear.actuation
	switch {
	case spare.known && spare.x < 0, spare.known && spare.x > 2 && drive.known && drive.s != "motor":
		return twinVerdict(false, true)
	case spare.known && (spare.x <= 2 || drive.known):
		return twinVerdict(false, false)
	}
	var t twinTally
	// Whether a motor drives it matters only where there are spare steps to block.
	if !drive.known {
		t.lackWord(b.rear.kindOf, "actuation", drive)
	}
	t.takes(spare)
	return twinOpen(&t)
}

// lackNums notes a list that is not stated.
func (t *twinTally) lackNums(k kindOf, name string, v twinNums) {
	if !v.known {
		t.lack(k, name)
	}
}

func indexResidual(_ *bike, f *twinFigures) twinFinding {
	own, share := &f.all[figOwnSet], &f.all[figIndexShare]
	if own.known && own.x != 0 || share.known && share.x <= 0.125 {
		return twinVerdict(false, false)
	}
	var t twinTally
	t.takes(own)
	t.takes(share)
	switch {
	case t.open():
		return twinOpen(&t)
	case share.x > 0.2 && t.assumed:
		return twinVerdict(true, true, marked("figures.index_own_set", own.assumed, "figures.index_residual_share", share.assumed)...)
	}
	return twinVerdict(share.x > 0.2, true)
}

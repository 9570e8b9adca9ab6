package compat

import (
	"math"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// usualFloat is the side float of a guide pulley, in mm, that common practice
// reckons with where none is stated.
const usualFloat = 0.2

// textFigures explain findings; no limit is known for most of them.
func textFigures() []figure {
	return []figure{
		{
			Field:   mm("index_residual_stops_mm", "The index residual of a cable mix whose limit screws hold the pulley at both ends, so that it can stand neither outside the smallest cog nor inside the largest."),
			reads:   []input{rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches, ratio, ratios, pull, pulls},
			figures: []int{figIndexOffset},
			measure: func(m *measuring, v *fact.Value) {
				if m.figure(figIndexOffset); m.lacking() {
					return
				}
				if m.drive() == "motor" {
					m.meaningless("a motor must not push against its stops")
				}
				v.Num = m.index.StopsResidual
			},
		},
		{
			Field:   mmList("rub_margins_mm", "The room that the chain on each cog has to its neighbours, less half of the index error towards them; negative where noise is expected.", 16),
			reads:   []input{cogs},
			figures: []int{figCogPositions, figChainOuter, figCogThickness, figIndexErrors},
			measure: func(m *measuring, v *fact.Value) {
				at, outer, thick, errs, c := m.figure(figCogPositions), m.figure(figChainOuter), m.figure(figCogThickness), m.figure(figIndexErrors), m.need(&cogs)
				if m.lacking() {
					return
				}
				if len(errs.List) != len(c.List) {
					m.meaningless("there are fewer steps than cogs")
					return
				}
				gaps := m.keep(geometry.NeighbourGaps(m.free(), at.List, outer.Num, thick.Num))
				v.List = m.keep(geometry.RubMargins(m.free(), gaps, errs.List, c.List))
			},
		},
		{
			Field:   mm("index_free_play_mm", "How far a step may miss before the chain is pressed on the next cog: neighbour gap + half the chain's side play on its cog + the float of the guide pulley (0.2 assumed)."),
			reads:   []input{guideFloat},
			figures: []int{figNeighbourGap, figChainInner, figCogThickness},
			measure: func(m *measuring, v *fact.Value) {
				gap, inner, thick := m.figure(figNeighbourGap), m.figure(figChainInner), m.figure(figCogThickness)
				if m.lacking() {
					return
				}
				float := usualFloat
				if f := m.peek(&guideFloat); f != nil {
					float = f.Num
				} else {
					m.suppose()
				}
				v.Num = geometry.FreePlay(gap.Num, inner.Num, thick.Num, float)
			},
		},
	}
}

// roomFigures are more of the kind, about the room that chain, cage and ring have.
func roomFigures() []figure {
	return []figure{
		{
			Field:   fraction("cage_range_used_pitches", "pitches", "What the cage takes up between the smallest pair at rest and the largest pair at the longest: slack less margin, growth of the suspension included."),
			figures: []int{figSmallSmallSlack, figChainMargin},
			measure: func(m *measuring, v *fact.Value) {
				if slack, margin := m.figure(figSmallSmallSlack), m.figure(figChainMargin); !m.lacking() {
					v.Num = slack.Num - margin.Num
				}
			},
		},
		{
			Field:   mm("chain_tyre_gap_mm", "The room between the chain on the largest pair and the tyre where it is widest."),
			reads:   []input{beadSeat, tyreWidth, cogs, chainstay},
			figures: []int{figRingLines, figCogLines, figChainOuter},
			measure: (*measuring).tyreGap,
		},
		{
			Field: mm("spoke_gap_mm", "The room between the largest cog and the spokes: hub's room at that radius + spacers behind the cassette - overhang."),
			reads: []input{hubSpokes, overhang, benchSpacer, cassetteSpacer},
			measure: func(m *measuring, v *fact.Value) {
				if room, over := m.need(&hubSpokes), m.need(&overhang); !m.lacking() {
					v.Num = room.Num + m.spacer() - over.Num
				}
			},
		},
		{
			Field:   mm("b_gap_sag_shift_mm", "How much wider the B-gap is with the rider's weight than at rest, for a cage whose guide pulley stands off its pivot: 2 cos(a) x growth at sag x guide offset / cage length, a the chain's slope on the largest pair; from memory."),
			reads:   []input{hubKind, growthAtSag, guideOffset, cageLength, crankRings, ownRings, cogs, chainstay},
			measure: shifting((*measuring).sagShift),
		},
		{
			Field:   fraction("ring_reach_t", "t", "The teeth of a round ring that reaches as far as the largest one: count x (1 + ovality / 200)."),
			reads:   []input{crankRings, ownRings, crankOval, ownOval},
			measure: (*measuring).ringReach,
		},
	}
}

func (m *measuring) tyreGap(v *fact.Value) {
	rings, lines, outer := m.figure(figRingLines), m.figure(figCogLines), m.figure(figChainOuter)
	seat, tyre, c, stay := m.need(&beadSeat), m.need(&tyreWidth), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return
	}
	line := geometry.Line{Ring: rings.List[0], Cog: lines.List[len(lines.List)-1], Chainstay: stay.Num}
	v.Num = line.TyreGap(geometry.Wheel{BeadSeat: seat.Num, TyreWidth: tyre.Num}, c.List[len(c.List)-1], outer.Num)
}

func (m *measuring) sagShift(v *fact.Value) {
	sag, offset, cage := m.need(&growthAtSag), m.need(&guideOffset), m.need(&cageLength)
	r, c, stay := m.rings(), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return
	}
	slope := math.Asin(geometry.RadialStep(r.List[0], c.List[len(c.List)-1]) / stay.Num)
	v.Num = 2 * math.Cos(slope) * sag.Num * offset.Num / cage.Num
}

func (m *measuring) ringReach(v *fact.Value) {
	r := m.rings()
	oval := m.peek(&crankOval)
	if m.there(&ownOval) {
		oval = m.peek(&ownOval)
	}
	if m.lacking() {
		return
	}
	v.Num = r.List[0]
	if oval != nil {
		v.Num *= 1 + oval.Num/200
	}
}

package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figCogThickness = &figure{
	Field:   mm("cog_thickness_mm", "The thickness of a cog, as stated, else the usual one for the number of cogs."),
	reads:   []input{cogThickness},
	kinds:   []wanted{theCassette},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { v.Num = m.need(&cogThickness).Num },
}

var figCogCount = &figure{
	Field:   whole("cog_count", "", "The number of cogs."),
	reads:   []input{cogs, cogCountStated},
	kinds:   []wanted{theCassette},
	measure: func(m *measuring, v *fact.Value) { v.Num = float64(m.needCogCount()) },
}

var figCogPositions = &figure{
	Field: mmList("cog_positions_mm", "The middle of each cog from the smallest, which is 0: measured, from the pitches, the "+
		"pitch, or (stack height - thickness) / (cogs - 1).", 16),
	reads:   []input{benchCogs, cogs, cogCountStated, pitches, pitch, stackHeight},
	figures: []*figure{figCogThickness},
	maybe:   []*figure{figCogThickness},
	kinds:   []wanted{{&cogs, &benchCogs}},
	chain:   true,
	measure: (*measuring).cogPositions,
}

var figCassetteStack = &figure{
	Field:   mm("cassette_stack_mm", "Outer face of the smallest cog to outer face of the largest: the last position and one thickness."),
	figures: []*figure{figCogPositions, figCogThickness},
	measure: func(m *measuring, v *fact.Value) {
		at, thick := m.figure(figCogPositions), m.figure(figCogThickness)
		if !m.lacking() {
			v.Num = geometry.StackHeight(at.List, thick.Num)
		}
	},
}

var figChainOuter = &figure{
	Field:   mm("chain_outer_mm", "The chain's width over its pins, as stated, else the usual one for its speeds."),
	reads:   []input{chainOuter, chainSpeeds},
	rises:   []input{chainOuter},
	kinds:   []wanted{theChain},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.chainWidth(v, &chainOuter) },
}

var figChainInner = &figure{
	Field: mm("chain_inner_mm", "The chain's width between its inner plates, as stated, else the usual one of the name it is sold "+
		"by or of its speeds."),
	reads:   []input{chainInner, chainSpeeds},
	rises:   []input{chainInner},
	kinds:   []wanted{theChain},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.chainWidth(v, &chainInner) },
}

var figNeighbourGap = &figure{
	Field: mm("neighbour_gap_mm", "The least room between the chain on a cog and the next larger cog: pitch - chain width / 2 - "+
		"cog thickness / 2."),
	reads:   []input{cogs, cogCountStated},
	figures: []*figure{figCogPositions, figChainOuter, figCogThickness},
	rises:   []input{pitch}, falls: []input{chainOuter, cogThickness},
	measure: (*measuring).neighbourGap,
}

var figNeighbourGaps = &figure{
	Field: mmList("neighbour_gaps_mm", "The room between the chain on each cog but the last and the next larger cog, from the "+
		"smallest: pitch - chain width / 2 - cog thickness / 2.", 16),
	reads:   []input{cogs, cogCountStated},
	figures: []*figure{figCogPositions, figChainOuter, figCogThickness},
	measure: func(m *measuring, v *fact.Value) {
		if m.cogCount() == 1 {
			m.meaningless(noNeighbour)
			return
		}
		at, outer, thick := m.figure(figCogPositions), m.figure(figChainOuter), m.figure(figCogThickness)
		if !m.lacking() {
			v.List = m.keep(geometry.NeighbourGaps(m.free(), at.List, outer.Num, thick.Num))
		}
	},
}

var figCogSpacing = &figure{
	Field: mmList("cog_spacing_mm", "The distance of each cog to the nearer of its neighbours, from the smallest: what an error "+
		"left there is a share of.", 16),
	reads:   []input{cogs, cogCountStated},
	figures: []*figure{figCogPositions},
	measure: func(m *measuring, v *fact.Value) {
		if m.cogCount() == 1 {
			m.meaningless(noNeighbour)
			return
		}
		if at := m.figure(figCogPositions); !m.lacking() {
			v.List = m.keep(geometry.PitchesBeside(m.free(), at.List))
		}
	},
}

var figGapWorst = &figure{
	Field: mm("neighbour_gap_worst_mm", "The least room between the chain and the next larger cog by the unkind ends: what is not stated is taken as wide, thick and close as parts for that number of cogs are sold. "+
		"Where this is enough, nothing need be measured."),
	reads: []input{chainOuter, chainSpeeds, cogThickness, cogs, cogCountStated, benchCogs, pitches, pitch, stackHeight},
	kinds: []wanted{theCassette, theChain}, chain: true,
	measure: (*measuring).gapWorst,
}

var figCogPlay = &figure{
	Field:   mm("cog_play_mm", "The side play of the chain on a cog: chain inner width - cog thickness."),
	figures: []*figure{figChainInner, figCogThickness},
	rises:   []input{chainInner}, falls: []input{cogThickness}, still: []input{chainOuter},
	measure: func(m *measuring, v *fact.Value) {
		inner, thick := m.known(figChainInner), m.known(figCogThickness)
		if inner != nil && thick == nil && inner.Num >= goesOnAll {
			m.needless(wideChain)
			return
		}
		if inner, thick := m.figure(figChainInner), m.figure(figCogThickness); !m.lacking() {
			v.Num = inner.Num - thick.Num
		}
	},
}

// wideChain is for what nobody need measure.
const wideChain = "a chain for 1/8 inch goes on every cog and ring"

// cogCount counts the cogs; 0 where nobody has.
func (m *measuring) cogCount() int {
	if c := m.peek(&cogs); c != nil {
		return len(c.List)
	}
	if n := m.peek(&cogCountStated); n != nil {
		return int(n.Num)
	}
	return 0
}

// needCogCount is the same where the figure cannot do without it.
func (m *measuring) needCogCount() int {
	n := m.cogCount()
	if n == 0 {
		m.lack(&cogs)
	}
	return n
}

func (m *measuring) speeds() int {
	if s := m.peek(&chainSpeeds); s != nil {
		return int(s.Num)
	}
	return 0
}

func (m *measuring) cogPositions(v *fact.Value) {
	if at := m.peek(&benchCogs); at != nil {
		v.List = m.keep(append(m.free(), at.List...))
		return
	}
	n := m.needCogCount()
	if m.lacking() {
		return
	}
	switch ps, p, stack := m.peek(&pitches), m.peek(&pitch), m.peek(&stackHeight); {
	case n == 1:
		v.List = m.keep(append(m.free(), 0))
	case ps != nil:
		v.List = m.keep(geometry.Positions(m.free(), ps.List))
	case p != nil:
		v.List = m.keep(geometry.EvenPositions(m.free(), n, p.Num))
	case stack != nil:
		thick := m.figure(figCogThickness)
		if !m.lacking() {
			v.List = m.keep(geometry.EvenPositions(m.free(), n, geometry.PitchFromStack(stack.Num, thick.Num, n)))
		}
	default:
		m.lack(&pitch)
	}
}

func (m *measuring) neighbourGap(v *fact.Value) {
	if m.cogCount() == 1 {
		m.meaningless(noNeighbour)
		return
	}
	at, outer, thick := m.figure(figCogPositions), m.figure(figChainOuter), m.figure(figCogThickness)
	if m.lacking() {
		return
	}
	v.Num = geometry.NeighbourGap(at.List, outer.Num, thick.Num)
}

const noNeighbour = "a single cog has no neighbour"

// gapWorst takes the least distance of the cogs that the facts leave open, and the
// most of everything else.
func (m *measuring) gapWorst(v *fact.Value) {
	if m.cogCount() == 1 {
		m.meaningless(noNeighbour)
		return
	}
	var outer fact.Value
	m.chainWidth(&outer, &chainOuter)
	thick := most(m.need(&cogThickness))
	if apart := m.worstPitch(thick); !m.lacking() {
		v.Num = geometry.Gap(apart, most(m.peek(&chainOuter)), thick)
	}
}

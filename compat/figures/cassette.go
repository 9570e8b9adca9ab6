package figures

import (
	"math"
	"slices"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figCogThickness = &figure{
	Field:   mm("cog_thickness_mm", "The thickness of a cog, as stated, else the usual one for the number of cogs (assumed)."),
	reads:   []input{cogThickness, cogs},
	kinds:   []wanted{theCassette},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.usual(v, &cogThickness, m.cogCount(), usualThickness) },
}

var figCogPositions = &figure{
	Field: mmList("cog_positions_mm", "The middle of each cog from the smallest, which is 0: measured, from the pitches, the "+
		"pitch, or (stack height - thickness) / (cogs - 1).", 16),
	reads:   []input{benchCogs, cogs, pitches, pitch, stackHeight},
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
	Field:   mm("chain_outer_mm", "The chain's width over its pins, as stated, else the usual one for its speeds (assumed)."),
	reads:   []input{chainOuter, chainSpeeds, chainClass},
	kinds:   []wanted{theChain},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.chainWidth(v, &chainOuter, false) },
}

var figChainInner = &figure{
	Field: mm("chain_inner_mm", "The chain's width between its inner plates, as stated, else the usual one of the name it is sold "+
		"by or of its speeds (assumed)."),
	reads:   []input{chainInner, chainSpeeds, chainClass},
	kinds:   []wanted{theChain},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.chainWidth(v, &chainInner, true) },
}

var figNeighbourGap = &figure{
	Field: mm("neighbour_gap_mm", "The least room between the chain on a cog and the next larger cog: pitch - chain width / 2 - "+
		"cog thickness / 2."),
	reads:   []input{cogs},
	figures: []*figure{figCogPositions, figChainOuter, figCogThickness},
	measure: (*measuring).neighbourGap,
}

var figGapKind = &figure{
	Field: mm("neighbour_gap_kind_mm", "The same by the kind ends of all that is published: what is not stated is taken as narrow, "+
		"thin and wide-spaced as parts for that number of cogs are sold. "+
		"Where this fails, no part of the class makes it good."),
	reads: []input{chainOuter, chainSpeeds, chainClass, cogThickness, cogs, benchCogs, pitches, pitch, stackHeight},
	kinds: []wanted{theCassette, theChain}, chain: true,
	measure: (*measuring).gapKind,
}

var figGapWorst = &figure{
	Field: mm("neighbour_gap_worst_mm", "The same by the unkind ends: what is not stated is taken as wide, thick and close as parts for that number of cogs are sold. "+
		"Where this is enough, nothing need be measured."),
	reads: []input{chainOuter, chainSpeeds, chainClass, cogThickness, cogs, benchCogs, pitches, pitch, stackHeight},
	kinds: []wanted{theCassette, theChain}, chain: true,
	measure: (*measuring).gapWorst,
}

var figCogPlay = &figure{
	Field:   mm("cog_play_mm", "The side play of the chain on a cog: chain inner width - cog thickness."),
	figures: []*figure{figChainInner, figCogThickness},
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

var figCogPlayKind = &figure{
	Field: mm("cog_play_kind_mm", "The same by the kind ends of all that is published for chains and cogs of that number."),
	reads: []input{chainInner, chainSpeeds, chainClass, cogThickness, cogs},
	kinds: []wanted{theCassette, theChain}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		inner, known := m.kindInner()
		if !known {
			m.lack(&chainInner)
		}
		thick, known := m.kindThickness()
		if !known && inner >= goesOnAll {
			m.needless(wideChain)
		}
		if !known {
			m.lack(&cogThickness)
		}
		v.Num = inner - thick
	},
}

// wideChain is for what nobody need measure.
const wideChain = "a chain for 1/8 inch goes on every cog and ring"

func (m *measuring) cogCount() int {
	if c := m.peek(&cogs); c != nil {
		return len(c.List)
	}
	return 0
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
	n := len(m.need(&cogs).List)
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

// gapKind takes the least stated distance of the cogs, or the widest of the
// published ones, and the least of everything else.
func (m *measuring) gapKind(v *fact.Value) {
	if m.cogCount() == 1 {
		m.meaningless(noNeighbour)
		return
	}
	thick, known := m.kindThickness()
	if !known {
		m.lack(&cogThickness)
	}
	outer, known := m.kindOuter()
	if !known {
		m.lack(&chainOuter)
	}
	apart := m.statedPitch(thick, spread.kindEnd)
	if m.lacking() {
		return
	}
	v.Num = geometry.Gap(apart, outer, thick)
}

// gapWorst takes the least stated distance of the cogs, or the least of the
// published ones, and the most of everything else.
func (m *measuring) gapWorst(v *fact.Value) {
	if m.cogCount() == 1 {
		m.meaningless(noNeighbour)
		return
	}
	thick, known := m.worstThickness()
	if !known {
		m.lack(&cogThickness)
	}
	outer, known := m.worstOuter()
	if !known {
		m.lack(&chainOuter)
	}
	apart := m.statedPitch(thick, spread.worstEnd)
	if m.lacking() {
		return
	}
	v.Num = geometry.Gap(apart, outer, thick)
}

// statedPitch is the least distance of neighbouring cogs as far as it is stated, else
// one end of those published for so many.
func (m *measuring) statedPitch(thick float64, end func(spread) float64) float64 {
	n := m.cogCount()
	switch at, ps, p, stack := m.peek(&benchCogs), m.peek(&pitches), m.peek(&pitch), m.peek(&stackHeight); {
	case at != nil:
		return leastApart(at.List)
	case ps != nil:
		return slices.Min(ps.List)
	case p != nil:
		return p.Num
	case stack != nil:
		return geometry.PitchFromStack(stack.Num, thick, n)
	}
	band, ok := pitchBands[n]
	if !ok {
		m.lack(&pitch)
	}
	return end(band)
}

// leastApart is the least distance of neighbours in a rising list.
func leastApart(at []float64) float64 {
	least := math.Inf(1)
	for i := 1; i < len(at); i++ {
		least = min(least, at[i]-at[i-1])
	}
	return least
}

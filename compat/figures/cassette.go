package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// The usual widths by number of cogs, in mm. They stand in where nobody measured:
// a rule that hangs on one can warn, never fail. Chain widths are those of a
// published width table of 2023 or later and trade pages that agree with it; cog
// thicknesses those of a trade page on chains. The usual width is taken, not the
// widest, which would make matched sets rub.
var (
	usualOuter     = map[int]float64{8: 7.1, 9: 6.6, 10: 5.9, 11: 5.6, 12: 5.25, 13: 4.9}
	usualInner     = map[int]float64{5: 2.38, 6: 2.38, 7: 2.38, 8: 2.38, 9: 2.18, 10: 2.18, 11: 2.18, 12: 2.18}
	usualThickness = map[int]float64{7: 1.85, 8: 1.8, 9: 1.78, 10: 1.6, 11: 1.6, 12: 1.6}
)

var figCogThickness = &figure{
	Field:   mm("cog_thickness_mm", "The thickness of a cog, as stated, else the usual one for the number of cogs (assumed)."),
	reads:   []input{cogThickness, cogs},
	measure: func(m *measuring, v *fact.Value) { m.usual(v, &cogThickness, m.cogCount(), usualThickness) },
}

var figCogPositions = &figure{
	Field:   mmList("cog_positions_mm", "The middle of each cog from the smallest, which is 0: measured, from the pitches, the pitch, or (stack height - thickness) / (cogs - 1).", 16),
	reads:   []input{benchCogs, cogs, pitches, pitch, stackHeight},
	figures: []*figure{figCogThickness},
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
	reads:   []input{chainOuter, chainSpeeds},
	measure: func(m *measuring, v *fact.Value) { m.usual(v, &chainOuter, m.speeds(), usualOuter) },
}

var figChainInner = &figure{
	Field:   mm("chain_inner_mm", "The chain's width between its inner plates, as stated, else the usual one for its speeds (assumed)."),
	reads:   []input{chainInner, chainSpeeds},
	measure: func(m *measuring, v *fact.Value) { m.usual(v, &chainInner, m.speeds(), usualInner) },
}

var figNeighbourGap = &figure{
	Field:   mm("neighbour_gap_mm", "The least room between the chain on a cog and the next larger cog: pitch - chain width / 2 - cog thickness / 2."),
	reads:   []input{cogs},
	figures: []*figure{figCogPositions, figChainOuter, figCogThickness},
	measure: (*measuring).neighbourGap,
}

// usual takes a stated width, or the usual one of a table, which counts as
// assumed.
func (m *measuring) usual(v *fact.Value, stated *input, speeds int, table map[int]float64) {
	if s := m.peek(stated); s != nil {
		v.Num = s.Num
		return
	}
	x, ok := table[speeds]
	if !ok {
		m.lack(stated)
		return
	}
	v.Num = x
	m.suppose()
}

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
		m.meaningless("a single cog has no neighbour")
		return
	}
	at, outer, thick := m.figure(figCogPositions), m.figure(figChainOuter), m.figure(figCogThickness)
	if m.lacking() {
		return
	}
	v.Num = geometry.NeighbourGap(at.List, outer.Num, thick.Num)
}

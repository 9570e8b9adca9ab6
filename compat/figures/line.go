package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figRingLines = &figure{
	Field:   mmList("ring_lines_mm", "The distance of each ring from the frame's middle plane, largest ring first: chainline + ring offset.", 4),
	reads:   []input{benchLine, chainline, ringOffsets, crankRings, ownRings},
	measure: (*measuring).ringLines,
}

var figCogLines = &figure{
	Field:   mmList("cog_lines_mm", "The distance of each cog from the frame's middle plane, smallest cog first: over-locknut / 2 - inset - position.", 16),
	reads:   []input{hubWidth, benchInset, hubInset, hubShoulder, mountHeight, benchSpacer, cassetteSpacer},
	figures: []*figure{figCogPositions, figCogThickness},
	measure: (*measuring).cogLines,
}

var figChainAngles = &figure{
	Field:   fact.Field{Name: "chain_angles_deg", Type: fact.Fractions, Unit: "deg", Min: -90, Max: 90, Cap: 64, Doc: "The chain's angle on each ring with each cog, largest ring first: atan((ring line - cog line) / chainstay), positive where the ring stands further out."},
	reads:   []input{chainstay},
	figures: []*figure{figRingLines, figCogLines},
	measure: func(m *measuring, v *fact.Value) {
		if r, c, stay := m.figure(figRingLines), m.figure(figCogLines), m.need(&chainstay); !m.lacking() {
			v.List = m.keep(geometry.ChainAngles(m.free(), r.List, c.List, stay.Num))
		}
	},
}

var figAngleLargest = &figure{
	Field:   fraction("chain_angle_largest_deg", "deg", "The angle on the largest ring and the largest cog."),
	figures: []*figure{figCogLines, figChainAngles},
	measure: func(m *measuring, v *fact.Value) {
		if a, c := m.figure(figChainAngles), m.figure(figCogLines); !m.lacking() {
			v.Num = a.List[len(c.List)-1]
		}
	},
}

var figAngleSmallest = &figure{
	Field:   fraction("chain_angle_smallest_deg", "deg", "The angle on the smallest ring and the smallest cog."),
	figures: []*figure{figCogLines, figChainAngles},
	measure: func(m *measuring, v *fact.Value) {
		if a, c := m.figure(figChainAngles), m.figure(figCogLines); !m.lacking() {
			v.Num = a.List[len(a.List)-len(c.List)]
		}
	},
}

var figBackpedal = &figure{
	Field:   mm("backpedal_entry_mm", "How far outboard of the largest cog the chain comes down on it one half-inch link before the tooth: 12.7 tan(angle on the largest pair)."),
	reads:   []input{chainstay},
	figures: []*figure{figRingLines, figCogLines},
	measure: func(m *measuring, v *fact.Value) {
		if r, c, stay := m.figure(figRingLines), m.figure(figCogLines), m.need(&chainstay); !m.lacking() {
			v.Num = geometry.Line{Ring: r.List[0], Cog: c.List[len(c.List)-1], Chainstay: stay.Num}.BackpedalEntry()
		}
	},
}

func (m *measuring) ringLines(v *fact.Value) {
	line := m.peek(&benchLine)
	if line == nil {
		line = m.need(&chainline)
	}
	r := m.rings()
	if m.lacking() {
		return
	}
	off := m.peek(&ringOffsets)
	switch {
	case off != nil && len(off.List) == len(r.List):
		v.List = m.keep(geometry.RingLines(m.free(), line.Num, off.List))
	case len(r.List) == 1: // the chainline is that of the one ring
		v.List = m.keep(append(m.free(), line.Num))
	case off != nil:
		m.meaningless(otherRings)
	default:
		m.lack(&ringOffsets)
	}
}

// cogLines needs the inset of the smallest cog: measured, from the shoulder of
// the freehub that another cassette moves it along, or as the hub states it.
func (m *measuring) cogLines(v *fact.Value) {
	width, at := m.need(&hubWidth), m.figure(figCogPositions)
	if m.lacking() {
		return
	}
	inset := m.inset()
	if !m.lacking() {
		v.List = m.keep(geometry.CogLines(m.free(), width.Num, inset, at.List))
	}
}

func (m *measuring) inset() float64 {
	if in := m.peek(&benchInset); in != nil {
		return in.Num
	}
	shoulder, mount := m.peek(&hubShoulder), m.peek(&mountHeight)
	if thick := m.known(figCogThickness); shoulder != nil && mount != nil && thick != nil {
		return geometry.CogInset(shoulder.Num, m.spacer(), mount.Num, thick.Num)
	}
	return m.need(&hubInset).Num
}

var figTyreGap = &figure{
	Field:   mm("chain_tyre_gap_mm", "The room between the chain on the largest pair and the tyre where it is widest."),
	reads:   []input{beadSeat, tyreWidth, cogs, chainstay},
	figures: []*figure{figRingLines, figCogLines, figChainOuter},
	measure: (*measuring).tyreGap,
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

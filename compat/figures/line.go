package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figRingLines = &figure{
	Field: mmList("ring_lines_mm", "The distance of each ring from the frame's middle plane, largest ring first: chainline + ring "+
		"offset, and half of what the bearing's spindle is longer than the one that the cranks are made for.", 4),
	reads:   []input{benchLine, chainline, ringOffsets, crankRings, ownRings, bearingLength, crankSpindle},
	kinds:   []wanted{theRings, {&chainline, &benchLine}},
	chain:   true,
	measure: (*measuring).ringLines,
}

var figCogLines = &figure{
	Field: mmList("cog_lines_mm", "The distance of each cog from the frame's middle plane, smallest cog first: over-locknut / 2 - "+
		"inset - position.", 16),
	reads:   []input{hubWidth, benchInset, hubInset, hubShoulder, mountHeight, bodyLength, benchSpacer, cassetteSpacer},
	figures: []*figure{figCogPositions, figCogThickness},
	maybe:   []*figure{figCogThickness},
	kinds:   []wanted{theHub},
	measure: (*measuring).cogLines,
}

var figChainAngles = &figure{
	Field:   fact.Field{Name: "chain_angles_deg", Type: fact.Fractions, Unit: "deg", Min: -90, Max: 90, Cap: 64, Doc: "The chain's angle on each ring with each cog, largest ring first: atan((ring line - cog line) / chainstay), positive where the ring stands further out."},
	reads:   []input{chainstay, idler},
	figures: []*figure{figRingLines, figCogLines},
	kinds:   []wanted{theFrame},
	measure: func(m *measuring, v *fact.Value) {
		if m.overIdler() {
			return
		}
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
	Field: mm("backpedal_entry_mm", "How far outboard of the largest cog the chain comes down on it one half-inch link before the "+
		"tooth: 12.7 tan(angle on the largest pair)."),
	reads:   []input{chainstay, idler},
	figures: []*figure{figRingLines, figCogLines},
	kinds:   []wanted{theFrame},
	measure: func(m *measuring, v *fact.Value) {
		if m.overIdler() {
			return
		}
		if r, c, stay := m.figure(figRingLines), m.figure(figCogLines), m.need(&chainstay); !m.lacking() {
			v.Num = geometry.Line{Ring: r.List[0], Cog: c.List[len(c.List)-1], Chainstay: stay.Num}.BackpedalEntry()
		}
	},
}

// overIdler says that lines and angles between ring and cog mean nothing where the
// chain goes over an idler.
func (m *measuring) overIdler() bool {
	if m.peek(&idler) == nil {
		return false
	}
	m.needless(hasIdler)
	return true
}

// lineOfRings is the chainline: measured, else stated and moved by half of what the
// spindle in the bearing is longer.
func (m *measuring) lineOfRings() float64 {
	if line := m.peek(&benchLine); line != nil {
		return line.Num
	}
	line := m.need(&chainline).Num
	if has, madeFor := m.peek(&bearingLength), m.peek(&crankSpindle); has != nil && madeFor != nil {
		line += (has.Num - madeFor.Num) / 2
	}
	return line
}

func (m *measuring) ringLines(v *fact.Value) {
	line, r := m.lineOfRings(), m.rings()
	if m.lacking() {
		return
	}
	off := m.peek(&ringOffsets)
	switch {
	case off != nil && len(off.List) == len(r.List):
		v.List = m.keep(geometry.RingLines(m.free(), line, off.List))
	case len(r.List) == 1: // the chainline is that of the one ring
		v.List = m.keep(append(m.free(), line))
		m.suppose(takesRingOnLine)
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
	reads:   []input{beadSeat, tyreWidth, cogs, chainstay, idler},
	figures: []*figure{figRingLines, figCogLines, figChainOuter},
	kinds:   []wanted{theWheel, theCassette, theFrame},
	measure: (*measuring).tyreGap,
}

func (m *measuring) tyreGap(v *fact.Value) {
	if m.overIdler() {
		return
	}
	rings, lines, outer := m.figure(figRingLines), m.figure(figCogLines), m.figure(figChainOuter)
	seat, tyre, c, stay := m.need(&beadSeat), m.need(&tyreWidth), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return
	}
	line := geometry.Line{Ring: rings.List[0], Cog: lines.List[len(lines.List)-1], Chainstay: stay.Num}
	v.Num = line.TyreGap(geometry.Wheel{BeadSeat: seat.Num, TyreWidth: tyre.Num}, c.List[len(c.List)-1], outer.Num)
}

package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figRingThickness = &figure{
	Field: mm("ring_thickness_mm", "The thickness of the teeth of the ring in use, of the chainring where one is in the mix, else "+
		"of the crankset's own: as stated, else the usual one for the chains that the crankset is made for (assumed), of which "+
		"nothing is known for 13 cogs and under the narrowest chain."),
	reads:   []input{crankTeeth, ownTeeth, crankSpeeds},
	figures: []*figure{figChainInner},
	maybe:   []*figure{figChainInner},
	kinds:   []wanted{theRings},
	chain:   true,
	measure: (*measuring).ringThickness,
}

var figRingNarrowWide = &figure{
	Field:   fact.Field{Name: "ring_narrow_wide", Type: fact.Flag, Doc: "Whether the ring in use has narrow and wide teeth in turn."},
	reads:   []input{crankNarrow, ownNarrow},
	kinds:   []wanted{theRings},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankNarrow, &ownNarrow).Num },
}

var figRingExtended = &figure{
	Field: fact.Field{Name: "ring_extended_plates", Type: fact.Flag, Doc: "Whether the ring in use is shaped for a chain with " +
		"extended inner plates."},
	reads:   []input{crankExtended, ownExtended},
	kinds:   []wanted{theRings},
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankExtended, &ownExtended).Num },
}

var figRingWide = &figure{
	Field:   mm("ring_wide_tooth_mm", "The thickness of the wide teeth of the ring in use."),
	reads:   []input{crankWide, ownWide},
	kinds:   []wanted{theRings},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankWide, &ownWide).Num },
}

var figBoltRoom = &figure{
	Field: mm("bolt_room_mm", "What lies between the roots of a ring's teeth and the circle of its bolts, over the diameter: "+
		"pitch diameter - roller - bolt circle, of the smallest ring on that circle: the inner of two, the middle of three, and the "+
		"outer where the inner has a circle of its own."),
	reads:   []input{crankRings, ownRings, crankBolts, ownBolts, crankInner, ownInner},
	kinds:   []wanted{theRings},
	chain:   true,
	measure: (*measuring).boltRoom,
}

var figOneCog = &figure{
	Field: fact.Field{Name: "one_cog", Type: fact.Flag, Doc: "Whether the cassette in the mix has a single cog, on which and on whose ring a wide chain may run loosely."},
	reads: []input{cogs},
	measure: func(m *measuring, v *fact.Value) {
		if c := m.peek(&cogs); c != nil && len(c.List) == 1 {
			v.Num = 1
		}
	},
}

var figGuided = &figure{
	Field: fact.Field{Name: "chain_guided", Type: fact.Flag, Doc: "Whether a chain guide is in the mix."},
	reads: []input{guideLargest},
	measure: func(m *measuring, v *fact.Value) {
		if m.peek(&guideLargest); m.there(&guideLargest) {
			v.Num = 1
		}
	},
}

// boltRoom takes the bolts of the ring in use; one that does not say goes on the
// crankset's own.
func (m *measuring) boltRoom(v *fact.Value) {
	circle := m.peek(&ownBolts)
	if circle == nil {
		circle = m.need(&crankBolts)
	}
	inner := m.peek(&crankInner)
	if m.there(&ownInner) {
		inner = m.peek(&ownInner)
	}
	r := m.rings()
	if m.lacking() {
		return
	}
	on := r.List[:min(len(r.List), 2)] // the third of three stands on its own circle
	if inner != nil && len(r.List) == 2 {
		on = on[:1]
	}
	v.Num = geometry.BoltRoom(on[len(on)-1], circle.Num)
}

func (m *measuring) ringThickness(v *fact.Value) {
	if s := m.knownRing(); s != nil {
		v.Num = s.Num
		return
	}
	if m.there(&ownTeeth) {
		m.lack(&ownTeeth)
		return
	}
	m.lack(&crankTeeth)
}

var figRingPlay = &figure{
	Field:   mm("ring_play_mm", "The side play of the chain on the ring in use: chain inner width - tooth thickness."),
	figures: []*figure{figChainInner, figRingThickness},
	rises:   []input{chainInner}, falls: []input{crankTeeth, ownTeeth},
	measure: func(m *measuring, v *fact.Value) {
		inner, tooth := m.known(figChainInner), m.known(figRingThickness)
		if inner != nil && tooth == nil && inner.Num >= goesOnAll {
			m.needless(wideChain)
			return
		}
		if inner, tooth := m.figure(figChainInner), m.figure(figRingThickness); !m.lacking() {
			v.Num = inner.Num - tooth.Num
		}
	},
}

// inPlace reads a fact of the part that takes another's place, where it is in the
// mix, else of that other part.
func (m *measuring) inPlace(usual, instead *input) *fact.Value {
	if m.there(instead) {
		return m.need(instead)
	}
	return m.need(usual)
}

// rings gives the rings of the crankset, or those fitted in their place.
func (m *measuring) rings() *fact.Value {
	if r := m.peek(&ownRings); r != nil {
		return r
	}
	return m.need(&crankRings)
}

var figRingReach = &figure{
	Field: fraction("ring_reach_t", "t", "The teeth of a round ring that reaches as far as the largest one: count x (1 + ovality "+
		"/ 200)."),
	reads:   []input{crankRings, ownRings, crankOval, ownOval},
	kinds:   []wanted{theRings},
	chain:   true,
	measure: (*measuring).ringReach,
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
	if oval == nil {
		m.suppose(takesRoundRing)
		return
	}
	v.Num *= 1 + oval.Num/200
}

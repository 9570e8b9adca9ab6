package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figRingThickness = &figure{
	Field:   mm("ring_thickness_mm", "The thickness of the teeth of the ring in use: of the chainring where one is in the mix, else of the crankset's own."),
	reads:   []input{crankTeeth, ownTeeth},
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankTeeth, &ownTeeth).Num },
}

var figRingNarrowWide = &figure{
	Field:   fact.Field{Name: "ring_narrow_wide", Type: fact.Flag, Doc: "Whether the ring in use has narrow and wide teeth in turn."},
	reads:   []input{crankNarrow, ownNarrow},
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankNarrow, &ownNarrow).Num },
}

var figRingExtended = &figure{
	Field:   fact.Field{Name: "ring_extended_plates", Type: fact.Flag, Doc: "Whether the ring in use is shaped for a chain with extended inner plates."},
	reads:   []input{crankExtended, ownExtended},
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankExtended, &ownExtended).Num },
}

var figRingWide = &figure{
	Field:   mm("ring_wide_tooth_mm", "The thickness of the wide teeth of the ring in use."),
	reads:   []input{crankWide, ownWide},
	measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankWide, &ownWide).Num },
}

var figRingRollers = &figure{
	Field:   fact.Field{Name: "ring_roller_class", Type: fact.Choice, Choices: []string{"standard", "large"}, Doc: "The rollers that the teeth of the ring in use are cut for."},
	reads:   []input{crankRollers, ownRollers},
	measure: func(m *measuring, v *fact.Value) { v.Text = m.inPlace(&crankRollers, &ownRollers).Text },
}

var figBoltRoom = &figure{
	Field:   mm("bolt_room_mm", "What lies between the roots of the largest ring's teeth and the circle of its bolts, over the diameter: pitch diameter - roller - bolt circle."),
	reads:   []input{crankRings, ownRings, crankBolts, ownBolts},
	measure: (*measuring).boltRoom,
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
	if r := m.rings(); !m.lacking() {
		v.Num = geometry.PitchDiameter(geometry.Pitch, r.List[0]) - geometry.Roller - circle.Num
	}
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
	Field:   fraction("ring_reach_t", "t", "The teeth of a round ring that reaches as far as the largest one: count x (1 + ovality / 200)."),
	reads:   []input{crankRings, ownRings, crankOval, ownOval},
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
	if oval != nil {
		v.Num *= 1 + oval.Num/200
	}
}

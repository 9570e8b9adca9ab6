package compat

import (
	"math"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// ringFigures say what the chain finds in use: a ring bought by itself takes the
// place of the crankset's own, and a link that of the frame's hanger.
func ringFigures() []figure {
	return []figure{
		{
			Field:   mm("ring_thickness_mm", "The thickness of the teeth of the ring in use: of the chainring where one is in the mix, else of the crankset's own."),
			reads:   []input{crankTeeth, ownTeeth},
			measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankTeeth, &ownTeeth).Num },
		},
		{
			Field:   fact.Field{Name: "ring_narrow_wide", Type: fact.Flag, Doc: "Whether the ring in use has narrow and wide teeth in turn."},
			reads:   []input{crankNarrow, ownNarrow},
			measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankNarrow, &ownNarrow).Num },
		},
		{
			Field:   fact.Field{Name: "ring_extended_plates", Type: fact.Flag, Doc: "Whether the ring in use is shaped for a chain with extended inner plates."},
			reads:   []input{crankExtended, ownExtended},
			measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankExtended, &ownExtended).Num },
		},
		{
			Field:   mm("ring_wide_tooth_mm", "The thickness of the wide teeth of the ring in use."),
			reads:   []input{crankWide, ownWide},
			measure: func(m *measuring, v *fact.Value) { v.Num = m.inPlace(&crankWide, &ownWide).Num },
		},
		{
			Field:   fact.Field{Name: "ring_roller_class", Type: fact.Choice, Choices: []string{"standard", "large"}, Doc: "The rollers that the teeth of the ring in use are cut for."},
			reads:   []input{crankRollers, ownRollers},
			measure: func(m *measuring, v *fact.Value) { v.Text = m.inPlace(&crankRollers, &ownRollers).Text },
		},
		{
			Field:   mm("bolt_room_mm", "What lies between the roots of the largest ring's teeth and the circle of its bolts, over the diameter: pitch diameter - roller - bolt circle."),
			reads:   []input{crankRings, ownRings, crankBolts, ownBolts},
			measure: (*measuring).boltRoom,
		},
		{
			Field: fact.Field{Name: "chain_guided", Type: fact.Flag, Doc: "Whether a chain guide is in the mix."},
			reads: []input{guideLargest},
			measure: func(m *measuring, v *fact.Value) {
				if m.peek(&guideLargest); m.there(&guideLargest) {
					v.Num = 1
				}
			},
		},
		{
			Field:   fact.Field{Name: "mount_hanger", Type: fact.Name, Doc: "The hanger that the rear derailleur finds: what a link gives, else the frame's own; that a link which does not say leaves it as it is, is assumed."},
			reads:   []input{frameHanger, linkHanger},
			measure: (*measuring).mountHanger,
		},
		{
			Field:   whole("rated_cog_t", "t", "The largest cog that the rear derailleur is rated for, and a tooth more for each 2.02 mm by which a link lowers it, 4 at most; a link to another kind of hanger adds none."),
			reads:   []input{ratedCog, linkDrop, linkHanger},
			measure: (*measuring).ratedCog,
		},
	}
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

func (m *measuring) mountHanger(v *fact.Value) {
	if gives := m.peek(&linkHanger); gives != nil {
		v.Text = gives.Text
		return
	}
	v.Text = m.need(&frameHanger).Text
	if m.there(&linkHanger) {
		m.suppose()
	}
}

// A tooth more is 2.02 mm of radius, and the reach of a lowered derailleur ends
// at about four teeth (from memory).
const (
	radiusOfTooth = 2.02
	mostReach     = 4
)

// ratedCog counts on a link that lowers the derailleur. One that brings it to
// another place belongs to that place, and so does the derailleur's rating.
func (m *measuring) ratedCog(v *fact.Value) {
	v.Num = m.need(&ratedCog).Num
	drop := m.peek(&linkDrop)
	if gives := m.peek(&linkHanger); gives == nil && drop != nil {
		v.Num += min(math.Floor(drop.Num/radiusOfTooth), mostReach)
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

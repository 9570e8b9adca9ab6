package compat

import "example.org/cogcourt/rules/source"

// ringFigures say what the chain finds in use: a ring bought by itself takes the
// place of the crankset's own, and a link that of the frame's hanger.
func ringFigures() []figure {
	return []figure{
		{
			Field:   mm("ring_thickness_mm", "The thickness of the teeth of the ring in use: of the chainring where one is in the mix, else of the crankset's own."),
			reads:   []input{crankTeeth, ownTeeth},
			measure: func(m *measuring, v *source.Value) { v.Num = m.inPlace(&crankTeeth, &ownTeeth).Num },
		},
		{
			Field:   source.Field{Name: "ring_narrow_wide", Type: source.Flag, Doc: "Whether the ring in use has narrow and wide teeth in turn."},
			reads:   []input{crankNarrow, ownNarrow},
			measure: func(m *measuring, v *source.Value) { v.Num = m.inPlace(&crankNarrow, &ownNarrow).Num },
		},
		{
			Field:   source.Field{Name: "ring_extended_plates", Type: source.Flag, Doc: "Whether the ring in use is shaped for a chain with extended inner plates."},
			reads:   []input{crankExtended, ownExtended},
			measure: func(m *measuring, v *source.Value) { v.Num = m.inPlace(&crankExtended, &ownExtended).Num },
		},
		{
			Field: source.Field{Name: "chain_guided", Type: source.Flag, Doc: "Whether a chain guide is in the mix."},
			reads: []input{guideLargest},
			measure: func(m *measuring, v *source.Value) {
				if m.peek(&guideLargest); m.there(&guideLargest) {
					v.Num = 1
				}
			},
		},
		{
			Field:   source.Field{Name: "mount_hanger", Type: source.Name, Doc: "The hanger that the rear derailleur finds: that of the link where one is in the mix, else the frame's."},
			reads:   []input{frameHanger, linkHanger},
			measure: func(m *measuring, v *source.Value) { v.Text = m.inPlace(&frameHanger, &linkHanger).Text },
		},
	}
}

// inPlace reads a fact of the part that takes another's place, where it is in the
// mix, else of that other part.
func (m *measuring) inPlace(usual, instead *input) *source.Value {
	if m.there(instead) {
		return m.need(instead)
	}
	return m.need(usual)
}

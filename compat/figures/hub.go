package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figLockringMargin = &figure{
	Field: mm("lockring_margin_mm", "How far the smallest cog stands proud of the freehub body: mount height + spacer - body length."),
	reads: []input{mountHeight, bodyLength, benchSpacer, cassetteSpacer},
	measure: func(m *measuring, v *fact.Value) {
		mount, body := m.need(&mountHeight), m.need(&bodyLength)
		if !m.lacking() {
			v.Num = geometry.LockringMargin(mount.Num, m.spacer(), body.Num)
		}
	},
}

// spacer is what stands behind the cassette: measured, else what comes with it,
// else nothing; but for the measured one it is assumed.
func (m *measuring) spacer() float64 {
	if s := m.peek(&benchSpacer); s != nil {
		return s.Num
	}
	m.suppose()
	if s := m.peek(&cassetteSpacer); s != nil {
		return s.Num
	}
	return 0
}

var figSpokeGap = &figure{
	Field: mm("spoke_gap_mm", "The room between the largest cog and the spokes: hub's room at that radius + spacers behind the cassette - overhang."),
	reads: []input{hubSpokes, overhang, benchSpacer, cassetteSpacer},
	measure: func(m *measuring, v *fact.Value) {
		if room, over := m.need(&hubSpokes), m.need(&overhang); !m.lacking() {
			v.Num = room.Num + m.spacer() - over.Num
		}
	},
}

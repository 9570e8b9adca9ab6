package figures

import (
	"math"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figCogStep = &figure{
	Field:   mm("cog_step_mm", "The radial step between the two largest cogs: half the difference of their pitch diameters."),
	reads:   []input{hubKind, cogs},
	kinds:   []wanted{theCassette},
	chain:   true,
	measure: shifting((*measuring).cogStep),
}

var figGuideTip = &figure{
	Field: mm("guide_tip_radius_mm", "The tip radius of the guide pulley, as measured or by the mean of the two limits of ISO 606 "+
		"(assumed)."),
	reads:   []input{guideRadius, guideTeeth},
	kinds:   []wanted{theRear},
	measure: func(m *measuring, v *fact.Value) { v.Num = m.tipRadius() },
}

var figBoltToCog = &figure{
	Field: mm("guide_bolt_to_cog_mm", "The wanted ruler distance from the largest cog's tooth tips to the middle of the guide "+
		"pulley's bolt: B-gap + tip radius of the guide pulley, as measured or by the mean of the two limits of ISO 606 (assumed)."),
	reads:   []input{hubKind, cogs, cogCountStated, bGap, guideRadius, guideTeeth},
	kinds:   []wanted{theRear},
	measure: shifting((*measuring).boltToCog),
}

var figGapMeasured = &figure{
	Field: mm("b_gap_measured_mm", "The B-gap as measured from tip to tip, else the measured distance to the bolt less the tip "+
		"radius of the guide pulley."),
	reads:   []input{hubKind, cogs, cogCountStated, benchGap, benchBolt, guideRadius, guideTeeth},
	kinds:   []wanted{{&bGap, &benchGap}},
	measure: shifting((*measuring).gapMeasured),
}

var figGapOff = &figure{
	Field: mm("b_gap_off_mm", "How much wider than wanted the measured B-gap is; it means nothing where a frame that sags by more "+
		"than 3 mm was not measured at sag."),
	reads:   []input{benchAt, growthAtSag, bGap},
	figures: []*figure{figGapMeasured},
	kinds:   []wanted{theRear},
	measure: (*measuring).gapOff,
}

func (m *measuring) cogStep(v *fact.Value) {
	c := m.need(&cogs).List
	switch {
	case m.lacking():
	case len(c) == 1:
		m.meaningless("a single cog has no step")
	default:
		v.Num = geometry.RadialStep(c[len(c)-2], c[len(c)-1])
	}
}

func (m *measuring) boltToCog(v *fact.Value) {
	gap, radius := m.need(&bGap), m.tipRadius()
	if !m.lacking() {
		v.Num = geometry.BoltToCog(gap.Num, radius)
	}
}

// tipRadius is that of the guide pulley, in mm: as measured, else that of its
// number of teeth, which counts as assumed.
func (m *measuring) tipRadius() float64 {
	if radius := m.peek(&guideRadius); radius != nil {
		return radius.Num
	}
	teeth := m.need(&guideTeeth)
	if m.lacking() {
		return 0
	}
	m.suppose(takesTipRadius)
	return geometry.TipDiameter(geometry.Pitch, geometry.Roller, teeth.Num) / 2
}

func (m *measuring) gapMeasured(v *fact.Value) {
	if gap := m.peek(&benchGap); gap != nil {
		v.Num = gap.Num
		return
	}
	bolt := m.peek(&benchBolt)
	if bolt == nil {
		m.lack(&benchGap)
		return
	}
	if radius := m.tipRadius(); !m.lacking() {
		v.Num = bolt.Num - radius
	}
}

// sagThatCounts is the growth at sag, in mm, beyond which the gap at rest is no
// longer that of the ride.
const sagThatCounts = 3

func (m *measuring) gapOff(v *fact.Value) {
	gap, wanted := m.figure(figGapMeasured), m.need(&bGap)
	if m.lacking() {
		return
	}
	if at := m.peek(&benchAt); at == nil || at.Text != "sag" && at.Text != atSag {
		if sag := m.peek(&growthAtSag); sag != nil && math.Abs(sag.Num) > sagThatCounts {
			m.meaningless(notAtSag)
			return
		}
	}
	v.Num = gap.Num - wanted.Num
}

var figSagShift = &figure{
	Field: mm("b_gap_sag_shift_mm", "How much wider the B-gap is with the rider's weight than at rest, for a cage whose guide "+
		"pulley stands off its pivot: 2 cos(a) x growth at sag x guide offset / cage length, a the chain's slope on the largest pair; "+
		"from memory."),
	reads:   []input{hubKind, growthAtSag, guideOffset, cageLength, crankRings, ownRings, cogs, chainstay},
	kinds:   []wanted{theFrame, theRear, theRings, theCassette},
	measure: shifting((*measuring).sagShift),
}

func (m *measuring) sagShift(v *fact.Value) {
	sag, offset, cage := m.need(&growthAtSag), m.need(&guideOffset), m.need(&cageLength)
	r, c, stay := m.rings(), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return
	}
	slope := math.Asin(geometry.RadialStep(r.List[0], c.List[len(c.List)-1]) / stay.Num)
	v.Num = 2 * math.Cos(slope) * sag.Num * offset.Num / cage.Num
}

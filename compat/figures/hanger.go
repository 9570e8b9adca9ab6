package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figHangerDrift = &figure{
	Field: mm("hanger_drift_mm", "How far sideways the measured hanger error lets the guide pulley drift over the cassette: error / "+
		"bead seat x radial climb."),
	reads: []input{benchHanger, beadSeat, cogs},
	kinds: []wanted{theWheel, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		wheel, climb, off := m.wheel(), m.climb(), m.need(&benchHanger)
		if !m.lacking() {
			v.Num = wheel.HangerDrift(off.Num, climb)
		}
	},
}

var figResidualWithHanger = &figure{
	Field:   mm("index_residual_with_hanger_mm", "The index residual with half of that drift on top, whichever way the hanger is bent."),
	reads:   []input{benchHanger, beadSeat, cogs},
	figures: []*figure{figIndexResidual},
	kinds:   []wanted{theWheel, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		wheel, climb, off, res := m.wheel(), m.climb(), m.need(&benchHanger), m.figure(figIndexResidual)
		if !m.lacking() {
			v.Num = wheel.ResidualWithHanger(res.Num, off.Num, climb)
		}
	},
}

var figHangerLimit = &figure{
	Field: mm("hanger_limit_mm", "The hanger error at the rim at which the index would be lost: 2 (0.2 pitch - residual) x bead "+
		"seat / climb, 4 at most."),
	reads:   []input{beadSeat, cogs},
	figures: []*figure{figIndexResidual, figStepPositions, figCogPositions},
	kinds:   []wanted{theWheel, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		wheel, climb, res := m.wheel(), m.climb(), m.figure(figIndexResidual)
		if !m.lacking() {
			v.Num = wheel.HangerLimit(res.Num, m.index().Pitch, climb)
		}
	},
}

func (m *measuring) wheel() geometry.Wheel { return geometry.Wheel{BeadSeat: m.need(&beadSeat).Num} }

// climb is how far the guide pulley climbs from the smallest to the largest cog.
func (m *measuring) climb() float64 {
	c := m.need(&cogs).List
	switch len(c) {
	case 0:
		return 0
	case 1:
		m.meaningless(oneCog)
		return 0
	}
	return geometry.RadialStep(c[0], c[len(c)-1])
}

var figMountHanger = &figure{
	Field: fact.Field{Name: "mount_hanger", Type: fact.Name, Doc: "The hanger that the rear derailleur finds: what a link gives, " +
		"else the frame's own; that a link which does not say leaves it as it is, is assumed."},
	reads:   []input{frameHanger, linkHanger},
	kinds:   []wanted{{&frameHanger, &linkHanger}},
	measure: (*measuring).mountHanger,
}

// noClamp is said of derailleurs that are not clamped to the frame at the axle, or to
// no frame that could take one.
const noClamp = "any"

var figClampAxle = &figure{
	Field: fact.Field{Name: "clamp_axle", Type: fact.Choice, Choices: []string{"quick", "through", noClamp},
		Doc: "The axle that a rear derailleur finds which clamps a frame for the universal hanger: as the frame states it, else as the hub does; any of other mounts and hangers."},
	reads: []input{rearMount, frameAxle, hubAxle}, figures: []*figure{figMountHanger}, maybe: []*figure{figMountHanger},
	kinds: []wanted{theRear, theFrame},
	measure: func(m *measuring, v *fact.Value) {
		mount, hanger := m.peek(&rearMount), m.known(figMountHanger)
		v.Text = noClamp
		if mount == nil || mount.Text != "full" || hanger == nil || hanger.Text != "universal" {
			return
		}
		kind := m.peek(&frameAxle)
		if kind == nil {
			kind = m.peek(&hubAxle)
		}
		if kind == nil {
			m.lack(&frameAxle)
			return
		}
		v.Text = kind.Text
	},
}

var figLinkReach = &figure{
	Field: whole("link_reach_t", "t", "The teeth that a link adds to the rating of the rear derailleur: one for each 2.02 mm by which "+
		"it lowers it, 8 at most; none without a link or by a link to another kind of hanger than the frame's own."),
	reads:   []input{linkDrop, linkHanger, frameHanger},
	kinds:   []wanted{theRear},
	measure: (*measuring).linkReach,
}

var figRatedCog = &figure{
	Field:   whole("rated_cog_t", "t", "The largest cog that the rear derailleur is rated for, with the teeth that a link adds."),
	reads:   []input{ratedCog},
	figures: []*figure{figLinkReach},
	rises:   []input{ratedCog},
	kinds:   []wanted{theRear},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { v.Num = m.need(&ratedCog).Num + m.figure(figLinkReach).Num },
}

func (m *measuring) mountHanger(v *fact.Value) {
	if gives := m.peek(&linkHanger); gives != nil {
		v.Text = gives.Text
		return
	}
	v.Text = m.need(&frameHanger).Text
	if m.there(&linkHanger) {
		m.suppose(takesHangerKept)
	}
}

// linkReach counts on a link that lowers the derailleur. One that brings it to
// another place belongs to that place, and so does the derailleur's rating; one that
// gives the frame's own hanger once more lowers it.
func (m *measuring) linkReach(v *fact.Value) {
	drop := m.peek(&linkDrop)
	switch gives := m.peek(&linkHanger); {
	case gives != nil && !m.samePlace(gives.Text):
	case drop != nil:
		v.Num = geometry.LinkReach(drop.Num)
	case m.there(&linkDrop):
		m.suppose(takesNoDrop)
	}
}

// samePlace says whether a hanger puts a derailleur where that of the frame does: by
// its own word, or both being of the usual place, one with the frame or not.
func (m *measuring) samePlace(hanger string) bool {
	own := m.peek(&frameHanger)
	return own != nil && (own.Text == hanger || usualPlace(own.Text) && usualPlace(hanger))
}

func usualPlace(hanger string) bool {
	return hanger == "fixed" || hanger == "replaceable" || hanger == "universal"
}

package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// What takes up the chain's slack.
const (
	heldByDerailleur = "derailleur"
	heldByTensioner  = "tensioner"
	heldByAxle       = "axle"
)

const axleHolds = "no derailleur takes the chain up: the axle is moved until it is right"

var figHeldBy = &figure{
	Field: fact.Field{Name: "chain_held_by", Type: fact.Choice, Choices: []string{heldByDerailleur, heldByTensioner, heldByAxle},
		Doc: "What takes up the chain's slack: a derailleur, in the mix or told of by several cogs or rings; a tensioner; or the axle, " +
			"where one cog and one ring have neither, and on every fixed hub."},
	reads:   []input{hubKind, cogs, cogCountStated, crankRings, ownRings, rearActuation, tensioner},
	chain:   true,
	measure: (*measuring).heldBy,
}

// heldBy takes a derailleur in the mix at its word; what is not there is told by
// cogs and rings, which are asked for only then.
func (m *measuring) heldBy(v *fact.Value) {
	hub := m.peek(&hubKind)
	m.goesWithoutSaying(&rearActuation) // that they are there is enough
	m.goesWithoutSaying(&tensioner)
	before := m.doubt
	n, r := m.cogCount(), m.ringsKnown()
	switch {
	case hub != nil && hub.Text == "fixed" && !(n > 1 && m.there(&rearActuation)): // that is no fixed drive, but a wrong hub
		v.Text = heldByAxle
	case m.there(&rearActuation):
		v.Text, m.doubt = heldByDerailleur, before
	case m.there(&tensioner):
		v.Text, m.doubt = heldByTensioner, before
	case n > 1 || r != nil && len(r.List) > 1:
		v.Text = heldByDerailleur
	default:
		m.needCogCount()
		m.rings()
		v.Text = heldByAxle
	}
}

// ringsKnown gives the rings where they are stated.
func (m *measuring) ringsKnown() *fact.Value {
	if r := m.peek(&ownRings); r != nil {
		return r
	}
	return m.peek(&crankRings)
}

// byAxle says that a figure means nothing where the axle takes the chain up.
func (m *measuring) byAxle() bool {
	if by := m.figure(figHeldBy); by.Text == heldByAxle {
		m.needless(axleHolds)
	}
	return m.lacking()
}

// nearestCount is the count that moves the axle least: an even one, or any with a
// cranked link; where the axle can only go back from where it stands, the next up.
func (m *measuring) nearestCount(v *fact.Value) {
	bare := m.figure(figBigBigRest)
	half, one, takeUp := m.peek(&chainHalf), m.peek(&benchHalf), m.peek(&frameTakeUp)
	if m.lacking() {
		return
	}
	v.Num = geometry.EvenNearest(bare.Num)
	if half != nil || one != nil && one.Num != 0 {
		v.Num = geometry.WholeNearest(bare.Num)
		if takeUp != nil && v.Num < bare.Num {
			v.Num++
		}
		return
	}
	if takeUp != nil {
		v.Num = geometry.EvenUp(bare.Num)
	}
}

var figChainCount = &figure{
	Field: whole("chain_count_pitches", "pitches", "The half-inch links of the chain on the bicycle: as counted, else the count "+
		"to cut, or the whole chain where it is sold shorter than that."),
	reads:   []input{benchCut, chainSold},
	figures: []*figure{figChainPitches},
	maybe:   []*figure{figChainPitches},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { v.Num = m.fitted() },
}

var figCountStated = &figure{
	Field: fact.Field{Name: "chain_count_stated", Type: fact.Flag,
		Doc: "Whether anybody states a count of the chain, fitted or as sold; without one there is nothing to judge, unless the frame " +
			"leaves open how far its axle moves."},
	reads:   []input{benchCut, chainSold, chainstay, growth, suspension},
	chain:   true,
	measure: (*measuring).countStated,
}

// nothingToJudge is for a chain of which nobody says how long it is: what it should
// have is worked out.
const nothingToJudge = "nobody states the chain's count: the count to cut is worked out"

func (m *measuring) countStated(v *fact.Value) {
	if m.peek(&benchCut) != nil || m.peek(&chainSold) != nil {
		v.Num = 1
		m.doubt = doubt{} // that there is a count, whatever it is
		return
	}
	rigid := m.peek(&suspension)
	if m.peek(&chainstay) == nil || m.peek(&growth) != nil || rigid != nil && rigid.Text == "none" {
		m.needless(nothingToJudge)
	}
}

var figAxleShift = &figure{
	Field: mm("axle_shift_mm", "Without a derailleur, how far behind the stated chainstay the axle stands when the chain is "+
		"right; negative is forward: (count - bare length) x 6.35 / cos a."),
	reads:   []input{benchCut, chainSold, chainstay, crankRings, ownRings, cogs},
	figures: []*figure{figHeldBy, figChainPitches, figBigBigRest},
	maybe:   []*figure{figChainPitches},
	kinds:   []wanted{theFrame, theRings, theCassette},
	measure: (*measuring).axleShift,
}

func (m *measuring) axleShift(v *fact.Value) {
	if by := m.figure(figHeldBy); !m.lacking() && by.Text != heldByAxle {
		m.needless("a derailleur or tensioner takes the chain up")
	}
	bare, count := m.figure(figBigBigRest), m.fitted()
	r, c, stay := m.rings(), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return
	}
	v.Num = geometry.AxleShift(count-bare.Num, stay.Num, r.List[0], c.List[len(c.List)-1])
}

var figWrapAlone = &figure{
	Field: whole("wrap_alone_t", "t", "The capacity that the cogs ask for on one ring: largest cog less smallest."),
	reads: []input{cogs, crankRings, ownRings}, kinds: ringsAndCogs, chain: true,
	measure: func(m *measuring, v *fact.Value) { m.gears(v, geometry.Gears.WrapAlone) },
}

var figKeepOff = &figure{
	Field: whole("keep_off_t", "t", "On the smallest ring the chain hangs slack on cogs of fewer teeth than this: largest cog + "+
		"(largest ring - smallest) - capacity."),
	reads: []input{cogs, crankRings, ownRings, rearCapacity}, kinds: []wanted{theRear, theCassette, theRings}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		r, c, has := m.rings(), m.need(&cogs), m.need(&rearCapacity)
		if !m.lacking() {
			v.Num = geometry.Gears{Rings: r.List, Cogs: c.List}.KeepOff(has.Num)
		}
	},
}

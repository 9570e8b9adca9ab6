package figures

import (
	"slices"

	"example.org/cogcourt/rules/fact"
)

// Of two parts that must agree one may be silent. These figures say so in a word,
// so that a rule can tell that nothing was compared.

var figRingCompared = &figure{
	Field: fact.Field{Name: "ring_compared", Type: fact.Choice, Choices: []string{"all", "circle", "bolts"},
		Doc: "What a ring of its own and the crankset do not both state of their bolts: circle; bolts, that is their number or pattern on a circle of about 110 mm, which three interfaces share; all where nothing of this is missing."},
	reads: []input{crankBolts, ownBolts, crankBoltCount, ownBoltCount, crankPattern, ownPattern},
	kinds: []wanted{{&ownBolts}, {&crankBolts}},
	measure: func(m *measuring, v *fact.Value) {
		own, crank := m.peek(&ownBolts), m.peek(&crankBolts)
		counts := oneSided(m.peek(&ownBoltCount), m.peek(&crankBoltCount))
		a, b := m.peek(&ownPattern), m.peek(&crankPattern)
		direct := a != nil && a.Text == "direct" || b != nil && b.Text == "direct"
		v.Text = "all"
		switch {
		case direct:
		case own == nil && crank == nil:
			m.lack(&ownBolts)
		case own == nil || crank == nil:
			v.Text = "circle"
		case near(own.Num, sharedCircle, 1) && near(crank.Num, sharedCircle, 1) && (counts || oneSided(a, b)):
			v.Text = "bolts"
		}
	},
}

var figRingTold = &figure{
	Field: fact.Field{Name: "ring_told", Type: fact.Choice, Choices: []string{"circle", "bolts", "pattern"},
		Doc: "What tells whether a ring of its own goes on the crank: circle, where both circles are stated and more than 1 mm apart; bolts, where their numbers differ; else pattern."},
	reads: []input{crankBolts, ownBolts, crankBoltCount, ownBoltCount},
	kinds: []wanted{{&ownBolts}, {&crankBolts}},
	measure: func(m *measuring, v *fact.Value) {
		own, crank := m.peek(&ownBolts), m.peek(&crankBolts)
		a, b := m.peek(&ownBoltCount), m.peek(&crankBoltCount)
		v.Text = "pattern"
		switch {
		case own != nil && crank != nil && !near(own.Num, crank.Num, 1):
			v.Text = "circle"
		case a != nil && b != nil && a.Num != b.Num:
			v.Text = "bolts"
		}
	},
}

// sharedCircle is the bolt circle, in mm, that three interfaces have: five even
// bolts, five of which one stands off, and four that stand unevenly.
const sharedCircle = 110

// oneSided says whether one of two facts is stated alone.
func oneSided(a, b *fact.Value) bool { return (a == nil) != (b == nil) }

var figFrontCompared = &figure{
	Field: fact.Field{Name: "front_compared", Type: fact.Choice, Choices: []string{"pulls", "class", "shifter", "derailleur"},
		Doc: "By what the pull of front shifter and front derailleur is compared: pulls, class, or the part that is silent: shifter or derailleur."},
	reads: []input{frontPulls, frontWants, frontPullClass, frontWantClass, frontIndexed, frontShifterActuation, frontActuation},
	kinds: []wanted{theFrontShifter, theFrontRear},
	measure: func(m *measuring, v *fact.Value) {
		if m.byEar() {
			return
		}
		has, wants := m.peek(&frontPulls), m.peek(&frontWants)
		class, wanted := m.peek(&frontPullClass), m.peek(&frontWantClass)
		switch {
		case has != nil && wants != nil:
			v.Text = "pulls"
		case class != nil && wanted != nil:
			v.Text = "class"
		case wants != nil || wanted != nil && has == nil && class == nil:
			v.Text = "shifter"
		case has != nil || class != nil:
			v.Text = "derailleur"
		default:
			m.lack(&frontPulls)
		}
	},
}

// Sentences for what moves a front derailleur.
const (
	frontByEar   = "a friction lever finds each ring by ear"
	frontByMotor = "a motor at the front has no cable"
)

// byEar says that no pull of a cable is to be compared.
func (m *measuring) byEar() bool {
	clicks := m.peek(&frontIndexed)
	one, other := m.peek(&frontShifterActuation), m.peek(&frontActuation)
	switch {
	case one != nil && one.Text != "cable" || other != nil && other.Text != "cable":
		m.needless(frontByMotor)
	case clicks != nil && clicks.Num == 0:
		m.needless(frontByEar)
	}
	return m.lacking()
}

var figRingExtendedKnown = &figure{
	Field: fact.Field{Name: "ring_extended_stated", Type: fact.Flag, Doc: "Whether it is stated of the ring in use if it is shaped for a chain with extended inner plates."},
	reads: []input{crankExtended, ownExtended},
	kinds: []wanted{theRings},
	measure: func(m *measuring, v *fact.Value) {
		if in := &crankExtended; m.there(&ownExtended) && m.peek(&ownExtended) != nil || !m.there(&ownExtended) && m.peek(in) != nil {
			v.Num = 1
		}
	},
}

var figBodyOffered = &figure{
	Field: fact.Field{Name: "body_offered", Type: fact.Flag, Doc: "Whether the hub's maker is stated to sell a freehub body for it on which the cassette goes."},
	reads: []input{hubBodies, cogFreehub},
	kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		bodies, cog := m.peek(&hubBodies), m.need(&cogFreehub)
		if m.lacking() || bodies == nil {
			return
		}
		for _, body := range bodies.Words {
			if slices.Contains(cog.Words, body) || fitsOneWay(cog.Words, body) {
				v.Num = 1
			}
		}
	},
}

var figBarTold = barTold("bar_told", "rear", &rearClamp)

var figBarFrontTold = barTold("bar_front_told", "front", &frontClamp)

// clampGives is how far, in mm, a clamp and a bar may differ for the clamp to close.
const clampGives = 0.5

// barTold says what tells whether a shifter goes on the bar.
func barTold(name, which string, clamp *input) *figure {
	return &figure{
		Field: fact.Field{Name: name, Type: fact.Choice, Choices: []string{"clamp", "kind"},
			Doc: "What tells whether the " + which + " shifter goes on the bar: clamp, where both diameters are stated and differ by more than 0.5 mm, else kind."},
		reads: []input{*clamp, barDiameter},
		kinds: []wanted{{clamp}, {&barDiameter}},
		measure: func(m *measuring, v *fact.Value) {
			v.Text = "kind"
			if c, bar := m.peek(clamp), m.peek(&barDiameter); c != nil && bar != nil && !near(c.Num, bar.Num, clampGives) {
				v.Text = "clamp"
			}
		},
	}
}

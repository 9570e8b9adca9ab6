package figures

import (
	"example.org/cogcourt/rules/fact"
)

// Of two parts that must agree one may be silent. These figures say so in a word,
// so that a rule can tell that nothing was compared.

var figRingCompared = &figure{
	Field: fact.Field{Name: "ring_compared", Type: fact.Choice, Choices: []string{"all", "circle", "bolts", "splines"},
		Doc: "What a ring of its own and the crankset do not both state of how they are joined: circle; bolts, that is their number or pattern on a circle of about 110 mm, which three interfaces share; splines, where one has them and the other says nothing; all where nothing of this is missing. Of two that are stated and differ it means nothing."},
	reads:   joinReads,
	figures: []*figure{figRingDirect}, maybe: []*figure{figRingDirect},
	kinds:   []wanted{{&ownBolts}, {&crankBolts}},
	measure: (*measuring).ringCompared,
}

var joinReads = []input{crankBolts, ownBolts, crankBoltCount, ownBoltCount, crankPattern, ownPattern, crankDirect, ownDirect}

// ringTold is for a ring whose own finding says that it does not go on.
const ringTold = "what is stated of ring and crank differs already"

func (m *measuring) ringCompared(v *fact.Value) {
	ring, crank := m.ringJoint(), m.crankJoint()
	if m.known(figRingDirect) != nil && ring.splined() != crank.splined() || ring.differs(crank) {
		m.needless(ringTold)
		return
	}
	v.Text = "all"
	switch {
	case ring.splined() && crank.splined():
	case ring.splined() || crank.splined():
		v.Text = "splines"
	case ring.circle == nil && crank.circle == nil:
		m.lack(&ownBolts)
	case ring.circle == nil || crank.circle == nil:
		v.Text = "circle"
	case near(ring.circle.Num, sharedCircle, 1) && near(crank.circle.Num, sharedCircle, 1) &&
		(oneSided(ring.bolts, crank.bolts) || oneSided(ring.pattern, crank.pattern)):
		v.Text = "bolts"
	}
}

// joint is how a ring or a crank is made to be joined to the other.
type joint struct{ circle, bolts, pattern, splines *fact.Value }

func (m *measuring) ringJoint() joint {
	return joint{m.peek(&ownBolts), m.peek(&ownBoltCount), m.peek(&ownPattern), m.peek(&ownDirect)}
}

func (m *measuring) crankJoint() joint {
	return joint{m.peek(&crankBolts), m.peek(&crankBoltCount), m.peek(&crankPattern), m.peek(&crankDirect)}
}

// splined says whether it is joined without bolts: as stated, or by the name of its
// splines where nothing is said of bolts.
func (j joint) splined() bool {
	if j.pattern != nil {
		return j.pattern.Text == "direct"
	}
	return j.splines != nil && !j.bolted()
}

// named says whether its splines have a name, of a spider that is taken off perhaps.
func (j joint) named() bool { return j.splines != nil }

// bolted says whether anything is stated that only bolts have.
func (j joint) bolted() bool { return j.circle != nil || j.bolts != nil }

// differs says whether two joints are stated to differ: by circle, by the number of
// bolts, or by how they stand.
func (j joint) differs(other joint) bool {
	return j.circle != nil && other.circle != nil && !near(j.circle.Num, other.circle.Num, 1) ||
		j.bolts != nil && other.bolts != nil && j.bolts.Num != other.bolts.Num ||
		j.pattern != nil && other.pattern != nil && j.pattern.Text != other.pattern.Text
}

// lackNames asks for the names of splines that are not stated.
func (m *measuring) lackNames(ring, crank joint) {
	if !ring.named() {
		m.lack(&ownDirect)
	}
	if !crank.named() {
		m.lack(&crankDirect)
	}
}

// What is to be compared of a ring or crank without bolts.
const (
	directNames = "names"
	directRing  = "ring-alone"
	directCrank = "crank-alone"
)

var figRingDirect = &figure{
	Field: fact.Field{Name: "ring_direct", Type: fact.Choice, Choices: []string{directNames, directRing, directCrank},
		Doc: "What is to be compared of a ring that sits on splines: the names of the splines, where both are stated; ring-alone or crank-alone, where only that one has splines and the other states a circle or bolts."},
	reads: joinReads,
	kinds: []wanted{{&ownBolts}, {&crankBolts}},
	measure: func(m *measuring, v *fact.Value) {
		ring, crank := m.ringJoint(), m.crankJoint()
		switch {
		case ring.pattern != nil && crank.pattern != nil && ring.splined() != crank.splined():
			m.needless(ringTold) // by the pattern
		case ring.splined() && crank.bolted() && !crank.named():
			v.Text = directRing
		case crank.splined() && ring.bolted() && !ring.named():
			v.Text = directCrank
		case ring.splines != nil && crank.splines != nil:
			v.Text = directNames
		case ring.splined() || crank.splined() || ring.named() || crank.named():
			m.lackNames(ring, crank)
		default:
			m.needless("neither ring nor crank is said to have splines")
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
		Doc: "What tells whether front shifter and front derailleur pull alike: pulls, class, or the part that is silent: shifter or derailleur."},
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

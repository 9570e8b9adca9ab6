package figures

import "example.org/cogcourt/rules/fact"

// The rollers of chains and teeth. Whoever says nothing has the standard ones up to
// eleven cogs. From twelve on one family of roads is cut for larger ones: there the
// standard is the usual, as long as no other part states the larger ones.
const (
	rollersStandard = "standard"
	rollersLarge    = "large"
	largeFrom       = 12
)

var figChainRollers = &figure{
	Field:   rollers("chain_roller_class", "The rollers of the chain: as stated, else standard; from 12 cogs on open where the cassette states large ones."),
	reads:   []input{chainRoller, chainSpeeds, cogRollers},
	kinds:   []wanted{theChain},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.rollers(v, &chainRoller, m.speeds(), &cogRollers) },
}

var figCogRollers = &figure{
	Field:   rollers("cog_roller_class", "The rollers that the cogs are cut for: as stated, else standard; from 12 cogs on open where the chain states large ones."),
	reads:   []input{cogRollers, cogs, cogCountStated, chainRoller},
	kinds:   []wanted{theCassette},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.rollers(v, &cogRollers, m.cogCount(), &chainRoller) },
}

var figRingRollers = &figure{
	Field:   rollers("ring_roller_class", "The rollers that the teeth of the ring in use are cut for: as stated, else standard; from 12 cogs on open where the chain states large ones."),
	reads:   []input{crankRollers, ownRollers, crankSpeeds, cogs, cogCountStated, chainRoller},
	kinds:   []wanted{theRings},
	chain:   true,
	measure: (*measuring).ringRollers,
}

func rollers(name, doc string) fact.Field {
	return fact.Field{Name: name, Type: fact.Choice, Choices: []string{rollersStandard, rollersLarge}, Doc: doc}
}

func (m *measuring) ringRollers(v *fact.Value) {
	stated := &crankRollers
	if m.there(&ownRollers) {
		stated = &ownRollers
	}
	n := m.cogCount()
	if s := m.peek(&crankSpeeds); s != nil {
		n = int(s.Num)
	}
	m.rollers(v, stated, n, &chainRoller)
}

// rollers takes stated rollers, or the usual ones of a part for so many cogs, of which
// another part that states large ones leaves open what they are.
func (m *measuring) rollers(v *fact.Value, stated *input, count int, other *input) {
	if s := m.peek(stated); s != nil {
		v.Text = s.Text
		return
	}
	v.Text = rollersStandard
	if count < largeFrom {
		m.doubt = doubt{} // a convention, whoever counted
		return
	}
	if o := m.peek(other); o != nil && o.Text == rollersLarge {
		m.lack(stated)
		return
	}
	m.suppose(takesStandardRollers)
}

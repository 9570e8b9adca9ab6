package figures

import (
	"slices"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// How a connector is wide against its chain, by what both are sold for.
const (
	joinSame     = "same"
	joinWider    = "wider"
	joinNarrower = "narrower-by-one"
	joinPinched  = "narrower-by-more"
	joinSilent   = "not-said"
)

var figJoinAgainst = &figure{
	Field: fact.Field{Name: "connector_against_chain", Type: fact.Choice, Choices: []string{joinSame, joinWider, joinNarrower, joinPinched, joinSilent},
		Doc: "How wide the connector is against its chain, by the cogs that both are sold for: 5 to 8 have one width, each count above its own, narrower one. " +
			"Not said where one of the two is silent, unless the connector's own width decides. A connector that is wider and whose width is stated is judged by that width."},
	reads:   []input{chainSpeeds, chainAlso, chainClass, joinSpeeds, joinOuter},
	figures: []*figure{figJoinGap, figChainOuter}, maybe: []*figure{figJoinGap, figChainOuter},
	kinds: []wanted{theChain, theConnector}, chain: true,
	pinned:  true, // the counts decide; widths only whether they do
	measure: (*measuring).joinAgainst,
}

var figJoinGap = &figure{
	Field:   mm("connector_gap_mm", "The least room between a connector of stated width and the next larger cog, where it is wider than its chain: pitch - connector width / 2 - cog thickness / 2."),
	reads:   []input{joinOuter, cogs, cogCountStated},
	figures: []*figure{figCogPositions, figCogThickness, figChainOuter},
	rises:   []input{pitch, chainOuter}, falls: []input{cogThickness, joinOuter},
	kinds:   []wanted{theConnector},
	measure: (*measuring).joinGap,
}

var figJoinOverlap = &figure{
	Field: mm("connector_overlap_mm", "How far a connector overlaps the next larger cog even by the kindest widths and spacing that are published for so many; 0 where that is not known."),
	reads: []input{chainSpeeds, joinSpeeds, cogs, cogCountStated}, kinds: []wanted{theChain, theConnector}, chain: true,
	measure: (*measuring).joinOverlap,
}

// widthOf is the place of a width among those that chains are sold in, the widest
// first: one for a single cog, one for 5 to 8, and one for each count above.
func widthOf(speeds int) int {
	switch {
	case speeds < 5:
		return 0
	case speeds <= 8:
		return 1
	}
	return speeds - 7
}

func (m *measuring) joinAgainst(v *fact.Value) {
	chain, join, wide := m.peek(&chainSpeeds), m.peek(&joinSpeeds), m.peek(&joinOuter)
	switch {
	case chain == nil && join == nil:
		m.needless("nobody says for how many cogs they are")
		return
	case join == nil && wide != nil && m.widthDecides(wide.Num):
		m.needless(ownWidth)
		return
	case chain == nil || join == nil:
		v.Text = joinSilent
		return
	}
	n := int(chain.Num)
	if class := m.peek(&chainClass); n == 13 && class != nil && class.Text != "narrow" {
		n = 12 // the wider kind
	}
	also := m.peek(&chainAlso)
	narrower := widthOf(int(join.Num)) - widthOf(n)
	switch {
	case narrower == 0 || also != nil && slices.Contains(also.List, join.Num):
		v.Text = joinSame
	case narrower < 0 && wide != nil:
		m.needless(ownWidth)
	case narrower < 0:
		v.Text = joinWider
	case narrower == 1:
		v.Text = joinNarrower
	default:
		v.Text = joinPinched
	}
}

const ownWidth = "the connector's own width decides"

// asWide is how far, in mm, the widths of chain and connector may differ to be one:
// half of what lies between those of two counts.
const asWide = 0.15

// widthDecides says whether a connector that does not say for how many cogs it is can
// be judged by its width: it is as wide as the chain, or wider, and there are cogs to
// hold it against. Of a narrower one nobody knows whether its pins lock.
func (m *measuring) widthDecides(wide float64) bool {
	before := m.doubt
	outer, gap := m.known(figChainOuter), m.known(figJoinGap)
	m.doubt = before // whether it is judged by its width, not how
	return gap != nil || outer != nil && near(wide, outer.Num, asWide)
}

func (m *measuring) joinGap(v *fact.Value) {
	if m.cogCount() == 1 {
		m.meaningless(noNeighbour)
		return
	}
	wide, at, thick, chain := m.need(&joinOuter), m.figure(figCogPositions), m.figure(figCogThickness), m.figure(figChainOuter)
	if m.lacking() {
		return
	}
	if wide.Num <= chain.Num {
		m.needless("the connector is no wider than the chain")
		return
	}
	v.Num = geometry.NeighbourGap(at.List, wide.Num, thick.Num)
}

// mostWidth is the widest chain, in mm over its pins, that just clears the next cog at
// the kindest published spacing and thickness for so many cogs: twice the spacing less
// one thickness.
var mostWidth = map[int]float64{5: 9.15, 6: 9.15, 7: 8.4, 8: 8.2, 9: 7.35, 10: 6.7, 11: 6.2, 12: 5.95}

// leastWidth is the narrowest that chains for so many cogs are sold, in mm over their
// pins; connectors are no narrower.
var leastWidth = map[int]float64{5: 7.1, 6: 7.1, 7: 7.1, 8: 7, 9: 6.5, 10: 5.84, 11: 5.46, 12: 5.15}

func (m *measuring) joinOverlap(v *fact.Value) {
	join, chain := m.peek(&joinSpeeds), m.peek(&chainSpeeds)
	n := m.cogCount()
	if n == 0 && chain != nil {
		n = int(chain.Num)
	}
	if most, ok := mostWidth[n]; ok && join != nil {
		if width, ok := leastWidth[int(join.Num)]; ok {
			v.Num = max(0, (width-most)/2)
		}
	}
}

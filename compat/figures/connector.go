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
			"Not said where one of the two is silent. A connector that is wider and whose width is stated is judged by that width."},
	reads: []input{chainSpeeds, chainAlso, chainClass, joinSpeeds, joinOuter}, kinds: []wanted{theChain, theConnector}, chain: true,
	measure: (*measuring).joinAgainst,
}

var figJoinGap = &figure{
	Field:   mm("connector_gap_mm", "The least room between a connector of stated width and the next larger cog, where it is wider than its chain: pitch - connector width / 2 - cog thickness / 2."),
	reads:   []input{joinOuter, cogs},
	figures: []*figure{figCogPositions, figCogThickness, figChainOuter},
	kinds:   []wanted{theConnector},
	measure: (*measuring).joinGap,
}

var figJoinOverlap = &figure{
	Field: mm("connector_overlap_mm", "By how much a connector overlaps the next larger cog even by the kindest widths and spacing that are published for so many; 0 where that is not known."),
	reads: []input{chainSpeeds, joinSpeeds, cogs}, kinds: []wanted{theChain, theConnector}, chain: true,
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
	case chain == nil && join == nil || join == nil && wide != nil:
		m.needless("nobody says for how many cogs they are")
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
		m.needless("the connector's own width decides")
	case narrower < 0:
		v.Text = joinWider
	case narrower == 1:
		v.Text = joinNarrower
	default:
		v.Text = joinPinched
	}
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

func (m *measuring) joinOverlap(v *fact.Value) {
	join, chain := m.peek(&joinSpeeds), m.peek(&chainSpeeds)
	n := m.cogCount()
	if n == 0 && chain != nil {
		n = int(chain.Num)
	}
	band, known := pitchBands[n]
	thick, also := usualThickness[n]
	if join == nil || !known || !also {
		return
	}
	if outer, ok := usualOuter[int(join.Num)]; ok {
		v.Num = max(0, -geometry.Gap(band.most, outer.least, thick.least))
	}
}

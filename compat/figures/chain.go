package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figBigBigRest = &figure{
	Field: fraction("big_big_rest_pitches", "pitches", "The exact length of chain on the largest ring and the largest cog with "+
		"the suspension at rest, in half-inch links: 2 (C/P) cos a + (N + n)/2 + a (N - n)/180, or as measured."),
	reads:   longestReads,
	kinds:   onLargestPair,
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { v.Num = m.bigBig(0) },
}

var figBigBig = &figure{
	Field: fraction("big_big_pitches", "pitches", "The exact length of chain on the largest ring and the largest cog where the axle is farthest from the crank, at chainstay + growth."),
	reads: longestReads,
	kinds: onLargestPair,
	chain: true,
	measure: func(m *measuring, v *fact.Value) {
		if m.overIdler() {
			return
		}
		if at := m.peek(&benchAt); at != nil && at.Text == "longest" {
			if ends := m.peek(&benchEnds); ends != nil { // nothing is still to come
				v.Num = ends.Num
				return
			}
		}
		if g := m.growth(); !m.lacking() {
			v.Num = m.bigBig(g)
		}
	},
}

var figChainGrowth = &figure{
	Field:   fraction("chain_growth_pitches", "pitches", "What the suspension's travel adds on the largest pair: longest less rest."),
	figures: []*figure{figBigBig, figBigBigRest},
	measure: func(m *measuring, v *fact.Value) {
		if long, rest := m.figure(figBigBig), m.figure(figBigBigRest); !m.lacking() {
			v.Num = long.Num - rest.Num
		}
	},
}

var figReckoned = &figure{
	Field: whole("chain_pitches_reckoned", "pitches", "The half-inch links to cut by the length: with a derailleur the even "+
		"count that covers longest + add_pitches and, where stated, rest + add_pitches_rest; with a tensioner of one pulley "+
		"longest + 0.3, of two + 2; with neither the count nearest the bare length."),
	reads:   []input{addPitches, addRest, wantedPitches, tensioner, chainHalf, benchHalf, frameTakeUp},
	figures: []*figure{figHeldBy, figBigBig, figBigBigRest},
	maybe:   []*figure{figBigBig, figBigBigRest},
	kinds:   onLargestPair,
	chain:   true,
	measure: (*measuring).reckoned,
}

var figChainPitches = &figure{
	Field: whole("chain_pitches", "pitches", "The half-inch links to cut: the count of its maker's table where that is stated, "+
		"else chain_pitches_reckoned."),
	reads:   []input{wantedPitches},
	figures: []*figure{figReckoned},
	maybe:   []*figure{figReckoned},
	kinds:   onLargestPair,
	chain:   true,
	measure: func(m *measuring, v *fact.Value) {
		if table := m.peek(&wantedPitches); table != nil {
			v.Num = table.Num
			return
		}
		v.Num = m.figure(figReckoned).Num
	},
}

var figPitchesRest = &figure{
	Field: whole("chain_pitches_rest", "pitches", "Where the suspension's travel is not known, what the bicycle at rest asks for: "+
		"the even count that covers rest + add_pitches_rest, not confirmed at full travel."),
	reads:   []input{addRest},
	figures: []*figure{figHeldBy, figBigBigRest, figBigBig},
	maybe:   []*figure{figBigBig},
	kinds:   []wanted{theRear},
	measure: (*measuring).pitchesRest,
}

var figChainMargin = &figure{
	Field: fraction("chain_margin_pitches", "pitches", "The fitted chain's links (the cut length, or the chain as sold where that "+
		"is shorter) less the length on the largest pair at the longest."),
	reads:   []input{benchCut, chainSold},
	figures: []*figure{figHeldBy, figChainPitches, figBigBig},
	maybe:   []*figure{figChainPitches},
	measure: func(m *measuring, v *fact.Value) {
		if m.byAxle() {
			return
		}
		if count, long := m.fitted(), m.figure(figBigBig); !m.lacking() {
			v.Num = geometry.ChainSpare(count, long.Num)
		}
	},
}

var figSmallSmallSlack = &figure{
	Field: fraction("small_small_slack_pitches", "pitches", "The fitted chain's links less the length on the smallest pair at "+
		"rest: what the cage takes up."),
	reads:   []input{benchCut, chainSold, chainstay, cogs, idler, crankRings, ownRings},
	figures: []*figure{figHeldBy, figChainPitches},
	maybe:   []*figure{figChainPitches},
	kinds:   []wanted{theFrame, theRings, theCassette},
	chain:   true,
	measure: (*measuring).smallSlack,
}

// growth is how far the axle moves away from the crank at most. A frame without
// a sprung rear has none; one that does not say leaves it open.
func (m *measuring) growth() float64 {
	if s := m.peek(&suspension); s != nil && s.Text == "none" {
		return 0
	}
	return m.need(&growth).Num
}

// onLargest is the exact length on the largest ring and cog with the axle this
// far beyond its place at rest.
func (m *measuring) onLargest(beyond float64) float64 {
	r, c, stay := m.rings(), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return 0
	}
	return geometry.ChainLength(geometry.Pitch, stay.Num+beyond, r.List[0], c.List[len(c.List)-1])
}

// bigBig is the length on the largest pair at so much growth. A length that was
// measured goes before the computed one, moved by what lies between the position
// where it was measured and the one asked for; what the axle had moved by then is
// asked for, for a measured length is never passed over.
func (m *measuring) bigBig(beyond float64) float64 {
	if m.overIdler() {
		return 0
	}
	ends := m.peek(&benchEnds)
	if ends == nil {
		return m.onLargest(beyond)
	}
	at := m.measuredAt()
	if at == beyond && !m.lacking() {
		return ends.Num
	}
	return ends.Num + m.onLargest(beyond) - m.onLargest(at)
}

// measuredAt is the growth at which the bench lengths were measured; a bicycle
// whose position is not stated stood at rest, and a rigid one always does.
func (m *measuring) measuredAt() float64 {
	at, rear := m.peek(&benchAt), m.peek(&suspension)
	switch {
	case at == nil || at.Text == "stand", rear != nil && rear.Text == "none":
		return 0
	case at.Text == "longest":
		return m.need(&growth).Num
	}
	return m.need(&growthAtSag).Num
}

func (m *measuring) reckoned(v *fact.Value) {
	switch by := m.figure(figHeldBy); {
	case m.lacking():
	case by.Text == heldByAxle:
		m.nearestCount(v)
	case by.Text == heldByTensioner:
		if long, n := m.figure(figBigBig), m.need(&tensioner); !m.lacking() {
			v.Num = geometry.EvenUp(long.Num + overPulleys[int(n.Num)-1])
		}
	default:
		m.overDerailleur(v)
	}
}

// overPulleys is what a tensioner of one and of two pulleys asks for beyond the bare
// length, in pitches (the first from memory).
var overPulleys = [2]float64{0.3, 2}

func (m *measuring) overDerailleur(v *fact.Value) {
	long := m.figure(figBigBig)
	if m.lacking() {
		return
	}
	add := 2.0 // the trade's inch, assumed where the derailleur's maker says nothing
	if a := m.peek(&addPitches); a != nil {
		add = a.Num
	} else if m.peek(&wantedPitches) == nil { // beside a table it decides nothing
		m.suppose(takesTwoLinks)
	}
	v.Num = geometry.EvenUp(long.Num + add)
	if rest := m.peek(&addRest); rest != nil {
		v.Num = max(v.Num, geometry.EvenUp(m.figure(figBigBigRest).Num+rest.Num))
	}
}

func (m *measuring) pitchesRest(v *fact.Value) {
	if m.byAxle() {
		return
	}
	if m.known(figBigBig) != nil {
		m.meaningless("the length at full travel is known")
		return
	}
	if rest, add := m.figure(figBigBigRest), m.need(&addRest); !m.lacking() {
		v.Num = geometry.EvenUp(rest.Num + add.Num)
	}
}

// fitted is the count of the chain on the bicycle: as measured, else the count to
// cut, or the whole chain where it is sold shorter than that.
func (m *measuring) fitted() float64 {
	if cut := m.peek(&benchCut); cut != nil {
		return cut.Num
	}
	// A chain sold too short is short whatever was assumed about the count to cut.
	before := m.doubt
	count := m.figure(figChainPitches).Num
	if sold := m.peek(&chainSold); sold != nil && sold.Num < count {
		m.doubt = before
		return m.peek(&chainSold).Num
	}
	return count
}

func (m *measuring) smallSlack(v *fact.Value) {
	if m.byAxle() {
		return
	}
	if m.overIdler() {
		return
	}
	count, r, c, stay := m.fitted(), m.rings(), m.need(&cogs), m.need(&chainstay)
	if m.lacking() {
		return
	}
	v.Num = geometry.ChainSpare(count, geometry.ChainLength(geometry.Pitch, stay.Num, r.List[len(r.List)-1], c.List[0]))
}

// What the length on the largest pair hangs on.
var onLargestPair = []wanted{{&crankRings, &ownRings, &benchEnds}, {&cogs, &benchEnds}, {&chainstay, &benchEnds}}

var longestReads = []input{chainstay, growth, suspension, idler, benchEnds, benchAt, growthAtSag, crankRings, ownRings, cogs}

var figCageRange = &figure{
	Field: fraction("cage_range_used_pitches", "pitches", "What the cage takes up between the smallest pair at rest and the "+
		"largest pair at the longest: slack less margin, growth of the suspension included."),
	figures: []*figure{figSmallSmallSlack, figChainMargin},
	measure: func(m *measuring, v *fact.Value) {
		v.Num = m.figure(figSmallSmallSlack).Num - m.figure(figChainMargin).Num
	},
}

package figures

import (
	"slices"

	"example.org/cogcourt/rules/fact"
)

// How far the axle of a bicycle without derailleur can follow its chain.
const (
	axleTakesUp = "as-stated"
	axleMoves   = "not-said"
	axleStays   = "not"
)

var figAxleMoves = &figure{
	Field: fact.Field{Name: "axle_moves", Type: fact.Choice, Choices: []string{axleTakesUp, axleMoves, axleStays},
		Doc: "Whether the axle can be moved to set the chain: as far as the frame states, by an amount that it does not state, or not at all in vertical dropouts."},
	reads: []input{frameDropout, frameTakeUp}, kinds: []wanted{theFrame}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		drop, by := m.peek(&frameDropout), m.peek(&frameTakeUp)
		switch {
		case drop != nil && drop.Text == "vertical":
			v.Text = axleStays
		case by != nil:
			v.Text = axleTakesUp
		default:
			v.Text = axleMoves
		}
	},
}

var figAxleGrowth = &figure{
	Field: mm("axle_growth_mm", "How far the suspension moves the axle away from the crank while nothing takes the chain up; 0 on a frame that is not sprung, or does not say."),
	reads: []input{growth, suspension}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		if kind, by := m.peek(&suspension), m.peek(&growth); by != nil || kind != nil && kind.Text != "none" {
			v.Num = m.growth()
		}
	},
}

var figFixedDrive = &figure{
	Field: fact.Field{Name: "fixed_drive", Type: fact.Flag,
		Doc: "Whether the wheel turns the cranks: by a cog that is stated or made to be fixed, or by the one cog of a fixed hub."},
	reads: []input{cogFixed, cogFreehub, cogs, hubKind}, kinds: []wanted{theCassette}, chain: true,
	measure: (*measuring).fixedDrive,
}

func (m *measuring) fixedDrive(v *fact.Value) {
	if f := m.peek(&cogFixed); f != nil {
		v.Num = f.Num
		return
	}
	made, hub := m.peek(&cogFreehub), m.peek(&hubKind)
	switch {
	case made != nil && slices.Contains(made.Words(), "track-1.375"), made == nil && hub != nil && hub.Text == "fixed" && m.cogCount() == 1:
		v.Num = 1
	default:
		m.doubt = doubt{}
	}
}

var figSpare = &figure{
	Field:   fraction("chain_spare_pitches", "pitches", "The chain margin where anybody states how long the chain is, or the frame leaves open how far its axle moves; without a count there is nothing to judge."),
	figures: []*figure{figCountStated, figChainMargin},
	measure: func(m *measuring, v *fact.Value) {
		if m.figure(figCountStated); m.lacking() {
			return
		}
		v.Num = m.figure(figChainMargin).Num
	},
}

var figOffTable = &figure{
	Field:   whole("chain_off_table_pitches", "pitches", "The fitted chain's links less the count of its maker's table for this frame, ring and stay; 0 where no table is stated."),
	reads:   []input{wantedPitches},
	figures: []*figure{figChainCount},
	kinds:   []wanted{theRear},
	measure: func(m *measuring, v *fact.Value) {
		table := m.peek(&wantedPitches)
		if table == nil {
			return
		}
		if count := m.figure(figChainCount); !m.lacking() {
			v.Num = count.Num - table.Num
		}
	},
}

var figByTable = &figure{
	Field: fact.Field{Name: "chain_by_table", Type: fact.Flag, Doc: "Whether the fitted chain has just the count of its maker's " +
		"table for this frame, ring and stay."},
	reads:   []input{wantedPitches},
	figures: []*figure{figChainCount},
	maybe:   []*figure{figChainCount},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) {
		table := m.peek(&wantedPitches)
		if table == nil {
			return
		}
		if count := m.figure(figChainCount); count.Num == table.Num && !m.lacking() {
			v.Num = 1
		}
	},
}

var figCounted = &figure{
	Field: fact.Field{Name: "chain_counted", Type: fact.Flag, Doc: "Whether the chain on the bicycle is known to have the count " +
		"that it is judged by: it was counted, or it is sold shorter than the count to cut."},
	reads:   []input{benchCut, chainSold},
	figures: []*figure{figChainPitches},
	maybe:   []*figure{figChainPitches},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) {
		cut, sold := m.peek(&benchCut), m.peek(&chainSold)
		if cut == nil && sold != nil {
			if count := m.figure(figChainPitches); sold.Num < count.Num {
				cut = sold
			}
		}
		if cut != nil {
			v.Num = 1
		}
		m.doubt = doubt{} // it tells of the count alone, whatever that hangs on
	},
}

var figTableUnsaid = &figure{
	Field: fact.Field{Name: "chain_table_unsaid", Type: fact.Flag, Doc: "Whether a derailleur that clamps the frame goes without the count of its maker's table."},
	reads: []input{rearMount, wantedPitches}, kinds: []wanted{theRear},
	measure: func(m *measuring, v *fact.Value) {
		if mount, table := m.peek(&rearMount), m.peek(&wantedPitches); mount != nil && mount.Text == "full" && table == nil {
			v.Num = 1
		}
	},
}

// How an odd count of half-inch links can be closed.
const (
	closesEven    = "even-only"
	closesHalf    = "cranked"
	closesShifted = "cranked-and-derailleur"
	closesPerhaps = "perhaps"
)

var figClosing = &figure{
	Field: fact.Field{Name: "chain_closing", Type: fact.Choice, Choices: []string{closesEven, closesHalf, closesShifted, closesPerhaps},
		Doc: "Whether an odd count can be closed: by the half link that is in the chain, which no derailleur likes; perhaps by one that nobody states, where one ring and one cog have no derailleur; else not."},
	reads: []input{chainHalf, benchHalf, rearActuation, cogs, crankRings, ownRings}, chain: true,
	measure: (*measuring).closing,
}

func (m *measuring) closing(v *fact.Value) {
	half, one := m.peek(&chainHalf), m.peek(&benchHalf)
	m.goesWithoutSaying(&rearActuation) // that it is there is enough
	before := m.doubt
	c, r := m.peek(&cogs), m.ringsKnown()
	lone := c != nil && len(c.List) == 1 && r != nil && len(r.List) == 1
	shifted := m.there(&rearActuation) || c != nil && len(c.List) > 1
	switch {
	case (half != nil || one != nil && one.Num != 0) && shifted:
		v.Text = closesShifted
	case half != nil || one != nil && one.Num != 0:
		v.Text, m.doubt = closesHalf, before
	case lone && !shifted && one == nil:
		v.Text = closesPerhaps
	default:
		v.Text = closesEven
	}
}

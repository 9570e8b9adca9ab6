package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figChainWrap = &figure{
	Field: whole("chain_wrap_t", "t", "The total capacity that rings and cogs ask for: (largest ring - smallest) + (largest cog - "+
		"smallest)."),
	reads:   []input{cogs, crankRings, ownRings},
	kinds:   ringsAndCogs,
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.gears(v, geometry.Gears.Wrap) },
}

var figFrontDifference = &figure{
	Field: whole("front_difference_t", "t", "Largest ring less smallest ring."),
	reads: []input{crankRings, ownRings},
	kinds: []wanted{theRings},
	measure: func(m *measuring, v *fact.Value) {
		if r := m.rings(); !m.lacking() {
			v.Num = geometry.Gears{Rings: r.List}.FrontDifference()
		}
	},
}

func (m *measuring) gears(v *fact.Value, f func(geometry.Gears) float64) {
	r, c := m.rings(), m.need(&cogs)
	if !m.lacking() {
		v.Num = f(geometry.Gears{Rings: r.List, Cogs: c.List})
	}
}

var figGearRatios = &figure{
	Field: fact.Field{Name: "gear_ratios", Type: fact.Fractions, Min: 0, Max: 1e6, Cap: 64, Doc: "Ring / cog for each ring with " +
		"each cog, largest ring first, smallest cog first."},
	reads: []input{crankRings, ownRings, cogs},
	kinds: ringsAndCogs,
	measure: func(m *measuring, v *fact.Value) {
		if r, c := m.rings(), m.need(&cogs); !m.lacking() {
			v.List = m.keep(geometry.Gears{Rings: r.List, Cogs: c.List}.Ratios(m.free()))
		}
	},
}

var figLowest = &figure{Field: fraction("lowest_ratio", "", "Smallest ring / largest "+
	"cog."), reads: []input{crankRings, ownRings, cogs}, kinds: ringsAndCogs,
	measure: spanned(func(r geometry.GearRange) float64 { return r.Lowest })}

var figHighest = &figure{Field: fraction("highest_ratio", "", "Largest ring / smallest "+
	"cog."), reads: []input{crankRings, ownRings, cogs}, kinds: ringsAndCogs,
	measure: spanned(func(r geometry.GearRange) float64 { return r.Highest })}

var figRange = &figure{Field: fraction("range_percent", "percent", "100 x highest / lowest "+
	"ratio."), reads: []input{crankRings, ownRings, cogs}, kinds: ringsAndCogs,
	measure: spanned(func(r geometry.GearRange) float64 { return r.Percent })}

var figLargestStep = &figure{Field: fraction("largest_step_percent", "percent", "The largest change between neighbouring cogs, "+
	"in percent of the smaller."), reads: []input{cogs}, kinds: []wanted{theCassette},
	measure: (*measuring).largestStep}

var figDevelopmentLow = &figure{Field: fraction("development_low_m", "m", "Metres a turn of the crank in the lowest gear: pi "+
	"(bead seat + 2 tyre) x ratio."), reads: []input{beadSeat, tyreWidth}, kinds: []wanted{theWheel}, figures: []*figure{figLowest}, measure: roll(figLowest)}

var figTurn = &figure{Field: fraction("wheel_turn_m", "m", "Metres a turn of the wheel: pi (bead seat + 2 tyre)."),
	reads: []input{beadSeat, tyreWidth}, kinds: []wanted{theWheel},
	measure: func(m *measuring, v *fact.Value) {
		if seat, tyre := m.need(&beadSeat), m.need(&tyreWidth); !m.lacking() {
			v.Num = geometry.Development(geometry.Wheel{BeadSeat: seat.Num, TyreWidth: tyre.Num}.Circumference(), 1)
		}
	},
}

var figDevelopmentHigh = &figure{Field: fraction("development_high_m", "m", "Metres a turn of the crank in the highest "+
	"gear."), reads: []input{beadSeat, tyreWidth}, kinds: []wanted{theWheel}, figures: []*figure{figHighest}, measure: roll(figHighest)}

func (m *measuring) largestStep(v *fact.Value) {
	c := m.need(&cogs).List
	switch {
	case m.lacking():
	case len(c) == 1:
		m.meaningless("a single cog has no step")
	default:
		v.Num = geometry.Gears{Rings: c[:1], Cogs: c}.Range().LargestStep
	}
}

// spanned takes a number out of the range of all gears.
func spanned(pick func(geometry.GearRange) float64) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		m.gears(v, func(g geometry.Gears) float64 { return pick(g.Range()) })
	}
}

// roll gives the metres a turn of the crank in the gear of a ratio.
func roll(ratio *figure) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		g, seat, tyre := m.figure(ratio), m.need(&beadSeat), m.need(&tyreWidth)
		if !m.lacking() {
			v.Num = geometry.Development(geometry.Wheel{BeadSeat: seat.Num, TyreWidth: tyre.Num}.Circumference(), g.Num)
		}
	}
}

var ringsAndCogs = []wanted{theRings, theCassette}

var figRingTeeth = &figure{
	Field: fact.Field{Name: "ring_teeth_t", Type: fact.Wholes, Unit: "t", Min: -1e6, Max: 1e6, Cap: 4, Doc: "The teeth of the rings " +
		"in use, largest first: those of the chainring in the mix, else of the crankset."},
	reads: []input{crankRings, ownRings}, kinds: []wanted{theRings},
	measure: func(m *measuring, v *fact.Value) { v.List = m.keep(append(m.free(), m.rings().List...)) },
}

var figRingCount = &figure{
	Field: whole("ring_count", "", "How many rings there are."),
	reads: []input{crankRings, ownRings}, kinds: []wanted{theRings},
	measure: func(m *measuring, v *fact.Value) { v.Num = float64(len(m.rings().List)) },
}

// otherCage is said where a cage for another number of rings is the fault.
const otherCage = "the cage is made for another number of rings"

// oneRing is said where the step between rings is asked for.
const oneRing = "a single ring has no step"

var figFrontStep = &figure{
	Field: whole("front_step_t", "t", "The largest ring less the next, where the front derailleur is made for so many rings."),
	reads: []input{crankRings, ownRings, cageRings}, kinds: []wanted{theRings},
	measure: func(m *measuring, v *fact.Value) {
		r, cage := m.rings(), m.peek(&cageRings)
		switch {
		case m.lacking():
		case cage != nil && int(cage.Num) != len(r.List):
			m.needless(otherCage)
		case len(r.List) < 2:
			m.needless(oneRing)
		default:
			v.Num = r.List[0] - r.List[1]
		}
	},
}

package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figIndexOffset = &figure{
	Field: mm("index_offset_mm", "How far to move all steps so that the worst error is least: -(greatest + least error) / 2, "+
		"positive towards the spokes; error = step - cog."),
	reads:   []input{cogs, cogCountStated},
	figures: []*figure{figStepPositions, figCogPositions},
	measure: (*measuring).indexOffset,
}

var figIndexErrors = &figure{
	Field: mmList("index_errors_mm", "What is left at each cog after the offset, positive where the guide pulley stands too far "+
		"towards the spokes.", 16),
	figures: indexFrom,
	measure: func(m *measuring, v *fact.Value) {
		if m.figure(figIndexOffset); !m.lacking() {
			steps, at := m.pair()
			v.List = m.keep(geometry.IndexErrors(m.free(), steps, at))
		}
	},
}

var figIndexResidual = &figure{Field: mm("index_residual_mm", "The worst error left after the offset: (greatest - least error) / "+
	"2."), figures: indexFrom,
	measure: fromIndex(func(ix *geometry.Index) float64 { return ix.Residual })}

var figIndexWorst = &figure{Field: whole("index_worst_cog", "", "The first cog, counted from the smallest as 1, with the worst "+
	"error left."), figures: indexFrom,
	measure: fromIndex(func(ix *geometry.Index) float64 { return float64(ix.Worst) })}

var figIndexShare = &figure{Field: fraction("index_residual_share", "", "The residual as a fraction of the smallest pitch beside "+
	"any of the worst cogs."), figures: indexFrom, turns: true,
	rises: stepsWiden, falls: cogsWiden,
	measure: fromIndex(func(ix *geometry.Index) float64 { return ix.Share })}

var figStackDifference = &figure{Field: mm("stack_difference_mm", "Last cog less last step: how much wider the cassette is than "+
	"the steps."), figures: indexFrom,
	measure: fromIndex(func(ix *geometry.Index) float64 { return ix.StackDifference })}

var figIndexAlign = &figure{Field: whole("index_align_cog", "", "The cog, counted from the smallest as 1, to align on: of those "+
	"within 0.05 mm of the least error after the offset the one nearest the middle of the cassette, then the "+
	"smaller."), figures: indexFrom,
	measure: fromIndex(func(ix *geometry.Index) float64 { return float64(ix.Align) })}

var figWorstIfAligned = &figure{
	Field:   mmList("index_worst_if_aligned_mm", "For each cog, the worst error somewhere when this cog is made perfect.", 16),
	figures: indexFrom,
	measure: func(m *measuring, v *fact.Value) {
		if m.figure(figIndexOffset); !m.lacking() {
			steps, at := m.pair()
			v.List = m.keep(geometry.WorstIfAligned(m.free(), steps, at))
		}
	},
}

// pair gives the steps and the cogs that meet: where there are fewer steps than
// cogs, those cogs that can be reached.
func (m *measuring) pair() (steps, at []float64) {
	steps, at = m.figure(figStepPositions).List, m.figure(figCogPositions).List
	n := min(len(steps), len(at))
	return steps[:n], at[:n]
}

func (m *measuring) indexOffset(v *fact.Value) {
	if m.cogCount() == 1 {
		m.meaningless(oneCog)
		return
	}
	m.figure(figStepPositions)
	m.figure(figCogPositions)
	if m.lacking() {
		return
	}
	v.Num = m.index().Offset
}

// index measures how steps and cogs meet, once for all the figures that tell of it.
func (m *measuring) index() *geometry.Index {
	steps, at := m.pair()
	if !m.indexed {
		m.met, m.indexed = geometry.MeasureIndex(steps, at), true
	}
	return &m.met
}

// What makes the steps wider, and the cogs.
var (
	stepsWiden = []input{pull, ratio, pullFactor, madeForPitch, benchTravel, cogThickness} // thicker cogs in a stack stand closer
	cogsWiden  = []input{pitch}
)

// What the index hangs on.
var indexFrom = []*figure{figIndexOffset, figStepPositions, figCogPositions}

// fromIndex takes a number out of what the offset was worked out with.
func fromIndex(pick func(ix *geometry.Index) float64) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		m.figure(figIndexOffset)
		if !m.lacking() {
			v.Num = pick(m.index())
		}
	}
}

// usualFloat is the side float of a guide pulley, in mm, that common practice
// reckons with where none is stated.
const usualFloat = 0.2

var figResidualStops = &figure{
	Field: mm("index_residual_stops_mm", "The index residual of a cable mix whose limit screws hold the pulley at both ends, so "+
		"that it can stand neither outside the smallest cog nor inside the largest."),
	reads:   []input{rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches, madeForCogs, ratio, ratios, pull, pulls},
	figures: indexFrom,
	measure: func(m *measuring, v *fact.Value) {
		if m.figure(figIndexOffset); m.lacking() {
			return
		}
		if m.drive() == "motor" {
			m.meaningless("a motor must not push against its stops")
		}
		v.Num = m.index().StopsResidual
	},
}

var figRubMargins = &figure{
	Field: mmList("rub_margins_mm", "The room that the chain on each cog has to its neighbours, less half of the index error "+
		"towards them; negative where noise is expected.", 16),
	reads:   []input{cogs},
	figures: []*figure{figNeighbourGaps, figIndexErrors},
	measure: func(m *measuring, v *fact.Value) {
		errs, gaps, c := m.figure(figIndexErrors), m.figure(figNeighbourGaps), m.need(&cogs)
		if m.lacking() {
			return
		}
		if len(errs.List) != len(c.List) {
			m.meaningless(fewerSteps)
			return
		}
		v.List = m.keep(geometry.RubMargins(m.free(), gaps.List, errs.List, c.List))
	},
}

var figFreePlay = &figure{
	Field: mm("index_free_play_mm", "How far a step may miss before the chain is pressed on the next cog: neighbour gap + half "+
		"the chain's side play on its cog + the float of the guide pulley (0.2 assumed)."),
	reads:   []input{guideFloat},
	figures: []*figure{figNeighbourGap, figChainInner, figCogThickness},
	rises:   []input{pitch, chainInner, guideFloat}, falls: []input{chainOuter, cogThickness},
	measure: func(m *measuring, v *fact.Value) {
		gap, inner, thick := m.figure(figNeighbourGap), m.figure(figChainInner), m.figure(figCogThickness)
		if m.lacking() {
			return
		}
		float := usualFloat
		if f := m.peek(&guideFloat); f != nil {
			float = f.Num
		} else {
			m.suppose(takesPulleyFloat)
		}
		v.Num = geometry.FreePlay(gap.Num, inner.Num, thick.Num, float)
	},
}

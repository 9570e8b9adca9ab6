package compat

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

func stepFigures() []figure {
	stepReads := []input{
		hubKind, indexed, benchSteps, rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches,
		cogs, pulls, pull, clicks, ratios, ratio, pullFactor, takeUp, restCog,
	}
	// What counts steps, and neither how long they are nor where they begin.
	countReads := []input{
		hubKind, indexed, benchSteps, rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches,
		cogs, pulls, pull, clicks, ratios, ratio,
	}
	return []figure{
		{
			Field:   mmList("step_positions_mm", "Where the guide pulley stands at each step, the outermost 0: measured, the motor's steps, the pitches that they are made for (assumed), or sums of pull x pull factor x ratio less the first take-up.", 17),
			reads:   stepReads,
			figures: []int{figCogPositions},
			measure: (*measuring).stepPositions,
		},
		{
			Field:   whole("index_first_click", "", "Of a shifter with spare clicks, how many lie outside the smallest cog: the window of clicks with the least residual, the outermost on ties."),
			figures: []int{figStepPositions, figCogPositions},
			measure: (*measuring).firstClick,
		},
		{
			Field:   whole("index_spare_steps", "", "Steps that the shifter or motor makes beyond those that the cogs need; negative where there are too few."),
			reads:   countReads,
			measure: (*measuring).spareSteps,
		},
		{
			Field:   fact.Field{Name: "index_own_set", Type: fact.Flag, Doc: "Whether shifter, rear derailleur and cassette all state one index_family, so that their maker's word stands over published averages."},
			reads:   []input{hubKind, indexed, cogs, shifterFamily, rearFamily, cassetteFamily},
			measure: (*measuring).ownSet,
		},
	}
}

func indexFigures() []figure {
	fromIndex := func(pick func(ix *geometry.Index) float64) func(*measuring, *fact.Value) {
		return func(m *measuring, v *fact.Value) {
			m.figure(figIndexOffset)
			if !m.lacking() {
				v.Num = pick(&m.index)
			}
		}
	}
	offset := []int{figIndexOffset}
	return []figure{
		{
			Field:   mm("index_offset_mm", "How far to move all steps so that the worst error is least: -(greatest + least error) / 2, positive towards the spokes; error = step - cog."),
			reads:   []input{cogs},
			figures: []int{figStepPositions, figCogPositions},
			measure: (*measuring).indexOffset,
		},
		{
			Field:   mmList("index_errors_mm", "What is left at each cog after the offset, positive where the guide pulley stands too far towards the spokes.", 16),
			figures: []int{figIndexOffset, figStepPositions, figCogPositions},
			measure: func(m *measuring, v *fact.Value) {
				if m.figure(figIndexOffset); !m.lacking() {
					steps, at := m.pair()
					v.List = m.keep(geometry.IndexErrors(m.free(), steps, at))
				}
			},
		},
		{Field: mm("index_residual_mm", "The worst error left after the offset: (greatest - least error) / 2."), figures: offset,
			measure: fromIndex(func(ix *geometry.Index) float64 { return ix.Residual })},
		{Field: whole("index_worst_cog", "", "The first cog, counted from the smallest as 1, with the worst error left."), figures: offset,
			measure: fromIndex(func(ix *geometry.Index) float64 { return float64(ix.Worst) })},
		{Field: fraction("index_residual_share", "", "The residual as a fraction of the smallest pitch beside any of the worst cogs."), figures: offset,
			measure: fromIndex(func(ix *geometry.Index) float64 { return ix.Share })},
		{Field: mm("stack_difference_mm", "Last cog less last step: how much wider the cassette is than the steps."), figures: offset,
			measure: fromIndex(func(ix *geometry.Index) float64 { return ix.StackDifference })},
		{Field: whole("index_align_cog", "", "The cog, counted from the smallest as 1, with the least error after the offset; the smaller of two."), figures: offset,
			measure: fromIndex(func(ix *geometry.Index) float64 { return float64(ix.Align) })},
		{
			Field:   mmList("index_worst_if_aligned_mm", "For each cog, the worst error somewhere when this cog is made perfect.", 16),
			figures: []int{figIndexOffset, figStepPositions, figCogPositions},
			measure: func(m *measuring, v *fact.Value) {
				if m.figure(figIndexOffset); !m.lacking() {
					steps, at := m.pair()
					v.List = m.keep(geometry.WorstIfAligned(m.free(), steps, at))
				}
			},
		},
	}
}

// firstClick tells which click stands on the smallest cog.
func (m *measuring) firstClick(v *fact.Value) {
	m.figure(figStepPositions)
	m.figure(figCogPositions)
	if !m.lacking() && !m.spare {
		m.needless(noSpare)
	}
	v.Num = float64(m.first)
}

// pair gives the steps and the cogs that meet: where there are fewer steps than
// cogs, those cogs that can be reached.
func (m *measuring) pair() (steps, at []float64) {
	steps, at = m.figure(figStepPositions).List, m.figure(figCogPositions).List
	n := min(len(steps), len(at))
	return steps[:n], at[:n]
}

// ownSet is false where a family is not stated: then the numbers speak. A set
// that is not indexed at all has no maker's word on its index.
func (m *measuring) ownSet(v *fact.Value) {
	if !m.indexes() {
		return
	}
	if m.cogCount() == 1 {
		m.meaningless(oneCog)
		return
	}
	a, b, c := m.peek(&shifterFamily), m.peek(&rearFamily), m.peek(&cassetteFamily)
	if a != nil && b != nil && c != nil && a.Text == b.Text && b.Text == c.Text {
		v.Num = 1
		return
	}
	m.doubt = doubt{} // without the families it would be no set either
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
	steps, at := m.pair()
	m.index = geometry.MeasureIndex(steps, at)
	v.Num = m.index.Offset
}

func trimFigures() []figure {
	reads := []input{trimStep, rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches, ratio, ratios, pull, pulls}
	from := []int{figIndexOffset, figStepPositions, figCogPositions}
	trim := func(pick func(clicks, residual float64) float64) func(*measuring, *fact.Value) {
		return func(m *measuring, v *fact.Value) {
			if m.figure(figIndexOffset); m.lacking() {
				return
			}
			size := m.peek(&trimStep)
			if size == nil && m.drive() == "cable" {
				m.meaningless(noTrim)
				return
			}
			if size = m.need(&trimStep); !m.lacking() {
				steps, at := m.pair()
				v.Num = pick(geometry.TrimClicks(steps, at, size.Num))
			}
		}
	}
	return []figure{
		{Field: whole("trim_clicks", "", "The whole number of trim clicks, counted from where the smallest cog is exactly right, positive towards the spokes, that leaves the least residual; half-way the outboard one."),
			reads: reads, figures: from, measure: trim(func(clicks, _ float64) float64 { return clicks })},
		{Field: mm("trim_residual_mm", "The worst error left with that whole number of trim clicks."),
			reads: reads, figures: from, measure: trim(func(_, residual float64) float64 { return residual })},
	}
}

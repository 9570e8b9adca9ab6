package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figTrimClicks = &figure{Field: whole("trim_clicks", "", "The whole number of trim clicks, counted from where the smallest "+
	"cog is exactly right, positive towards the spokes, that leaves the least residual; half-way the outboard one."),
	reads: trimReads, figures: indexFrom, kinds: []wanted{theRear}, measure: trim(func(clicks, _ float64) float64 { return clicks })}

var figTrimResidual = &figure{Field: mm("trim_residual_mm", "The worst error left with that whole number of trim clicks."),
	reads: trimReads, figures: indexFrom, kinds: []wanted{theRear}, measure: trim(func(_, residual float64) float64 { return residual })}

// What says whether there is a trim and how fine it is.
var trimReads = []input{trimStep, rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches, madeForCogs, ratio, ratios, pull, pulls}

// trim works the trim clicks out and takes one of the two numbers.
func trim(pick func(clicks, residual float64) float64) func(*measuring, *fact.Value) {
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

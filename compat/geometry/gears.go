package geometry

// Gears are the rings and cogs of a bicycle, in teeth. Rings may stand in any
// order, cogs rise.
type Gears struct {
	Rings, Cogs []float64
}

// Wrap is the total capacity that they ask of a rear derailleur, in teeth:
// (ring max - ring min) + (cog max - cog min), as pages on capacity define it.
func (g Gears) Wrap() float64 {
	least, most, ok := extent(g.Cogs)
	if !ok {
		return nan()
	}
	return bounded(g.FrontDifference() + most - least)
}

// FrontDifference is the largest less the smallest ring, in teeth: 0 for one
// ring. It does not need the cogs.
func (g Gears) FrontDifference() float64 {
	least, most, ok := extent(g.Rings)
	if !ok {
		return nan()
	}
	return bounded(most - least)
}

// WrapAlone is the wrap that the cogs ask for on one ring, in teeth.
func (g Gears) WrapAlone() float64 {
	least, most, ok := extent(g.Cogs)
	if !ok {
		return nan()
	}
	return bounded(most - least)
}

// KeepOff is the count of teeth under which cogs are to be left alone on the
// smallest ring, with a cage of so much capacity (teeth): largest cog + front
// difference - capacity. Below it the chain hangs slack there; at or below the
// smallest cog nothing has to be left alone.
func (g Gears) KeepOff(capacity float64) float64 {
	_, most, ok := extent(g.Cogs)
	if !ok || !notNegative(capacity) {
		return nan()
	}
	return bounded(most + g.FrontDifference() - capacity)
}

// Ratios appends ring / cog for every cog on every ring: the first ring with all
// cogs, then the next.
func (g Gears) Ratios(dst []float64) []float64 {
	if len(g.Rings) == 0 || len(g.Cogs) == 0 || !positive(g.Rings...) || !positive(g.Cogs...) {
		return append(dst, nan())
	}
	for _, ring := range g.Rings {
		for _, cog := range g.Cogs {
			dst = append(dst, bounded(ring/cog))
		}
	}
	return dst
}

// Steps appends the change from each cog to the next larger one, in percent of the
// smaller: 100 (next / this - 1). The cogs rise, two or more.
func (g Gears) Steps(dst []float64) []float64 {
	if !rising(g.Cogs) || !positive(g.Cogs...) {
		return append(dst, nan())
	}
	for i := 1; i < len(g.Cogs); i++ {
		dst = append(dst, bounded(stepPercent(g.Cogs[i-1], g.Cogs[i])))
	}
	return dst
}

func stepPercent(from, to float64) float64 { return 100 * (to/from - 1) }

// GearRange is what a set of gears spans.
type GearRange struct {
	Lowest, Highest float64 // ratios
	Percent         float64 // 100 Highest / Lowest
	LargestStep     float64 // largest change between neighbouring cogs, percent of the smaller cog; NaN for one cog
}

// Range gives the lowest and highest ratio and what lies between them. All four
// are NaN without rings or cogs.
func (g Gears) Range() GearRange {
	ringLeast, ringMost, rings := extent(g.Rings)
	cogLeast, cogMost, cogs := extent(g.Cogs)
	if !rings || !cogs {
		none := nan()
		return GearRange{Lowest: none, Highest: none, Percent: none, LargestStep: none}
	}
	r := GearRange{Lowest: bounded(ringLeast / cogMost), Highest: bounded(ringMost / cogLeast)}
	r.Percent = bounded(100 * r.Highest / r.Lowest)
	r.LargestStep = nan()
	if rising(g.Cogs) {
		r.LargestStep = 0
		for i := 1; i < len(g.Cogs); i++ {
			r.LargestStep = max(r.LargestStep, stepPercent(g.Cogs[i-1], g.Cogs[i]))
		}
		r.LargestStep = bounded(r.LargestStep)
	}
	return r
}

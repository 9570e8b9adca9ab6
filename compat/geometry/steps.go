package geometry

// Cable is a shifter that pulls cable and the rear derailleur that it moves.
// Pulls and Ratios hold one number a click, or a single number for all clicks.
type Cable struct {
	Clicks int       // clicks of the shifter, 1 or more
	Pulls  []float64 // mm of cable, all positive
	Ratios []float64 // mm that the pulley moves a mm of cable, all positive
	Factor float64   // what a pull converter makes of a mm of cable; 1 without one
	TakeUp float64   // mm of the first pull that only takes up slack
}

// StepPositions appends where the clicks put the pulley, in mm from where it
// stands before the first of them: 0 and the running sums of pull x factor x
// ratio, the first pull less the take-up. That pull x ratio must equal the
// distance of the cogs is common knowledge of the trade.
//
// One NaN where a list fits the clicks neither way or a step would be nothing.
func (c Cable) StepPositions(dst []float64) []float64 {
	if c.Clicks < 1 || !fits(c.Pulls, c.Clicks) || !fits(c.Ratios, c.Clicks) ||
		!positive(c.Factor) || !notNegative(c.TakeUp) {
		return append(dst, nan())
	}
	start, at := len(dst), 0.0
	dst = append(dst, 0)
	for i := range c.Clicks {
		pull := click(c.Pulls, i)
		if i == 0 {
			pull -= c.TakeUp
		}
		ratio := click(c.Ratios, i)
		at += pull * c.Factor * ratio
		if !positive(pull, ratio, at) {
			return append(dst[:start], nan())
		}
		dst = append(dst, at)
	}
	return dst
}

// fits says that a list has one entry for each click, or one for all.
func fits(list []float64, clicks int) bool {
	return len(list) == 1 || len(list) == clicks
}

// click is the entry of such a list for the i-th click.
func click(list []float64, i int) float64 {
	if len(list) == 1 {
		return list[0]
	}
	return list[i]
}

// BestWindow chooses, of more steps than there are cogs, the run of neighbouring
// steps that leaves the least residual, the first of them on ties. It appends
// the run's positions, counted from its first step, and gives the place of that
// step in steps (from 0: so many clicks are spare before it). Positions are mm.
//
// With fewer steps than cogs, or where MeasureIndex would give NaN, it appends
// one NaN and gives -1.
func BestWindow(dst, steps, cogs []float64) (window []float64, first int) {
	n := len(cogs)
	first = -1
	best := 0.0
	for i := 0; i+n <= len(steps); i++ {
		least, most, ok := errorExtent(steps[i:i+n], cogs)
		if !ok {
			return append(dst, nan()), -1
		}
		if residual := (most - least) / 2; first < 0 || residual < best-tie {
			first, best = i, residual
		}
	}
	if first < 0 {
		return append(dst, nan()), -1
	}
	for _, at := range steps[first : first+n] {
		dst = append(dst, bounded(at-steps[first]))
	}
	return dst, first
}

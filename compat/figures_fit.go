package compat

import (
	"math"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

func fitFigures() []figure {
	return []figure{
		{
			Field:   mm("cog_step_mm", "The radial step between the two largest cogs: half the difference of their pitch diameters."),
			reads:   []input{hubKind, cogs},
			measure: shifting((*measuring).cogStep),
		},
		{
			Field:   mm("guide_bolt_to_cog_mm", "The wanted ruler distance from the largest cog's tooth tips to the middle of the guide pulley's bolt: B-gap + tip radius of the guide pulley, as measured or by the mean of the two limits of ISO 606 (assumed)."),
			reads:   []input{hubKind, bGap, guideRadius, guideTeeth},
			measure: shifting((*measuring).boltToCog),
		},
		{
			Field:   mm("b_gap_measured_mm", "The B-gap as measured from tip to tip, else the measured distance to the bolt less the tip radius of the guide pulley."),
			reads:   []input{hubKind, benchGap, benchBolt, guideRadius, guideTeeth},
			measure: shifting((*measuring).gapMeasured),
		},
		{
			Field:   mm("b_gap_off_mm", "How much wider than wanted the measured B-gap is; it means nothing where a frame that sags by more than 3 mm was not measured at sag."),
			reads:   []input{benchAt, growthAtSag, bGap},
			figures: []int{figGapMeasured},
			measure: (*measuring).gapOff,
		},
		{
			Field: mm("lockring_margin_mm", "How far the smallest cog stands proud of the freehub body: mount height + spacer - body length."),
			reads: []input{mountHeight, bodyLength, benchSpacer, cassetteSpacer},
			measure: func(m *measuring, v *fact.Value) {
				mount, body := m.need(&mountHeight), m.need(&bodyLength)
				if !m.lacking() {
					v.Num = geometry.LockringMargin(mount.Num, m.spacer(), body.Num)
				}
			},
		},
	}
}

func hangerFigures() []figure {
	hanger := []input{beadSeat, cogs}
	return []figure{
		{
			Field: mm("hanger_drift_mm", "How far sideways the measured hanger error lets the guide pulley drift over the cassette: error / bead seat x radial climb."),
			reads: append([]input{benchHanger}, hanger...),
			measure: func(m *measuring, v *fact.Value) {
				wheel, climb, off := m.wheel(), m.climb(), m.need(&benchHanger)
				if !m.lacking() {
					v.Num = wheel.HangerDrift(off.Num, climb)
				}
			},
		},
		{
			Field:   mm("index_residual_with_hanger_mm", "The index residual with half of that drift on top, whichever way the hanger is bent."),
			reads:   append([]input{benchHanger}, hanger...),
			figures: []int{figIndexResidual},
			measure: func(m *measuring, v *fact.Value) {
				wheel, climb, off, res := m.wheel(), m.climb(), m.need(&benchHanger), m.figure(figIndexResidual)
				if !m.lacking() {
					v.Num = wheel.ResidualWithHanger(res.Num, off.Num, climb)
				}
			},
		},
		{
			Field:   mm("hanger_limit_mm", "The hanger error at the rim at which the index would be lost: 2 (0.2 pitch - residual) x bead seat / climb, 4 at most."),
			reads:   hanger,
			figures: []int{figIndexResidual},
			measure: func(m *measuring, v *fact.Value) {
				wheel, climb, res := m.wheel(), m.climb(), m.figure(figIndexResidual)
				if !m.lacking() {
					v.Num = wheel.HangerLimit(res.Num, m.index.Pitch, climb)
				}
			},
		},
	}
}

func (m *measuring) wheel() geometry.Wheel { return geometry.Wheel{BeadSeat: m.need(&beadSeat).Num} }

// climb is how far the guide pulley climbs from the smallest to the largest cog.
func (m *measuring) climb() float64 {
	c := m.need(&cogs).List
	switch len(c) {
	case 0:
		return 0
	case 1:
		m.meaningless(oneCog)
		return 0
	}
	return geometry.RadialStep(c[0], c[len(c)-1])
}

func (m *measuring) cogStep(v *fact.Value) {
	c := m.need(&cogs).List
	switch {
	case m.lacking():
	case len(c) == 1:
		m.meaningless("a single cog has no step")
	default:
		v.Num = geometry.RadialStep(c[len(c)-2], c[len(c)-1])
	}
}

func (m *measuring) boltToCog(v *fact.Value) {
	gap, radius := m.need(&bGap), m.tipRadius()
	if !m.lacking() {
		v.Num = geometry.BoltToCog(gap.Num, radius)
	}
}

// tipRadius is that of the guide pulley, in mm: as measured, else that of its
// number of teeth, which counts as assumed.
func (m *measuring) tipRadius() float64 {
	if radius := m.peek(&guideRadius); radius != nil {
		return radius.Num
	}
	teeth := m.need(&guideTeeth)
	if m.lacking() {
		return 0
	}
	m.suppose()
	return geometry.TipDiameter(geometry.Pitch, geometry.Roller, teeth.Num) / 2
}

func (m *measuring) gapMeasured(v *fact.Value) {
	if gap := m.peek(&benchGap); gap != nil {
		v.Num = gap.Num
		return
	}
	bolt := m.peek(&benchBolt)
	if bolt == nil {
		m.lack(&benchGap)
		return
	}
	if radius := m.tipRadius(); !m.lacking() {
		v.Num = bolt.Num - radius
	}
}

// sagThatCounts is the growth at sag, in mm, beyond which the gap at rest is no
// longer that of the ride.
const sagThatCounts = 3

func (m *measuring) gapOff(v *fact.Value) {
	gap, wanted := m.figure(figGapMeasured), m.need(&bGap)
	if m.lacking() {
		return
	}
	if at := m.peek(&benchAt); at == nil || at.Text != "sag" {
		if sag := m.peek(&growthAtSag); sag != nil && math.Abs(sag.Num) > sagThatCounts {
			m.meaningless(notAtSag)
			return
		}
	}
	v.Num = gap.Num - wanted.Num
}

func gearFigures() []figure {
	both := []input{crankRings, ownRings, cogs}
	spanned := func(pick func(geometry.GearRange) float64) func(*measuring, *fact.Value) {
		return func(m *measuring, v *fact.Value) {
			m.gears(v, func(g geometry.Gears) float64 { return pick(g.Range()) })
		}
	}
	roll := func(ratio int) func(*measuring, *fact.Value) {
		return func(m *measuring, v *fact.Value) {
			g, seat, tyre := m.figure(ratio), m.need(&beadSeat), m.need(&tyreWidth)
			if !m.lacking() {
				v.Num = geometry.Development(geometry.Wheel{BeadSeat: seat.Num, TyreWidth: tyre.Num}.Circumference(), g.Num)
			}
		}
	}
	wheel := []input{beadSeat, tyreWidth}
	return []figure{
		{
			Field: fact.Field{Name: "gear_ratios", Type: fact.Fractions, Min: 0, Max: 1e6, Cap: 64, Doc: "Ring / cog for each ring with each cog, largest ring first, smallest cog first."},
			reads: both,
			measure: func(m *measuring, v *fact.Value) {
				if r, c := m.rings(), m.need(&cogs); !m.lacking() {
					v.List = m.keep(geometry.Gears{Rings: r.List, Cogs: c.List}.Ratios(m.free()))
				}
			},
		},
		{Field: fraction("lowest_ratio", "", "Smallest ring / largest cog."), reads: both,
			measure: spanned(func(r geometry.GearRange) float64 { return r.Lowest })},
		{Field: fraction("highest_ratio", "", "Largest ring / smallest cog."), reads: both,
			measure: spanned(func(r geometry.GearRange) float64 { return r.Highest })},
		{Field: fraction("range_percent", "percent", "100 x highest / lowest ratio."), reads: both,
			measure: spanned(func(r geometry.GearRange) float64 { return r.Percent })},
		{Field: fraction("largest_step_percent", "percent", "The largest change between neighbouring cogs, in percent of the smaller."), reads: []input{cogs},
			measure: (*measuring).largestStep},
		{Field: fraction("development_low_m", "m", "Metres a turn of the crank in the lowest gear: pi (bead seat + 2 tyre) x ratio."), reads: wheel, figures: []int{figLowest}, measure: roll(figLowest)},
		{Field: fraction("development_high_m", "m", "Metres a turn of the crank in the highest gear."), reads: wheel, figures: []int{figHighest}, measure: roll(figHighest)},
	}
}

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

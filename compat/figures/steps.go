package figures

import (
	"slices"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// Sentences for what cannot be indexed.
const (
	byEar      = "the shifter is not indexed: the rider sets the position by ear"
	oneCog     = "a single cog needs no index"
	otherDrive = "one of shifter and rear derailleur has a cable and the other a motor"
	hubShifts  = "the gears are in the hub: there is no rear derailleur to index"
	nothing    = "the hub is fixed: there is nothing to shift"
	noTrim     = "a derailleur moved by cable has no trim clicks"
	noSpare    = "there is no spare click"
	otherRings = "ring_offset_mm is stated for other rings than the ones that are fitted"
	hasIdler   = "the frame has an idler: measure the chain on the bicycle"
	notAtSag   = "the B-gap was measured without the rider's weight, and this frame sags: measure at sag"
)

// indexes says whether there is an index to judge at all.
func (m *measuring) indexes() bool {
	if !m.shifts() {
		return false
	}
	// A motor that is told by a cable, or the other way round, does not shift at all.
	if a, b := m.goesWithoutSaying(&rearActuation), m.goesWithoutSaying(&shifterActuation); a != nil && b != nil && a.Text != b.Text {
		m.needless(otherDrive)
		return false
	}
	shifter := m.goesWithoutSaying(&indexed)
	if shifter != nil && shifter.Num == 0 {
		m.needless(byEar) // the report names it
		return false
	}
	return true
}

// shifts says whether the rear derailleur has anything to shift on. A geared hub
// with several cogs is shifted by a derailleur like any other.
func (m *measuring) shifts() bool {
	hub := m.goesWithoutSaying(&hubKind)
	if hub == nil {
		return true
	}
	switch {
	case hub.Text == "fixed":
		m.needless(nothing)
	case hub.Text == "internal" && m.cogsSilently() == 1:
		m.needless(hubShifts)
	default:
		return true
	}
	return false
}

// cogsSilently counts the cogs without a word on whether they are only assumed.
func (m *measuring) cogsSilently() int {
	before := m.doubt
	defer func() { m.doubt = before }()
	return m.cogCount()
}

// shifting keeps a figure to bicycles whose rear derailleur has something to shift on.
func shifting(measure func(*measuring, *fact.Value)) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		if m.shifts() {
			measure(m, v)
		}
	}
}

// goesWithoutSaying reads what is as usual unless stated: a word on it that is
// only assumed makes a figure no less certain than none.
func (m *measuring) goesWithoutSaying(in *input) *fact.Value {
	before := m.doubt
	v := m.peek(in)
	m.doubt = before
	return v
}

// stepPositions finds where the guide pulley stands at each step. Of more clicks
// than the cogs need, it keeps the run that fits best: the others are blocked by
// a limit screw.
func (m *measuring) stepPositions(v *fact.Value) {
	m.spare, m.first = false, 0
	if !m.indexes() {
		return
	}
	m.allSteps(v)
	at := m.known(figCogPositions)
	if m.lacking() || at == nil || len(at.List) < 2 || len(v.List) <= len(at.List) || m.drive() == "motor" {
		return
	}
	window, first := geometry.BestWindow(m.free(), v.List, at.List)
	if first < 0 {
		m.fault = "the steps do not rise"
		return
	}
	m.spare, m.first = true, first
	v.List = m.keep(window)
}

// allSteps finds every step: measured, of the motor or of the cassette that it is
// made for, or of the cable.
func (m *measuring) allSteps(v *fact.Value) {
	if at := m.peek(&benchSteps); at != nil {
		v.List = m.keep(append(m.free(), at.List...))
		return
	}
	if way := m.peek(&benchTravel); way != nil {
		m.scaled(v, way.Num)
		return
	}
	if !m.there(&rearActuation) {
		m.lack(&rearActuation)
		return
	}
	switch m.drive() {
	case "motor":
		m.motorSteps(v)
	case "cable":
		m.cableSteps(v)
	default:
		m.lack(&rearActuation)
	}
}

// scaled makes steps of the whole way of the pulley over one click fewer than there
// are cogs: by the list of pulls where there is one, else even ones.
func (m *measuring) scaled(v *fact.Value, way float64) {
	n := m.needCogCount()
	if m.lacking() {
		return
	}
	if n == 1 {
		m.meaningless(oneCog)
		return
	}
	if ps := m.peek(&pulls); ps != nil && len(ps.List) >= n-1 {
		v.List = m.keep(geometry.ScaledPositions(m.free(), ps.List[:n-1], way))
		return
	}
	v.List = m.keep(geometry.EvenPositions(m.free(), n, way/float64(n-1)))
}

var figTravelAlone = &figure{
	Field: fact.Field{Name: "index_travel_alone", Type: fact.Flag, Doc: "Whether the steps are known by their whole way alone, of a " +
		"shifter that nobody says to be even: then the ends are known and the middle is not."},
	reads:   []input{benchSteps, benchTravel, pulls, pull, shifterEven},
	measure: (*measuring).travelAlone,
}

func (m *measuring) travelAlone(v *fact.Value) {
	even, one, list := m.peek(&shifterEven), m.peek(&pull), m.peek(&pulls)
	said := even != nil && even.Num != 0 || even == nil && one != nil || list != nil
	if m.peek(&benchTravel) != nil && m.peek(&benchSteps) == nil && !said {
		v.Num = 1
	}
	m.doubt = doubt{}
}

// drive says what moves the derailleur, as either end states it, or as the facts
// stated of it show.
func (m *measuring) drive() string {
	for _, in := range []*input{&rearActuation, &shifterActuation} {
		if a := m.peek(in); a != nil {
			return a.Text
		}
	}
	for _, in := range []*input{&motorSteps, &madeForPitch, &madeForPitches, &madeForCogs} {
		if m.goesWithoutSaying(in) != nil { // that it is stated is enough
			return "motor"
		}
	}
	// What remains is told by cable, if there is a shifter to tell it.
	for _, in := range []*input{&ratio, &ratios, &pull, &pulls} {
		if m.goesWithoutSaying(in) != nil {
			return "cable"
		}
	}
	if !m.there(&pull) {
		return "cable"
	}
	return ""
}

func (m *measuring) motorSteps(v *fact.Value) {
	if s := m.peek(&motorSteps); s != nil {
		v.List = m.keep(geometry.Positions(m.free(), s.List))
		return
	}
	// Nobody publishes a motor's steps; that they are those of the cassette which
	// the derailleur is made for is an assumption.
	if ps := m.peek(&madeForPitches); ps != nil {
		m.suppose(takesMadeFor)
		v.List = m.keep(geometry.Positions(m.free(), ps.List))
		return
	}
	p := m.need(&madeForPitch)
	n := m.madeFor()
	if n == 0 {
		n = m.needCogCount()
		m.suppose(takesAsManySteps)
	}
	m.suppose(takesMadeFor)
	v.List = m.keep(geometry.EvenPositions(m.free(), n, p.Num))
}

// madeFor is the number of cogs that a motor is stated to be made for; 0 where
// nobody says.
func (m *measuring) madeFor() int {
	if n := m.peek(&madeForCogs); n != nil {
		return int(n.Num)
	}
	return 0
}

// spareSteps counts the steps beyond those that the cogs need. It asks for no
// positions: a shifter of unknown pull still has a known number of clicks.
func (m *measuring) spareSteps(v *fact.Value) {
	if !m.indexes() {
		return
	}
	if !m.there(&rearActuation) {
		m.lack(&rearActuation)
	}
	needed := float64(m.needCogCount() - 1)
	if m.lacking() {
		return
	}
	if needed == 0 {
		m.meaningless(oneCog)
		return
	}
	v.Num = m.stepCount() - needed
}

func (m *measuring) stepCount() float64 {
	if at := m.peek(&benchSteps); at != nil {
		return float64(len(at.List) - 1)
	}
	switch m.drive() {
	case "motor":
		for _, in := range []*input{&motorSteps, &madeForPitches} {
			if s := m.peek(in); s != nil {
				return float64(len(s.List))
			}
		}
		// Never supposed: a step too many drives the cage into the spokes, and what
		// the controller clicks says nothing of the motor.
		return m.need(&madeForCogs).Num - 1
	case "cable":
		if ps := m.peek(&pulls); ps != nil {
			return float64(len(ps.List))
		}
		return m.need(&clicks).Num
	}
	m.lack(&rearActuation)
	return 0
}

func (m *measuring) cableSteps(v *fact.Value) {
	c := geometry.Cable{Factor: 1}
	if ps := m.peek(&pulls); ps != nil {
		c.Pulls, c.Clicks = ps.List, len(ps.List)
	} else {
		c.Pulls, c.Clicks = one(&m.onePull, m.need(&pull)), int(m.need(&clicks).Num)
	}
	if rs := m.peek(&ratios); rs != nil {
		c.Ratios = rs.List
	} else {
		c.Ratios = one(&m.oneRatio, m.need(&ratio))
	}
	if f := m.peek(&pullFactor); f != nil {
		c.Factor = f.Num
	} else {
		m.suppose(takesOnePull)
	}
	if t := m.peek(&takeUp); t != nil {
		c.TakeUp = t.Num
	} else {
		m.suppose(takesNoTakeUp)
	}
	if m.lacking() {
		return
	}
	if m.need(&restCog).Text == "largest" {
		v.List = m.keep(reversed(m.free(), c))
		return
	}
	v.List = m.keep(c.StepPositions(m.free()))
}

// one is a number as a list of one, in memory of the measuring.
func one(buf *[1]float64, v *fact.Value) []float64 {
	buf[0] = v.Num
	return buf[:]
}

// reversed is for a spring that draws the pulley to the largest cog: the first
// click of the cable is at the spokes, while lists run from the smallest cog.
func reversed(dst []float64, c geometry.Cable) []float64 {
	c.Pulls, c.Ratios = turned(c.Pulls), turned(c.Ratios)
	at := c.StepPositions(dst)
	last := at[len(at)-1]
	for i := range at {
		at[i] = last - at[i]
	}
	slices.Reverse(at)
	return at
}

func turned(list []float64) []float64 {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

var figStepPositions = &figure{
	Field: mmList("step_positions_mm", "Where the guide pulley stands at each step, the outermost 0: measured, the motor's steps, "+
		"the pitches that they are made for (assumed), or sums of pull x pull factor x ratio less the first take-up.", 17),
	reads:   stepReads,
	figures: []*figure{figCogPositions},
	maybe:   []*figure{figCogPositions},
	kinds:   []wanted{theSteps},
	measure: (*measuring).stepPositions,
}

var figFirstClick = &figure{
	Field: whole("index_first_click", "", "Of a shifter with spare clicks, how many lie outside the smallest cog: the window of "+
		"clicks with the least residual, the outermost on ties."),
	figures: []*figure{figStepPositions, figCogPositions},
	measure: (*measuring).firstClick,
}

var figSpareSteps = &figure{
	Field: whole("index_spare_steps", "", "Steps that the shifter or motor makes beyond those that the cogs need; negative where "+
		"there are too few."),
	reads:   countReads,
	kinds:   []wanted{theSteps, theCassette},
	measure: (*measuring).spareSteps,
}

var figStepsSettable = &figure{
	Field: fact.Field{Name: "motor_steps_settable", Type: fact.Flag,
		Doc: "Whether a motor is stated to be settable to just as many steps as the cogs need; one that does not say so is not."},
	reads: []input{cogs, cogCountStated, stepsSelectable},
	kinds: []wanted{theRear, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		n, to := m.needCogCount(), m.peek(&stepsSelectable)
		if !m.lacking() && to != nil && slices.Contains(to.List, float64(n-1)) {
			v.Num = 1
		}
	},
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

// What the steps are made from.
var stepReads = []input{
	hubKind, indexed, benchSteps, rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches, madeForCogs,
	cogs, cogCountStated, pulls, pull, clicks, ratios, ratio, pullFactor, takeUp, restCog, benchTravel,
}

// What counts steps, and neither how long they are nor where they begin.
var countReads = []input{
	hubKind, indexed, benchSteps, rearActuation, shifterActuation, motorSteps, madeForPitch, madeForPitches, madeForCogs,
	cogs, cogCountStated, pulls, pull, clicks, ratios, ratio,
}

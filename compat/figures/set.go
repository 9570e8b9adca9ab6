package figures

import (
	"slices"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

var figOwnSet = &figure{
	Field: fact.Field{Name: "index_own_set", Type: fact.Flag, Doc: "Whether shifter, rear derailleur and cassette all state one " +
		"index_family, or share a published set, so that a word stands over averages and usual numbers. " +
		"Where positions, travel, pull, ratio or spacing were measured, or stated over their class, or a converter changes the pull, it does not: then the numbers decide."},
	reads:   setReads,
	measure: (*measuring).ownSet,
}

var figSetWarns = &figure{
	Field: fact.Field{Name: "index_set_warns", Type: fact.Flag, Doc: "Whether the set that they share is only known to be ridden, " +
		"and not to shift as it should."},
	reads:   setReads,
	measure: func(m *measuring, v *fact.Value) { m.ownSet(v); v.Num = truth(v.Num != 0 && m.rides()) },
}

// What tells of a set, and what goes before its name.
var setReads = []input{
	hubKind, indexed, cogs, cogCountStated, shifterFamily, rearFamily, cassetteFamily, shifterSets, rearSets, cassetteSets,
	shifterRides, rearRides, cassetteRides, benchSteps, benchCogs, benchTravel, pullFactor, pull, pulls, ratio, ratios, pitch, pitches,
	stackHeight, rearActuation, shifterActuation,
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// ownSet is false where nothing names a set: then the numbers speak. What is not
// indexed at all has no word on its index.
func (m *measuring) ownSet(v *fact.Value) {
	if !m.indexes() {
		return
	}
	if m.cogCount() == 1 {
		m.meaningless(oneCog)
		return
	}
	named := m.oneFamily() || m.shares(&shifterSets, &rearSets, &cassetteSets) || m.rides()
	if named && !m.byNumbers() {
		v.Num = 1
		return
	}
	m.doubt = doubt{} // without the names it would be no set either
}

func (m *measuring) oneFamily() bool {
	a, b, c := m.peek(&shifterFamily), m.peek(&rearFamily), m.peek(&cassetteFamily)
	return a != nil && b != nil && c != nil && a.Text == b.Text && b.Text == c.Text
}

// rides says whether all that names them is a set that warns.
func (m *measuring) rides() bool {
	return m.shares(&shifterRides, &rearRides, &cassetteRides) && !m.oneFamily() && !m.shares(&shifterSets, &rearSets, &cassetteSets)
}

// shares says whether three lists of sets have a name in common.
func (m *measuring) shares(ins ...*input) bool {
	var lists [3][]string
	for i, in := range ins {
		v := m.peek(in)
		if v == nil {
			return false
		}
		lists[i] = v.Words()
	}
	return slices.ContainsFunc(lists[0], func(name string) bool {
		return slices.Contains(lists[1], name) && slices.Contains(lists[2], name)
	})
}

// byNumbers says whether somebody measured what a set's name stands for, stated it
// over its class, or changed its pull.
func (m *measuring) byNumbers() bool {
	for _, in := range []*input{&benchSteps, &benchCogs, &benchTravel} {
		if m.peek(in) != nil {
			return true
		}
	}
	before := m.doubt
	for _, in := range []*input{&pull, &pulls, &ratio, &ratios, &pitch, &pitches, &stackHeight} {
		if v := m.peek(in); v != nil && v.Own {
			return true
		}
	}
	m.doubt = before
	f := m.peek(&pullFactor)
	if f == nil {
		m.suppose(takesOnePull)
	}
	return f != nil && f.Num != 1
}

// halfPitch is the share of the spacing beyond which no known set misses: a name or
// a number is wrong there.
const halfPitch = 0.5

var figByName = &figure{
	Field: fact.Field{Name: "index_by_name", Type: fact.Flag, Doc: "Whether the index stands by its maker's word: an own set " +
		"whose numbers, where they are known, do not miss by more than half the spacing."},
	figures: []*figure{figOwnSet, figIndexShare, figShareKind},
	maybe:   []*figure{figIndexShare, figShareKind},
	pinned:  true,
	measure: func(m *measuring, v *fact.Value) {
		own := m.figure(figOwnSet)
		if m.lacking() || own.Num == 0 {
			return
		}
		before := m.doubt
		if kind := m.known(figShareKind); kind != nil && kind.Num > halfPitch {
			m.doubt = doubt{} // whatever was supposed of the steps, that is no set
			return
		}
		m.doubt = before
		if share := m.known(figIndexShare); share == nil || share.Num <= halfPitch {
			v.Num = 1
		}
	},
}

// stepGive is how much wider or narrower, in mm, each step of a motor may be than
// the pitch that it is made for.
const stepGive = 0.05

var figShareKind = &figure{
	Field: fraction("index_share_kind", "", "The residual as a fraction of the spacing at the kind end: steps that are taken from "+
		"the pitch which a motor is made for may each be up to 0.05 mm wider or narrower. "+
		"Where this fails, no measure of the steps makes it good."),
	reads:   stepReads,
	figures: []*figure{figCogPositions, figStepPositions},
	kinds:   []wanted{theSteps},
	rises:   stepsWiden, falls: cogsWiden, turns: true,
	measure: (*measuring).shareKind,
}

// shareKind works the steps out anew, for it gives what is not supposed.
func (m *measuring) shareKind(v *fact.Value) {
	if !m.indexes() {
		return
	}
	at := m.figure(figCogPositions)
	if len(at.List) == 1 {
		m.meaningless(oneCog)
		return
	}
	before := m.doubt
	m.figure(figStepPositions) // for what it lacks; what it supposes is another matter
	m.doubt = before
	var steps fact.Value
	give := 0.0
	m.allSteps(&steps)
	if m.madeSteps() {
		m.doubt, give = before, stepGive
	}
	if m.lacking() {
		return
	}
	if len(steps.List) > len(at.List) && give == 0 && m.drive() != "motor" {
		window, _ := geometry.BestWindow(m.free(), steps.List, at.List)
		steps.List = m.keep(window)
	}
	n := min(len(steps.List), len(at.List))
	v.Num = geometry.KindestShare(steps.List[:n], at.List[:n], give)
}

// madeSteps says whether the steps are taken from the cassette that a motor is made
// for.
func (m *measuring) madeSteps() bool {
	return m.peek(&benchSteps) == nil && m.drive() == "motor" && m.peek(&motorSteps) == nil
}

var figLastStep = &figure{
	Field: mm("last_step_inboard_mm", "How far inboard of the largest cog the last step stands after the offset; negative is "+
		"outboard. It means nothing where a cog has no step."),
	figures: []*figure{figIndexErrors, figCogPositions},
	measure: func(m *measuring, v *fact.Value) {
		errs, at := m.figure(figIndexErrors), m.figure(figCogPositions)
		if m.lacking() {
			return
		}
		if len(errs.List) < len(at.List) {
			m.meaningless(fewerSteps)
			return
		}
		v.Num = errs.List[len(errs.List)-1]
	},
}

const fewerSteps = "there are fewer steps than cogs"

var figChainSet = &figure{
	Field: fact.Field{Name: "chain_own_set", Type: fact.Flag, Doc: "Whether chain and cassette state one index_family and nobody " +
		"states a width of the chain, so that their maker's word stands."},
	reads: []input{chainFamily, cassetteFamily, chainOuter, chainInner},
	still: []input{chainOuter, chainInner},
	kinds: []wanted{theCassette, theChain}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		a, b := m.peek(&chainFamily), m.peek(&cassetteFamily)
		if a != nil && b != nil && a.Text == b.Text && m.stated(&chainOuter) == nil && m.stated(&chainInner) == nil {
			v.Num = 1
			return
		}
		m.doubt = doubt{}
	},
}

var figSoldFor = &figure{
	Field: fact.Field{Name: "chain_sold_for_cogs", Type: fact.Flag, Doc: "Whether the chain is sold for just so many cogs, 5 to 12, " +
		"and neither its width nor their spacing is stated: then the trade's word stands over usual widths."},
	reads: []input{chainSpeeds, chainAlso, cogs, cogCountStated, chainOuter, pitch, pitches, stackHeight, benchCogs},
	still: []input{chainOuter, pitch},
	kinds: []wanted{theCassette, theChain}, chain: true,
	measure: (*measuring).soldFor,
}

func (m *measuring) soldFor(v *fact.Value) {
	n := m.needCogCount()
	if m.lacking() {
		return
	}
	also := m.peek(&chainAlso)
	sold := m.speeds() == n || also != nil && slices.Contains(also.List, float64(n))
	for _, in := range []*input{&chainOuter, &pitch, &pitches, &stackHeight, &benchCogs} {
		sold = sold && m.stated(in) == nil
	}
	if sold && n >= 5 && n <= 12 {
		v.Num = 1
	}
}

var figCogsOver = &figure{
	Field: whole("chain_cogs_over", "", "How many more cogs there are than the chain is sold for. It means nothing where the room to the next cog rests on stated numbers, or is not known to be enough: then that room decides."),
	reads: []input{chainSpeeds, chainAlso, cogs, cogCountStated, chainOuter, benchCogs, pitches, pitch, stackHeight},
	kinds: []wanted{theCassette, theChain}, chain: true,
	figures: []*figure{figNeighbourGap, figGapWorst, figChainSet, figSoldFor},
	maybe:   []*figure{figNeighbourGap, figGapWorst, figChainSet, figSoldFor},
	rises:   []input{pitch}, falls: []input{chainOuter, cogThickness}, // its meaning goes with the room
	measure: (*measuring).cogsOver,
}

// The room to the next cog, in mm, that passes, and the least that does not fail.
const (
	roomEnough = 0.05
	roomLeast  = -0.08
)

func (m *measuring) cogsOver(v *fact.Value) {
	n, speeds := m.needCogCount(), m.need(&chainSpeeds)
	if m.lacking() {
		return
	}
	gap, worst := m.known(figNeighbourGap), m.known(figGapWorst)
	set, sold := m.known(figChainSet), m.known(figSoldFor)
	enough := set != nil && set.Num != 0 || sold != nil && sold.Num != 0
	enough = enough || gap != nil && gap.Num >= roomEnough && worst != nil && worst.Num >= roomLeast
	if !enough || m.spacingStated() && m.stated(&chainOuter) != nil {
		m.needless("the room to the next cog decides")
		return
	}
	v.Num = float64(n) - speeds.Num
	if also := m.peek(&chainAlso); also != nil && slices.Contains(also.List, float64(n)) {
		v.Num = 0
	}
}

// spacingStated says whether somebody stated how far the cogs stand apart.
func (m *measuring) spacingStated() bool {
	for _, in := range []*input{&benchCogs, &pitches, &pitch, &stackHeight} {
		if m.stated(in) != nil {
			return true
		}
	}
	return false
}

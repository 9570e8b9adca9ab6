package figures

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// figure is one line of the figure table: what it is, what it reads, and how it
// is worked out. The function puts the value into what it is given, or says
// through the measuring what it lacks.
type figure struct {
	fact.Field
	reads   []input
	figures []*figure // that stand above it in the table
	maybe   []*figure // those of them that it can do without
	kinds   []wanted  // parts without which it means nothing, those of its figures included
	chain   bool      // it means nothing without a half-inch chain, as its figures may say too
	measure func(m *measuring, v *fact.Value)

	// How it goes as one of these rises and all else stays: see Ways.
	rises, falls, still []input
	turns               bool
	pinned              bool // it is left as it was where usual facts move: it stands by a name

	parts  uint64      // of its kinds those that nothing stands in for, by their places,
	others []wanted    // and the others
	gated  bool        // chain, of itself or of any figure that it reads
	place  int         // in the table
	itself []string    // its full name, for lists of names
	core   []rules.Ref // every stated fact that it hangs on, through other figures too, where a half-inch chain drives
	behind []rules.Ref // and those that tell whether one does
	from   []int       // itself and every figure that it is made from, by their places
	made   places      // the same as a set
	uses   places      // itself and the figures that it reads itself
}

// table lists every figure in the order in which they are worked out, which is
// that of reports.
var table = placed(
	figCogCount, figCogThickness, figCogPositions, figCassetteStack, figChainOuter, figChainInner,
	figNeighbourGap, figNeighbourGaps, figCogSpacing, figGapWorst, figCogPlay, figChainSet, figSoldFor, figCogsOver,
	figJoinGap, figJoinAgainst, figJoinOverlap, figChainRollers, figCogRollers,
	figStepPositions, figFirstClick, figSpareSteps, figStepsSettable, figTravelAlone, figOwnSet, figSetWarns, figIndexOffset, figIndexErrors, figIndexResidual,
	figIndexWorst,
	figIndexShare, figShareKind, figByName, figLastStep, figStackDifference, figIndexAlign, figWorstIfAligned, figTrimClicks, figTrimResidual,
	figChainWrap, figWrapAlone, figKeepOff, figFrontDifference, figRingTeeth, figRingCount,
	figHeldBy, figBigBigRest, figBigBig, figChainGrowth, figReckoned, figChainPitches, figPitchesRest,
	figChainCount, figCountStated, figChainMargin, figSmallSmallSlack, figAxleShift,
	figSpare, figCounted, figOffTable, figByTable, figTableUnsaid, figClosing, figAxleMoves, figAxleGrowth, figFixedDrive,
	figRingThickness, figRingPlay, figOneCog,
	figRingNarrowWide, figRingExtended, figRingExtendedKnown, figRingWide, figRingRollers, figBoltRoom, figGuided,
	figMountHanger, figLinkReach, figRatedCog,
	figRingLines, figCogLines, figChainAngles, figAngleLargest, figAngleSmallest, figBackpedal,
	figCogStep, figGuideTip, figBoltToCog, figGapMeasured, figGapOff,
	figLockringMargin, figByHeight, figSpacerOff, figSpacerWanted, figSpacerRows, figSpacerLong, figSpacerShort, figDropoutRoom, figLeastCog, figLeastCogKind,
	figHangerDrift, figResidualWithHanger, figHangerLimit,
	figGearRatios, figLowest, figHighest, figRange, figLargestStep, figTurn, figDevelopmentLow, figDevelopmentHigh,
	figResidualStops, figRubMargins, figFreePlay, figCageRange, figTyreGap, figSpokeGap, figSagShift,
	figRingReach, figChainPull, figChainPulledBy, figHubInput, figMotorInput, figLeastRatio, figFrontPulls,
	figBodyOffered, figBodySold, figSpacerFitted, figAxleKind, figAxleEnd, figAxleThread, figAxleCompared, figAxleGoes, figDropoutLeast, figCogHold, figFixedCog, figHubInputBy, figLeverBrake, figClampAxle, figBarTold, figBarFrontTold, figRingDirect, figRingCompared, figRingTold, figFrontCompared, figFrontStep,
	figCellTaker, figCellFit, figCellLimit, figControllerFit, figChargerForCell, figChargerForController, figCellPrimary, figControllerPrimary, figCellJudged, figControllerJudged, figHalfInchDrive,
)

// mostFigures is how many a table may have; more is a mistake in the program.
const mostFigures = 192

// placed gives every figure its place, and gathers the stated facts behind it. It
// panics where a figure reads one that is worked out later: a mistake in the table.
func placed(list ...*figure) []*figure {
	if len(list) > mostFigures {
		panic(fmt.Sprintf("figures: more than %d do not fit into the sets of Again", mostFigures))
	}
	for i, f := range list {
		f.place, f.itself = i, []string{"figures." + f.Name}
		for _, in := range f.reads {
			f.core = append(f.core, in.Ref)
		}
		f.behind = slices.Clone(f.core)
		for _, other := range f.figures {
			if i == 0 || !slices.Contains(list[:i], other) {
				panic(fmt.Sprintf("figures: %s reads %s, which comes later", f.Name, other.Name))
			}
			f.core = append(f.core, other.core...)
			f.behind = append(f.behind, other.behind...)
			f.from = append(f.from, other.from...)
		}
		if f.gather(); f.gated { // see onChain
			f.behind = append(f.behind, frameDrive.Ref, chainPitch.Ref)
		}
		f.core, f.behind, f.from = distinct(f.core), distinct(f.behind), distinct(append(f.from, i))
		for _, other := range f.from {
			f.made.add(other)
		}
		f.uses.add(i)
		for _, other := range f.figures {
			f.uses.add(other.place)
		}
	}
	return list
}

// distinct keeps the first of equals.
func distinct[T comparable](list []T) []T {
	seen := map[T]bool{}
	return slices.DeleteFunc(list, func(x T) bool {
		before := seen[x]
		seen[x] = true
		return before
	})
}

// hanging tells of every stated fact which figures hang on it, by the place of its object
// and its own among the fields.
var hanging = hangingOn(table)

func hangingOn(list []*figure) [][]places {
	out := make([][]places, objectCount)
	for place, o := range Objects() {
		out[place] = make([]places, len(o.Table().Fields()))
	}
	for _, f := range list {
		for _, ref := range f.behind {
			out[placeOf(ref)][ref.Index].add(f.place)
		}
	}
	return out
}

// Object is the figures as what rules may speak of.
var Object = newObject(table)

func newObject(list []*figure) *rules.Object {
	fields := make([]fact.Field, len(list))
	for i, f := range list {
		fields[i] = f.Field
		fields[i].Supposes = opens(list, f)
	}
	return rules.NewObject("figures", "What is worked out from the facts of all parts together.", fields...)
}

// Behind gives the stated facts that a fact hangs on: those that a figure is worked
// out from, through other figures too, and any other fact itself. The list is
// shared: read only.
func Behind(ref rules.Ref) []rules.Ref {
	if ref.Object == Object {
		return table[ref.Index].behind
	}
	return []rules.Ref{ref}
}

// Ways tells how a figure goes as a stated fact rises and all others stay: 1 where it
// never falls, -1 where it never rises, 2 where only that the fact is known matters, 0
// where nobody says. A figure that turns hangs on its facts through one quantity that
// goes these ways, and may turn on the way. A stated fact goes with itself alone: by what
// others it was found to be usual is settled before anything moves.
func Ways(of, with rules.Ref) (way int8, turns bool) {
	switch {
	case of == with:
		return 1, false
	case of.Object != Object:
		return rules.Still, false
	}
	f := table[of.Index]
	has := func(list []input) bool {
		return slices.ContainsFunc(list, func(in input) bool { return in.Ref == with })
	}
	switch {
	case f.pinned, has(f.still), !slices.Contains(f.behind, with): // what tells whether a fact is usual moves nothing
		return rules.Still, false
	case has(f.rises):
		return 1, f.turns
	case has(f.falls):
		return -1, f.turns
	}
	return 0, false
}

// Core gives the stated facts behind a fact, as Behind does, where it is certain that a
// half-inch chain drives: without those by which that is told. The list is shared: read
// only.
func Core(ref rules.Ref) []rules.Ref {
	if ref.Object == Object {
		return table[ref.Index].core
	}
	return []rules.Ref{ref}
}

// Inputs gives what a figure reads itself, stated facts and other figures, among them
// half_inch_drive where it means nothing without such a chain; none for any other fact.
func Inputs(ref rules.Ref) []rules.Ref {
	if ref.Object != Object {
		return nil
	}
	f := table[ref.Index]
	var out []rules.Ref
	for _, in := range f.reads {
		out = append(out, in.Ref)
	}
	for _, other := range f.figures {
		out = append(out, rules.Ref{Object: Object, Index: other.place})
	}
	if f.gated && f != figHalfInchDrive {
		out = append(out, HalfInch())
	}
	return out
}

// HalfInch is the figure that is known where a half-inch chain drives.
func HalfInch() rules.Ref { return rules.Ref{Object: Object, Index: figHalfInchDrive.place} }

// MadeFrom gives the figures that a figure is made from, itself among them, by their
// places in the table; none for any other fact.
func MadeFrom(ref rules.Ref) []int {
	if ref.Object == Object {
		return table[ref.Index].from
	}
	return nil
}

// OfDrive says whether a fact only tells what kind of drive it is, belt or chain and
// of which pitch: it stands behind every figure of the chain, and no finding is about
// it.
func OfDrive(ref rules.Ref) bool { return ref == frameDrive.Ref || ref == chainPitch.Ref }

// mm, teeth and the like make the fields of figures. Their range is not checked:
// they are computed, not read.
func mm(name, doc string) fact.Field {
	return fact.Field{Name: name, Type: fact.Fraction, Unit: "mm", Min: -1e6, Max: 1e6, Doc: doc}
}

func mmList(name, doc string, longest int) fact.Field {
	return fact.Field{Name: name, Type: fact.Fractions, Unit: "mm", Min: -1e6, Max: 1e6, Cap: longest, Doc: doc}
}

func whole(name, unit, doc string) fact.Field {
	return fact.Field{Name: name, Type: fact.Whole, Unit: unit, Min: -1e6, Max: 1e6, Doc: doc}
}

func fraction(name, unit, doc string) fact.Field {
	return fact.Field{Name: name, Type: fact.Fraction, Unit: unit, Min: -1e6, Max: 1e6, Doc: doc}
}

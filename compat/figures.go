package compat

import (
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// The places of the figures in their table. A figure reads only figures above it.
const (
	figCogThickness = iota
	figCogPositions
	figCassetteStack
	figChainOuter
	figChainInner
	figNeighbourGap
	figStepPositions
	figFirstClick
	figSpareSteps
	figOwnSet
	figIndexOffset
	figIndexErrors
	figIndexResidual
	figIndexWorst
	figIndexShare
	figStackDifference
	figIndexAlign
	figWorstIfAligned
	figTrimClicks
	figTrimResidual
	figChainWrap
	figFrontDifference
	figBigBigRest
	figBigBig
	figChainGrowth
	figChainPitches
	figPitchesRest
	figChainMargin
	figSmallSmallSlack
	figRingThickness
	figRingNarrowWide
	figRingExtended
	figRingWide
	figRingRollers
	figBoltRoom
	figGuided
	figMountHanger
	figRatedCog
	figRingLines
	figCogLines
	figChainAngles
	figAngleLargest
	figAngleSmallest
	figBackpedal
	figCogStep
	figBoltToCog
	figGapMeasured
	figGapOff
	figLockringMargin
	figHangerDrift
	figResidualWithHanger
	figHangerLimit
	figGearRatios
	figLowest
	figHighest
	figRange
	figLargestStep
	figDevelopmentLow
	figDevelopmentHigh
	figResidualStops
	figRubMargins
	figFreePlay
	figCageRange
	figTyreGap
	figSpokeGap
	figSagShift
	figRingReach
	figureCount
)

// figureTable describes every figure, in the order in which they are worked out.
var figureTable = slices.Concat(
	cassetteFigures(), stepFigures(), indexFigures(), trimFigures(), toothFigures(), lengthFigures(),
	ringFigures(), lineFigures(), fitFigures(), hangerFigures(), gearFigures(), textFigures(), roomFigures())

// figureObject is what rules read as figures.
var figureObject = newFigureObject()

func newFigureObject() *rules.Object {
	fields := make([]fact.Field, len(figureTable))
	for i, f := range figureTable {
		fields[i] = f.Field
	}
	return rules.NewObject("figures", "What is worked out from the facts of all parts together.", fields...)
}

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

// Figures are what was worked out for one mix. They are immutable.
type Figures struct{ data *figureData }

// Value gives a figure by name, such as index_residual_mm; its Known is false
// where the figure has no value, and the Lack says why. Lists are read only.
func (f Figures) Value(name string) (fact.Value, fact.Lack) {
	i, ok := figureObject.Table().Index(name)
	if !ok || f.data == nil {
		return fact.Value{}, fact.Lack{Reason: "there is no such figure"}
	}
	return f.data.values[i], f.data.record.Lack(i)
}

// Record gives the figures as the facts that rules read.
func (f Figures) Record() *rules.Record {
	if f.data == nil {
		return nil
	}
	return &f.data.record
}

// FigureFields describes every figure, in the order in which they are worked out.
func FigureFields() []fact.Field { return slices.Clone(figureObject.Table().Fields()) }

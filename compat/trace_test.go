package compat

import (
	"fmt"
	"slices"
	"testing"
)

// figureNames are the names at the places of the table, written a second time so
// that the constants and the table cannot drift apart.
var figureNames = map[int]string{
	figCogThickness: "cog_thickness_mm", figCogPositions: "cog_positions_mm", figCassetteStack: "cassette_stack_mm",
	figChainOuter: "chain_outer_mm", figChainInner: "chain_inner_mm", figNeighbourGap: "neighbour_gap_mm",
	figStepPositions: "step_positions_mm", figFirstClick: "index_first_click", figSpareSteps: "index_spare_steps",
	figOwnSet: "index_own_set", figIndexOffset: "index_offset_mm", figIndexErrors: "index_errors_mm",
	figIndexResidual: "index_residual_mm", figIndexWorst: "index_worst_cog", figIndexShare: "index_residual_share",
	figStackDifference: "stack_difference_mm", figIndexAlign: "index_align_cog", figWorstIfAligned: "index_worst_if_aligned_mm",
	figTrimClicks: "trim_clicks", figTrimResidual: "trim_residual_mm",
	figResidualStops: "index_residual_stops_mm", figRubMargins: "rub_margins_mm", figFreePlay: "index_free_play_mm",
	figCageRange: "cage_range_used_pitches", figTyreGap: "chain_tyre_gap_mm", figSpokeGap: "spoke_gap_mm",
	figSagShift: "b_gap_sag_shift_mm", figRingReach: "ring_reach_t",
	figRingThickness: "ring_thickness_mm", figRingNarrowWide: "ring_narrow_wide", figRingExtended: "ring_extended_plates",
	figRingWide: "ring_wide_tooth_mm", figRingRollers: "ring_roller_class", figBoltRoom: "bolt_room_mm",
	figGuided: "chain_guided", figMountHanger: "mount_hanger", figRatedCog: "rated_cog_t", figGapMeasured: "b_gap_measured_mm", figGapOff: "b_gap_off_mm",
	figChainWrap: "chain_wrap_t", figFrontDifference: "front_difference_t", figBigBigRest: "big_big_rest_pitches",
	figBigBig: "big_big_pitches", figChainGrowth: "chain_growth_pitches", figChainPitches: "chain_pitches", figPitchesRest: "chain_pitches_rest",
	figChainMargin: "chain_margin_pitches", figSmallSmallSlack: "small_small_slack_pitches",
	figRingLines: "ring_lines_mm", figCogLines: "cog_lines_mm", figChainAngles: "chain_angles_deg",
	figAngleLargest: "chain_angle_largest_deg", figAngleSmallest: "chain_angle_smallest_deg", figBackpedal: "backpedal_entry_mm",
	figCogStep: "cog_step_mm", figBoltToCog: "guide_bolt_to_cog_mm", figLockringMargin: "lockring_margin_mm",
	figHangerDrift: "hanger_drift_mm", figResidualWithHanger: "index_residual_with_hanger_mm", figHangerLimit: "hanger_limit_mm",
	figGearRatios: "gear_ratios", figLowest: "lowest_ratio", figHighest: "highest_ratio", figRange: "range_percent",
	figLargestStep: "largest_step_percent", figDevelopmentLow: "development_low_m", figDevelopmentHigh: "development_high_m",
}

func TestFiguresStandAtTheirPlaces(t *testing.T) {
	if len(figureTable) != figureCount || len(figureNames) != figureCount {
		t.Fatalf("%d figures and %d names for %d places", len(figureTable), len(figureNames), figureCount)
	}
	for i, f := range figureTable {
		if f.Name != figureNames[i] {
			t.Errorf("place %d: the table has %s, the constants %s", i, f.Name, figureNames[i])
		}
	}
}

func TestFiguresReadOnlyFiguresAbove(t *testing.T) {
	for i, f := range figureTable {
		for _, j := range f.figures {
			if j >= i {
				t.Errorf("%s reads %s, which comes later", f.Name, figureTable[j].Name)
			}
		}
		if f.measure == nil || f.Doc == "" {
			t.Errorf("%s has no function or no doc", f.Name)
		}
		if len(f.reads)+len(f.figures) == 0 {
			t.Errorf("%s reads nothing", f.Name)
		}
	}
}

// declared lists what each figure says that it reads.
func declared(t *testing.T) map[string][]string {
	out := map[string][]string{}
	for _, f := range figureTable {
		var names []string
		for _, in := range f.reads {
			names = append(names, in.name)
		}
		for _, j := range f.figures {
			names = append(names, "figures."+figureTable[j].Name)
		}
		slices.Sort(names)
		if twice := len(names) - len(slices.Compact(slices.Clone(names))); twice > 0 {
			t.Errorf("%s declares %d reads twice", f.Name, twice)
		}
		out[f.Name] = names
	}
	return out
}

// What a figure says that it reads is what reports name as the parts that a
// finding is about, and what a search may rely on: it must be neither less nor
// more than what the function asks for.
func TestFiguresAskForWhatTheyDeclare(t *testing.T) {
	want := declared(t)
	asked := map[string]map[string]bool{}
	for name := range want {
		asked[name] = map[string]bool{}
	}
	r := seeded(4)
	for range fewer(4000) {
		m := randomDraw(r).mix(t)
		measureAll(m.facts(), func(figure, read string) { asked[figure][read] = true })
	}
	for _, f := range figureTable {
		for _, read := range want[f.Name] {
			if !asked[f.Name][read] && !testing.Short() {
				t.Errorf("%s declares %s and never asks for it", f.Name, read)
			}
			delete(asked[f.Name], read)
		}
		for read := range asked[f.Name] {
			t.Errorf("%s asks for %s and does not declare it", f.Name, read)
		}
	}
}

func TestInputsNameTheirFacts(t *testing.T) {
	vocabulary, err := Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range figureTable {
		for _, in := range f.reads {
			o := vocabulary.Objects()[in.place]
			if got := fmt.Sprintf("%s.%s", o.Name(), o.Table().Fields()[in.field].Name); got != in.name {
				t.Errorf("%s: the input %s points at %s", f.Name, in.name, got)
			}
		}
	}
}

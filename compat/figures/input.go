package figures

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// input is one stated fact that figures are worked out from, found once. The
// lists say that it is missing or its part absent; they are shared by every
// report, so that saying so allocates nothing.
type input struct {
	rules.Ref
	place   int        // of its object in the vocabulary
	mark    fact.Marks // see Mark
	name    string
	missing []string
	absent  []string
}

// of finds a fact of a kind of part.
func of(kind *rules.Object, field string) input {
	place, _ := catalog.KindIndex(kind.Name())
	return inputAt(place, kind, field)
}

// atBench finds a measured fact.
func atBench(field string) input { return inputAt(benchPlace, Bench, field) }

func inputAt(place int, object *rules.Object, field string) input {
	name := object.Name() + "." + field
	return input{
		Ref: object.Ref(field), place: place, mark: Mark(object.Ref(field)),
		name: name, missing: []string{name}, absent: []string{object.Name()},
	}
}

// marks gives every number of parts and bench a bit, by the place of its object and its
// own among the fields: what else is stated lies nowhere but where it is stated.
var marks = func() [][]fact.Marks {
	out := make([][]fact.Marks, objectCount)
	count := 0
	for _, o := range append(slices.Clone(catalog.Kinds()), Bench) {
		place, _ := place(o)
		out[place] = make([]fact.Marks, len(o.Table().Fields()))
		for i, f := range o.Table().Fields() {
			switch f.Type {
			case fact.Fraction, fact.Fractions, fact.Whole, fact.Wholes:
				out[place][i] = fact.MarkAt(count)
				count++
			}
		}
	}
	return out
}()

// Mark gives a stated number its bit. The record of figures says by these with which facts
// each of them was worked out for its mix, of all that it can hang on: one without the
// mark has not read the fact.
func Mark(ref rules.Ref) fact.Marks {
	if i, ok := place(ref.Object); ok {
		return marks[i][ref.Index]
	}
	return fact.Marks{} // of a figure, which hangs on what is marked
}

// The facts that figures read.
var (
	cogs           = of(catalog.Cassette, "cogs_t")
	pitch          = of(catalog.Cassette, "pitch_mm")
	cogCountStated = of(catalog.Cassette, "cog_count")
	cassetteSets   = of(catalog.Cassette, "index_sets")
	cassetteRides  = of(catalog.Cassette, "index_sets_warn")
	shifterSets    = of(catalog.RearShifter, "index_sets")
	shifterRides   = of(catalog.RearShifter, "index_sets_warn")
	rearSets       = of(catalog.RearDerailleur, "index_sets")
	rearRides      = of(catalog.RearDerailleur, "index_sets_warn")
	shifterEven    = of(catalog.RearShifter, "even")
	benchTravel    = atBench("guide_travel_mm")
	pitches        = of(catalog.Cassette, "pitches_mm")
	cogThickness   = of(catalog.Cassette, "cog_thickness_mm")
	stackHeight    = of(catalog.Cassette, "stack_height_mm")
	mountHeight    = of(catalog.Cassette, "mount_height_mm")
	cassetteSpacer = of(catalog.Cassette, "spacer_mm")

	chainSpeeds = of(catalog.Chain, "speeds")
	chainOuter  = of(catalog.Chain, "outer_width_mm")
	chainInner  = of(catalog.Chain, "inner_width_mm")
	chainSold   = of(catalog.Chain, "pitches")
	chainClass  = of(catalog.Chain, "inner_class")
	chainPitch  = of(catalog.Chain, "pitch_mm")
	chainFamily = of(catalog.Chain, "index_family")
	chainAlso   = of(catalog.Chain, "also_for")
	chainHalf   = of(catalog.Chain, "half_links")
	chainRoller = of(catalog.Chain, "roller_class")

	rearActuation  = of(catalog.RearDerailleur, "actuation")
	ratio          = of(catalog.RearDerailleur, "ratio")
	ratios         = of(catalog.RearDerailleur, "ratios")
	motorSteps     = of(catalog.RearDerailleur, "steps_mm")
	madeForPitch   = of(catalog.RearDerailleur, "made_for_pitch_mm")
	madeForPitches = of(catalog.RearDerailleur, "made_for_pitches_mm")
	trimStep       = of(catalog.RearDerailleur, "trim_step_mm")
	restCog        = of(catalog.RearDerailleur, "rest_cog")
	addPitches     = of(catalog.RearDerailleur, "add_pitches")
	addRest        = of(catalog.RearDerailleur, "add_pitches_rest")
	bGap           = of(catalog.RearDerailleur, "b_gap_mm")
	guideTeeth     = of(catalog.RearDerailleur, "guide_pulley_t")
	guideRadius    = of(catalog.RearDerailleur, "guide_pulley_tip_radius_mm")

	shifterActuation = of(catalog.RearShifter, "actuation")
	indexed          = of(catalog.RearShifter, "indexed")
	pull             = of(catalog.RearShifter, "pull_mm")
	clicks           = of(catalog.RearShifter, "clicks")
	pulls            = of(catalog.RearShifter, "pulls_mm")
	takeUp           = of(catalog.RearShifter, "first_pull_take_up_mm")
	pullFactor       = of(catalog.RearShifter, "pull_factor")

	shifterFamily  = of(catalog.RearShifter, "index_family")
	rearFamily     = of(catalog.RearDerailleur, "index_family")
	cassetteFamily = of(catalog.Cassette, "index_family")

	crankSpeeds     = of(catalog.Crankset, "speeds")
	crankSpindle    = of(catalog.Crankset, "spindle_length_mm")
	crankLength     = of(catalog.Crankset, "length_mm")
	crankInner      = of(catalog.Crankset, "inner_bolt_circle_mm")
	ownInner        = of(catalog.Chainring, "inner_bolt_circle_mm")
	bearingLength   = of(catalog.BottomBracket, "spindle_length_mm")
	cogRollers      = of(catalog.Cassette, "roller_class")
	heightClass     = of(catalog.Cassette, "height_class")
	cogFreehub      = of(catalog.Cassette, "freehub")
	madeForCogs     = of(catalog.RearDerailleur, "made_for_cogs")
	stepsSelectable = of(catalog.RearDerailleur, "steps_selectable")
	wantedPitches   = of(catalog.RearDerailleur, "chain_pitches_wanted")
	rearMount       = of(catalog.RearDerailleur, "mount")
	frameDropout    = of(catalog.Frame, "dropout")
	cogFixed        = of(catalog.Cassette, "fixed_cog")
	joinSpeeds      = of(catalog.ChainConnector, "speeds")
	joinOuter       = of(catalog.ChainConnector, "outer_width_mm")
	rearCapacity    = of(catalog.RearDerailleur, "capacity_t")
	tensioner       = of(catalog.ChainTensioner, "pulleys")
	bodyClass       = of(catalog.Hub, "body_class")
	hubFreehub      = of(catalog.Hub, "freehub")
	hubMinCog       = of(catalog.Hub, "min_cog_t")
	hubMinRatio     = of(catalog.Hub, "min_drive_ratio")
	frameDrive      = of(catalog.Frame, "drive")
	frameTakeUp     = of(catalog.Frame, "take_up_mm")
	frameRecess     = of(catalog.Frame, "dropout_recess_mm")
	frameAssist     = of(catalog.Frame, "assist")
	assistTorque    = of(catalog.Frame, "assist_nm")
	ringFactor      = of(catalog.Frame, "motor_ring_factor")
	timingChain     = of(catalog.Frame, "timing_chain")
	frontPulls      = of(catalog.FrontShifter, "pulls_mm")
	frontWants      = of(catalog.FrontDerailleur, "pulls_mm")
	crankRings      = of(catalog.Crankset, "rings_t")
	chainline       = of(catalog.Crankset, "chainline_mm")
	ringOffsets     = of(catalog.Crankset, "ring_offset_mm")
	ownRings        = of(catalog.Chainring, "rings_t")
	crankTeeth      = of(catalog.Crankset, "ring_thickness_mm")
	ownTeeth        = of(catalog.Chainring, "ring_thickness_mm")
	crankNarrow     = of(catalog.Crankset, "narrow_wide")
	ownNarrow       = of(catalog.Chainring, "narrow_wide")
	crankExtended   = of(catalog.Crankset, "extended_inner_plates")
	ownExtended     = of(catalog.Chainring, "extended_inner_plates")
	guideLargest    = of(catalog.ChainGuide, "ring_max_t")
	crankWide       = of(catalog.Crankset, "wide_tooth_mm")
	ownWide         = of(catalog.Chainring, "wide_tooth_mm")
	crankRollers    = of(catalog.Crankset, "roller_class")
	ownRollers      = of(catalog.Chainring, "roller_class")
	crankBolts      = of(catalog.Crankset, "bolt_circle_mm")
	ownBolts        = of(catalog.Chainring, "bolt_circle_mm")
	frameHanger     = of(catalog.Frame, "hanger")
	linkHanger      = of(catalog.HangerLink, "gives_hanger")
	linkDrop        = of(catalog.HangerLink, "drop_mm")
	ratedCog        = of(catalog.RearDerailleur, "max_cog_t")
	hubKind         = of(catalog.Hub, "kind_of_hub")
	hubWidth        = of(catalog.Hub, "over_locknut_mm")
	hubInset        = of(catalog.Hub, "smallest_cog_inset_mm")
	hubShoulder     = of(catalog.Hub, "shoulder_inset_mm")
	bodyLength      = of(catalog.Hub, "body_length_mm")
	chainstay       = of(catalog.Frame, "chainstay_mm")
	growth          = of(catalog.Frame, "chain_growth_mm")
	guideFloat      = of(catalog.RearDerailleur, "guide_pulley_float_mm")
	guideOffset     = of(catalog.RearDerailleur, "guide_offset_mm")
	cageLength      = of(catalog.RearDerailleur, "cage_length_mm")
	hubSpokes       = of(catalog.Hub, "spoke_clearance_mm")
	overhang        = of(catalog.Cassette, "overhang_mm")
	crankOval       = of(catalog.Crankset, "oval_percent")
	ownOval         = of(catalog.Chainring, "oval_percent")
	growthAtSag     = of(catalog.Frame, "growth_at_sag_mm")
	suspension      = of(catalog.Frame, "rear_suspension")
	idler           = of(catalog.Frame, "idler_t")
	beadSeat        = of(catalog.Wheel, "bead_seat_mm")
	tyreWidth       = of(catalog.Wheel, "tyre_width_mm")
	benchCogs       = atBench("cog_positions_mm")
	benchSteps      = atBench("step_positions_mm")
	benchCut        = atBench("chain_pitches")
	benchEnds       = atBench("end_to_end_pitches")
	benchAt         = atBench("position")
	benchSpacer     = atBench("spacer_behind_mm")
	benchHanger     = atBench("hanger_error_mm")
	benchLine       = atBench("chainline_mm")
	benchInset      = atBench("smallest_cog_inset_mm")
	benchGap        = atBench("b_gap_mm")
	benchHalf       = atBench("half_link")
	benchBolt       = atBench("guide_bolt_to_cog_mm")

	hubAxle               = of(catalog.Hub, "axle")
	hubBodies             = of(catalog.Hub, "bodies")
	frameAxle             = of(catalog.Frame, "axle")
	frameAxleEnd          = of(catalog.Frame, "axle_end")
	frameThread           = of(catalog.Frame, "axle_thread")
	crankBoltCount        = of(catalog.Crankset, "bolts")
	ownBoltCount          = of(catalog.Chainring, "bolts")
	crankPattern          = of(catalog.Crankset, "bolt_pattern")
	ownPattern            = of(catalog.Chainring, "bolt_pattern")
	crankDirect           = of(catalog.Crankset, "direct_name")
	ownDirect             = of(catalog.Chainring, "direct_name")
	frontPullClass        = of(catalog.FrontShifter, "pull_class")
	frontWantClass        = of(catalog.FrontDerailleur, "pull_class")
	hubMaxInput           = of(catalog.Hub, "max_input_nm")
	frontIndexed          = of(catalog.FrontShifter, "indexed")
	frontShifterActuation = of(catalog.FrontShifter, "actuation")
	frontActuation        = of(catalog.FrontDerailleur, "actuation")
	chargerChemistry      = of(catalog.Charger, "chemistry")
	cellChemistry         = of(catalog.Cell, "chemistry")
	controllerChemistry   = of(catalog.ControllerCell, "chemistry")
	rearClamp             = of(catalog.RearShifter, "clamp_diameter_mm")
	frontClamp            = of(catalog.FrontShifter, "clamp_diameter_mm")
	barDiameter           = of(catalog.Cockpit, "clamp_diameter_mm")
	cageRings             = of(catalog.FrontDerailleur, "rings")
	leverBrake            = of(catalog.RearShifter, "integrated_brake")
	brakePull             = of(catalog.Brake, "pull")
	axleThread            = of(catalog.Axle, "thread")
	cellVolts             = of(catalog.Cell, "nominal_v")
	cellPrimary           = of(catalog.Cell, "primary")
	controllerVolts       = of(catalog.ControllerCell, "nominal_v")
	controllerPrimary     = of(catalog.ControllerCell, "primary")
	cellForm              = of(catalog.Cell, "form")
	controllerForm        = of(catalog.ControllerCell, "form")
	chargerForm           = of(catalog.Charger, "form")
	rearCell              = of(catalog.RearDerailleur, "cell")
	rearCellLimit         = of(catalog.RearDerailleur, "cell_max_v")
	shifterCell           = of(catalog.RearShifter, "cell")
	shifterCellLimit      = of(catalog.RearShifter, "cell_max_v")
)

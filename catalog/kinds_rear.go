package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// RearDerailleur is the field table of rear derailleurs, by cable and by motor.
// Its lists run from the smallest cog inward.
var RearDerailleur = newKind("rear_derailleur", "The mechanism that moves the chain from cog to cog and keeps it tight.", []fact.Field{
	actuation(),
	{Name: "ratio", Type: fact.Fraction, Min: 0.3, Max: 4,
		Doc: "The sideways move of the guide pulley for each millimetre of cable, where it is the same over all cogs; two " +
			"decimals are wanted, for 0.05 is near a millimetre over a cassette.",
		How: "Pull the bare cable by a measured 10 mm in the middle of the travel, measure how far the pulley moved " +
			"sideways, and divide by 10; names such as 1:1 or 2:1 are no numbers to reckon with."},
	{Name: "ratios", Type: fact.Fractions, Min: 0.3, Max: 4, Cap: maxSteps, Excludes: "ratio",
		Doc: "The sideways move for each millimetre of cable at each step, from the smallest cog inward, where it varies.",
		How: "Pull the bare cable click by click, measure cable and pulley each time, and divide the second by the first."},
	{Name: "steps_mm", Type: fact.Fractions, Unit: "mm", Min: 1, Max: 8, Cap: maxSteps,
		Doc: "The sideways move of the pulley at each step of the motor, from the smallest cog inward.",
		How: "Step the motor through with the chain off and measure from a fixed face of the derailleur to the guide pulley " +
			"at every step."},
	{Name: "made_for_cogs", Type: fact.Whole, Min: 2, Max: maxCogs,
		Doc: "The number of cogs that the motor's steps are made for; without it, made_for_pitches_mm or steps_mm nobody " +
			"knows how many steps it makes.",
		How: "Read it from the box or the manual, as the number of speeds of the group."},
	{Name: "made_for_pitch_mm", Type: fact.Fraction, Unit: "mm", Min: 2, Max: 8,
		Doc: "The pitch of the cassette that the motor's steps are made for, where it is even.",
		How: "Measure the cassette that its maker sells it with: caliper over the outer faces of the first and last cog, " +
			"less one cog, over the cogs less one."},
	{Name: "made_for_pitches_mm", Type: fact.Fractions, Unit: "mm", Min: 2, Max: 8, Cap: maxSteps, Excludes: "made_for_pitch_mm",
		Doc: "The pitches of the cassette that the motor's steps are made for, from the smallest cog inward, where they differ.",
		How: "Measure each cog and spacer of the cassette that its maker sells it with."},
	{Name: "steps_selectable", Type: fact.Wholes, Min: 1, Max: maxSteps, Cap: maxSteps,
		Doc: "The numbers of steps that the motor can be set to make; a number of steps is one fewer than the cogs.",
		How: "Read in the setting menu or the manual which numbers of cogs can be chosen, and take one off each."},
	{Name: "trim_step_mm", Type: fact.Fraction, Unit: "mm", Min: 0.01, Max: 2,
		Doc: "How far one click of trim moves the pulley.",
		How: "Trim ten clicks one way, measure how far the pulley moved, and divide by ten."},
	{Name: "trim_range_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 12,
		Doc: "How far the trim reaches each way from its middle.",
		How: "Trim from one end to the other, measure how far the pulley moved, and halve it."},
	indexFamily("derailleur, shifter and cassette"),
	{Name: "max_cog_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 60,
		Doc: "The largest cog that the derailleur is rated for.",
		How: "Read it from the maker's sheet, where it is often called maximum low sprocket."},
	{Name: "min_largest_cog_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 60,
		Doc: "The smallest that the largest cog may be, so that the guide pulley still follows the cogs.",
		How: "Read it from the maker's sheet, where it is often called minimum low sprocket."},
	{Name: "capacity_t", Type: fact.Whole, Unit: "t", Min: 0, Max: 80,
		Doc: "The total capacity: the teeth of difference, at the rings and at the cogs together, whose slack the cage can take up.",
		How: "Read it from the maker's sheet as total capacity."},
	{Name: "max_front_difference_t", Type: fact.Whole, Unit: "t", Min: 0, Max: 40,
		Doc: "The largest difference between the rings that the derailleur is rated for.",
		How: "Read it from the maker's sheet; 0 for one that is made for a single ring."},
	{Name: "guide_pulley_t", Type: fact.Whole, Unit: "t", Min: 8, Max: 24,
		Doc: "The teeth of the guide pulley, the upper of the two.",
		How: "Count the teeth of the upper pulley."},
	{Name: "guide_pulley_tip_radius_mm", Type: fact.Fraction, Unit: "mm", Min: 12, Max: 60,
		Doc: "The distance from the middle of the guide pulley's bolt to its tooth tips; a measured one goes before that of " +
			"the tooth form.",
		How: "Measure the pulley from tip to opposite tip with a caliper and halve it; with an odd count measure from the " +
			"bolt's edge and add half the bolt."},
	{Name: "b_gap_mm", Type: fact.Fraction, Unit: "mm", Min: 1, Max: 40,
		Doc: "The wanted B-gap: tooth tip of the largest cog to tooth tip of the guide pulley, along the line through both " +
			"axes, chain on the largest cog.",
		How: "Read it from the manual, with the position of the suspension that it is meant for."},
	{Name: "b_gap_gauge_step_mm", Type: fact.Fraction, Unit: "mm", Min: 1, Max: 60,
		Doc: "The radial step between the two largest cogs that the maker's gauge is shaped for.",
		How: "Measure the gauge's step with a caliper, or take 2.02 mm for each tooth between the two largest cogs of the " +
			"cassette that it comes for."},
	{Name: "b_adjust", Type: fact.Choice, Choices: []string{"screw", "angle", "none"}, Default: new(fact.Word("screw")),
		Doc: "What sets the B-gap: a screw, the angle at which the derailleur is bolted on, or nothing; one whose mount is " +
			"full has nothing to set unless it says otherwise.",
		How: "Look for a screw that bears on the hanger behind the mounting bolt; derailleurs that clamp the frame have none."},
	{Name: "add_pitches", Type: fact.Fraction, Unit: "pitches", Min: 0, Max: 12,
		Doc: "The half-inch links to add to the bare length over the largest ring and the largest cog at the longest axle " +
			"distance; 2 is usual.",
		How: "Read the manual; a figure above 3 is most likely meant for the bicycle at rest and belongs in add_pitches_rest."},
	{Name: "add_pitches_rest", Type: fact.Fraction, Unit: "pitches", Min: 0, Max: 16,
		Doc: "The half-inch links to add to the bare length over the largest ring and the largest cog with the suspension at rest.",
		How: "Read the manual's figure for the unloaded bicycle, often given as 4 to 6."},
	{Name: "chain_pitches_wanted", Type: fact.Whole, Unit: "pitches", Min: 20, Max: 500,
		Doc: "The half-inch links that its maker's table gives for this frame, ring and chainstay; stated it is the count to cut, " +
			"for on a full mount the B-gap hangs on it.",
		How: "Look up the frame, or the chainstay and the ring, in the maker's table of chain lengths."},
	{Name: "mount", Type: fact.Choice, Choices: []string{"hanger", "direct", "full"},
		Doc: "How it is fixed: hanger by a bolt at the usual place, direct at the lower and more rearward place, full where " +
			"it clamps the frame at the axle.",
		How: "Look at the upper knuckle: one bolt is hanger, no knuckle above the bolt is direct, two arms round the dropout is full."},
	hangerOf("hanger", "The hanger or frame interface that it needs: fixed, replaceable, direct or universal.",
		"Read it from the manual; leave it out for a derailleur that takes any hanger with the usual thread."),
	mountTorque(),
	anchorTorque(),
	radio(),
	cellForm(),
	cellLimit(),
	{Name: "clutch", Type: fact.Choice, Choices: []string{"none", "fixed", "adjustable"},
		Doc: "Whether a clutch holds the cage back against chain slap, and whether its hold can be set.",
		How: "Push the cage forward by hand: one that resists much more going forward than back has a clutch."},
	{Name: "cage_lock", Type: fact.Flag,
		Doc: "Whether the cage can be locked forward to take the wheel out or thread the chain.",
		How: "Look for a button or a pin with a padlock sign on the cage's knuckle."},
	{Name: "rest_cog", Type: fact.Choice, Choices: []string{"smallest", "largest"}, Default: new(fact.Word("smallest")),
		Doc: "The cog to which the spring draws the pulley when the cable is slack: smallest is usual, largest is a reversed spring.",
		How: "Undo the cable and see at which end the pulley comes to rest."},
	{Name: "guide_pulley_float_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 4,
		Doc: "The side play of the guide pulley on its bolt, from end to end.",
		How: "Push the pulley to both sides and measure the difference with a caliper or a dial gauge."},
	{Name: "guide_offset_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 80,
		Doc: "The distance from the guide pulley's axis to the pivot about which the cage turns.",
		How: "Measure from the middle of the pulley's bolt to the middle of the cage's pivot; 0 where they are one."},
	{Name: "cage_length_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 160,
		Doc: "The distance from the axis of the guide pulley to the axis of the lower pulley.",
		How: "Measure with a caliper from bolt to bolt, centre to centre."},
	{Name: "pulley_narrow_wide", Type: fact.Flag,
		Doc: "Whether the pulleys have narrow and wide teeth in turn, which wants an even count.",
		How: "Look at the teeth of the lower pulley from the edge."},
	{Name: "pulley_thickness_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 5,
		Doc: "The thickness of the pulley's teeth where they go between the chain's plates.",
		How: "Measure a tooth with a caliper; a narrow tooth where they alternate."},
	{Name: "limit_stops", Type: fact.Choice, Choices: []string{"screws", "none"}, Default: new(fact.Word("screws")),
		Doc: "Whether limit screws stand between the mechanism and spokes and dropout: screws, or none; one whose mount is full has " +
			"none unless it says otherwise.",
		How: "Look for two small screws side by side on the body; derailleurs that clamp the frame have none."},
})

// RearShifter is the field table of what moves the rear derailleur: levers,
// twist grips and the controllers of motors.
var RearShifter = newKind("rear_shifter", "The lever, grip or controller on the bar that moves the rear derailleur.", []fact.Field{
	actuation(),
	{Name: "indexed", Type: fact.Flag, Default: new(fact.Truth(true)),
		Doc: "Whether it clicks from cog to cog; a friction shifter does not, and the rider sets the position by ear.",
		How: "Move it with the cable off: clicks at even places are an index."},
	{Name: "pull_mm", Type: fact.Fraction, Unit: "mm", Min: 0.5, Max: 12,
		Doc: "The cable that one click pulls, where it is the same at all clicks.",
		How: "Hold a ruler to the bare cable, measure from the first to the last click and divide by the clicks; leave the " +
			"first click out, it takes up slack."},
	{Name: "speeds", Type: fact.Whole, Min: 1, Max: 16,
		Doc: "The number of cogs that the shifter is sold for.",
		How: "Read it from the box or the lever; it is one more than its clicks."},
	{Name: "clicks", Type: fact.Whole, Min: 1, Max: maxSteps,
		Doc: "The number of clicks from one end to the other, one fewer than the cogs that it is made for.",
		How: "Count the clicks from the slack end to the other."},
	{Name: "pulls_mm", Type: fact.Fractions, Unit: "mm", Min: 0.5, Max: 12, Cap: maxSteps, Excludes: "pull_mm",
		Doc: "The cable that each click pulls, from the smallest cog inward, where they differ.",
		How: "Hold a ruler to the bare cable and read it after every click."},
	{Name: "first_pull_take_up_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 6,
		Doc: "The part of the first click's pull that only takes up slack and moves nothing.",
		How: "Measure the first click alone on the bare cable and take off what the others pull."},
	{Name: "pull_factor", Type: fact.Fraction, Min: 0.2, Max: 5,
		Doc: "What a pull converter makes of each millimetre of cable: a pulley adapter or another place of the anchor " +
			"bolt; 1 is none.",
		How: "Divide the cable that comes out of the converter by what goes in, or read it from its packet."},
	{Name: "barrel_lead_mm", Type: fact.Fraction, Unit: "mm", Min: 0.2, Max: 3,
		Doc: "The cable that one turn of the barrel adjuster gives or takes; screwing out tightens the cable.",
		How: "Turn the barrel ten times, measure how far it came out, and divide by ten."},
	{Name: "barrel_turns", Type: fact.Fraction, Min: 0, Max: 40,
		Doc: "The turns that the barrel adjuster has from fully in to as far out as is safe.",
		How: "Count the turns from fully in until five threads are left inside."},
	indexFamily("shifter, derailleur and cassette"),
	radio(),
	cellForm(),
	cellLimit(),
	clampDiameter(),
	{Name: "clamp_width_mm", Type: fact.Fraction, Unit: "mm", Min: 2, Max: 80,
		Doc: "The length of bar that its clamp covers, without a spacer.",
		How: "Measure the clamp along the bar with a caliper."},
	clampTorque("the clamp on the bar"),
	{Name: "spacer_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 30, Default: new(fact.Num(0)),
		Doc: "The spacer built into its clamp, which moves it inboard along the bar.",
		How: "Measure from the clamp's outer edge to where the next part on the bar may begin."},
	{Name: "single_step", Type: fact.Flag,
		Doc: "Whether it shifts by one cog at a time and no further, as motors that pull through the chain want.",
		How: "Push the lever as far as it goes: one click only is single."},
	integratedBrake(),
	brakeFluid("brake_fluid"),
	side(),
	barKind("The kind of bar or place that the shifter is made for"),
	sharesClamp(),
})

const linkDoc = "A link between hanger and derailleur that lowers it or brings it to the direct place."

// HangerLink is the field table of extenders between hanger and derailleur.
var HangerLink = newKind("hanger_link", linkDoc, []fact.Field{
	{Name: "drop_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 50,
		Doc: "How far it lowers the derailleur's bolt; positive is away from the axle, downward.",
		How: "Measure between the two bolt centres, along the line from the axle through the hanger's bolt."},
	{Name: "back_mm", Type: fact.Fraction, Unit: "mm", Min: -30, Max: 50,
		Doc: "How far it moves the derailleur's bolt rearward; positive is to the rear.",
		How: "Measure between the two bolt centres, square to the line from the axle through the hanger's bolt."},
	hangerOf("hanger", "The hanger that the link bolts to: fixed, replaceable or universal.",
		"Read it from the packet; leave it out for a link with the usual thread."),
	hangerOf("gives_hanger", "The hanger that the derailleur finds on the link, such as direct, where it is another one "+
		"than the link bolts to.",
		"Read on the packet which kind of derailleur the link is for; leave it out for a link that only lowers the derailleur."),
})

// ChainTensioner is the field table of what keeps the chain of one cog tight.
var ChainTensioner = newKind("chain_tensioner", "An arm with pulleys that keeps the chain of a single cog tight.", []fact.Field{
	{Name: "pulleys", Type: fact.Whole, Min: 1, Max: 2,
		Doc: "The pulleys that the chain runs over: one, or two in a cage as on a derailleur.",
		How: "Count them."},
	{Name: "capacity_t", Type: fact.Whole, Unit: "t", Min: 0, Max: 60,
		Doc: "The teeth of difference whose slack it can take up.",
		How: "Read it from the maker's sheet; most say nothing of it."},
})

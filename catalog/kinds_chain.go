package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// Cassette is the field table of cassettes, freewheels and single sprockets.
// Its lists run from the smallest cog towards the spokes.
var Cassette = newKind("cassette", "The cogs on the rear wheel: a cassette, a screwed-on freewheel or a single sprocket.", []fact.Field{
	{Name: "cogs_t", Type: fact.Wholes, Unit: "t", Min: 7, Max: 60, Cap: maxCogs, Required: true, Instead: "cog_count",
		Rising: true,
		Doc:    "The teeth of each cog, from the smallest to the largest.",
		How:    "Read the numbers stamped into the cogs, or count the teeth from a chalk mark round to itself."},
	{Name: "cog_count", Type: fact.Whole, Min: 1, Max: maxCogs,
		Doc: "The number of cogs, where nobody has counted their teeth.",
		How: "Count the cogs."},
	{Name: "pitch_mm", Type: fact.Fraction, Unit: "mm", Min: 2, Max: 8,
		Doc: "The distance from the middle of one cog to the middle of the next, where it is the same over all cogs.",
		How: "Measure with a caliper over the outer faces of the first and the last cog, take off one cog's thickness and " +
			"divide by the cogs less one."},
	{Name: "pitches_mm", Type: fact.Fractions, Unit: "mm", Min: 2, Max: 8, Cap: maxCogs - 1, OneLess: "cogs_t", Excludes: "pitch_mm",
		Doc: "The distance from the middle of each cog to the middle of the next, from the smallest cog inward, where they differ.",
		How: "Measure each spacer and each cog with a caliper; a pitch is one spacer and half of the cog on either side of it."},
	{Name: "cog_thickness_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 5,
		Doc: "The thickness of a cog at the root of its teeth.",
		How: "Measure the flat of a middle cog with a caliper, beside a tooth and not over a shifting ramp."},
	{Name: "stack_height_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 80,
		Doc: "The height of the stack, from the outer face of the smallest cog to the outer face of the largest, as a " +
			"caliper spans them.",
		How: "Measure with a caliper over both end cogs at the root of their teeth, without the lockring."},
	{Name: "mount_height_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 70,
		Doc: "The distance from the freehub's inner shoulder to the outer face of the smallest cog, with no spacer behind " +
			"the cassette.",
		How: "Push the cassette onto a freehub without its lockring, and measure from the shoulder to the smallest cog with " +
			"the depth rod of a caliper."},
	{Name: "height_class", Type: fact.Choice, Choices: []string{"7", "flat", "thin-10", "road-11"},
		Doc: "How high it stands, by the body and spacer that it is sold for: 7 on a body for 7 cogs, flat without a spacer " +
			"on one for 8 to 10, " +
			"thin-10 with a ring of 1.0 mm on one for 8 to 10, road-11 only on the longer body of road groups with 11.",
		How: "See which ring came in its box: 1.0 mm with 10 cogs is thin-10; eleven cogs up to 32 teeth are road-11, from " +
			"34 teeth flat."},
	{Name: "freehub", Type: fact.Names, Cap: 6, Known: bodyNames(),
		Doc: "The bodies that it is made for, by spline family, one or a list: spline-9, driver-10 and the like, thread-1.375 for a " +
			"freewheel, track-1.375 for a fixed cog, lug-3 for a cog of a geared hub.",
		How: "Count the splines in the bore and look at their depth; a coarse thread instead of splines is thread-1.375."},
	{Name: "fixed_cog", Type: fact.Flag,
		Doc: "Whether it is a fixed cog: one that is screwed to the hub and turns the cranks whenever the wheel turns.",
		How: "Turn it backwards on the wheel: a fixed cog takes the wheel with it."},
	rollerClass("The rollers that its teeth are cut for"),
	indexFamily("cogs, shifter and derailleur"),
	indexSets(),
	ridesSets(),
	{Name: "overhang_mm", Type: fact.Fraction, Unit: "mm", Min: -40, Max: 40,
		Doc: "How far the inner face of the largest cog stands inboard of the freehub's shoulder; positive is towards the spokes.",
		How: "Lay the cassette on its back over the edge of a table at the bore, and measure how far the largest cog hangs " +
			"below the bore's inner end."},
	{Name: "own_lockring_small_cog", Type: fact.Flag, Default: new(fact.Truth(false)),
		Doc: "Whether the smallest cog is made in one with its own lockring, so that it may be smaller than the body otherwise takes.",
		How: "Look at the smallest cog: one that screws into the body by itself is made in one with its lockring."},
	{Name: "spacer_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 20,
		Doc: "The thickness of the spacer that comes with the cassette to go behind it.",
		How: "Measure the loose ring in the box with a caliper; 0 where there is none."},
	assistRated("cassette"),
	{Name: "lockring_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc: "The torque marked on the lockring.",
		How: "Read it from the face of the lockring; most say 40 N m."},
})

// Chain is the field table of half-inch chains.
var Chain = newKind("chain", "The chain, of half an inch a pitch.", []fact.Field{
	{Name: "speeds", Type: fact.Whole, Min: 1, Max: 16,
		Doc: "The number of cogs that the chain is sold for.",
		How: "Read it from the box or from the code on the side plates."},
	{Name: "inner_width_mm", Type: fact.Fraction, Unit: "mm", Min: 1.2, Max: 6,
		Doc: "The free width between the two inner plates, where a tooth goes in.",
		How: "Measure between the inner plates with the inside jaws of a caliper, or try a feeler gauge."},
	{Name: "outer_width_mm", Type: fact.Fraction, Unit: "mm", Min: 3.5, Max: 14,
		Doc: "The widest the chain is, from pin end to pin end.",
		How: "Measure over the two ends of a pin with a caliper, at several pins, and take the largest."},
	{Name: "inner_class", Type: fact.Choice, Choices: []string{"eighth", "three-32", "eleven-128", "narrow", "five-32"},
		Doc: "The inner width by the name it is sold by: eighth 3.3 mm, three-32 2.4 mm, eleven-128 2.2 mm, narrow 1.75 mm, " +
			"five-32 4.0 mm.",
		How: "Read it from the box, where 1/8, 3/32, 11/128 or 5/32 stands beside 1/2; a drill shank of 2.0 mm does not go " +
			"into a narrow one."},
	{Name: "also_for", Type: fact.Wholes, Min: 1, Max: 16, Cap: 8, Rising: true,
		Doc: "Other numbers of cogs that its maker sells the chain for, beside speeds.",
		How: "Read it from the box, where several numbers are named, such as 6, 7 and 8."},
	{Name: "pitch_mm", Type: fact.Fraction, Unit: "mm", Min: 5, Max: 40,
		Doc: "The distance from roller to roller; leave it out for a chain of half an inch, which is 12.7 mm.",
		How: "Measure over ten links from pin to pin with the chain pulled straight, and divide by ten."},
	{Name: "half_links", Type: fact.Choice, Choices: []string{"all", "one"},
		Doc: "Whether it can be closed at an odd count: all where every link is cranked, one where a single cranked link is in it.",
		How: "Look for plates that are wide at one end and narrow at the other."},
	indexFamily("chain and cassette"),
	rollerClass("The rollers of the chain"),
	{Name: "extended_inner_plates", Type: fact.Flag,
		Doc: "Whether the inner plates reach inward beside the teeth, so that the chain wants rings shaped for it.",
		How: "Look along the chain: extended plates have shoulders that stand beyond the roller towards the teeth."},
	{Name: "directional", Type: fact.Flag,
		Doc: "Whether the chain must run in one direction or with one side outwards.",
		How: "Look for an arrow, or for a marking on one side only that the manual says must face outwards."},
	{Name: "pitches", Type: fact.Whole, Unit: "pitches", Min: 20, Max: 500,
		Doc: "The length as sold, in half-inch links: every roller counts as one.",
		How: "Read it from the box, or count the rollers; a connector that comes with it counts as one."},
	{Name: "strength_n", Type: fact.Fraction, Unit: "N", Min: 1000, Max: 30000,
		Doc: "The pull at which the chain may break, as its maker states it.",
		How: "Read it from the sheet or the box; 100 kgf are 981 newtons."},
	assistRated("chain"),
	{Name: "outer_link_gap_mm", Type: fact.Fraction, Unit: "mm", Min: 1.5, Max: 9,
		Doc: "The free width between the two outer plates, where the wide tooth of a narrow-wide ring goes in.",
		How: "Measure between the outer plates in the middle of a link with the inside jaws of a caliper."},
})

// ChainConnector is the field table of closing links.
var ChainConnector = newKind("chain_connector", "The link that closes the chain.", []fact.Field{
	{Name: "speeds", Type: fact.Whole, Min: 1, Max: 16,
		Doc: "The number of cogs that the connector is sold for.",
		How: "Read it from the packet or from the code on its plates."},
	{Name: "outer_width_mm", Type: fact.Fraction, Unit: "mm", Min: 3.5, Max: 14,
		Doc: "The width over its pins once it is closed.",
		How: "Measure over the pin ends of the closed connector with a caliper."},
	{Name: "directional", Type: fact.Flag,
		Doc: "Whether the connector must be fitted in one direction.",
		How: "Look for an arrow on its plates; it points the way the chain travels on its upper run."},
	{Name: "reusable", Type: fact.Flag,
		Doc: "Whether the connector may be opened and closed again.",
		How: "Read the packet; take one that says nothing as good for a single closing."},
	{Name: "used", Type: fact.Flag,
		Doc: "Whether this connector has been closed before.",
		How: "One that comes with its packet is new; one that comes with a chain off a bicycle has been closed."},
})

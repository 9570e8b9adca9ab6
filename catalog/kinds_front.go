package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// FrontDerailleur is the field table of front derailleurs.
var FrontDerailleur = newKind("front_derailleur", "The cage that moves the chain from ring to ring.", []fact.Field{
	actuation(),
	{Name: "max_ring_t", Type: fact.Whole, Unit: "t", Min: 14, Max: 80,
		Doc: "The largest ring that the cage's curve is made for.",
		How: "Read it from the maker's sheet, or from the mark inside the cage."},
	{Name: "capacity_t", Type: fact.Whole, Unit: "t", Min: 0, Max: 40,
		Doc: "The largest difference between the rings that the cage can span.",
		How: "Read it from the maker's sheet as capacity."},
	{Name: "cage_width_mm", Type: fact.Fraction, Unit: "mm", Min: 5, Max: 30,
		Doc: "The free width between the cage's plates where the chain runs.",
		How: "Measure between the plates with the inside jaws of a caliper, at the front of the cage."},
	{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 25, Max: 80,
		Doc: "The chainline that it is made for, from the frame's middle plane to the middle of the rings.",
		How: "Read it from the maker's sheet."},
	{Name: "pulls_mm", Type: fact.Fractions, Unit: "mm", Min: 1, Max: 40, Cap: maxRings - 1,
		Doc: "The cable that it wants for each change of ring, from the smallest ring outward.",
		How: "Pull the bare cable by hand from ring to ring and measure it each time."},
	radio(),
})

// FrontShifter is the field table of what moves the front derailleur.
var FrontShifter = newKind("front_shifter", "The lever, grip or controller on the bar that moves the front derailleur.", []fact.Field{
	actuation(),
	{Name: "indexed", Type: fact.Flag,
		Doc: "Whether it clicks from ring to ring; a friction shifter does not.",
		How: "Move it with the cable off and feel for clicks."},
	{Name: "pulls_mm", Type: fact.Fractions, Unit: "mm", Min: 1, Max: 40, Cap: maxRings - 1,
		Doc: "The cable that it pulls for each change of ring, from the smallest ring outward.",
		How: "Hold a ruler to the bare cable and read it after every change."},
	radio(),
	clampDiameter(),
})

// Crankset is the field table of cranks with their rings. Its rings are sorted,
// largest first, and their offsets with them.
var Crankset = newKind("crankset", "The cranks and the rings that come with them.", append([]fact.Field{
	{Name: "rings_t", Type: fact.Wholes, Unit: "t", Min: 10, Max: 80, Cap: maxRings, Required: true, Sorted: true,
		Doc: "The teeth of each ring, in any order; they are kept largest first.",
		How: "Read the numbers stamped into the rings, or count the teeth from a chalk mark round to itself."},
	{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 90,
		Doc: "The distance from the frame's middle plane to the middle of the rings: a single ring's own line, half-way " +
			"between two, the middle one of three.",
		How: "Measure from the middle of the seat tube to the ring's middle: half the tube's diameter and the gap from its " +
			"side to the ring's teeth."},
	{Name: "ring_offset_mm", Type: fact.Fractions, Unit: "mm", Min: -25, Max: 25, Cap: maxRings,
		Doc: "Each ring's line less chainline_mm, in the order in which rings_t is written; positive is outboard. The offset " +
			"number of direct-mount rings counts the other way and is already inside a stated chainline.",
		How: "Measure the distance between neighbouring rings, tooth to tooth; with two rings half of it goes to either " +
			"side, plus outside and minus inside."},
	{Name: "spindle", Type: fact.Name,
		Doc: "The spindle that the cranks are made for or come with.",
		How: "Read it from the maker's sheet; give each standard one short name, such as square-taper or through-24."},
	{Name: "length_mm", Type: fact.Fraction, Unit: "mm", Min: 80, Max: 220,
		Doc: "The length of a crank, from the spindle's middle to the pedal's.",
		How: "Read it from the inner side of the crank, or measure centre to centre."},
}, ringFields()...))

// Chainring is the field table of a ring bought by itself, which takes the
// place of the crankset's own.
var Chainring = newKind("chainring", "A ring of its own, to be bolted to a crankset.", append([]fact.Field{
	{Name: "rings_t", Type: fact.Wholes, Unit: "t", Min: 10, Max: 80, Cap: maxRings, Sorted: true,
		Doc: "The teeth of the ring, or of each ring of a set; they are kept largest first.",
		How: "Read the number stamped into the ring, or count the teeth from a chalk mark round to itself."},
}, ringFields()...))

// ringFields gives the fields that say what the teeth of a ring are like.
func ringFields() []fact.Field {
	return []fact.Field{
		{Name: "ring_thickness_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 5,
			Doc: "The thickness of the teeth that go between the inner plates: the narrow tooth of a narrow-wide ring.",
			How: "Measure a tooth near its root with a caliper; on a narrow-wide ring a narrow one."},
		{Name: "wide_tooth_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 7,
			Doc: "The thickness of the wide tooth of a narrow-wide ring.",
			How: "Measure a wide tooth near its root with a caliper."},
		rollerClass("The rollers that its teeth are cut for"),
		{Name: "extended_inner_plates", Type: fact.Flag,
			Doc: "Whether the ring is shaped for a chain with extended inner plates.",
			How: "Read it from the ring or its sheet; rings made before such chains are not."},
		{Name: "narrow_wide", Type: fact.Flag,
			Doc: "Whether narrow and wide teeth stand in turn to hold the chain without a guide.",
			How: "Look at the teeth from the edge."},
		{Name: "oval_percent", Type: fact.Fraction, Unit: "percent", Min: 0, Max: 40,
			Doc: "How much longer the long axis of an oval ring is than its short one; 0 is round.",
			How: "Measure both axes over the tooth tips and divide their difference by the shorter."},
		{Name: "bolt_circle_mm", Type: fact.Fraction, Unit: "mm", Min: 30, Max: 180,
			Doc: "The diameter of the circle on which the ring bolts stand.",
			How: "Measure from one bolt to the next, centre to centre: times 1.701 with five bolts, times 1.414 with four."},
	}
}

// BottomBracket is the field table of the bearing between frame and spindle.
var BottomBracket = newKind("bottom_bracket", "The bearing that carries the crank's spindle in the frame.", []fact.Field{
	{Name: "shell", Type: fact.Name,
		Doc: "The shell that it fits, thread or bore with its width.",
		How: "Read the standard from its cups or box; give each one short name, the same on frame and bearing."},
	{Name: "spindle", Type: fact.Name,
		Doc: "The spindle that it takes or comes with.",
		How: "Read the standard from its box; give each one short name, the same on crankset and bearing."},
})

// ChainGuide is the field table of guides that keep the chain on a ring.
var ChainGuide = newKind("chain_guide", "A guide that keeps the chain on its ring.", []fact.Field{
	{Name: "ring_min_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 80,
		Doc: "The smallest ring that the guide takes.",
		How: "Read it from the guide's sheet."},
	{Name: "ring_max_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 80,
		Doc: "The largest ring that the guide takes.",
		How: "Read it from the guide's sheet."},
	{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 90,
		Doc: "The chainline that the guide is set for, from the frame's middle plane.",
		How: "Measure from the middle of the seat tube to the middle of the guide's slot."},
})

package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// frontMounts are the ways to fix a front derailleur, the same on cage and frame.
var frontMounts = []string{"clamp", "braze-on", "direct-low", "direct-high", "bearing-plate"}

// FrontDerailleur is the field table of front derailleurs.
var FrontDerailleur = newKind("front_derailleur", "The cage that moves the chain from ring to ring.", []fact.Field{
	actuation(),
	{Name: "max_ring_t", Type: fact.Whole, Unit: "t", Min: 14, Max: 80,
		Doc:    "The largest ring that the cage's curve is made for.",
		How:    "Read it from the maker's sheet, or from the mark inside the cage.",
		Effort: fact.Low, Also: []string{"maximum ring", "largest ring", "max chainring", "maximum chainring",
			"largest chainring"}},
	{Name: "capacity_t", Type: fact.Whole, Unit: "t", Min: 0, Max: 40,
		Doc:    "The largest difference between the rings that the cage can span.",
		How:    "Read it from the maker's sheet as capacity.",
		Effort: fact.Low, Also: []string{"total capacity", "ring difference", "chainring difference"}},
	{Name: "cage_width_mm", Type: fact.Fraction, Unit: "mm", Min: 5, Max: 30,
		Doc:    "The free width between the cage's plates where the chain runs.",
		How:    "Measure between the plates with the inside jaws of a caliper, at the front of the cage.",
		Effort: fact.Some, Also: []string{"inside cage width"}},
	{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 25, Max: 80,
		Doc:    "The chainline that it is made for, from the frame's middle plane to the middle of the rings.",
		How:    "Read it from the maker's sheet.",
		Effort: fact.Low},
	{Name: "pulls_mm", Type: fact.Fractions, Unit: "mm", Min: 1, Max: 40, Cap: maxRings - 1,
		Doc:    "The cable that it wants for each change of ring, from the smallest ring outward.",
		How:    "Pull the bare cable by hand from ring to ring and measure it each time.",
		Effort: fact.Some, Also: []string{"cable pull", "cable travel"}},
	pullClass(),
	radio(),
	{Name: "mount", Type: fact.Choice, Choices: frontMounts,
		Doc: "How it is fixed: clamp by a band round the seat tube, braze-on to a tab on it, direct-low or direct-high by two screws into the " +
			"frame, bearing-plate between shell and bearing cup.",
		How:    "Look at what holds it: a ring round the tube, one bolt on a tab, two screws side by side, or a plate behind the cup.",
		Effort: fact.Low, Also: []string{"mounting", "band clamp", "band on", "direct mount"}},
	{Name: "clamp_diameter_mm", Type: fact.Fraction, Unit: "mm", Min: 15, Max: 50,
		Doc:    "The diameter of the seat tube that its band is made for: 28.6, 31.8 and 34.9 mm are usual.",
		How:    "Read it from the inside of the band, or close the band and measure it with a caliper.",
		Effort: fact.Some, Also: []string{"band diameter", "band size", "clamp size", "seat tube diameter"}},
	{Name: "hole_spacing_mm", Type: fact.Fraction, Unit: "mm", Min: 10, Max: 80,
		Doc:    "The distance between the two screws of a direct mount, along the tube.",
		How:    "Measure from middle to middle of the screws: 42.7 and 22.1 mm are usual.",
		Effort: fact.Some, Also: []string{"bolt spacing", "screw spacing"}},
	{Name: "hole_step_mm", Type: fact.Fraction, Unit: "mm", Min: -20, Max: 20,
		Doc:    "How far the upper screw of a direct mount stands out from the frame beyond the lower; 0 where both faces are level.",
		How:    "Lay a straightedge on the face of the lower screw and measure the step to the upper.",
		Effort: fact.Some},
	{Name: "cable_from", Type: fact.Choice, Choices: []string{"top", "bottom", "front", "any"},
		Doc:    "The side from which it wants its cable: top, bottom, front, or any where it takes them all.",
		How:    "Look at the anchor bolt and at the groove that leads the cable to it.",
		Effort: fact.Low, Also: []string{"cable routing", "top pull", "bottom pull", "down pull", "dual pull", "pull direction"}},
	{Name: "swing", Type: fact.Choice, Choices: []string{"top", "bottom", "side"},
		Doc: "Where the pivots stand: top where the cage swings above the clamp's arms, bottom where the clamp sits above the cage, " +
			"side where the cage moves forward of the tube.",
		How:    "Look whether the clamp stands lower than the pivots, higher than the cage, or behind it.",
		Effort: fact.Low, Also: []string{"top swing", "bottom swing", "down swing", "side swing"}},
	{Name: "cage", Type: fact.Choice, Choices: []string{"closed", "screwed"},
		Doc:    "How the tail of the cage is held together: closed by a rivet, so that an open chain must be threaded through it, or screwed.",
		How:    "Look at the tail of the cage: a screw head opens it.",
		Effort: fact.Low, Also: []string{"cage screw"}},
	{Name: "rings", Type: fact.Whole, Min: 2, Max: 3,
		Doc:    "The number of rings that the cage is made for.",
		How:    "Read it from the sheet; a cage for three has an inner plate that reaches much lower than the outer.",
		Effort: fact.Low, Also: []string{"double", "triple", "number of rings", "number of chainrings"}},
	{Name: "min_difference_t", Type: fact.Whole, Unit: "t", Min: 0, Max: 40,
		Doc:    "The least difference between the largest ring and the next that the step of the cage's plates is made for.",
		How:    "Read it from the maker's sheet, where it stands as the least difference of top and middle.",
		Effort: fact.Low, Also: []string{"minimum difference", "middle difference"}},
	mountTorque(),
	anchorTorque(),
})

// FrontShifter is the field table of what moves the front derailleur.
var FrontShifter = newKind("front_shifter", "The lever, grip or controller on the bar that moves the front derailleur.", []fact.Field{
	actuation(),
	{Name: "indexed", Type: fact.Flag,
		Doc:    "Whether it clicks from ring to ring; a friction shifter does not.",
		How:    "Move it with the cable off and feel for clicks.",
		Effort: fact.Some, Also: []string{"friction", "friction shifting", "click shifting", "indexing"}},
	{Name: "pulls_mm", Type: fact.Fractions, Unit: "mm", Min: 1, Max: 40, Cap: maxRings - 1,
		Doc:    "The cable that it pulls for each change of ring, from the smallest ring outward.",
		How:    "Hold a ruler to the bare cable and read it after every change.",
		Effort: fact.Some, Also: []string{"cable pull", "cable travel"}},
	pullClass(),
	radio(),
	clampDiameter(),
	clampTorque("the clamp on the bar"),
	integratedBrake(),
	brakeFluid("brake_fluid"),
	side(),
	barKind("The kind of bar or place that the shifter is made for"),
	sharesClamp(),
})

// Crankset is the field table of cranks with their rings. Its rings are sorted,
// largest first, and their offsets with them.
var Crankset = newKind("crankset", "The cranks and the rings that come with them.", append([]fact.Field{
	{Name: "rings_t", Type: fact.Wholes, Unit: "t", Min: 10, Max: 80, Cap: maxRings, Required: true, Instead: "speeds",
		Sorted: true,
		Doc:    "The teeth of each ring, in any order; they are kept largest first.",
		How:    "Read the numbers stamped into the rings, or count the teeth from a chalk mark round to itself.",
		Effort: fact.Low, Also: []string{"chainring", "chainwheel", "chainring size", "teeth", "granny ring", "granny gear",
			"inner ring", "middle ring", "outer ring", "big ring", "small ring", "front sprocket"}},
	{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 90,
		Doc: "The distance from the frame's middle plane to the middle of the rings: a single ring's own line, half-way " +
			"between two, the middle one of three.",
		How: "Measure from the middle of the seat tube to the ring's middle: half the tube's diameter and the gap from its " +
			"side to the ring's teeth.",
		Effort: fact.Some},
	{Name: "ring_offset_mm", Type: fact.Fractions, Unit: "mm", Min: -25, Max: 25, Cap: maxRings,
		Doc: "Each ring's line less chainline_mm, in the order in which rings_t is written; positive is outboard. The offset " +
			"number of direct-mount rings counts the other way and is already inside a stated chainline.",
		How: "Measure the distance between neighbouring rings, tooth to tooth; with two rings half of it goes to either " +
			"side, plus outside and minus inside.",
		Effort: fact.Some, Also: []string{"chainring offset", "ring spacing", "chainring spacing"}},
	{Name: "speeds", Type: fact.Whole, Min: 1, Max: 16,
		Doc:    "The number of cogs whose chain the rings are made for.",
		How:    "Read it from the rings' inner side or the sheet.",
		Effort: fact.Low, Also: []string{"gears", "number of gears"}},
	{Name: "spindle", Type: fact.Name, Known: spindleNames(),
		Doc:    "The spindle that the cranks are made for or come with.",
		How:    "Read it from the maker's sheet; give each standard one short name, such as square-taper or through-24.",
		Effort: fact.Low, Also: []string{"axle", "crank axle", "crank spindle", "taper", "bottom bracket axle",
			"bottom bracket spindle", "bb axle", "bb spindle"}},
	spindleLength("that the cranks are made for or come with"),
	{Name: "shell_width_mm", Type: fact.Fractions, Unit: "mm", Min: 40, Max: 160, Cap: 6, Rising: true,
		Doc:    "The widths of shells that its own spindle is made for, from the narrowest.",
		How:    "Read them from the crank's sheet, such as 68 and 73.",
		Effort: fact.Low, Also: []string{"bottom bracket width", "bb width", "bb shell width"}},
	{Name: "crank_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc:    "The torque of the bolts that hold the crank arms.",
		How:    "Read it from the arm beside the bolt, or from the manual.",
		Effort: fact.Low, Also: []string{"crank bolt", "crank arm bolt"}},
	{Name: "length_mm", Type: fact.Fraction, Unit: "mm", Min: 80, Max: 220,
		Doc:    "The length of a crank, from the spindle's middle to the pedal's.",
		How:    "Read it from the inner side of the crank, or measure centre to centre.",
		Effort: fact.Low, Also: []string{"crank length", "arm length", "crank arm length"}},
}, ringFields()...))

// Chainring is the field table of a ring bought by itself, which takes the
// place of the crankset's own.
var Chainring = newKind("chainring", "A ring of its own, to be bolted to a crankset.", append([]fact.Field{
	{Name: "rings_t", Type: fact.Wholes, Unit: "t", Min: 10, Max: 80, Cap: maxRings, Sorted: true,
		Doc:    "The teeth of the ring, or of each ring of a set; they are kept largest first.",
		How:    "Read the number stamped into the ring, or count the teeth from a chalk mark round to itself.",
		Effort: fact.Low, Also: []string{"chainring", "chainwheel", "chainring size", "ring size", "teeth", "granny ring"}},
}, ringFields()...))

// ringFields gives the fields of a ring but for its teeth's number.
func ringFields() []fact.Field { return append(toothFields(), boltFields()...) }

// toothFields say what the teeth of a ring are like.
func toothFields() []fact.Field {
	return []fact.Field{
		{Name: "ring_thickness_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 5,
			Doc:    "The thickness of the teeth that go between the inner plates: the narrow tooth of a narrow-wide ring.",
			How:    "Measure a tooth near its root with a caliper; on a narrow-wide ring a narrow one.",
			Effort: fact.Some, Also: []string{"chainring thickness", "chainring width", "ring width", "tooth thickness"}},
		{Name: "wide_tooth_mm", Type: fact.Fraction, Unit: "mm", Min: 0.8, Max: 7,
			Doc:    "The thickness of the wide tooth of a narrow-wide ring.",
			How:    "Measure a wide tooth near its root with a caliper.",
			Effort: fact.Some},
		rollerClass("The rollers that its teeth are cut for"),
		{Name: "extended_inner_plates", Type: fact.Flag,
			Doc:    "Whether the ring is shaped for a chain with extended inner plates.",
			How:    "Read it from the ring or its sheet; rings made before such chains are not.",
			Effort: fact.Low},
		{Name: "narrow_wide", Type: fact.Flag,
			Doc:    "Whether narrow and wide teeth stand in turn to hold the chain without a guide.",
			How:    "Look at the teeth from the edge.",
			Effort: fact.Low, Also: []string{"thick thin", "alternating teeth"}},
		{Name: "oval_percent", Type: fact.Fraction, Unit: "percent", Min: 0, Max: 40,
			Doc:    "How much longer the long axis of an oval ring is than its short one; 0 is round.",
			How:    "Measure both axes over the tooth tips and divide their difference by the shorter.",
			Effort: fact.Some, Also: []string{"oval ring", "oval chainring", "ovality", "elliptical", "elliptical ring"}},
	}
}

// boltFields say what holds a ring.
func boltFields() []fact.Field {
	return []fact.Field{
		{Name: "bolt_circle_mm", Type: fact.Fraction, Unit: "mm", Min: 30, Max: 180,
			Doc: "The diameter of the circle on which the ring bolts stand.",
			How: "Measure from one bolt to the next, centre to centre: times 1.155 with three bolts, times 1.701 with five; " +
				"with four measure across to the opposite one.",
			Effort: fact.Some, Also: []string{"bcd", "bolt circle diameter", "pcd", "pitch circle diameter"}},
		{Name: "inner_bolt_circle_mm", Type: fact.Fraction, Unit: "mm", Min: 30, Max: 180,
			Doc:    "The diameter of the second circle, on which the bolts of the innermost ring stand.",
			How:    "Measure as for bolt_circle_mm, on the inner ring's bolts; leave it out where all rings share one circle.",
			Effort: fact.Some, Also: []string{"inner bcd", "granny bcd"}},
		{Name: "bolts", Type: fact.Whole, Min: 1, Max: 12,
			Doc:    "The number of bolts that hold the ring.",
			How:    "Count them, one that is hidden behind the arm as well.",
			Effort: fact.Low, Also: []string{"number of bolts", "bolt count", "spider", "spider arm"}},
		{Name: "bolt_pattern", Type: fact.Name, Known: patternNames(),
			Doc:    "How the bolts stand: even, asymmetric where the distances differ, or direct for a ring that sits on the arm's own splines.",
			How:    "Measure from each bolt to the next: all alike is even; no bolt circle at all is direct.",
			Effort: fact.Low, Also: []string{"spider", "direct mount"}},
		{Name: "direct_name", Type: fact.Name,
			Doc:    "The interface of a direct ring, by one short name that is the same on crank and ring.",
			How:    "Read it from the sheets of crank and ring; count the splines or screws where they do not say.",
			Effort: fact.Low, Also: []string{"direct mount"}},
		{Name: "ring_bolt_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
			Doc:    "The torque of the ring's bolts, or of the lockring of a direct ring.",
			How:    "Read it from the bolt's head or the manual.",
			Effort: fact.Low, Also: []string{"ring bolt", "chainring bolt"}},
	}
}

// BottomBracket is the field table of the bearing between frame and spindle.
var BottomBracket = newKind("bottom_bracket", "The bearing that carries the crank's spindle in the frame.", []fact.Field{
	{Name: "shell", Type: fact.Name, Known: shellNames(),
		Doc:    "The shell that it fits, thread or bore with its width.",
		How:    "Read the standard from its cups or box; give each one short name, the same on frame and bearing.",
		Effort: fact.Low, Also: []string{"bottom bracket shell", "bb shell", "bottom bracket standard", "bb standard",
			"bottom bracket thread", "bb thread"}},
	{Name: "spindle", Type: fact.Name, Known: spindleNames(),
		Doc:    "The spindle that it takes or comes with.",
		How:    "Read the standard from its box; give each one short name, the same on crankset and bearing.",
		Effort: fact.Low, Also: []string{"axle", "crank axle", "crank spindle", "taper", "bottom bracket axle", "bb axle"}},
	spindleLength("that it comes with"),
	{Name: "cup_torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0.5, Max: 80,
		Doc:    "The torque of its threaded cups; a bearing that is pressed in has none.",
		How:    "Read it from the cup's face or the manual.",
		Effort: fact.Low, Also: []string{"cup", "bottom bracket torque", "bb torque"}},
})

func spindleLength(of string) fact.Field {
	return fact.Field{Name: "spindle_length_mm", Type: fact.Fraction, Unit: "mm", Min: 60, Max: 200,
		Doc:    "The length of the spindle " + of + ", from end to end.",
		How:    "Measure the bare spindle with a caliper from end to end, or read it from the bearing or the sheet.",
		Effort: fact.Some, Also: []string{"axle length", "bottom bracket axle length", "bb axle length"}}
}

// ChainGuide is the field table of guides that keep the chain on a ring.
var ChainGuide = newKind("chain_guide", "A guide that keeps the chain on its ring.", []fact.Field{
	{Name: "ring_min_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 80,
		Doc:    "The smallest ring that the guide takes.",
		How:    "Read it from the guide's sheet.",
		Effort: fact.Low, Also: []string{"minimum ring", "smallest ring", "min chainring", "minimum chainring",
			"smallest chainring"}},
	{Name: "ring_max_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 80,
		Doc:    "The largest ring that the guide takes.",
		How:    "Read it from the guide's sheet.",
		Effort: fact.Low, Also: []string{"maximum ring", "largest ring", "max chainring", "maximum chainring",
			"largest chainring"}},
	{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 90,
		Doc:    "The chainline that the guide is set for, from the frame's middle plane.",
		How:    "Measure from the middle of the seat tube to the middle of the guide's slot.",
		Effort: fact.Some},
})

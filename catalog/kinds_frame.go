package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// Hub is the field table of rear hubs. The locknut face that it speaks of is
// the face that touches the inside of the dropout: on stepped ends such as 142,
// 148 and 157 mm that is the outer step.
var Hub = newKind("hub", "The rear hub with the body that the cogs sit on.", []fact.Field{
	{Name: "kind_of_hub", Type: fact.Choice, Choices: []string{"cassette", "freewheel", "internal", "fixed"},
		Doc: "What the cogs sit on: a body for cassettes, a thread for a freewheel, a geared hub, or a thread without a freewheel.",
		How: "Take the cogs off and look: splines are cassette, a thread freewheel or fixed, a cog held by a wire ring internal."},
	freehub("The spline family of its body: spline-9, spline-9-deep, spline-8, spline-8-deep, driver-10, driver-10-long, "+
		"spline-23, or thread-1.375.",
		"Count the splines of the body and look at their depth; its length is said apart, in body_length_mm."),
	{Name: "body_length_mm", Type: fact.Fraction, Unit: "mm", Min: 5, Max: 70,
		Doc: "The length of the freehub's splines, from the inner shoulder to the outer end.",
		How: "Measure with the depth rod of a caliper from the outer end of the body to the shoulder."},
	{Name: "min_cog_t", Type: fact.Whole, Unit: "t", Min: 7, Max: 24,
		Doc: "The smallest cog that goes on the body: 11 on nine splines, 10 on most drivers.",
		How: "Read it from the hub's sheet."},
	overLocknut("The distance over the two locknut faces, which touch the insides of the dropouts."),
	axle(),
	{Name: "smallest_cog_inset_mm", Type: fact.Fraction, Unit: "mm", Min: -5, Max: 60,
		Doc: "The distance from the drive-side locknut face to the middle of the smallest cog; positive is inboard of the face.",
		How: "Lay a straightedge on the drive-side locknut face, measure the depth to the smallest cog's outer face, and add half a cog."},
	{Name: "shoulder_inset_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 90,
		Doc: "The distance from the drive-side locknut face to the freehub's inner shoulder; positive is inboard of the face.",
		How: "Take the cassette off, lay a straightedge on the drive-side locknut face and measure the depth to the shoulder."},
	{Name: "spoke_clearance_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 60,
		Doc: "The room from the freehub's inner shoulder to the nearest spoke or flange at the radius of the largest cog.",
		How: "Hold a ruler to the shoulder's plane and measure the depth to the spokes at the height of the largest cog."},
})

// Frame is the field table of frames.
var Frame = newKind("frame", "The frame, with its rear suspension if it has one.", []fact.Field{
	{Name: "chainstay_mm", Type: fact.Fraction, Unit: "mm", Min: 250, Max: 700,
		Doc: "The distance from the crank's axis to the rear axle, centre to centre, with the suspension at rest, fully extended.",
		How: "Measure centre to centre along the chainstay with the bicycle off the ground; say the position if it stood on its wheels."},
	{Name: "chain_growth_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 100,
		Doc: "The most that the axle distance grows over the suspension's travel beyond chainstay_mm; 0 on a rigid frame.",
		How: "Let the air out, move the wheel through its travel and measure the longest axle distance; take off that at rest."},
	{Name: "growth_at_sag_mm", Type: fact.Fraction, Unit: "mm", Min: -50, Max: 100,
		Doc: "The axle distance with the rider's weight on less that at rest; positive is longer.",
		How: "Measure centre to centre with the rider seated, and take off the distance at rest."},
	{Name: "rear_suspension", Type: fact.Choice, Choices: []string{"none", "sprung"},
		Doc: "Whether the rear wheel is sprung; none stands for no chain growth.",
		How: "Look for a shock between the front and the rear of the frame."},
	{Name: "idler_t", Type: fact.Whole, Unit: "t", Min: 8, Max: 40,
		Doc: "The teeth of an idler that the upper run of the chain goes over; stating it means that length and angles are " +
			"to be measured on the bicycle.",
		How: "Count the teeth of the pulley above or behind the ring; leave it out where there is none."},
	{Name: "hanger", Type: fact.Name,
		Doc: "What the derailleur is bolted to: fixed, replaceable, direct or universal.",
		How: "Look at the dropout: one with the frame is fixed, one with its own screws replaceable; universal is the shape " +
			"that any maker may build."},
	overLocknut("The distance between the insides of the rear dropouts."),
	axle(),
	{Name: "shell", Type: fact.Name,
		Doc: "The shell of the bottom bracket, thread or bore with its width.",
		How: "Measure the shell's width and bore, and give each standard one short name, the same on frame and bearing."},
	{Name: "max_ring_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 90,
		Doc: "The largest ring that clears the chainstay.",
		How: "Read it from the frame's sheet, or measure from the crank's axis to the chainstay at the ring's line."},
	{Name: "use", Type: fact.Choice, Choices: []string{"adult", "sidewalk"},
		Doc: "The class of bicycle by which the chain's strength is judged: adult, or sidewalk for a small child's bicycle.",
		How: "A seat no higher than 635 mm at its highest setting makes a sidewalk bicycle, by 16 CFR 1512.2."},
	{Name: "assist", Type: fact.Choice, Choices: []string{"none", "mid", "hub"},
		Doc: "Where a motor helps: none, mid at the crank so that it pulls through the chain, or hub in a wheel.",
		How: "Look for the motor."},
	{Name: "assist_nm", Type: fact.Fraction, Unit: "N m", Min: 0, Max: 250,
		Doc: "The largest torque of the motor at the crank.",
		How: "Read it from the motor's sheet."},
})

// Wheel is the field table of the rear rim and tyre.
var Wheel = newKind("wheel", "The rear rim and tyre.", []fact.Field{
	{Name: "bead_seat_mm", Type: fact.Fraction, Unit: "mm", Min: 200, Max: 700,
		Doc: "The diameter on which the tyre's bead sits, the second number of the tyre's size, such as 622.",
		How: "Read the size on the tyre's side: in 47-622 it is 622."},
	{Name: "tyre_width_mm", Type: fact.Fraction, Unit: "mm", Min: 15, Max: 140,
		Doc: "The width of the tyre.",
		How: "Measure the pumped tyre with a caliper, or read the first number of its size: in 47-622 it is 47."},
})

// Cockpit is the field table of the handlebar and the room on it.
var Cockpit = newKind("cockpit", "The handlebar and the room that is left on it.", []fact.Field{
	clampDiameter(),
	{Name: "free_bar_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 500,
		Doc: "The length of bar that is free for the shifter's clamp, between the grip or brake lever and the next part or the bend.",
		How: "Measure along the bar on the rear shifter's side, with the brake lever where the rider wants it."},
})

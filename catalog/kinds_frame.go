package catalog

import (
	"slices"

	"example.org/cogcourt/rules/fact"
)

// Hub is the field table of rear hubs. The locknut face that it speaks of is
// the face that touches the inside of the dropout: on stepped ends such as 142,
// 148 and 157 mm that is the outer step.
var Hub = newKind("hub", "The rear hub with the body that the cogs sit on.", []fact.Field{
	{Name: "kind_of_hub", Type: fact.Choice, Choices: []string{"cassette", "freewheel", "internal", "fixed"},
		Doc:    "What the cogs sit on: a body for cassettes, a thread for a freewheel, a geared hub, or a thread without a freewheel.",
		How:    "Take the cogs off and look: splines are cassette, a thread freewheel or fixed, a cog held by a wire ring internal.",
		Effort: fact.Some, Also: []string{"hub type", "cassette hub", "freewheel hub", "fixed hub", "single speed", "fixed gear",
			"hub gear", "geared hub", "gear hub", "internal gear hub"}},
	{Name: "freehub", Type: fact.Name, Known: bodyNames(),
		Doc: "The spline family of its body, such as spline-9 or driver-10; thread-1.375 for a freewheel, track-1.375 for a " +
			"fixed cog, " +
			"lug-3 for the cogs of a geared hub.",
		How:    "Count the splines of the body and look at their depth; its length is said apart, in body_length_mm or body_class.",
		Effort: fact.Some, Also: []string{"freehub body", "free body", "freewheel body", "cassette body", "driver", "driver body",
			"spline pattern"}},
	{Name: "bodies", Type: fact.Names, Cap: 12, Known: bodyNames(),
		Doc:    "The bodies that the hub's maker sells for it, by spline family.",
		How:    "Read in the hub's sheet which bodies can be fitted to it.",
		Effort: fact.Low},
	{Name: "body_class", Type: fact.Choice, Choices: []string{"7", "8-10", "road-11"},
		Doc:    "The length of the freehub body by the cogs that it is made for: 7 is 31 mm, 8-10 34.95 mm, road-11 36.75 mm.",
		How:    "Read it from the hub's sheet, or measure the splines with the depth rod of a caliper.",
		Effort: fact.Low, Also: []string{"freehub length", "freehub body length"}},
	{Name: "body_length_mm", Type: fact.Fraction, Unit: "mm", Min: 5, Max: 70,
		Doc:    "The length of the freehub's splines, from the inner shoulder to the outer end.",
		How:    "Measure with the depth rod of a caliper from the outer end of the body to the shoulder.",
		Effort: fact.Much, Also: []string{"freehub length", "freehub body length", "spline length"}},
	{Name: "min_cog_t", Type: fact.Whole, Unit: "t", Min: 7, Max: 24,
		Doc:    "The smallest cog that goes on the body: 11 on nine splines, 10 on most drivers.",
		How:    "Read it from the hub's sheet.",
		Effort: fact.Low, Also: []string{"smallest cog", "minimum cog", "smallest sprocket", "min sprocket", "minimum sprocket"}},
	overLocknut("The distance over the two locknut faces, which touch the insides of the dropouts.",
		"hub spacing", "hub width", "end cap"),
	axle(),
	{Name: "smallest_cog_inset_mm", Type: fact.Fraction, Unit: "mm", Min: -5, Max: 60,
		Doc: "The distance from the drive-side locknut face to the middle of the smallest cog; positive is inboard of the face.",
		How: "Lay a straightedge on the drive-side locknut face, measure the depth to the smallest cog's outer face, and " +
			"add half a cog.",
		Effort: fact.Some},
	{Name: "shoulder_inset_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 90,
		Doc:    "The distance from the drive-side locknut face to the freehub's inner shoulder; positive is inboard of the face.",
		How:    "Take the cassette off, lay a straightedge on the drive-side locknut face and measure the depth to the shoulder.",
		Effort: fact.Much},
	{Name: "spoke_clearance_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 60,
		Doc:    "The room from the freehub's inner shoulder to the nearest spoke or flange at the radius of the largest cog.",
		How:    "Hold a ruler to the shoulder's plane and measure the depth to the spokes at the height of the largest cog.",
		Effort: fact.Much, Also: []string{"spoke gap"}},
	{Name: "min_drive_ratio", Type: fact.Fraction, Min: 0.5, Max: 6,
		Doc:    "The least ratio of ring to cog that the maker of a geared hub allows; with a belt that of the pulleys' teeth.",
		How:    "Read it from the hub's table for the weight of rider and load.",
		Effort: fact.Low, Also: []string{"input ratio", "primary ratio"}},
	{Name: "max_input_nm", Type: fact.Fraction, Unit: "N m", Min: 5, Max: 500,
		Doc:    "The largest torque that the maker of a geared hub allows at its sprocket.",
		How:    "Read it from the hub's sheet.",
		Effort: fact.Low, Also: []string{"input torque", "torque limit"}},
	{Name: "brake", Type: fact.Choice, Choices: []string{"coaster", "drum", "roller"},
		Doc:    "The brake inside the hub, whose reaction arm is held at the stay: coaster, which pedals backwards, drum or roller.",
		How:    "Look for an arm from the axle to the stay; a coaster has no cable to it.",
		Effort: fact.Low, Also: []string{"coaster brake", "back pedal brake", "drum brake", "roller brake", "hub brake",
			"reaction arm", "torque arm", "brake arm"}},
	{Name: "rotor_mount", Type: fact.Choice, Choices: rotorMounts,
		Doc:    "What a brake rotor is fixed to: six-bolt, splined with a lockring, or none on a hub without a seat for one.",
		How:    "Look at the side away from the cogs: six threaded holes, splines, or neither.",
		Effort: fact.Low, Also: []string{"disc mount", "disk mount", "rotor interface"}},
	axleTorque(),
})

// rotorMounts are the seats of brake rotors, the same on hub and rotor.
var rotorMounts = []string{"six-bolt", "splined", "none"}

// Frame is the field table of frames.
var Frame = newKind("frame", "The frame, with its rear suspension if it has one.", []fact.Field{
	{Name: "chainstay_mm", Type: fact.Fraction, Unit: "mm", Min: 250, Max: 700,
		Doc: "The distance from the crank's axis to the rear axle, centre to centre, with the suspension at rest, fully extended.",
		How: "Measure centre to centre along the chainstay with the bicycle off the ground; say the position if it stood on " +
			"its wheels.",
		Effort: fact.Low, Also: []string{"chainstay length", "stay length", "rear centre", "rear center"}},
	{Name: "chain_growth_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 100,
		Doc:    "The most that the axle distance grows over the suspension's travel beyond chainstay_mm; 0 on a rigid frame.",
		How:    "Let the air out, move the wheel through its travel and measure the longest axle distance; take off that at rest.",
		Effort: fact.Much, Also: []string{"chainstay growth", "rear centre growth"}},
	{Name: "growth_at_sag_mm", Type: fact.Fraction, Unit: "mm", Min: -50, Max: 100,
		Doc:    "The axle distance with the rider's weight on less that at rest; positive is longer.",
		How:    "Measure centre to centre with the rider seated, and take off the distance at rest.",
		Effort: fact.Some, Also: []string{"sag"}},
	{Name: "rear_suspension", Type: fact.Choice, Choices: []string{"none", "sprung"},
		Doc:    "Whether the rear wheel is sprung; none stands for no chain growth.",
		How:    "Look for a shock between the front and the rear of the frame.",
		Effort: fact.Low, Also: []string{"suspension", "full suspension", "hardtail", "shock", "rear shock", "travel",
			"rear travel", "suspension travel"}},
	{Name: "idler_t", Type: fact.Whole, Unit: "t", Min: 8, Max: 40,
		Doc: "The teeth of an idler that the upper run of the chain goes over; stating it means that length and angles are " +
			"to be measured on the bicycle.",
		How:    "Count the teeth of the pulley above or behind the ring; leave it out where there is none.",
		Effort: fact.Low, Also: []string{"idler pulley", "idler wheel", "high pivot"}},
	hangerOf("hanger", "What the derailleur is bolted to; universal is the one shape that any maker may build, claw a "+
		"plate that the wheel's axle "+
		"holds in a slot, none a frame without any.",
		"Look at the dropout: one with the frame is fixed, one with its own screws replaceable, a loose plate behind the "+
			"wheel nut claw.", "mech hanger", "derailleur hanger", "gear hanger"),
	{Name: "hanger_part", Type: fact.Name,
		Doc:    "The shape or number of the replaceable hanger, under which a spare is ordered.",
		How:    "Read the number stamped into the hanger, or look it up by the frame's name.",
		Effort: fact.Low, Also: []string{"hanger number", "spare hanger", "replacement hanger"}},
	overLocknut("The distance between the insides of the rear dropouts.", "dropout spacing", "dropout width"),
	axle(),
	threadOf("axle_thread", "The thread of the through axle in the frame; it names the diameter as well."),
	{Name: "axle_length_mm", Type: fact.Fraction, Unit: "mm", Min: 100, Max: 300,
		Doc:    "The length of the through axle that the frame is made for.",
		How:    "Measure the axle that came with the frame, from under its head to its end.",
		Effort: fact.Some, Also: []string{"thru axle length", "through axle length"}},
	{Name: "axle_end", Type: fact.Choice, Choices: []string{"open", "blind"},
		Doc: "Whether the axle can come out at the far side: open where the thread goes through, blind where it ends in the " +
			"frame or at a shoulder.",
		How:    "Look at the derailleur side with the axle out: daylight through the thread is open.",
		Effort: fact.Some},
	{Name: "shell", Type: fact.Name, Known: shellNames(),
		Doc:    "The shell of the bottom bracket, thread or bore with its width.",
		How:    "Measure the shell's width and bore, and give each standard one short name, the same on frame and bearing.",
		Effort: fact.Some, Also: []string{"bottom bracket shell", "bb shell", "bottom bracket standard", "bb standard",
			"bottom bracket thread", "bb thread"}},
	{Name: "max_ring_t", Type: fact.Whole, Unit: "t", Min: 10, Max: 90,
		Doc:    "The largest ring that clears the chainstay.",
		How:    "Read it from the frame's sheet, or measure from the crank's axis to the chainstay at the ring's line.",
		Effort: fact.Low, Also: []string{"maximum ring", "largest ring", "max chainring", "maximum chainring",
			"largest chainring", "chainring clearance"}},
	{Name: "use", Type: fact.Choice, Choices: []string{"adult", "sidewalk"},
		Doc:    "The class of bicycle by which the chain's strength is judged: adult, or sidewalk for a small child's bicycle.",
		How:    "A seat no higher than 635 mm at its highest setting makes a sidewalk bicycle, by 16 CFR 1512.2.",
		Effort: fact.Low, Also: []string{"bicycle type", "bike type"}},
	{Name: "assist", Type: fact.Choice, Choices: []string{"none", "mid", "hub"},
		Doc:    "Where a motor helps: none, mid at the crank so that it pulls through the chain, or hub in a wheel.",
		How:    "Look for the motor.",
		Effort: fact.Low, Also: []string{"motor", "e-bike", "electric assist", "mid motor", "mid drive", "hub motor",
			"crank motor", "pedelec"}},
	{Name: "assist_nm", Type: fact.Fraction, Unit: "N m", Min: 0, Max: 250,
		Doc:    "The largest torque of the motor at the crank.",
		How:    "Read it from the motor's sheet.",
		Effort: fact.Low, Also: []string{"motor torque"}},
	{Name: "motor_ring_factor", Type: fact.Fraction, Min: 0.5, Max: 5,
		Doc:    "The turns of the ring for one turn of the crank, where a motor gears the ring up; 1 turns with the crank.",
		How:    "Mark ring and crank, turn the crank once and count the turns of the ring.",
		Effort: fact.Low, Also: []string{"motor gearing"}},
	{Name: "material", Type: fact.Choice, Choices: []string{"steel", "aluminium", "titanium", "carbon"},
		Doc:    "What the rear triangle is made of.",
		How:    "Hold a magnet to the chainstay: it sticks to steel alone.",
		Effort: fact.Low, Also: []string{"frame material"}},
	{Name: "dropout", Type: fact.Choice, Choices: []string{"vertical", "slotted", "track", "sliding", "eccentric"},
		Doc: "How the axle can be moved: vertical not at all, slotted in a slot open to the front, track in one open to the " +
			"rear, sliding with " +
			"the dropout, eccentric by a bearing or hub that turns.",
		How:    "Look which way the wheel comes out, and for screws that move the dropout or a large ring that clamps the shell.",
		Effort: fact.Low, Also: []string{"fork end", "rear fork end", "track end", "rear dropout", "horizontal dropout",
			"vertical dropout", "sliding dropout", "eccentric bottom bracket"}},
	{Name: "take_up_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 80,
		Doc:    "How far the axle can go back from chainstay_mm, which then is measured at the foremost place.",
		How:    "Push the wheel right forward, mark the axle's place, pull it right back and measure between the marks.",
		Effort: fact.Some, Also: []string{"chain adjustment", "axle adjustment", "slot length"}},
	{Name: "drive", Type: fact.Choice, Choices: []string{"chain", "belt"},
		Doc:    "What drives the rear wheel: a chain, or a toothed belt, whose pulleys stand in rings_t and cogs_t.",
		How:    "Look at it.",
		Effort: fact.Low, Also: []string{"belt", "belt drive", "transmission"}},
	{Name: "timing_chain", Type: fact.Flag,
		Doc:    "Whether a second chain joins two cranksets, as on a tandem, so that two riders pull the rear one.",
		How:    "Look for a chain that runs from crank to crank.",
		Effort: fact.Low, Also: []string{"tandem", "sync chain", "crossover chain"}},
	{Name: "dropout_recess_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 20,
		Doc:    "How far the inside of the drive-side dropout is hollowed where the chain runs on the smallest cog; 0 where it is flat.",
		How:    "Lay a straightedge on the inside of the dropout and measure the depth beside the smallest cog.",
		Effort: fact.Some},
	{Name: "front_mount", Type: fact.Choice, Choices: append(slices.Clone(frontMounts), "none"),
		Doc: "What a front derailleur can be fixed to, by the same words as on it: clamp is a bare round tube, none a frame " +
			"with no place for one.",
		How: "Look at the seat tube: a bare round tube, a slotted tab, or two threaded holes low or high; a plate goes on " +
			"any threaded shell.",
		Effort: fact.Low, Also: []string{"front mech mount", "front derailleur mount"}},
	{Name: "seat_tube_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 60,
		Doc:    "The diameter of the seat tube where the band of a front derailleur goes.",
		How:    "Measure the bare tube with a caliper; paint adds 0.2 to 0.4 mm.",
		Effort: fact.Some, Also: []string{"seat tube diameter"}},
	{Name: "front_hole_spacing_mm", Type: fact.Fraction, Unit: "mm", Min: 10, Max: 80,
		Doc:    "The distance between the two threaded holes for a front derailleur.",
		How:    "Measure from middle to middle of the holes along the tube.",
		Effort: fact.Some},
	{Name: "front_hole_step_mm", Type: fact.Fraction, Unit: "mm", Min: -20, Max: 20,
		Doc:    "How far the face of the upper hole stands out beyond the lower; 0 where both are level.",
		How:    "Lay a straightedge on the face of the lower hole and measure the step to the upper.",
		Effort: fact.Some},
	{Name: "front_cable_from", Type: fact.Choice, Choices: []string{"top", "bottom", "front"},
		Doc:    "The side from which the frame brings the cable to the front derailleur.",
		How:    "Follow the cable or its stops: down the seat tube is top, from under the shell bottom, along the top of the stay front.",
		Effort: fact.Low, Also: []string{"cable routing", "front cable routing"}},
	{Name: "brake_mount", Type: fact.Choice, Choices: brakeKinds,
		Doc:    "The rear brake that the frame is made for: rim or disc.",
		How:    "Look for bosses or a bridge hole at the rim, or two threaded holes near the dropout.",
		Effort: fact.Low, Also: []string{"brake type", "caliper mount"}},
	{Name: "max_rotor_mm", Type: fact.Fraction, Unit: "mm", Min: 100, Max: 260,
		Doc:    "The largest brake rotor that the frame takes.",
		How:    "Read it from the frame's sheet or from the stay near the mount.",
		Effort: fact.Low, Also: []string{"maximum rotor", "largest rotor", "max disc", "rotor limit"}},
})

// brakeKinds are the brakes that a frame and a wheel are made for.
var brakeKinds = []string{"rim", "disc"}

// Axle is the field table of through axles that are bought by themselves.
var Axle = newKind("axle", "A through axle, bought by itself.", []fact.Field{
	threadOf("thread", "The thread at its end; it names the diameter as well."),
	{Name: "length_mm", Type: fact.Fraction, Unit: "mm", Min: 100, Max: 300,
		Doc:    "Its length from under the head to its end.",
		How:    "Measure with a caliper or a ruler from under the head, a washer left out, to the end of the thread.",
		Effort: fact.Some, Also: []string{"axle length", "thru axle length", "through axle length"}},
	axleTorque(),
})

func threadOf(name, doc string) fact.Field {
	return fact.Field{Name: name, Type: fact.Name, Known: threadNames(), Doc: doc,
		How:    "Read it from the axle, or lay a thread gauge on it: m12-1.0 has one turn a millimetre, m12-1.5 two turns in three.",
		Effort: fact.Some, Also: []string{"thread pitch", "thru axle thread", "through axle thread"}}
}

// hangerOf is a field that says which hanger: the list is closed, for what a
// hanger is decides whether a derailleur can be hung on at all.
func hangerOf(name, doc, how string, also ...string) fact.Field {
	return fact.Field{Name: name, Type: fact.Choice,
		Choices: []string{"fixed", "replaceable", "direct", "universal", "claw", "none"}, Known: hangerNames(),
		Doc: doc, How: how,
		Effort: fact.Low, Also: also}
}

// Wheel is the field table of the rear rim and tyre.
var Wheel = newKind("wheel", "The rear rim and tyre.", []fact.Field{
	{Name: "bead_seat_mm", Type: fact.Fraction, Unit: "mm", Min: 200, Max: 700,
		Doc:    "The diameter on which the tyre's bead sits, the second number of the tyre's size, such as 622.",
		How:    "Read the size on the tyre's side: in 47-622 it is 622.",
		Effort: fact.Low, Also: []string{"bead seat diameter", "bsd", "rim diameter", "rim size", "wheel size", "wheel diameter",
			"tyre size", "tire size"}},
	{Name: "tyre_width_mm", Type: fact.Fraction, Unit: "mm", Min: 15, Max: 140,
		Doc:    "The width of the tyre.",
		How:    "Measure the pumped tyre with a caliper, or read the first number of its size: in 47-622 it is 47.",
		Effort: fact.Low, Also: []string{"tyre", "tire", "tire width", "tyre section", "tyre size", "tire size"}},
	{Name: "brake", Type: fact.Choice, Choices: brakeKinds,
		Doc:    "The brake that the wheel is made for: rim where the rim has a braking face, disc where the hub takes a rotor.",
		How:    "Look for a worn flat face on the rim's side, or for a seat on the hub.",
		Effort: fact.Low, Also: []string{"brake type", "disc brake", "rim brake"}},
})

// Cockpit is the field table of the handlebar and the room on it.
var Cockpit = newKind("cockpit", "The handlebar and the room that is left on it.", []fact.Field{
	clampDiameter(),
	{Name: "free_bar_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 500,
		Doc:    "The length of bar that is free for the shifter's clamp, between the grip or brake lever and the next part or the bend.",
		How:    "Measure along the bar on the rear shifter's side, with the brake lever where the rider wants it.",
		Effort: fact.Low, Also: []string{"bar space", "clamp room"}},
	barKind("The kind of bar, or the place where the shifters are to go"),
})

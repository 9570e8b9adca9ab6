package figures

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// atSag is another word for sag, as people write it.
const atSag = "at_sag"

// Bench is what a mechanic measured on the bicycle itself. It goes before what
// parts state.
var Bench = rules.NewObject("bench", "What was measured on the bicycle.",
	fact.Field{Name: "position", Type: fact.Choice, Choices: []string{"stand", "sag", "longest", atSag},
		Doc: "Where the suspension was when lengths were measured: stand is at rest, sag with the rider's weight (at_sag is another " +
			"word for it), longest where the axle is farthest from the crank.",
		How:    "Say how the bicycle stood: in the stand, with the rider sitting, or with the air let out where the axle distance is greatest.",
		Effort: fact.Low, Also: []string{"suspension position"}},
	fact.Field{Name: "chain_pitches", Type: fact.Whole, Unit: "pitches", Min: 20, Max: 500,
		Doc:    "The half-inch links of the chain that is fitted or cut, the connector counted as one.",
		How:    "Count the rollers of the whole chain.",
		Effort: fact.Low, Also: []string{"link", "link count", "number of links", "chain link", "chain length"}},
	fact.Field{Name: "end_to_end_pitches", Type: fact.Fraction, Unit: "pitches", Min: 20, Max: 500,
		Doc:    "The half-inch links of chain round the largest ring and the largest cog, ends brought together, not through the derailleur.",
		How:    "Lay the chain round the largest ring and the largest cog past the derailleur, bring the ends together and count.",
		Effort: fact.Much, Also: []string{"big big", "big to big"}},
	fact.Field{Name: "chain_wear_percent", Type: fact.Fraction, Unit: "percent", Min: 0, Max: 5,
		Doc:    "How much longer than new the chain has worn.",
		How:    "Measure 24 half-inch links with a ruler: 304.8 mm is new, each 3 mm more is 1 percent; or use a wear gauge.",
		Effort: fact.Low, Also: []string{"stretch", "chain stretch", "elongation", "chain elongation", "wear"}},
	fact.Field{Name: "cog_positions_mm", Type: fact.Fractions, Unit: "mm", Min: 0, Max: 80, Cap: 16, Rising: true,
		Doc:    "The middle of each cog from the middle of the smallest, which is 0.",
		How:    "Measure with the depth rod of a caliper from the smallest cog's face to the face of each other cog.",
		Effort: fact.Some},
	fact.Field{Name: "step_positions_mm", Type: fact.Fractions, Unit: "mm", Min: 0, Max: 80, Cap: 17, Rising: true,
		Doc:    "Where the guide pulley stands at each step, from the outermost, which is 0.",
		How:    "Shift through with the chain off and measure with a caliper from the dropout to the guide pulley at every step.",
		Effort: fact.Much},
	fact.Field{Name: "guide_travel_mm", Type: fact.Fraction, Unit: "mm", Min: 1, Max: 120,
		Doc:    "The sideways way of the guide pulley over as many clicks as there are cogs less one, from the smallest cog inward.",
		How:    "Chain off: caliper from a fixed face to the guide pulley, shift as many clicks as there are cogs less one, measure again and take the difference.",
		Effort: fact.Some, Also: []string{"pulley travel", "guide pulley travel", "jockey wheel travel"}},
	fact.Field{Name: "chainline_mm", Type: fact.Fraction, Unit: "mm", Min: 20, Max: 90,
		Doc:    "The distance from the frame's middle plane to the middle of the rings.",
		How:    "Measure from the middle of the seat tube to the ring's teeth; with two rings take the middle between them.",
		Effort: fact.Some},
	fact.Field{Name: "smallest_cog_inset_mm", Type: fact.Fraction, Unit: "mm", Min: -5, Max: 30,
		Doc:    "The distance from the face that touches the dropout to the middle of the smallest cog.",
		How:    "Lay a straightedge on the drive-side locknut face, measure the depth to the smallest cog, and add half a cog.",
		Effort: fact.Some},
	fact.Field{Name: "spacer_behind_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 20,
		Doc:    "The spacers fitted behind the cassette now.",
		How:    "Measure the rings between the freehub's shoulder and the largest cog with a caliper; 0 for none.",
		Effort: fact.Much, Also: []string{"spacer", "washer", "shim", "cassette spacer"}},
	fact.Field{Name: "b_gap_mm", Type: fact.Fraction, Unit: "mm", Min: -10, Max: 60,
		Doc:    "The gap between the tooth tips of the largest cog and of the guide pulley, chain on the largest cog.",
		How:    "Measure along the line through both axes, at the nearest bare tooth.",
		Effort: fact.Low, Also: []string{"b tension", "pulley gap", "upper pulley gap", "jockey wheel gap", "chain gap"}},
	fact.Field{Name: "guide_bolt_to_cog_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 120,
		Doc:    "The distance from the tooth tips of the largest cog to the middle of the guide pulley's bolt.",
		How:    "Hold a ruler along the line through both axes, parallel to the wheel: tip of the cog to the bolt's middle.",
		Effort: fact.Low},
	fact.Field{Name: "hanger_error_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 40,
		Doc:    "The largest difference that a hanger gauge shows at the rim between opposite places.",
		How:    "Hold the gauge to one place of the rim at 12, 3, 6 and 9 o'clock; the largest difference counts.",
		Effort: fact.Much, Also: []string{"hanger alignment", "bent hanger", "mech hanger alignment",
			"derailleur hanger alignment"}},
	fact.Field{Name: "trim_clicks_used", Type: fact.Whole, Min: -100, Max: 100,
		Doc:    "The trim clicks set, counted from where the smallest cog is exactly right, positive towards the spokes.",
		How:    "Count the clicks from the place where the smallest cog runs quietest.",
		Effort: fact.Low, Also: []string{"micro adjustment", "fine adjustment"}},
	fact.Field{Name: "cage_to_spoke_mm", Type: fact.Fraction, Unit: "mm", Min: -5, Max: 40,
		Doc:    "The room between the cage and the spokes on the largest cog.",
		How:    "Turn the wheel slowly and measure at the nearest spoke; take a cell out first.",
		Effort: fact.Low, Also: []string{"spoke clearance"}},
	fact.Field{Name: "jockey_play_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 10,
		Doc:    "The side play of the guide pulley.",
		How:    "Push the pulley to both sides and measure the difference.",
		Effort: fact.Some, Also: []string{"jockey wheel play", "jockey wheel float", "guide pulley play", "pulley play"}},
	fact.Field{Name: "chain_play_mm", Type: fact.Fraction, Unit: "mm", Min: 0, Max: 120,
		Doc: "The play of the lower run of a chain that no derailleur takes up: the whole way up and down at its middle, at the " +
			"tightest place.",
		How: "Turn the cranks slowly to the tightest place, hold a ruler to the middle of the lower run, and push the chain right up " +
			"and right down.",
		Effort: fact.Low, Also: []string{"slack", "chain slack", "tension", "chain tension"}},
	fact.Field{Name: "half_link", Type: fact.Flag,
		Doc:    "Whether one cranked half link is in the chain, which makes an odd count right.",
		How:    "Look for one link whose plates are bent from wide to narrow.",
		Effort: fact.Low, Also: []string{"cranked link", "offset link"}},
	fact.Field{Name: "tyre_to_front_mm", Type: fact.Fraction, Unit: "mm", Min: -10, Max: 60,
		Doc:    "The least room between the front derailleur's arm and the tyre.",
		How:    "Shift to the largest ring and the smallest, and turn the wheel: measure where the arm comes nearest to the tyre.",
		Effort: fact.Low, Also: []string{"tyre clearance", "tire clearance"}},
	fact.Field{Name: "crank_to_stay_mm", Type: fact.Fraction, Unit: "mm", Min: -10, Max: 60,
		Doc:    "The least room between a crank or the rings and the chainstay.",
		How:    "Turn the cranks, and measure on both sides where an arm, a bolt or a ring comes nearest to the stay.",
		Effort: fact.Low, Also: []string{"crank clearance", "chainstay clearance"}},
	fact.Field{Name: "front_height_mm", Type: fact.Fraction, Unit: "mm", Min: -10, Max: 30,
		Doc:    "How high the front derailleur's outer plate stands over the tallest tooth of the outer ring.",
		How:    "Bring the cage over the outer ring by hand, and measure from the tallest tooth to the plate's lower edge.",
		Effort: fact.Low, Also: []string{"cage height", "front mech height", "front derailleur height"}},
	fact.Field{Name: "cell_charge_percent", Type: fact.Fraction, Unit: "percent", Min: 0, Max: 100,
		Doc:    "The charge of the weakest cell.",
		How:    "Read it from the lamp or the application.",
		Effort: fact.Low, Also: []string{"charge", "battery charge", "battery level"}},
	fact.Field{Name: "torque_nm", Type: fact.Fraction, Unit: "N m", Min: 0, Max: 80,
		Doc:    "The torque to which the derailleur's bolt was tightened.",
		How:    "Read it from the torque wrench.",
		Effort: fact.Some, Also: []string{"mounting bolt torque", "hanger bolt torque"}},
	tightened("crank_nm", "crank's bolts", "crank bolt"),
	tightened("lockring_nm", "cassette's lockring"),
	tightened("axle_nm", "rear axle or its nuts", "axle nut", "wheel nut"),
	tightened("ring_bolt_nm", "ring's bolts", "chainring bolt"),
	tightened("front_mount_nm", "bolt that holds the front derailleur", "front mech bolt"),
	tightened("lever_clamp_nm", "clamp of the shifter on the bar", "clamp bolt"),
)

// tightened is a torque that the finished bicycle's card keeps.
func tightened(name, what string, also ...string) fact.Field {
	return fact.Field{Name: name, Type: fact.Fraction, Unit: "N m", Min: 0, Max: 80,
		Doc:    "The torque of the " + what + ", as tightened.",
		How:    "Read it from the torque wrench, at the value that the part's own marking gives.",
		Effort: fact.Some, Also: also}
}

// emptyBench stands in where nothing was measured.
var emptyBench = Bench.NewRecord(make([]fact.Value, len(Bench.Table().Fields())), nil)

// measuredOn says on which parts each measured fact was taken: with another part
// of one of these kinds it has to be measured again. Where the suspension stood
// is about the measuring, not about a part.
var measuredOn = map[string][]string{
	"position":              nil,
	"chain_pitches":         {"chain"},
	"end_to_end_pitches":    {"cassette", "crankset", "chainring", "frame"},
	"chain_wear_percent":    {"chain"},
	"cog_positions_mm":      {"cassette"},
	"step_positions_mm":     {"rear_derailleur", "rear_shifter"},
	"guide_travel_mm":       {"cassette", "rear_derailleur", "rear_shifter"},
	"chainline_mm":          {"crankset", "chainring", "bottom_bracket", "frame"},
	"smallest_cog_inset_mm": {"cassette", "hub"},
	"spacer_behind_mm":      {"cassette", "hub"},
	"b_gap_mm":              {"cassette", "rear_derailleur", "hanger_link", "frame"},
	"guide_bolt_to_cog_mm":  {"cassette", "rear_derailleur", "hanger_link", "frame"},
	"hanger_error_mm":       {"frame", "hanger_link"},
	"trim_clicks_used":      {"cassette", "rear_derailleur"},
	"cage_to_spoke_mm":      {"cassette", "rear_derailleur", "hub", "wheel", "hanger_link", "frame"},
	"jockey_play_mm":        {"rear_derailleur"},
	"cell_charge_percent":   {"cell"},
	"torque_nm":             {"rear_derailleur", "hanger_link", "frame"},
	"chain_play_mm":         {"chain", "chain_tensioner", "cassette", "crankset", "chainring", "hub", "frame"},
	"half_link":             {"chain"},
	"tyre_to_front_mm":      {"front_derailleur", "wheel", "frame"},
	"crank_to_stay_mm":      {"crankset", "chainring", "bottom_bracket", "frame"},
	"front_height_mm":       {"front_derailleur", "crankset", "chainring"},
	"crank_nm":              {"crankset", "bottom_bracket"},
	"lockring_nm":           {"cassette", "hub"},
	"axle_nm":               {"hub", "axle", "frame"},
	"ring_bolt_nm":          {"crankset", "chainring"},
	"front_mount_nm":        {"front_derailleur", "frame"},
	"lever_clamp_nm":        {"rear_shifter", "cockpit"},
}

// MeasuredOn gives the kinds of parts on which a field of the bench was measured: a
// bit for each, by the places of catalog.Kinds. With another part of one of these
// it has to be measured again.
func MeasuredOn(field int) uint64 { return measuredOnKinds[field] }

// measuredOnKinds is measuredOn by the places of the fields and of the kinds.
var measuredOnKinds = measuredSets()

// measuredSets panics where there are more objects than a set has bits, which is
// for the program to mend: the sets of kinds in compat are as wide.
func measuredSets() []uint64 {
	if objectCount > 64 {
		panic("figures: more than 64 kinds of facts do not fit into a set")
	}
	out := make([]uint64, len(Bench.Table().Fields()))
	for i, f := range Bench.Table().Fields() {
		for _, kind := range measuredOn[f.Name] {
			place, _ := catalog.KindIndex(kind)
			out[i] |= 1 << place
		}
	}
	return out
}

package catalog

// kindsAlso are the other names that the trade has for kinds of parts, British and
// American, and none of a maker. Those of fields stand in the tables.
var kindsAlso = map[string][]string{
	"cassette": {"freewheel", "block", "screw-on block", "cogset", "sprocket", "sprocket set", "cluster",
		"gear cluster"},
	"chain": {"half-inch chain", "drive chain", "bike chain"},
	"chain_connector": {"quick link", "master link", "joining link", "connecting link", "split link", "spring link",
		"snap link", "removable link", "closing link", "connector"},
	"rear_derailleur": {"rear mech", "rear derailer", "rear changer", "gear mech", "mech", "derailer"},
	"rear_shifter": {"gear lever", "shift lever", "gear shifter", "rear lever", "right shifter", "trigger shifter",
		"twist shifter", "twist grip", "thumb shifter", "bar-end shifter", "down tube shifter", "brifter"},
	"front_derailleur": {"front mech", "front derailer", "front changer", "mech", "derailer"},
	"front_shifter": {"gear lever", "shift lever", "gear shifter", "front lever", "left shifter", "trigger shifter",
		"twist shifter", "twist grip", "thumb shifter", "bar-end shifter", "down tube shifter", "brifter"},
	"crankset":       {"crank", "chainset", "crank arm"},
	"chainring":      {"chainwheel", "ring", "front ring", "front sprocket"},
	"bottom_bracket": {"bb", "crank bearing"},
	"chain_guide":    {"chain device", "chain keeper", "chain catcher"},
	"hub":            {"rear hub", "hub gear", "gear hub", "internal gear hub", "coaster hub", "freewheel hub", "cassette hub"},
	"axle":           {"thru axle", "through axle", "bolt-through axle", "wheel axle"},
	"frame":          {"frameset", "bicycle frame", "bike frame"},
	"hanger_link": {"hanger extender", "hanger extension", "derailleur hanger extender", "mech hanger extender",
		"hanger adapter", "hanger adaptor"},
	"chain_tensioner": {"single speed tensioner", "chain tightener", "tension arm"},
	"cockpit":         {"handlebar", "bar"},
	"brake":           {"rear brake", "caliper", "brake caliper", "rim brake", "disc brake"},
	"wheel":           {"rear wheel", "rim", "tyre", "tire"},
	"rotor":           {"disc", "disk", "brake disc", "brake disk", "disc rotor", "brake rotor"},
	"cell":            {"battery", "coin cell", "button cell", "battery pack"},
	"controller_cell": {"controller battery", "shifter battery", "lever battery"},
	"charger":         {"battery charger"},
}

package draw

import "slices"

// withdrawn are the fields that a part cannot state beside another one, unless that
// one has one of these words.
var withdrawn = []struct {
	kind, field, beside string
	words               []string
}{
	{"frame", "axle_thread", "axle", []string{"through"}},
	{"frame", "axle_length_mm", "axle", []string{"through"}},
	{"frame", "axle_end", "axle", []string{"through"}},
	{"frame", "max_rotor_mm", "brake_mount", []string{"disc"}},
	{"frame", "assist_nm", "assist", []string{"mid", "hub"}},
	{"frame", "take_up_mm", "dropout", []string{"slotted", "track", "sliding", "eccentric"}},
	{"frame", "front_hole_spacing_mm", "front_mount", []string{"direct-low", "direct-high"}},
	{"frame", "front_hole_step_mm", "front_mount", []string{"direct-low", "direct-high"}},
	{"frame", "hanger_part", "hanger", []string{"replaceable", "direct", "universal"}},
	{"rear_shifter", "brake_fluid", "integrated_brake", []string{"hydraulic"}},
	{"front_shifter", "brake_fluid", "integrated_brake", []string{"hydraulic"}},
	{"brake", "fluid", "pull", []string{"hydraulic"}},
	{"crankset", "direct_name", "bolt_pattern", []string{"direct"}},
	{"chainring", "direct_name", "bolt_pattern", []string{"direct"}},
	{"hub", "body_class", "body_length_mm", nil},
	{"chain", "inner_class", "inner_width_mm", nil},
	{"rear_shifter", "speeds", "clicks", nil},
	{"rear_derailleur", "made_for_cogs", "made_for_pitches_mm", nil},
}

// withdraw takes away what a part cannot say beside the rest.
func (d *drawer) withdraw() {
	for _, w := range withdrawn {
		fields := d.out[w.kind]
		beside, stated := fields[w.beside]
		if word, _ := beside.(string); stated && !slices.Contains(w.words, word) {
			delete(fields, w.field)
		}
	}
	cassette := d.out["cassette"]
	if len(d.teeth) > 1 {
		delete(cassette, "fixed_cog")
	}
	if n := map[any]int{"7": 7, "thin-10": 10}[cassette["height_class"]]; n > 0 && n != len(d.teeth) {
		cassette["height_class"] = "flat"
	}
}

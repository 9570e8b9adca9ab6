package catalog

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// unitOf says which unit a name promises by its end.
var unitOf = map[string]string{
	"mm": "mm", "t": "t", "nm": "N m", "deg": "deg", "percent": "percent", "pitches": "pitches", "v": "V", "n": "N", "c": "C",
}

// plainNumbers are the numbers without a unit: ratios and counts of other things
// than teeth and links.
var plainNumbers = []string{"ratio", "ratios", "pull_factor", "speeds", "clicks", "steps_selectable", "barrel_turns",
	"also_for", "made_for_cogs", "cog_count", "bolts", "rings", "pulleys", "min_drive_ratio", "motor_ring_factor"}

func isNumber(f fact.Field) bool {
	return slices.Contains([]fact.Type{fact.Fraction, fact.Whole, fact.Fractions, fact.Wholes}, f.Type)
}

func isList(f fact.Field) bool { return f.Type == fact.Fractions || f.Type == fact.Wholes }

func eachField(t *testing.T, check func(t *testing.T, f fact.Field)) {
	for _, k := range Kinds() {
		for _, f := range k.Table().Fields() {
			t.Run(k.Name()+"."+f.Name, func(t *testing.T) { check(t, f) })
		}
	}
}

func TestFieldsAreDescribed(t *testing.T) {
	sentence := regexp.MustCompile(`^[A-Z0-9].*[a-z0-9)]\.$`)
	eachField(t, func(t *testing.T, f fact.Field) {
		if !sentence.MatchString(f.Doc) {
			t.Errorf("doc is no sentence: %q", f.Doc)
		}
		if !sentence.MatchString(f.How) {
			t.Errorf("how is no sentence: %q", f.How)
		}
	})
}

func TestNumbersHaveUnitAndRange(t *testing.T) {
	eachField(t, func(t *testing.T, f fact.Field) {
		if !isNumber(f) {
			if f.Unit != "" || f.Min != 0 || f.Max != 0 {
				t.Error("no number, yet it has a unit or a range")
			}
			return
		}
		if f.Min >= f.Max {
			t.Errorf("the range %v to %v is empty", f.Min, f.Max)
		}
		name := strings.TrimSuffix(strings.TrimSuffix(f.Name, "_rest"), "_wanted") // the same, at rest or by a table
		last := name[strings.LastIndex(name, "_")+1:]
		want, promised := unitOf[last]
		if plain := slices.Contains(plainNumbers, f.Name); plain == promised || f.Unit != want {
			t.Errorf("the name promises the unit %q (plain: %v), the field has %q", want, plain, f.Unit)
		}
	})
}

func TestTypesAgree(t *testing.T) {
	word := regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	eachField(t, func(t *testing.T, f fact.Field) {
		if !word.MatchString(f.Name) {
			t.Error("the name is not made of a-z, 0-9 and _")
		}
		if slices.Contains(itemKeys, f.Name) {
			t.Error("the name is one of the item's own keys")
		}
		if (isList(f) || f.Type == fact.Names) != (f.Cap > 0) {
			t.Errorf("cap %d does not agree with the type", f.Cap)
		}
		if (f.Type == fact.Choice) != (len(f.Choices) > 1) {
			t.Errorf("choices %q do not agree with the type", f.Choices)
		}
		if (f.Rising || f.Sorted || f.OneLess != "") && !isList(f) {
			t.Error("only a list can be sorted or measured against another")
		}
		teeth := f.Unit == "t"
		if whole := f.Type == fact.Whole || f.Type == fact.Wholes; teeth && !whole {
			t.Error("teeth are whole numbers")
		}
		if f.Default != nil && (!f.Default.Known || f.Required) {
			t.Error("a default stands in for a field that need not be stated")
		}
	})
}

func TestChoicesAreWords(t *testing.T) {
	word := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	eachField(t, func(t *testing.T, f fact.Field) {
		for _, c := range f.Choices {
			if !word.MatchString(c) {
				t.Errorf("choice %q", c)
			}
		}
		if f.Default != nil && f.Type == fact.Choice && !slices.Contains(f.Choices, f.Default.Text) {
			t.Errorf("default %q is none of %q", f.Default.Text, f.Choices)
		}
	})
}

// manyThings are the names that the trade itself uses for a different thing on
// each part: a derailleur, a cage and a rotor each have a mount.
var manyThings = []string{"mount", "brake", "freehub"}

// A field that stands in several kinds is one thing everywhere: rules and
// readers may rely on its unit and its words.
func TestSharedNamesMeanOneThing(t *testing.T) {
	first := map[string]fact.Field{}
	eachField(t, func(t *testing.T, f fact.Field) {
		if slices.Contains(manyThings, f.Name) {
			return
		}
		g, seen := first[f.Name]
		if !seen {
			first[f.Name] = f
			return
		}
		if f.Type != g.Type || f.Unit != g.Unit || !slices.Equal(f.Choices, g.Choices) {
			t.Errorf("type, unit or choices differ between kinds")
		}
	})
}

func TestKindsAreFound(t *testing.T) {
	if len(Kinds()) != 23 {
		t.Errorf("there are %d kinds", len(Kinds()))
	}
	for i, k := range Kinds() {
		found, ok := Kind(k.Name())
		if !ok || found != k {
			t.Errorf("Kind(%q) gives another", k.Name())
		}
		if at, ok := KindIndex(k.Name()); !ok || at != i {
			t.Errorf("KindIndex(%q) is %d, want %d", k.Name(), at, i)
		}
		if k.Doc() == "" {
			t.Errorf("%s has no doc", k.Name())
		}
	}
	if _, ok := Kind("bench"); ok {
		t.Error("bench is no kind of part")
	}
	if _, ok := KindIndex("casette"); ok {
		t.Error("an unknown kind has an index")
	}
	Kinds()[0] = nil
	if Kinds()[0] != Cassette {
		t.Error("a caller can change the list of kinds")
	}
}

// The names below stand in files that people have written: none may go.
func TestNamesStay(t *testing.T) {
	fixed := map[string]string{
		"cassette":         "cogs_t pitch_mm pitches_mm cog_thickness_mm stack_height_mm mount_height_mm freehub roller_class index_family overhang_mm own_lockring_small_cog spacer_mm height_class fixed_cog",
		"chain":            "speeds inner_width_mm outer_width_mm roller_class extended_inner_plates directional pitches strength_n assist_rated inner_class also_for pitch_mm half_links index_family",
		"chain_connector":  "speeds outer_width_mm directional reusable",
		"rear_derailleur":  "actuation ratio ratios steps_mm made_for_pitch_mm made_for_pitches_mm steps_selectable trim_step_mm trim_range_mm index_family max_cog_t min_largest_cog_t capacity_t max_front_difference_t guide_pulley_t guide_pulley_tip_radius_mm b_gap_mm b_gap_gauge_step_mm b_adjust add_pitches add_pitches_rest mount hanger mount_torque_nm radio cell clutch cage_lock rest_cog made_for_cogs chain_pitches_wanted limit_stops anchor_torque_nm",
		"rear_shifter":     "actuation indexed pull_mm clicks pulls_mm first_pull_take_up_mm pull_factor barrel_lead_mm index_family radio cell clamp_diameter_mm spacer_mm speeds integrated_brake brake_fluid side bar_kind shares_clamp",
		"front_derailleur": "max_ring_t capacity_t cage_width_mm chainline_mm pulls_mm actuation radio pull_class mount clamp_diameter_mm hole_spacing_mm hole_step_mm cable_from swing cage rings min_difference_t mount_torque_nm anchor_torque_nm",
		"front_shifter":    "pulls_mm actuation radio pull_class clamp_torque_nm integrated_brake brake_fluid side bar_kind shares_clamp",
		"crankset":         "rings_t chainline_mm ring_offset_mm ring_thickness_mm roller_class extended_inner_plates narrow_wide oval_percent spindle length_mm speeds spindle_length_mm shell_width_mm crank_torque_nm bolt_circle_mm inner_bolt_circle_mm bolts bolt_pattern direct_name ring_bolt_torque_nm",
		"chainring":        "rings_t ring_thickness_mm roller_class extended_inner_plates narrow_wide oval_percent bolt_circle_mm inner_bolt_circle_mm bolts bolt_pattern direct_name ring_bolt_torque_nm",
		"bottom_bracket":   "shell spindle spindle_length_mm cup_torque_nm",
		"hub":              "kind_of_hub freehub body_length_mm min_cog_t over_locknut_mm axle smallest_cog_inset_mm shoulder_inset_mm spoke_clearance_mm bodies body_class min_drive_ratio max_input_nm brake rotor_mount axle_torque_nm",
		"frame":            "chainstay_mm chain_growth_mm growth_at_sag_mm rear_suspension idler_t hanger over_locknut_mm shell max_ring_t use assist assist_nm motor_ring_factor material dropout take_up_mm drive timing_chain dropout_recess_mm front_mount seat_tube_mm front_hole_spacing_mm front_hole_step_mm front_cable_from brake_mount max_rotor_mm axle_thread axle_length_mm axle_end hanger_part",
		"hanger_link":      "drop_mm back_mm",
		"chain_guide":      "ring_min_t ring_max_t chainline_mm",
		"cockpit":          "clamp_diameter_mm free_bar_mm bar_kind",
		"wheel":            "bead_seat_mm tyre_width_mm brake",
		"cell":             "form chemistry nominal_v primary",
		"charger":          "chemistry min_c max_c",
		"axle":             "thread length_mm axle_torque_nm",
		"brake":            "pull fluid",
		"rotor":            "mount diameter_mm",
		"chain_tensioner":  "pulleys capacity_t",
		"controller_cell":  "form chemistry nominal_v primary",
	}
	for kind, names := range fixed {
		object, ok := Kind(kind)
		if !ok {
			t.Errorf("the kind %s is gone", kind)
			continue
		}
		for _, name := range strings.Fields(names) {
			if _, ok := object.Table().Index(name); !ok {
				t.Errorf("%s.%s is gone", kind, name)
			}
		}
	}
}

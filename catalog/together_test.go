package catalog

import (
	"maps"
	"strings"
	"testing"
)

// A derailleur that clamps the frame has no B-screw, so that none is assumed; the
// one that says otherwise is believed.
func TestWhatSetsTheGap(t *testing.T) {
	for _, row := range []struct {
		facts map[string]any
		want  string
	}{
		{map[string]any{}, "screw"},
		{map[string]any{"mount": "hanger"}, "screw"},
		{map[string]any{"mount": "full"}, "none"},
		{map[string]any{"mount": "full", "b_adjust": "angle"}, "angle"},
		{map[string]any{"mount": "full", "b_adjust": "screw"}, "screw"},
		{map[string]any{"mount": "direct", "b_adjust": "angle"}, "angle"},
	} {
		p, err := New("rear_derailleur", row.facts)
		if err != nil {
			t.Fatal(err)
		}
		if got := RearDerailleur.Ref("b_adjust").In(p.Record()); !got.Known || got.Text != row.want {
			t.Errorf("%v: %q sets the gap, want %q", row.facts, got.Text, row.want)
		}
	}
}

// Two statements that cannot both be true are refused at the one that is most
// likely wrong; the same with one of them mended is taken.
func TestStatementsTogether(t *testing.T) {
	type facts = map[string]any
	for _, row := range []struct {
		kind      string
		facts     facts
		field     string // at fault
		mended    any    // what it may be instead; nil to leave it out
		wantInAll string
	}{
		{"cassette", facts{"cogs_t": []int{13, 15}, "fixed_cog": true}, "fixed_cog", false, "stands alone"},
		{"cassette", facts{"cogs_t": []int{13, 15}, "height_class": "7"}, "height_class", "flat", "7 has 7 cogs, and 2"},
		{"cassette", facts{"cogs_t": []int{13, 15}, "height_class": "thin-10"}, "height_class", "road-11", "thin-10 has 10 cogs"},
		{"chain", facts{"inner_class": "narrow", "inner_width_mm": 2.18}, "inner_class", "eleven-128", "about 1.75 mm"},
		{"chain", facts{"inner_class": "eighth", "inner_width_mm": 2.38}, "inner_class", "three-32", "about 3.3 mm"},
		{"rear_derailleur", facts{"made_for_cogs": 12, "made_for_pitches_mm": []float64{3.6, 3.7}}, "made_for_pitches_mm", nil, "11, not 2"},
		{"rear_shifter", facts{"speeds": 9, "clicks": 7}, "clicks", 8, "7 clicks do not reach 9 cogs"},
		{"rear_shifter", facts{"speeds": 9, "clicks": 7}, "clicks", 9, "do not reach"},
		{"rear_shifter", facts{"integrated_brake": "short-pull", "brake_fluid": "dot"}, "brake_fluid", nil, "no fluid"},
		{"front_shifter", facts{"integrated_brake": "none", "brake_fluid": "dot"}, "brake_fluid", nil, "no fluid"},
		{"brake", facts{"pull": "long-pull", "fluid": "mineral"}, "pull", "hydraulic", "no fluid"},
		{"front_derailleur", facts{"min_difference_t": 12, "capacity_t": 10}, "min_difference_t", 10, "above capacity_t"},
		{"chainring", facts{"inner_bolt_circle_mm": 110, "bolt_circle_mm": 74}, "inner_bolt_circle_mm", 64, "not below bolt_circle_mm"},
		{"chainring", facts{"bolt_pattern": "even", "direct_name": "quay"}, "bolt_pattern", "direct", "no direct one"},
		{"hub", facts{"body_class": "8-10", "body_length_mm": 36.75}, "body_class", "road-11", "about 34.95 mm"},
		{"hub", facts{"body_class": "7", "body_length_mm": 34.95}, "body_length_mm", 31.5, "about 31 mm"},
		{"frame", facts{"axle": "quick", "axle_end": "blind"}, "axle", "through", "no such axle"},
		{"frame", facts{"axle": "quick", "axle_thread": "m12-1.0"}, "axle_thread", nil, "no such axle"},
		{"frame", facts{"axle": "quick", "axle_length_mm": 180}, "axle_length_mm", nil, "no such axle"},
		{"frame", facts{"brake_mount": "rim", "max_rotor_mm": 180}, "brake_mount", "disc", "no rotor"},
		{"frame", facts{"assist": "none", "assist_nm": 85}, "assist_nm", 0, "without a motor"},
		{"frame", facts{"dropout": "vertical", "take_up_mm": 12}, "dropout", "track", "cannot be moved"},
		{"frame", facts{"front_mount": "clamp", "front_hole_spacing_mm": 42.7}, "front_mount", "direct-low", "two holes"},
		{"frame", facts{"front_mount": "none", "front_hole_step_mm": 5}, "front_mount", "direct-high", "two holes"},
		{"frame", facts{"hanger": "fixed", "hanger_part": "tern-4"}, "hanger", "replaceable", "no replaceable hanger"},
		{"frame", facts{"rear_suspension": "none", "chain_growth_mm": 20}, "chain_growth_mm", 0, "no growth"},
	} {
		_, err := New(row.kind, row.facts)
		if err == nil || !strings.Contains(err.Error(), row.wantInAll) {
			t.Errorf("%s %v: %v", row.kind, row.facts, err)
		}
		mended := maps.Clone(row.facts)
		if mended[row.field] = row.mended; row.mended == nil {
			delete(mended, row.field)
		}
		if _, err := New(row.kind, mended); err != nil {
			t.Errorf("%s %v: %v", row.kind, mended, err)
		}
	}
}

// A derailleur that clamps the frame has no limit screws unless it says so.
func TestLimitStops(t *testing.T) {
	for want, facts := range map[string]map[string]any{
		"none": {"mount": "full"}, "screws": {"mount": "hanger"},
	} {
		p, err := New("rear_derailleur", facts)
		if err != nil {
			t.Fatal(err)
		}
		if got := RearDerailleur.Ref("limit_stops").In(p.Record()); got.Text != want {
			t.Errorf("%v: %q", facts, got.Text)
		}
	}
	p, err := New("rear_derailleur", map[string]any{"mount": "full", "limit_stops": "screws"})
	if got := RearDerailleur.Ref("limit_stops").In(p.Record()); err != nil || got.Text != "screws" {
		t.Errorf("a full mount with screws: %q, %v", got.Text, err)
	}
}

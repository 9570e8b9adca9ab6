package catalog

import "testing"

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

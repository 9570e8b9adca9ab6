package figures_test

import (
	"maps"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
)

// A chain of 5.3 mm on cogs of 1.6 mm that stand 4 mm apart has 4 - 5.3/2 - 1.6/2 = 0.55 mm
// of room. A tenth of its width moves that by 0.05 mm, a twentieth of the distance by as
// much, and at worst both come together. What hangs on neither has no worst case.
func TestWorstAddsUp(t *testing.T) {
	plain := random.Draw{}.With("chain", "outer_width_mm", 5.3).With("cassette", "cogs_t", []int{11, 13}).
		With("cassette", "pitch_mm", 4.0).With("cassette", "cog_thickness_mm", 1.6)
	if worst := plain.Facts().Measure().Worst(); len(worst) > 0 {
		t.Errorf("no tolerance is stated, and there are worst cases: %v", worst)
	}
	if worst := (figures.Figures{}).Worst(); len(worst) > 0 {
		t.Errorf("nothing was measured, and there are worst cases: %v", worst)
	}
	loose := plain.With("chain", "outer_width_mm", "5.3 ± 0.1").With("cassette", "pitch_mm", "4 ± 0.05")
	want := map[string][2]float64{
		"chain_outer_mm": {5.2, 5.4}, "cassette_stack_mm": {5.55, 5.65}, "neighbour_gap_mm": {0.45, 0.65}, "neighbour_gap_worst_mm": {0.45, 0.65},
	}
	figs := loose.Facts().Measure()
	for range 2 { // once in memory that has served
		if got := figs.Worst(); !maps.Equal(got, want) {
			t.Errorf("the worst cases are %v, want %v", got, want)
		}
	}
}

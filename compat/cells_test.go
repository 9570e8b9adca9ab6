package compat

import (
	"slices"
	"testing"
)

// A cell beside a derailleur and a controller that both take one is for the part whose
// form it has, and bears what that part bears. Of a cell without a form nobody knows which.
func TestCellIsForThePartOfItsForm(t *testing.T) {
	for form, want := range map[string]struct {
		taker string
		volts float64
	}{"": {}, "cr2032": {"controller", 3.2}, "pochard-pack": {"derailleur", 8.4}} {
		cell := map[string]any{"nominal_v": 3.0}
		if form != "" {
			cell["form"] = form
		}
		figs := usualMix(t, map[string]map[string]any{"cell": cell,
			"rear_derailleur": {"actuation": "motor", "cell": "pochard-pack", "cell_max_v": 8.4},
			"rear_shifter":    {"actuation": "motor", "cell": "cr2032", "cell_max_v": 3.2},
		}).facts.Measure()
		taker, lack := figs.Value("cell_for")
		limit, _ := figs.Value("cell_limit_v")
		if taker.Known != (form != "") || taker.Text != want.taker || limit.Num != want.volts {
			t.Errorf("a cell %q is for %q and bears %v V, want %+v", form, taker.Text, limit.Num, want)
		}
		if form == "" && !slices.Contains(lack.Missing, "cell.form") {
			t.Errorf("of a cell without a form %v is missing", lack.Missing)
		}
	}
}

package rules_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestStepsStandByWhatIsThere holds that a step has its place by the parts of a mix
// and by what is known of them, and that a value which nobody stated leaves it there.
func TestStepsStandByWhatIsThere(t *testing.T) {
	set := mustLoad(t, pack("warn_if: false")+`
steps:
  - {id: both, with: [sail, mast], do: D, check: C, because: B}
  - {id: bare, with: [mast], without: [sail], do: D, check: C, because: B}
  - {id: dry, with: [sail], unless: sail.wet, do: D, check: C, because: B}
  - id: heel
    with: [sail]
    do: "Heel her. {sail.reefs > 1 ? 'Take a reef out.' : ''}"
    value: "{rig.heel_deg:.1} deg. By {mast.stays} stays."
    unstated: "Not stated; read it from the yard's sheet. {sail.cloth == 'nylon' ? '20 deg is usual.' : ''}"
    check: C
    because: B
`)
	for _, c := range []struct {
		facts facts
		want  string
	}{
		{facts{"sail.wet": true, "mast.stays": 2}, "both|heel Heel her. = By 2 stays."},
		{facts{"sail.wet": false, "rig.heel_deg": 7.0}, "dry|heel Heel her. = 7.0 deg."},
		{facts{"sail.reefs": 2, "sail.cloth": "nylon"}, "dry|heel Heel her. Take a reef out. = Not stated; read it from the yard's sheet. 20 deg is usual. lacks rig mast"},
		{facts{"sail.reefs": 1, "sail.cloth": "canvas"}, "dry|heel Heel her. = Not stated; read it from the yard's sheet. lacks rig mast"},
		{facts{"sail": nil, "mast.stays": 2}, "both|dry|heel Heel her. = By 2 stays."},
		{facts{"mast.stays": 2}, "bare"},
		{facts{}, ""},
	} {
		var got []string
		for _, d := range set.Sheet(records(c.facts)) {
			line := d.Step.ID
			if d.Do != "D" {
				line += " " + d.Do + " = " + d.Value
			}
			if len(d.Missing) > 0 {
				line += " lacks " + strings.Join(d.Missing, " ")
			}
			got = append(got, line)
		}
		if diff := cmp.Diff(c.want, strings.Join(got, "|")); diff != "" {
			t.Errorf("%v: %s", c.facts, diff)
		}
	}
}

// TestStop holds where the work ends when a rule fails: at the first step on the
// sheet that names it, else that names its group, else at the first of all.
func TestStop(t *testing.T) {
	set := mustLoad(t, strings.ReplaceAll(pack("warn_if: false"), "boats/rule", "rig/tight")+`
steps:
  - {id: look, do: D, check: C, because: B}
  - {id: stays, with: [mast], stopped_by: ["rig/*", sail/*], do: D, check: C, because: B, measured: [mast.stays, rig.heel_deg]}
  - {id: shrouds, stopped_by: [rig/tight], do: D, check: C, because: B}
  - {id: again, stopped_by: [rig/tight, rig/*], do: D, check: C, because: B}
`)
	sheet := set.Sheet(records(facts{}))
	for rule, want := range map[string]string{"rig/tight": "shrouds", "rig/loose": "again", "sail/area": "stays", "shop/price": "look"} {
		if got := set.Stop(rule, sheet); got.ID != want {
			t.Errorf("%s stops at %s, want %s", rule, got.ID, want)
		}
		if named := set.Stop(rule, sheet).Names(rule); named != (rule != "shop/price") {
			t.Errorf("%s: named %v", rule, named)
		}
	}
	if diff := cmp.Diff([]string{"mast.stays", "rig.heel_deg"}, set.Steps()[1].Measured); diff != "" {
		t.Error(diff)
	}
	if mustLoad(t, pack("warn_if: false")).Stop("a/b", nil) != nil {
		t.Error("there is a step in a set without any")
	}
}

package compat

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
)

// What a mix has and no rule judges is named, with the weight that it has: a belt or
// an idler leaves a report open, a hub gear's shifting does not.
func TestNotJudgedIsNamed(t *testing.T) {
	c := standardChecker(t)
	plain := map[string]map[string]any{
		"cassette": {"cogs_t": []int{18}, "cog_thickness_mm": 2.1}, "chain": {"inner_width_mm": 2.38, "outer_width_mm": 7.8},
		"crankset": {"rings_t": []int{42}}, "hub": {"kind_of_hub": "internal"}, "frame": {"chainstay_mm": 430.0},
	}
	for _, want := range []struct {
		kind, field string
		value       any
		what        string
		drive       bool
	}{
		{"frame", "drive", "belt", "the belt", true},
		{"frame", "idler_t", 14, "idler", true},
		{"frame", "timing_chain", true, "timing chain", true},
		{"chain", "pitch_mm", 9.5, "the chain", true},
		{"hub", "kind_of_hub", "internal", "hub gear's shifter", false},
		{"rear_shifter", "indexed", false, "place of each gear", false},
		{"rear_shifter", "integrated_brake", "hydraulic", "brake of the lever", false},
		{"chain_tensioner", "pulleys", 1, "tensioner", false},
		{"frame", "assist", "hub", "motor in the hub", false},
	} {
		r := c.Check(mixOf(drawWith(plain, want.kind, want.field, want.value)))
		i := slices.IndexFunc(r.NotJudged(), func(n NotJudged) bool { return strings.Contains(n.What, want.what) })
		if i < 0 {
			t.Errorf("%s.%s %v: not named in %+v", want.kind, want.field, want.value, r.NotJudged())
			continue
		}
		if n := r.NotJudged()[i]; n.Drive != want.drive || n.Text == "" {
			t.Errorf("%s.%s %v: %+v", want.kind, want.field, want.value, n)
		}
		if want.drive && (r.Complete || r.Verdict == rules.Pass || r.Verdict == rules.Warn) {
			t.Errorf("%s: complete %v, verdict %s", want.what, r.Complete, r.Verdict)
		}
		text, err := json.Marshal(r)
		if err != nil || !strings.Contains(string(text), `"not_judged":[{"what":"`) {
			t.Errorf("%s: the JSON does not name it: %v", want.what, err)
		}
	}
}

// A hub gear alone, and what is only named, leave a report complete; a brake in the
// mix is judged and not named; cogs on a geared hub are those of a derailleur.
func TestNotJudgedChangesNothing(t *testing.T) {
	c := standardChecker(t)
	hubGear := map[string]map[string]any{
		"cassette": {"cogs_t": []int{18}, "cog_thickness_mm": 2.1, "freehub": []string{"lug-3"}}, "chain": {"inner_width_mm": 2.38, "outer_width_mm": 7.8},
		"crankset": {"rings_t": []int{42}, "ring_thickness_mm": 2.0}, "hub": {"kind_of_hub": "internal", "freehub": "lug-3"},
	}
	r := c.Check(mixOf(drawWith(hubGear, "hub", "kind_of_hub", "internal")))
	if !r.Complete || len(r.NotJudged()) != 1 {
		t.Errorf("complete %v, not judged %+v; findings %v", r.Complete, r.NotJudged(), r.Verdicts())
	}
	r = c.Check(mixOf(drawWith(hubGear, "cassette", "cogs_t", []int{11, 32})))
	if n := r.NotJudged(); len(n) != 1 || !strings.Contains(n[0].What, "own gears") {
		t.Errorf("a geared hub with two cogs: %+v", n)
	}
	lever := drawWith(hubGear, "rear_shifter", "integrated_brake", "hydraulic")
	lever.Fields["brake"] = map[string]any{"pull": "hydraulic"}
	if n := c.Check(mixOf(lever)).NotJudged(); len(n) != 1 {
		t.Errorf("with its brake in the mix: %+v", n)
	}
	if n := (Report{}).NotJudged(); len(n) != 0 {
		t.Errorf("the zero report names %+v", n)
	}
	fixed := c.Check(mixOf(drawWith(hubGear, "hub", "kind_of_hub", "fixed")))
	if text, _ := json.Marshal(fixed); strings.Contains(string(text), "gears are in the hub") {
		t.Error("the gears of a fixed hub are said to be in it")
	}
}

// A single speed wants no derailleur, and a belt neither chain nor cassette.
func TestWhatABikeNeeds(t *testing.T) {
	for _, want := range []struct {
		kind, field string
		value       any
		absent      string
	}{
		{"cassette", "cogs_t", []int{18}, "chain crankset hub frame"},
		{"cassette", "cog_count", 1, "chain crankset hub frame"},
		{"cassette", "cog_count", 9, "chain rear_derailleur rear_shifter crankset hub frame"},
		{"cassette", "cogs_t", []int{11, 32}, "chain rear_derailleur rear_shifter crankset hub frame"},
		{"hub", "kind_of_hub", "fixed", "cassette chain crankset frame"},
		{"hub", "kind_of_hub", "cassette", "cassette chain rear_derailleur rear_shifter crankset frame"},
		{"frame", "drive", "belt", "crankset hub"},
		{"frame", "drive", "chain", "cassette chain rear_derailleur rear_shifter crankset hub"},
		{"crankset", "rings_t", []int{34, 50}, "cassette chain rear_derailleur rear_shifter hub frame front_derailleur"},
	} {
		d := drawWith(nil, want.kind, want.field, want.value)
		d.Bike = true
		if got := strings.Join(standardChecker(t).Check(mixOf(d)).Absent(), " "); got != want.absent {
			t.Errorf("%s.%s %v: absent %s, want %s", want.kind, want.field, want.value, got, want.absent)
		}
	}
}

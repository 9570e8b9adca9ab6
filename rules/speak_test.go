package rules_test

import (
	"slices"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestValues holds the let-names of a finding: sorted, each as a number, a word or a flag;
// what is a list, is open, or goes wrong stays out, and so does the infinite.
func TestValues(t *testing.T) {
	set := mustLoad(t, pack(`let:
  wide: sail.area_m2 / 2.0
  dry: sail.cloth + ", dry"
  big: sail.area_m2 > 10
  cloths: sail.panels_m2
  open: mast.height_m * 2.0
  none: sail.panels_m2[7]
  far: sail.area_m2 / (sail.area_m2 - 12.5)`, "fail_if: wide > 3.0 || big || dry == 'x'"))
	res := set.Evaluate(records(facts{"sail.area_m2": 12.5, "sail.cloth": "canvas", "sail.panels_m2": []float64{1, 2}, "mast": nil}))
	s := res.Speak()
	defer s.Close()
	got := s.AppendValues([]rules.Named{{Name: "before"}}, &res.Findings[0])
	want := []rules.Named{{Name: "before"}, {Name: "big", Type: fact.Flag, Num: 1}, {Name: "dry", Type: fact.Name, Text: "canvas, dry"},
		{Name: "wide", Type: fact.Fraction, Num: 6.25}}
	if !slices.Equal(got, want) {
		t.Fatalf("%v\nwant %v", got, want)
	}
	if got[1].Value() != true || got[2].Value() != "canvas, dry" || got[3].Value() != 6.25 {
		t.Errorf("%v", got)
	}
}

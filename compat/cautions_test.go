package compat

import (
	"slices"
	"testing"
)

// A brake that hangs on the shifter's lever or sits in the hub is told of until
// somebody has judged it.
func TestBrakeCautions(t *testing.T) {
	c := standardChecker(t)
	for _, test := range []struct {
		name, parts string
		want        []string
	}{
		{"no lever", `{rear_shifter: {integrated_brake: none}}`, nil},
		{"a lever and no brake", `{rear_shifter: {integrated_brake: short-pull}}`, []string{leverUnjudged}},
		{"a front lever and no brake", `{front_shifter: {integrated_brake: hydraulic}}`, []string{leverUnjudged}},
		{"a lever and its brake", `{rear_shifter: {integrated_brake: short-pull}, brake: {pull: short-pull}}`, nil},
		{"a lever that does not say", `{rear_shifter: {actuation: cable}}`, nil},
		{"a motor in the wheel", `{frame: {assist: hub}}`, []string{motorInWheel}},
		{"a motor at the crank", `{frame: {assist: mid}}`, nil},
		{"a coaster", `{hub: {brake: coaster}}`, []string{armOfHubBrake}},
	} {
		m, err := ReadMix("mix.yaml", []byte("mix: "+test.name+"\nscope: cart\nparts: "+test.parts+"\n"), nil)
		if err != nil {
			t.Fatal(err)
		}
		r := c.Check(m)
		if got := r.brakeCautions(); !slices.Equal(got, test.want) {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
		for _, want := range test.want {
			if !slices.Contains(r.Cautions(), want) {
				t.Errorf("%s: the report does not print %q", test.name, want)
			}
		}
	}
}

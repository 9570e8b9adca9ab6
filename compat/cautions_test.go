package compat

import (
	"slices"
	"strings"
	"testing"
)

// A brake that hangs on the shifter's lever or sits in the hub is told of until
// somebody has judged it.
func TestBrakeCautions(t *testing.T) {
	c := standardChecker(t)
	for _, test := range []struct {
		name, parts string
		lever       bool // its brake is named as not judged
		want        []string
	}{
		{"no lever", `{rear_shifter: {integrated_brake: none}}`, false, nil},
		{"a lever and no brake", `{rear_shifter: {integrated_brake: short-pull}}`, true, nil},
		{"a front lever and no brake", `{front_shifter: {integrated_brake: hydraulic}}`, true, nil},
		{"a lever and its brake", `{rear_shifter: {integrated_brake: short-pull}, brake: {pull: short-pull}}`, false, nil},
		{"a lever that does not say", `{rear_shifter: {actuation: cable}}`, false, nil},
		{"a motor in the wheel", `{frame: {assist: hub}}`, false, []string{"The motor in the wheel was not judged"}},
		{"a motor at the crank", `{frame: {assist: mid}}`, false, nil},
		{"a coaster", `{hub: {brake: coaster}}`, false, []string{"The hub has a brake of its own"}},
	} {
		m, err := ReadMix("mix.yaml", []byte("mix: "+test.name+"\nscope: cart\nparts: "+test.parts+"\n"), nil)
		if err != nil {
			t.Fatal(err)
		}
		r := c.Check(m)
		levers := slices.ContainsFunc(r.NotJudged(), func(n NotJudged) bool { return strings.Contains(n.Caution, "The brake of this lever was not judged") })
		if levers != test.lever {
			t.Errorf("%s: the lever's brake is named: %v", test.name, levers)
		}
		for _, start := range []string{"The motor in the wheel was not judged", "The hub has a brake of its own"} {
			told := slices.ContainsFunc(r.Cautions(), func(c string) bool { return strings.HasPrefix(c, start) })
			if told != slices.Contains(test.want, start) {
				t.Errorf("%s: %q is told: %v", test.name, start, told)
			}
		}
	}
}

package rules_test

import (
	"testing"

	"example.org/cogcourt/rules/fact"
)

// Whether the sentence of a figure is news goes with the sentence that is given.
func TestQuietGoesWithItsSentence(t *testing.T) {
	usual := fact.Lack{Reason: "a raft does not heel", Quiet: true}
	news := fact.Lack{Reason: "the boat lies still"}
	both := "fail_if: rig.heel_deg > 30 && rig.speed_kn > 9"
	for _, c := range []struct {
		rule  string
		facts facts
		names string
		quiet bool
	}{
		{heel, facts{"rig.heel_deg": usual}, usual.Reason, true},
		{heel, facts{"rig.heel_deg": news}, news.Reason, false},
		{both, facts{"rig.heel_deg": usual, "rig.speed_kn": news}, usual.Reason, true},
		{both, facts{"rig.heel_deg": news, "rig.speed_kn": usual}, news.Reason, false},
		{"when: stated(rig.heel_deg)\n" + heel, facts{"rig.heel_deg": usual}, usual.Reason, true},
		{heel, facts{"rig.heel_deg": noMast}, "mast", false},
	} {
		got := mustLoad(t, pack(c.rule)).Evaluate(records(c.facts)).NotApplied
		if len(got) != 1 || got[0].Names[0] != c.names || got[0].Quiet != c.quiet {
			t.Errorf("%s with %v gives %+v", c.rule, c.facts, got)
		}
	}
}

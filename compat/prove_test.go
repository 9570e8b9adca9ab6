package compat_test

import (
	"testing"

	"example.org/cogcourt/rules/prove"
)

func TestStandardCoverage(t *testing.T) {
	covered, err := prove.Coverage(checker(t).Rules())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range covered {
		for _, g := range c.Gaps {
			t.Errorf("%s: %s: %s; close it %s", g.Pos, c.Rule.ID, g.Text, g.Closing)
		}
	}
}

func TestStandardMutants(t *testing.T) {
	m, err := prove.Mutants(checker(t).Rules())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range m.Survivors() {
		t.Errorf("%s: %s: %s: %s survives as %s; kill it %s", s.Pos, s.Rule.ID, s.In, s.Change, s.Text, s.Closing)
	}
	for _, w := range m.Stale {
		t.Errorf("%s: this waiver waives nothing", w.Pos)
	}
	if len(m.Mutants) == 0 {
		t.Error("no mutant was made")
	}
}

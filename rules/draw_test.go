package rules_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules"
)

// TestDraw holds what a rule says of its drawing, written as a name or with limits,
// which may be numbers of let-names that the conditions read through others.
func TestDraw(t *testing.T) {
	for lines, want := range map[string]rules.Draw{
		"":           {},
		"draw: plan": {Name: "plan"},
		"draw: heel": {Name: "heel"},
		"draw: {heel: {warn: 20, fail: 30.5}}": {Name: "heel", Limits: []rules.DrawnLimit{{Name: "warn", Value: 20},
			{Name: "fail", Value: 30.5}}},
		"draw: {heel: {warn: -0.5}}": {Name: "heel", Limits: []rules.DrawnLimit{{Name: "warn", Value: -0.5}}},
	} {
		set := mustLoad(t, pack("let: {twenty: 20.0, most: twenty + 0}", "fail_if: rig.heel_deg > 30.5",
			"warn_if: rig.heel_deg > most || rig.heel_deg < -0.5", lines))
		got := set.Rules()[0].Draw
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", lines, diff)
		}
		for _, l := range want.Limits {
			if x, ok := got.Limit(l.Name); !ok || x != l.Value {
				t.Errorf("%s: the limit %s is %g, %t", lines, l.Name, x, ok)
			}
		}
		if x, ok := got.Limit("least"); ok || x != 0 {
			t.Errorf("%s: there is a limit that nobody drew: %g", lines, x)
		}
	}
}

// TestNothingIsDrawn holds that a set without drawings refuses every one.
func TestNothingIsDrawn(t *testing.T) {
	_, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files("boats.yaml", pack("fail_if: sail.wet", "draw: heel"))})
	if err == nil || !strings.Contains(err.Error(), `no drawing is called "heel" (nothing is drawn here; take draw: away)`) {
		t.Errorf("got %v", err)
	}
}

// TestDeciding leaves out what only texts read.
func TestDeciding(t *testing.T) {
	set := mustLoad(t, pack("let: {a: sail.area_m2 + 1, b: a * 2, c: b + 3, d: a + 4}", "when: sail.wet", "fail_if: c > 5", "say: \"{d}\""))
	var got []string
	for _, e := range set.Rules()[0].Deciding() {
		got = append(got, e.Key)
	}
	if diff := cmp.Diff([]string{"let.a", "let.b", "let.c", "when", "fail_if"}, got); diff != "" {
		t.Error(diff)
	}
}

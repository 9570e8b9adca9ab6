package rules_test

import (
	"slices"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestOtherKindIsTold holds that a finding which stands by the other kind of parts with a
// count says at which facts of that kind it fails, beside those of its own spread: with two
// stays the rule fails by any sail, with three only by a large one.
func TestOtherKindIsTold(t *testing.T) {
	f := ofTwoKinds(t, "fail_if: mast.stays < 3 || sail.area_m2 > 14", usualOf(12, 10, 15)).Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil {
		t.Fatalf("with three stays it hangs on the sail, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
	three := rules.Point{Name: "mast.stays", Value: 3}
	if want := []rules.Point{{Name: "sail.area_m2", Value: 15}, three}; !slices.Equal(f.Lean.FailsAt, want) {
		t.Errorf("it fails at %v, want %v", f.Lean.FailsAt, want)
	}
	if want := []rules.Point{three}; !slices.Equal(f.Lean.HoldsAt, want) {
		t.Errorf("it holds at %v, want %v", f.Lean.HoldsAt, want)
	}
}

// TestWhereBothKindsFail holds that of two kinds on which a rule fails the one stands that
// the count is taken for, unless of the other it is less certain.
func TestWhereBothKindsFail(t *testing.T) {
	area := fact.Num(15)
	assumed := area
	assumed.Assumed = true
	for _, c := range []struct {
		rule  string
		area  fact.Value
		want  rules.Verdict
		stays float64
	}{
		{"fail_if: mast.stays < 4", area, rules.Fail, 2},
		{"fail_if: mast.stays < 3 || sail.area_m2 > 14", area, rules.Fail, 2},
		{"fail_if: mast.stays < 3 || sail.area_m2 > 14", assumed, rules.Warn, 3}, // with three stays it fails by what nobody stated
		{"fail_if: mast.stays > 2 || sail.area_m2 > 14", assumed, rules.Warn, 2},
	} {
		res := ofTwoKinds(t, c.rule, c.area)
		f := res.Findings[0]
		if stays := mast.Ref("stays").In(res.About(f)[1]).Num; f.Ruled != c.want || stays != c.stays {
			t.Errorf("%s: %s with %v stays, want %s with %v", c.rule, f.Ruled, stays, c.want, c.stays)
		}
	}
}

// TestWhereOneKindFails holds that a rule which fails on one kind and not on the other is
// open, and says by which of them it fails, whichever the count is taken for.
func TestWhereOneKindFails(t *testing.T) {
	two, three := rules.Point{Name: "mast.stays", Value: 2}, rules.Point{Name: "mast.stays", Value: 3}
	for rule, at := range map[string][2]rules.Point{"fail_if: mast.stays > 2": {three, two}, "fail_if: mast.stays < 3": {two, three}} {
		f := ofTwoKinds(t, rule, fact.Num(12)).Findings[0]
		if f.Ruled != rules.Unknown || f.Lean == nil || f.Lean.Ask != "mast.stays" {
			t.Fatalf("%s: it is %s, leaning %+v", rule, f.Ruled, f.Lean)
		}
		if !slices.Equal(f.Lean.FailsAt, at[:1]) || !slices.Equal(f.Lean.HoldsAt, at[1:]) {
			t.Errorf("%s: it fails at %v and holds at %v", rule, f.Lean.FailsAt, f.Lean.HoldsAt)
		}
	}
}

// TestAsksForTheKindThatDecides holds that of two counts which two kinds of parts have the
// one is asked for that the rule hangs on: the reefs, of which there is another kind as
// well, are nothing to it.
func TestAsksForTheKindThatDecides(t *testing.T) {
	for rule, want := range map[string]string{"fail_if: mast.stays > 2": "mast.stays", "fail_if: sail.reefs > 1": "sail.reefs"} {
		f := ofTwoKinds(t, rule, fact.Num(12)).Findings[0]
		if f.Ruled != rules.Unknown || f.Lean == nil || f.Lean.Ask != want || !slices.Equal(f.Missing, []string{want}) {
			t.Errorf("%s: it is %s, lacks %v and leans %+v; want %s asked for", rule, f.Ruled, f.Missing, f.Lean, want)
		}
	}
}

// TestOpenByOneKindStaysOpen holds that what is open by one kind of parts says so by that
// one: with the next kind it passes as with the first, which decides nothing.
func TestOpenByOneKindStaysOpen(t *testing.T) {
	f := ofTwoKinds(t, "fail_if: mast.stays > 2 && sail.reefs > 0", fact.Num(12)).Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil || f.Lean.Ask != "mast.stays" || f.Lean.Nominal != rules.Pass {
		t.Errorf("it fails with three stays, whatever the reefs, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestWhereNeitherKindFails holds that the worse of two verdicts stands.
func TestWhereNeitherKindFails(t *testing.T) {
	for cond, c := range map[string]struct {
		want  rules.Verdict
		stays float64
	}{
		"mast.stays > 2": {rules.Warn, 3}, "mast.stays < 3": {rules.Warn, 2}, "mast.stays > 1": {rules.Warn, 2}, "mast.stays > 5": {rules.Pass, 2},
	} {
		res := ofTwoKinds(t, "warn_if: "+cond, fact.Num(12))
		f := res.Findings[0]
		if stays := mast.Ref("stays").In(res.About(f)[1]).Num; f.Ruled != c.want || stays != c.stays || f.Lean != nil {
			t.Errorf("%s: %s with %v stays, want %s with %v", cond, f.Ruled, stays, c.want, c.stays)
		}
	}
}

// TestTheOtherKindHasTolerances holds that a rule which only just holds on the other kind
// warns: what is stated with a tolerance is as uncertain beside three stays as beside two.
func TestTheOtherKindHasTolerances(t *testing.T) {
	res := ofTwoKinds(t, "fail_if: mast.stays > 2 && sail.area_m2 > 14", loose(12, 3))
	f := res.Findings[0]
	if stays := mast.Ref("stays").In(res.About(f)[1]).Num; f.Ruled != rules.Warn || stays != 3 {
		t.Errorf("with three stays and 15 m2 it fails, and it is %s with %v stays", f.Ruled, stays)
	}
	if m := f.Margin; m == nil || m.Nominal != rules.Pass || m.Open || !slices.Equal(m.By, []string{"sail.area_m2"}) {
		t.Errorf("it hangs on the tolerance of the sail, and says %+v", m)
	}
	if f := ofTwoKinds(t, "fail_if: mast.stays > 2 && sail.area_m2 > 14", loose(12, 1.5)).Findings[0]; f.Ruled != rules.Pass || f.Margin != nil {
		t.Errorf("13.5 m2 hold with either, and it is %s, by %+v", f.Ruled, f.Margin)
	}
}

// ofTwoKinds judges a boat whose mast is known by a count that two kinds have, one of two
// stays and one of three, and whose sail by another, of one row of reefs and of two.
func ofTwoKinds(t *testing.T, rule string, area fact.Value) *rules.Result {
	t.Helper()
	stays, reefs := mast.Ref("stays"), sail.Ref("reefs")
	same := func(records []*rules.Record, _, _ []rules.Ref, use func([]*rules.Record)) { use(records) }
	set, err := rules.Load(rules.Config{
		Vocabulary: vocabulary(t), Files: files("boats.yaml", pack(rule)),
		Derive: func(given []*rules.Record) []*rules.Record { return given }, Again: same,
		Behind: func(r rules.Ref) []rules.Ref { return []rules.Ref{r} },
		Ways:   func(_, _ rules.Ref) (int8, bool) { return 0, false },
		Others: func(given []*rules.Record) []rules.Other {
			three, two := slices.Clone(given), slices.Clone(given)
			three[1] = records(facts{"mast.stays": 3})[1]
			two[0] = given[0].Clone()
			two[0].Put(reefs.Index, fact.Num(2))
			return []rules.Other{
				{Records: three, Moved: []rules.Ref{stays}, Ask: stays}, {Records: two, Moved: []rules.Ref{reefs}, Ask: reefs},
			}
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	given := records(facts{"sail.reefs": 1, "mast.stays": 2})
	given[0].Put(sailArea.Index, area)
	count := fact.Num(2)
	count.Usual = fact.ByCount
	given[1].Put(stays.Index, count)
	return set.Evaluate(given)
}

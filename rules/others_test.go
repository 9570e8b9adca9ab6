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
	stays := mast.Ref("stays")
	same := func(records []*rules.Record, _, _ []rules.Ref, use func([]*rules.Record)) { use(records) }
	set, err := rules.Load(rules.Config{
		Vocabulary: vocabulary(t), Files: files("boats.yaml", pack("fail_if: mast.stays < 3 || sail.area_m2 > 14")),
		Derive: func(given []*rules.Record) []*rules.Record { return given }, Again: same,
		Behind: func(r rules.Ref) []rules.Ref { return []rules.Ref{r} },
		Ways:   func(_, _ rules.Ref) (int8, bool) { return 0, false },
		Others: func(given []*rules.Record) []rules.Other {
			kind := slices.Clone(given)
			kind[1] = records(facts{"mast.stays": 3})[1]
			return []rules.Other{{Records: kind, Moved: []rules.Ref{stays}, Ask: stays}}
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	given := records(facts{"sail.reefs": 1, "mast.stays": 2})
	given[0].Put(sailArea.Index, usualOf(12, 10, 15))
	count := fact.Num(2)
	count.Usual = fact.ByCount
	given[1].Put(stays.Index, count)
	f := set.Evaluate(given).Findings[0]
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

package rules_test

import (
	"slices"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// The mast counts for a large sail alone: only then is its height read.
var sailArea, mastHeight, rigHeel = sail.Ref("area_m2"), mast.Ref("height_m"), rig.Ref("heel_deg")

func markOf(ref rules.Ref) fact.Marks {
	switch ref {
	case sailArea:
		return fact.MarkAt(0)
	case mastHeight:
		return fact.MarkAt(fact.MostMarks - 1)
	}
	return fact.Marks{}
}

// heelsByMast works the heel out and says what it was worked out with.
func heelsByMast(given []*rules.Record) []*rules.Record {
	out := slices.Clone(given)
	values, reads := make([]fact.Value, 2), make([]fact.Marks, 2)
	area := sailArea.In(given[0]).Num
	reads[0].Join(markOf(sailArea))
	if area > 13 {
		reads[0].Join(markOf(mastHeight))
		area += mastHeight.In(given[1]).Num - 10
	}
	values[0] = fact.Num(area)
	out[2] = &rules.Record{}
	rig.FillComputed(out[2], values, []*fact.Lack{nil, {Missing: []string{"rig.speed_kn"}}}, reads)
	return out
}

// byMast judges one rule on a boat with this sail and mast.
func byMast(t *testing.T, area, height fact.Value, lines ...string) *rules.Result {
	t.Helper()
	again := func(records []*rules.Record, _, _ []rules.Ref, use func([]*rules.Record)) { use(heelsByMast(records)) }
	set, err := rules.Load(rules.Config{
		Vocabulary: vocabulary(t), Files: files("boats.yaml", pack(lines...)), Derive: heelsByMast, Again: again, Mark: markOf,
		Behind: func(r rules.Ref) []rules.Ref {
			if r == rigHeel {
				return []rules.Ref{sailArea, mastHeight}
			}
			return []rules.Ref{r}
		},
		Ways: func(of, _ rules.Ref) (int8, bool) {
			if of == rigHeel {
				return 1, false
			}
			return 0, false
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	given := records(facts{"sail.reefs": 1, "mast.stays": 3})
	given[0].Put(sailArea.Index, area)
	given[1].Put(mastHeight.Index, height)
	return set.Evaluate(heelsByMast(given))
}

func usualOf(x, least, most float64) fact.Value {
	v := fact.Num(x)
	v.Usual = fact.ByClass
	return v.WithSpread(&fact.Spread{Least: least, Most: most, Source: "memory"})
}

func loose(x, tol float64) fact.Value {
	v := fact.Num(x)
	v.Tol = tol
	return v
}

// TestReadOnTheWay holds that a fact decides which is read only where another has moved:
// the heel of 18.5 needs a sail of 14.5 or more and a mast of nearly 14 together.
func TestReadOnTheWay(t *testing.T) {
	const rule = "fail_if: rig.heel_deg > 18.2"
	for name, c := range map[string]struct{ area, height fact.Value }{
		"usual":      {usualOf(12, 10, 15), usualOf(10, 8, 14)},
		"toleranced": {loose(12, 3), loose(10, 4)},
	} {
		f := byMast(t, c.area, c.height, rule).Findings[0]
		var by []string
		switch {
		case f.Lean != nil:
			by = f.Lean.By
		case f.Margin != nil:
			by = f.Margin.By
		}
		if f.Ruled == rules.Pass || f.Ruled == rules.Fail || !slices.Contains(by, "mast.height_m") {
			t.Errorf("%s: %v by %v, and it fails with both at their most", name, f.Ruled, by)
		}
	}
}

// TestNotReadIsNotTried holds that what a rule's facts were not worked out with decides
// nothing and is not counted among what is too much to be tried.
func TestNotReadIsNotTried(t *testing.T) {
	const rule = "fail_if: rig.heel_deg > 12.4"
	for name, c := range map[string]struct{ area, height fact.Value }{
		"usual":      {fact.Num(12), usualOf(10, 8, 30)},
		"toleranced": {fact.Num(12), loose(10, 20)},
	} {
		if f := byMast(t, c.area, c.height, rule).Findings[0]; f.Ruled != rules.Pass || f.Lean != nil || f.Margin != nil {
			t.Errorf("%s: %+v, though no mast was read", name, f)
		}
	}
	// With a large sail the mast is read, and decides.
	if f := byMast(t, fact.Num(14), usualOf(8, 7, 30), rule).Findings[0]; f.Lean == nil {
		t.Errorf("%+v, and the mast is read", f)
	}
}

// TestBetweenTwoFacts holds that a rule is tried between the ends where two facts that go
// one way together make it begin and end to fail.
func TestBetweenTwoFacts(t *testing.T) {
	f := byMast(t, usualOf(12, 10, 13), fact.Num(10), "fail_if: sail.area_m2 > 10.5 && rig.heel_deg < 11.5").Findings[0]
	if f.Lean == nil || f.Ruled != rules.Unknown {
		t.Errorf("%+v, and it fails from 10.5 to 11.5", f)
	}
}

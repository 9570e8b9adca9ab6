package rules_test

import (
	"slices"
	"strings"
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

// TestTolerancesReadOnTheWay holds that toleranced facts which are read only where a usual
// one has moved count with the others: four are tried at all their corners, and of five
// nothing is told, though the rule would fail at none.
func TestTolerancesReadOnTheWay(t *testing.T) {
	for _, c := range []struct {
		fails string
		want  rules.Verdict
		open  bool
	}{
		{"boat.heel_deg + hull.beam_m + hull.draught_m + hull.deck_m > 99", rules.Pass, false},
		{"boat.heel_deg + hull.beam_m + hull.draught_m + hull.deck_m > 19.3", rules.Unknown, false}, // 19.4 at one corner alone
		{"boat.heel_deg + hull.beam_m + hull.draught_m + hull.deck_m + hull.keel_m > 99", rules.Unknown, true},
	} {
		f := onAHull(t, "fail_if: "+c.fails).Findings[0]
		if f.Ruled != c.want || (f.Lean != nil) != (c.want == rules.Unknown) || f.Lean != nil && f.Lean.Open != c.open || f.Margin != nil {
			t.Errorf("%s: %s, leaning %+v, margin %+v; want %s, open %t", c.fails, f.Ruled, f.Lean, f.Margin, c.want, c.open)
		}
	}
}

// TestCornersAreShared holds that a rule which hangs on one of two toleranced facts is tried
// at the corners that another is tried at which hangs on both, whichever comes first: all is
// worked out anew four times, for two facts have four corners.
func TestCornersAreShared(t *testing.T) {
	one := pack("id: boats/one", "fail_if: sail.area_m2 > 14")
	both := pack("id: boats/both", "fail_if: sail.area_m2 > 14 && mast.height_m > 11")
	by := map[string][]string{"boats/one": {"sail.area_m2"}, "boats/both": {"sail.area_m2", "mast.height_m"}}
	for _, order := range [][2]string{{one, both}, {both, one}} {
		_, second, _ := strings.Cut(order[1], "rules:\n")
		corners := 0
		set, err := rules.Load(rules.Config{
			Vocabulary: vocabulary(t), Files: files("boats.yaml", order[0]+second), Mark: markOf,
			Again: func(records []*rules.Record, _, _ []rules.Ref, use func([]*rules.Record)) { corners++; use(records) },
		})
		if err != nil {
			t.Fatal(err)
		}
		res := set.Evaluate(records(facts{"sail.area_m2": loose(12, 3), "mast.height_m": loose(10, 2)}))
		for _, f := range res.Findings {
			if f.Ruled != rules.Warn || f.Margin == nil || !slices.Equal(f.Margin.By, by[f.Rule.ID]) {
				t.Errorf("%s is %s, margin %+v; want a warning by %v", f.Rule.ID, f.Ruled, f.Margin, by[f.Rule.ID])
			}
		}
		if corners != 4 {
			t.Errorf("%s first: tried at %d corners, want 4", res.Findings[0].Rule.ID, corners)
		}
	}
}

// onAHull judges a boat whose sail is known by what is usual, 10 to 15 m2, and all of whose
// hull is 1 m, give or take 0.1. It heels by the sail, and with a large one by the mast too.
func onAHull(t *testing.T, rule string) *rules.Result {
	t.Helper()
	var fields []fact.Field
	for _, name := range []string{"sail_m2", "mast_m", "beam_m", "draught_m", "deck_m", "keel_m"} {
		fields = append(fields, fact.Field{Name: name, Type: fact.Fraction, Max: 99, Doc: "A measure.", How: "Measure it."})
	}
	hull := rules.NewObject("hull", "A hull.", fields...)
	boat := rules.NewObject("boat", "What is worked out.", fact.Field{Name: "heel_deg", Type: fact.Fraction, Max: 99, Doc: "Heel."})
	v, err := rules.NewVocabulary(hull, boat)
	if err != nil {
		t.Fatal(err)
	}
	heel := func(given []*rules.Record) []*rules.Record {
		deg, reads := hull.Ref("sail_m2").In(given[0]).Num, fact.MarkAt(0)
		if deg > 13 {
			deg += hull.Ref("mast_m").In(given[0]).Num
			reads.Join(fact.MarkAt(1))
		}
		out := []*rules.Record{given[0], {}}
		boat.FillComputed(out[1], []fact.Value{fact.Num(deg)}, []*fact.Lack{nil}, []fact.Marks{reads})
		return out
	}
	set, err := rules.Load(rules.Config{
		Vocabulary: v, Files: files("boats.yaml", pack(rule)), Derive: heel,
		Again: func(records []*rules.Record, _, _ []rules.Ref, use func([]*rules.Record)) { use(heel(records)) },
		Mark:  func(ref rules.Ref) fact.Marks { return fact.MarkAt(ref.Index) },
		Behind: func(ref rules.Ref) []rules.Ref {
			if ref.Object == boat {
				return []rules.Ref{hull.Ref("sail_m2"), hull.Ref("mast_m")}
			}
			return []rules.Ref{ref}
		},
		Ways: func(_, _ rules.Ref) (int8, bool) { return 1, false },
	})
	if err != nil {
		t.Fatal(err)
	}
	values := []fact.Value{usualOf(12, 10, 15), loose(1, 0.1), loose(1, 0.1), loose(1, 0.1), loose(1, 0.1), loose(1, 0.1)}
	return set.Evaluate(heel([]*rules.Record{hull.NewRecord(values, nil), nil}))
}

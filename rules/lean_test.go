package rules_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// heels gives the rig of a sail: it heels as far as the sail is large, and a small one
// does not heel at all, which is then no number.
func heels(given []*rules.Record) []*rules.Record {
	out := slices.Clone(given)
	values, lacks := make([]fact.Value, 2), []fact.Lack{{}, {Missing: []string{"rig.speed_kn"}}}
	if area := sail.Ref("area_m2").In(given[0]); area.Num >= 14.9 {
		values[0] = fact.Num(area.Num)
	} else {
		lacks[0] = fact.Lack{Reason: "a small sail does not heel"}
	}
	out[2] = rig.NewRecord(values, lacks)
	return out
}

// heeling works the rig out; the heel may turn as the area rises, or nobody declares how
// it goes, as nobody does of what it hangs on beside.
type heeling struct {
	derive     func([]*rules.Record) []*rules.Record
	turns      bool
	undeclared bool
	beside     []rules.Ref
}

// heelOf gives the rig of which the heel is what a function makes of the area, or lacks
// something.
func heelOf(of func(area float64) (fact.Value, fact.Lack)) heeling {
	return heeling{derive: func(given []*rules.Record) []*rules.Record {
		out := slices.Clone(given)
		values, lacks := make([]fact.Value, 2), []fact.Lack{{}, {Missing: []string{"rig.speed_kn"}}}
		values[0], lacks[0] = of(sail.Ref("area_m2").In(given[0]).Num)
		out[2] = rig.NewRecord(values, lacks)
		return out
	}}
}

// leans judges one rule on a boat whose sail is known by what is usual, and whose heel is
// worked out from it.
func leans(t *testing.T, f facts, lines ...string) *rules.Result {
	t.Helper()
	return leansBy(t, heeling{derive: heels}, f, lines...)
}

// leansBy is the same with a heel of another kind.
func leansBy(t *testing.T, by heeling, f facts, lines ...string) *rules.Result {
	t.Helper()
	area, deg := sail.Ref("area_m2"), rig.Ref("heel_deg")
	set, err := rules.Load(rules.Config{
		Vocabulary: vocabulary(t), Files: files("boats.yaml", pack(lines...)), Derive: by.derive,
		Again: func(records []*rules.Record, _, _ []rules.Ref, use func([]*rules.Record)) { use(by.derive(records)) },
		Behind: func(r rules.Ref) []rules.Ref {
			if r == deg {
				return append([]rules.Ref{area}, by.beside...)
			}
			return []rules.Ref{r}
		},
		Ways: func(of, with rules.Ref) (int8, bool) {
			if of == deg && with == area && !by.undeclared {
				return 1, by.turns
			}
			return 0, false
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	given := records(f)
	usual := fact.Num(12)
	usual.Usual = fact.ByClass
	usual = usual.WithSpread(&fact.Spread{Least: 10, Most: 15, Source: "memory"})
	given[0].Put(area.Index, usual)
	return set.Evaluate(by.derive(given))
}

// TestLeanOnWhatIsAskedFor holds that a rule which only asks for a computed fact is tried
// where that begins to mean something.
func TestLeanOnWhatIsAskedFor(t *testing.T) {
	boat := facts{"sail.reefs": 1, "mast.stays": 3}
	res := leans(t, boat, "when: stated(rig.heel_deg)", "fail_if: mast.stays > 2")
	if len(res.Findings) != 1 || res.Findings[0].Ruled != rules.Warn || res.Findings[0].Lean == nil {
		t.Fatalf("it fails where the sail is large, and gives %+v, not applied %+v", res.Findings, res.NotApplied)
	}
	l := res.Findings[0].Lean
	if want := []rules.Point{{Name: "sail.area_m2", Value: 15}}; !slices.Equal(l.FailsAt, want) || len(l.HoldsAt) > 0 || l.Nominal != rules.Pass {
		t.Errorf("it leans %+v", *l)
	}
	boat["mast.stays"] = 1
	if res = leans(t, boat, "when: stated(rig.heel_deg)", "fail_if: mast.stays > 2"); len(res.Findings) > 0 || res.NotApplied[0].Reason != rules.ReasonFigure {
		t.Errorf("it fails nowhere, and gives %+v, not applied %+v", res.Findings, res.NotApplied)
	}
}

// TestLeanIsOfFailing holds what a spread decides: whether the rule fails. Where only
// warn_if is open at some of its values, the rule fails nowhere; where fail_if is, the
// finding is open, and says at which.
func TestLeanIsOfFailing(t *testing.T) {
	boat := facts{"sail.reefs": 1, "mast.stays": 3} // and nobody states its height
	res := leans(t, boat, "fail_if: sail.area_m2 > 40", "warn_if: sail.area_m2 > 14 && mast.height_m > 3")
	if f := res.Findings[0]; f.Ruled != rules.Pass || f.Lean != nil {
		t.Errorf("it fails nowhere, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
	res = leans(t, boat, "fail_if: sail.area_m2 > 14 && mast.height_m > 3", "warn_if: sail.area_m2 > 40")
	f := res.Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil {
		t.Fatalf("it may fail where the sail is large, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
	if want := []rules.Point{{Name: "sail.area_m2", Value: 15}}; !slices.Equal(f.Lean.OpenAt, want) || len(f.Lean.FailsAt) > 0 {
		t.Errorf("it leans %+v", *f.Lean)
	}
}

// TestLeanNamesAListByWhatMoves holds that the place of a list with tolerances is given by
// an entry that carries one.
func TestLeanNamesAListByWhatMoves(t *testing.T) {
	panels := fact.Nums([]float64{1, 1.75})
	panels = panels.WithTols([]float64{0, 0.5})
	res := leans(t, facts{"sail.panels_m2": panels}, "fail_if: sail.area_m2 > 14 && sail.panels_m2[1] > 2.0")
	f := res.Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil {
		t.Fatalf("it is %s, leaning %+v", f.Ruled, f.Lean)
	}
	if want := []rules.Point{{Name: "sail.area_m2", Value: 15}, {Name: "sail.panels_m2", Value: 2.25}}; !slices.Equal(f.Lean.FailsAt, want) {
		t.Errorf("it fails at %v, want %v", f.Lean.FailsAt, want)
	}
}

// TestLeanLeavesTolerancesAside holds that a fail which only the tolerance of a stated fact
// makes a warning is not open beside that: over what is usual it fails everywhere.
func TestLeanLeavesTolerancesAside(t *testing.T) {
	height := fact.Num(5)
	height.Tol = 1
	for cond, want := range map[string]rules.Verdict{
		"mast.height_m > 4.5 && sail.area_m2 > 2":  rules.Warn,
		"mast.height_m > 4.5 && sail.area_m2 > 11": rules.Unknown, // and what is usual leaves it open by itself
	} {
		f := leans(t, facts{"sail.reefs": 1, "mast.height_m": height}, "fail_if: "+cond).Findings[0]
		if f.Ruled != want || (f.Margin != nil) != (want == rules.Warn) || (f.Lean != nil) != (want == rules.Unknown) {
			t.Errorf("%s: %s, margin %+v, leaning %+v; want %s", cond, f.Ruled, f.Margin, f.Lean, want)
		}
	}
}

// TestLeanBetween holds that a rule which may fail between two values is tried there too,
// and not at the ends of what is usual alone.
func TestLeanBetween(t *testing.T) {
	boat := facts{"sail.reefs": 1}
	for _, lines := range [][]string{
		{"fail_if: sail.area_m2 > 13 && sail.area_m2 < 14"},
		{"when: sail.area_m2 > 13", "fail_if: sail.area_m2 < 14"},
		{"fail_if: abs(sail.area_m2 - 13.5) < 0.5"},
		{"fail_if: near(sail.area_m2, 13.5, 0.5)"},
		{"let: {off: abs(sail.area_m2 - 13.5)}", "fail_if: off < 0.5"},
		{"let: {off: 13.5 - sail.area_m2}", "fail_if: off > -0.5 && off < 0.5"},
		{"fail_if: \"!(sail.area_m2 <= 13 || sail.area_m2 * 2 >= 28)\""},
		{"fail_if: \"sail.area_m2 > 13 ? sail.area_m2 < 14 : false\""},
	} {
		res := leans(t, boat, lines...)
		if len(res.Findings) != 1 || res.Findings[0].Ruled != rules.Unknown || res.Findings[0].Lean == nil {
			t.Errorf("%s fails from 13 to 14, and gives %+v, not applied %+v", lines, res.Findings, res.NotApplied)
		} else if at := res.Findings[0].Lean.FailsAt; len(at) != 1 || at[0].Value <= 13 || at[0].Value >= 14 {
			t.Errorf("%s fails at %v", lines, at)
		}
	}
	for _, cond := range []string{"sail.area_m2 < 9 || sail.area_m2 > 16", "abs(sail.area_m2 - 12) > 4"} { // beyond two values
		if f := leans(t, boat, "fail_if: "+cond).Findings[0]; f.Ruled != rules.Pass {
			t.Errorf("%s fails nowhere, and is %s", cond, f.Ruled)
		}
	}
	for _, cond := range []string{"sail.area_m2 < 13 || sail.area_m2 > 13.6", "abs(sail.area_m2 - 13.3) > 0.3"} { // between alone it does not fail
		if f := leans(t, boat, "fail_if: "+cond).Findings[0]; f.Ruled != rules.Unknown || f.Lean == nil || len(f.Lean.HoldsAt) != 1 {
			t.Errorf("%s does not fail from 13 to 13.6, and is %s, leaning %+v", cond, f.Ruled, f.Lean)
		}
	}
	if f := leans(t, boat, "fail_if: sail.area_m2 > 9").Findings[0]; f.Ruled != rules.Fail {
		t.Errorf("it fails everywhere, and is %s", f.Ruled)
	}
	if f := leans(t, boat, "fail_if: sail.area_m2 > 15 && sail.area_m2 < 16").Findings[0]; f.Ruled != rules.Pass {
		t.Errorf("it fails beyond what is usual, and is %s", f.Ruled)
	}
}

// TestApartBesideACount holds that a rule which fails at both ends of one fact, beside a
// count that is tried number by number, is tried between them.
func TestApartBesideACount(t *testing.T) {
	reefs := fact.Num(2)
	reefs.Usual = fact.ByClass
	reefs = reefs.WithSpread(&fact.Spread{Least: 1, Most: 4, Source: "memory"})
	res := leans(t, facts{"sail.reefs": reefs}, "fail_if: sail.reefs > 0 && (sail.area_m2 < 13 || sail.area_m2 > 13.6)")
	if f := res.Findings[0]; f.Ruled != rules.Unknown || f.Lean == nil || len(f.Lean.HoldsAt) == 0 {
		t.Errorf("it does not fail from 13 to 13.6, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestNotAboutThemBetween holds that a rule which fails at both ends is tried between them
// where it may not be about the facts there, also beside a count.
func TestNotAboutThemBetween(t *testing.T) {
	reefs := fact.Num(2)
	reefs.Usual = fact.ByClass
	reefs = reefs.WithSpread(&fact.Spread{Least: 1, Most: 4, Source: "memory"})
	res := leans(t, facts{"sail.reefs": reefs}, "when: sail.area_m2 < 13 || sail.area_m2 > 13.6", "fail_if: sail.reefs > 0")
	if f := res.Findings[0]; f.Ruled != rules.Unknown || f.Lean == nil || len(f.Lean.HoldsAt) == 0 {
		t.Errorf("it is not applied from 13 to 13.6, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestLeanAtACorner holds that two usual facts are tried with the one at its most and the
// other at its least: neither alone makes the rule fail.
func TestLeanAtACorner(t *testing.T) {
	res := byMast(t, usualOf(12, 10, 15), usualOf(10, 7, 12), "fail_if: sail.area_m2 > 14 && mast.height_m < 8")
	f := res.Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil {
		t.Fatalf("it fails with a large sail on a low mast, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
	if want := []rules.Point{{Name: "sail.area_m2", Value: 15}, {Name: "mast.height_m", Value: 7}}; !slices.Equal(f.Lean.FailsAt, want) {
		t.Errorf("it fails at %v, want %v", f.Lean.FailsAt, want)
	}
	if said := res.Text(f); !strings.Contains(said, "would be a pass") || !strings.Contains(said, "together: measure") {
		t.Errorf("neither decides alone, and it is said %q", said)
	}
}

// TestLeanAtACornerBesideACount holds that they are tried so also where a count beside them
// is tried number by number.
func TestLeanAtACornerBesideACount(t *testing.T) {
	boat := facts{"sail.reefs": usualOf(2, 1, 4), "mast.height_m": usualOf(10, 7, 12)}
	f := leans(t, boat, "fail_if: sail.reefs > 0 && sail.area_m2 > 14 && mast.height_m < 8").Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil {
		t.Fatalf("it fails with a large sail on a low mast, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
	for _, want := range []rules.Point{{Name: "sail.area_m2", Value: 15}, {Name: "mast.height_m", Value: 7}} {
		if !slices.Contains(f.Lean.FailsAt, want) {
			t.Errorf("it fails at %v, without %v", f.Lean.FailsAt, want)
		}
	}
}

// TestLeanNamesWhatTurnsAtItsLeast holds that of two usual facts only the one that decides
// alone is named, also where it does so at its least and nowhere else.
func TestLeanNamesWhatTurnsAtItsLeast(t *testing.T) {
	f := byMast(t, usualOf(12, 10, 15), usualOf(10, 7, 12), "fail_if: sail.area_m2 < 10.2 && mast.height_m > 1").Findings[0]
	if f.Lean == nil || !slices.Equal(f.Lean.By, []string{"sail.area_m2"}) {
		t.Errorf("it fails by a small sail on any mast, and leans %+v", f.Lean)
	}
}

// TestLeanNamesNothingBeyondItsSpread holds that a fact which would decide beyond what is
// usual of it, on either side, is not named for that.
func TestLeanNamesNothingBeyondItsSpread(t *testing.T) {
	f := byMast(t, usualOf(12, 10, 15), usualOf(10, 7, 12),
		"fail_if: sail.area_m2 > 14.9 || mast.height_m < 6.9 || mast.height_m > 12.1").Findings[0]
	if f.Lean == nil || !slices.Equal(f.Lean.By, []string{"sail.area_m2"}) {
		t.Errorf("it fails by a large sail on any usual mast, and leans %+v", f.Lean)
	}
}

// TestLeanOnAStatedFactItself holds that nobody need declare how a fact goes with itself:
// what rules are told of is how computed ones go, and nothing is computed here.
func TestLeanOnAStatedFactItself(t *testing.T) {
	set, err := rules.Load(rules.Config{
		Vocabulary: vocabulary(t), Files: files("boats.yaml", pack("fail_if: sail.area_m2 > 14")),
		Ways: func(_, _ rules.Ref) (int8, bool) { return rules.Still, false },
	})
	if err != nil {
		t.Fatal(err)
	}
	f := set.Evaluate(records(facts{"sail.area_m2": usualOf(12, 10, 15)})).Findings[0]
	want := []rules.Point{{Name: "sail.area_m2", Value: 15}}
	if f.Ruled != rules.Unknown || f.Lean == nil || !slices.Equal(f.Lean.FailsAt, want) {
		t.Errorf("it fails by the largest sail, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestLeanAtEachCount holds that a count which a rule reads itself is tried at each number
// of its spread, also of one that is longer than a line has points.
func TestLeanAtEachCount(t *testing.T) {
	for reefs := 1.0; reefs <= 9; reefs++ {
		f := leans(t, facts{"sail.reefs": usualOf(0, 0, 9)}, fmt.Sprintf("fail_if: sail.reefs == %g", reefs)).Findings[0]
		want := []rules.Point{{Name: "sail.reefs", Value: reefs}}
		if f.Ruled != rules.Unknown || f.Lean == nil || !slices.Equal(f.Lean.FailsAt, want) {
			t.Errorf("it fails with %g reefs, and is %s, leaning %+v", reefs, f.Ruled, f.Lean)
		}
	}
}

// TestLeanOnTheLargestGrid holds that a grid of 729 places, nine for each of three facts,
// is tried, here up to its last place, and that a larger one leaves the rule open.
func TestLeanOnTheLargestGrid(t *testing.T) {
	heel := heelOf(func(area float64) (fact.Value, fact.Lack) { return fact.Num(area), fact.Lack{} })
	heel.undeclared = true
	for stays, open := range map[float64]bool{4: false, 5: true} {
		res := leansBy(t, heel, facts{"sail.reefs": usualOf(0, 0, 4), "mast.stays": usualOf(0, 0, stays)},
			"fail_if: rig.heel_deg > 14.9 && sail.reefs > 3 && mast.stays > 3")
		f := res.Findings[0]
		if f.Ruled != rules.Unknown || f.Lean == nil || f.Lean.Open != open {
			t.Errorf("with up to %g stays it is %s, leaning %+v", stays, f.Ruled, f.Lean)
			continue
		}
		want := []rules.Point{{Name: "sail.area_m2", Value: 15}, {Name: "sail.reefs", Value: 4}, {Name: "mast.stays", Value: 4}}
		if open {
			want = []rules.Point{}
		}
		missed := func(p rules.Point) bool { return !slices.Contains(f.Lean.FailsAt, p) }
		if len(f.Lean.FailsAt) != len(want) || slices.ContainsFunc(want, missed) {
			t.Errorf("with up to %g stays it fails at %v, want %v", stays, f.Lean.FailsAt, want)
		}
	}
}

// TestLeanIsNotOfWarning holds that a usual fact which only warn_if reads is none of those
// that a finding hangs on, beside one between whose ends alone the rule fails.
func TestLeanIsNotOfWarning(t *testing.T) {
	f := byMast(t, usualOf(12, 10, 15), usualOf(10, 7, 12), "fail_if: near(sail.area_m2, 13.1, 0.2)", "warn_if: mast.height_m > 11").Findings[0]
	if f.Lean == nil || !slices.Equal(f.Lean.By, []string{"sail.area_m2"}) {
		t.Errorf("it fails by sails of 13.1 m2, and leans %+v", f.Lean)
	}
}

// TestLeanIsOfItsOwnFacts holds that a rule is tried over what it hangs on alone: the stays
// are usual as well, and it does not read them.
func TestLeanIsOfItsOwnFacts(t *testing.T) {
	boat := facts{"sail.reefs": 1, "mast.height_m": usualOf(10, 7, 12), "mast.stays": usualOf(3, 2, 4)}
	f := leans(t, boat, "fail_if: sail.area_m2 > 14 && mast.height_m < 8").Findings[0]
	if f.Lean == nil || !slices.Equal(f.Lean.By, []string{"sail.area_m2", "mast.height_m"}) {
		t.Fatalf("it fails with a large sail on a low mast, and leans %+v", f.Lean)
	}
	if want := []rules.Point{{Name: "sail.area_m2", Value: 15}, {Name: "mast.height_m", Value: 7}}; !slices.Equal(f.Lean.FailsAt, want) {
		t.Errorf("it fails at %v, want %v", f.Lean.FailsAt, want)
	}
}

// TestLeanNotWithoutAFact holds that a rule which is not applied for want of a fact is not
// tried, for no usual value gives it that; one that would mean nothing is.
func TestLeanNotWithoutAFact(t *testing.T) {
	boat := facts{"sail.reefs": 1, "mast.stays": 3}
	for _, c := range []struct {
		lack fact.Lack // of the heel of a small sail
		why  rules.Reason
	}{
		{fact.Lack{Missing: []string{"mast.height_m"}}, rules.ReasonUnstated},
		{fact.Lack{Absent: []string{"mast"}}, rules.ReasonAbsent},
		{fact.Lack{Reason: "a small sail does not heel"}, ""},
	} {
		res := leansBy(t, heelOf(func(area float64) (fact.Value, fact.Lack) {
			if area < 14.9 {
				return fact.Value{}, c.lack
			}
			return fact.Num(area), fact.Lack{}
		}), boat, "when: stated(rig.heel_deg)", "fail_if: rig.heel_deg > 14")
		if tried := c.why == ""; tried != (len(res.Findings) == 1 && res.Findings[0].Lean != nil) || !tried && res.NotApplied[0].Reason != c.why {
			t.Errorf("a heel that lacks %+v gives %+v, not applied %+v", c.lack, res.Findings, res.NotApplied)
		}
	}
}

// TestLeanBetweenWhatMeansNothing holds that a rule is tried between the ends where a figure
// that when asks for means something at one of them alone: a sail of 13 m2 heels, and one
// of 15 is large enough.
func TestLeanBetweenWhatMeansNothing(t *testing.T) {
	f := leansBy(t, heelOf(func(area float64) (fact.Value, fact.Lack) {
		if area < 12.9 {
			return fact.Value{}, fact.Lack{Reason: "a small sail does not heel"}
		}
		return fact.Num(area), fact.Lack{}
	}), facts{"sail.reefs": 1}, "when: stated(rig.heel_deg)", "fail_if: sail.area_m2 < 13.5").Findings
	if len(f) != 1 || f[0].Ruled != rules.Warn || f[0].Lean == nil || len(f[0].Lean.FailsAt) != 1 || f[0].Lean.FailsAt[0].Value < 12.9 {
		t.Errorf("it fails from 12.9 to 13.5, and gives %+v", f)
	}
}

// TestLeanWhereItTurns holds that a computed fact which turns round on the way is followed
// to where it is greatest, between the points that are tried.
func TestLeanWhereItTurns(t *testing.T) {
	heel := heelOf(func(area float64) (fact.Value, fact.Lack) { return fact.Num(10 - math.Abs(area-12.55)), fact.Lack{} })
	heel.turns = true
	f := leansBy(t, heel, facts{"sail.reefs": 1}, "fail_if: rig.heel_deg > 9.99").Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil || len(f.Lean.FailsAt) != 1 || math.Abs(f.Lean.FailsAt[0].Value-12.55) > 0.01 {
		t.Errorf("it heels most at 12.55, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestLeanAtTheEnds holds that beside a count that is tried number by number a rule is
// tried at the ends of the others, where it begins to fail once on the way.
func TestLeanAtTheEnds(t *testing.T) {
	f := leans(t, facts{"sail.reefs": usualOf(2, 1, 4)}, "fail_if: sail.reefs > 0 && sail.area_m2 > 14").Findings[0]
	if f.Lean == nil || !slices.Contains(f.Lean.FailsAt, rules.Point{Name: "sail.area_m2", Value: 15}) {
		t.Errorf("it fails by the largest sail, and leans %+v", f.Lean)
	}
}

// TestLeanAtTheEndsOfOneLine holds that of one line alone, beside a fact that nobody
// declares, these ends are tried as well: the point that is told is the largest sail, and
// not one on the way to it.
func TestLeanAtTheEndsOfOneLine(t *testing.T) {
	heel := heelOf(func(area float64) (fact.Value, fact.Lack) { return fact.Num(area), fact.Lack{} })
	heel.beside = []rules.Ref{mastHeight}
	f := leansBy(t, heel, facts{"sail.reefs": 1, "mast.height_m": usualOf(10, 7, 12)}, "fail_if: rig.heel_deg > 13.5").Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil || !slices.Contains(f.Lean.FailsAt, rules.Point{Name: "sail.area_m2", Value: 15}) {
		t.Errorf("it fails by the largest sail, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestLeanEndsWhereItIsKnown holds that a count which is seen to decide is tried no further:
// with four reefs nobody could say whether the rule fails, and the finding does not hang on
// that any more.
func TestLeanEndsWhereItIsKnown(t *testing.T) {
	boat := facts{"sail.reefs": usualOf(2, 1, 4), "mast.stays": 3} // and nobody states its height
	f := leans(t, boat, "fail_if: sail.reefs == 2 || sail.reefs == 4 && mast.height_m > 3").Findings[0]
	one := []rules.Point{{Name: "sail.reefs", Value: 1}}
	if f.Ruled != rules.Unknown || f.Lean == nil || !slices.Equal(f.Lean.HoldsAt, one) || len(f.Lean.FailsAt)+len(f.Lean.OpenAt) > 0 {
		t.Errorf("it fails with two reefs and not with one, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestLeanWhereItPassesThroughNothing holds that a number is followed to where it is
// nothing, however narrow the stretch on which a rule then holds: this one fails at both
// ends, and at all points between them that are tried otherwise.
func TestLeanWhereItPassesThroughNothing(t *testing.T) {
	heel := heelOf(func(area float64) (fact.Value, fact.Lack) { return fact.Num(area - 12.3), fact.Lack{} })
	f := leansBy(t, heel, facts{"sail.reefs": 1}, "fail_if: abs(rig.heel_deg) > 0.001").Findings[0]
	if f.Ruled != rules.Unknown || f.Lean == nil || len(f.Lean.HoldsAt) != 1 || math.Abs(f.Lean.HoldsAt[0].Value-12.3) > 0.001 {
		t.Errorf("it holds at 12.3 m2 alone, and is %s, leaning %+v", f.Ruled, f.Lean)
	}
}

// TestLeanWithTolerancesAsStated holds that beside a usual fact the toleranced ones are
// tried as they are stated as well: what fails, or holds, there need not at their corners.
func TestLeanWithTolerancesAsStated(t *testing.T) {
	height := fact.Num(10)
	height.Tol = 2
	const at = "sail.area_m2 > 14 && near(mast.height_m, 10, 1)"
	for _, c := range []struct {
		fails   string
		nominal rules.Verdict
	}{{at, rules.Pass}, {"true && !(" + at + ")", rules.Fail}} {
		f := byMast(t, usualOf(12, 10, 15), height, "fail_if: "+c.fails).Findings[0]
		if f.Ruled != rules.Unknown || f.Lean == nil || f.Lean.Nominal != c.nominal || !slices.Equal(f.Lean.By, []string{"sail.area_m2"}) {
			t.Errorf("%s is another matter at 15 m2 on a mast of 10 m, and is %s, leaning %+v", c.fails, f.Ruled, f.Lean)
		}
	}
}

package compat

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// usualMixes is how many mixes of classes the property is held on.
const usualMixes = 1500

// usualInstead lists the facts in whose place a usual value lets pass what a stated one
// does not, each with the reason why that is no harm. No other fact may.
func usualInstead(t *testing.T) map[string]string { return reasons(t, "usual_instead.txt") }

// What is stated over a class goes before what is usual of it. Where it is not stated, a
// rule passes that failed or was open with it only for facts of the list, only where all
// that is usual of the class passes, and only with a finding that says on what it rests.
func TestUsualPassesNoMore(t *testing.T) {
	c := standardChecker(t)
	rests, listed := readFacts(c.set), usualInstead(t)
	rng := random.Seeded(4)
	changed := map[string]int{}
	r := removals{standsIn: listed, tried: map[string]int{}, changed: changed}
	for range fewer(usualMixes) {
		without := usualRandom(t, rng)
		facts := usualFacts(c.Check(without))
		if len(facts) == 0 {
			continue
		}
		ref := r.choose(facts)
		name := ref.String()
		with, err := without.Stating(name, beyondUsual(rng, c.Check(without), ref))
		if err != nil {
			continue // it says against another fact what the class does not
		}
		r.tried[name]++
		stated, usual := c.Check(with), c.Check(without)
		for _, f := range usual.Findings() {
			a := stateOf(stated.result, f.Rule)
			if !passesAfter(a, f.Verdict.String()) {
				continue
			}
			changed[name]++
			switch {
			case listed[name] == "":
				t.Errorf("%s gives %s with %s and passes by what is usual of it", f.Rule, a, name)
			case !rests[f.Rule][name]:
				t.Errorf("%s gives %s with %s, which it does not hang on", f.Rule, a, name)
			case !slices.ContainsFunc(f.Usual, func(on string) bool { return on == name || slices.Contains(behind(factNamed(t, c, on)), ref) }):
				t.Errorf("%s passes by what is usual of %s, and says that it rests on %v", f.Rule, name, f.Usual)
			}
		}
	}
	if len(changed) < 4 && !testing.Short() {
		t.Errorf("only for %v a usual value let anything pass", changed)
	}
	for name := range listed {
		if changed[name] == 0 && r.tried[name] >= enoughTries {
			t.Errorf("nothing passed by what is usual of %s, tried %d times: take it off the list", name, r.tried[name])
		}
	}
}

// beyondUsual draws a value of a fact, up to as far beyond what is usual of it as that is
// wide.
func beyondUsual(rng *rand.Rand, r Report, ref rules.Ref) any {
	v, f := ref.In(r.Figures.Records()[kindPlace(ref.Object.Name())]), ref.Field()
	beyond := max(v.Spread().Most-v.Spread().Least, 0.04*v.Num, f.Grid()) * (0.1 + rng.Float64())
	x := v.Spread().Least - beyond
	if rng.IntN(2) == 0 {
		x = v.Spread().Most + beyond
	}
	x = min(max(x, f.Min), f.Max)
	if f.Type == fact.Whole {
		return int(x)
	}
	return float64(int(x*100)) / 100
}

// factNamed finds a fact by its name.
func factNamed(t *testing.T, c *Checker, name string) rules.Ref {
	t.Helper()
	ref, ok := c.set.Vocabulary().Find(name)
	if !ok {
		t.Fatalf("there is no %s", name)
	}
	return ref
}

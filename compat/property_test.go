package compat

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// randomMixes is how many mixes the properties are held on.
const randomMixes = 20_000

// enoughTries is how often a fact is taken away before that nothing stood in for it
// tells against its place on a list: some matter seldom.
const enoughTries = 5000

// standsIn says what a rule goes by when such a field is not stated: another
// field, a default, or a usual value. Only a rule that rests on one of these may
// give another definite answer without it.
func standsIn(t *testing.T) map[string]string { return reasons(t, "stands_in.txt") }

// goesBefore lists the facts that go before others, so that a fail or an unknown may
// pass without them: measured before stated, a ring of its own before the crankset's,
// what is stated before the default or the usual. No other fact may.
func goesBefore(t *testing.T) map[string]string { return reasons(t, "goes_before.txt") }

// reasons reads a golden list of fields, each with its reason.
func reasons(t *testing.T, file string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, line := range goldenLines(t, file) {
		field, what, ok := strings.Cut(line, ": ")
		if !ok || out[field] != "" {
			t.Errorf("%s: %q is no field with its reason, or stands twice", file, line)
		}
		out[field] = what
	}
	return out
}

// stateOf gives what a rule came to: a verdict, or the reason for not applying.
func stateOf(res *rules.Result, id string) string {
	for i := range res.Findings {
		if res.Findings[i].Rule.ID == id {
			return res.Findings[i].Verdict.String()
		}
	}
	for _, na := range res.NotApplied {
		if na.Rule.ID == id {
			return "not applied, " + string(na.Reason)
		}
	}
	return ""
}

func isDefinite(state string) bool { return state == "pass" || state == "warn" || state == "fail" }

// readFacts gives, for each rule, the stated facts that its conditions rest on.
func readFacts(set *rules.Set) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, rule := range set.Rules() {
		out[rule.ID] = map[string]bool{}
		for _, ref := range set.Facts(rule) {
			out[rule.ID][ref.String()] = true
			if by := filledBy[ref.String()]; by != "" {
				out[rule.ID][by] = true
			}
		}
	}
	return out
}

// filledBy are facts that reading a part fills in by another of its facts.
var filledBy = map[string]string{
	"rear_derailleur.b_adjust": "rear_derailleur.mount", "rear_derailleur.limit_stops": "rear_derailleur.mount",
}

// askedFacts gives, for each rule, the stated facts that what it asks for by
// stated() rests on.
func askedFacts(set *rules.Set) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, rule := range set.Rules() {
		out[rule.ID] = map[string]bool{}
		for _, ref := range set.Asks(rule) {
			for _, stated := range figures.Behind(ref) {
				out[rule.ID][stated.String()] = true
			}
		}
	}
	return out
}

// removals chooses which field to take away next: in turn the one that was
// tried least, and of those with a stand-in the one that made least difference,
// so that what seldom matters is tried most.
type removals struct {
	standsIn       map[string]string
	tried, changed map[string]int
	round          int
}

func (r *removals) choose(candidates []rules.Ref) rules.Ref {
	r.round++
	if r.round%2 == 0 {
		replaced := slices.DeleteFunc(slices.Clone(candidates), func(ref rules.Ref) bool { return r.standsIn[ref.String()] == "" })
		if len(replaced) > 0 {
			return slices.MinFunc(replaced, func(a, b rules.Ref) int { return r.changed[a.String()] - r.changed[b.String()] })
		}
	}
	return slices.MinFunc(candidates, func(a, b rules.Ref) int { return r.tried[a.String()] - r.tried[b.String()] })
}

// A missing field never passes: what was decided with it is left open without
// it, or decided the same way because it did not matter. The exceptions are
// closed: rules that ask for the field by stated(), fields with a stand-in, which
// let nothing pass that failed or was open, and fields that go before others.
func TestLessKnownDecidesNoMore(t *testing.T) {
	c := standardChecker(t)
	rests, asks := readFacts(c.set), askedFacts(c.set)
	read := map[string]bool{}
	for _, facts := range rests {
		maps.Copy(read, facts)
	}
	rng := random.Seeded(1)
	before := goesBefore(t)
	r := removals{standsIn: standsIn(t), tried: map[string]int{}, changed: map[string]int{}}
	for name, why := range before {
		if r.standsIn[name] != "" {
			t.Errorf("%s goes before others, and stands on the other list too", name)
		}
		r.standsIn[name] = why
	}
	for range fewer(randomMixes) {
		d := random.New(rng)
		candidates := slices.DeleteFunc(d.Stated(), func(ref rules.Ref) bool { return !read[ref.String()] })
		if len(candidates) == 0 {
			continue
		}
		ref := r.choose(candidates)
		name := ref.String()
		r.tried[name]++
		with := c.Check(mixOf(d)).result
		without := c.Check(mixOf(d.Without(ref.Object.Name(), ref.Field().Name))).result
		for _, rule := range c.set.Rules() {
			a, b := stateOf(with, rule.ID), stateOf(without, rule.ID)
			switch {
			case passesAfter(a, b):
				r.changed[name]++
				if before[name] == "" {
					t.Errorf("%s gives %s with %s and passes without it:\n%v", rule.ID, a, name, d.Fields)
				}
			case a == b || !isDefinite(a) || b == "unknown":
			case b == "not applied, unstated" && asks[rule.ID][name]:
			case r.standsIn[name] != "" && rests[rule.ID][name]:
				r.changed[name]++
			default:
				t.Errorf("%s gives %s with %s and %s without it:\n%v", rule.ID, a, name, b, d.Fields)
			}
		}
	}
	for name := range r.standsIn {
		if r.changed[name] == 0 && r.tried[name] >= enoughTries {
			t.Errorf("%s was taken away %d times and nothing stood in for it: take it off the list", name, r.tried[name])
		}
	}
}

// passesAfter says whether what failed or was open passes by now.
func passesAfter(a, b string) bool { return b == "pass" && (a == "fail" || a == "unknown") }

// That facts of a part, or of two, are only assumed lets nothing pass that failed or
// was open: there is no exception.
func TestAssumingPassesNoMore(t *testing.T) {
	c := standardChecker(t)
	rng := random.Seeded(3)
	softened := 0
	for range fewer(randomMixes) {
		d := random.New(rng)
		kinds := slices.DeleteFunc(slices.Sorted(maps.Keys(d.Fields)), func(kind string) bool { return kind == figures.Bench.Name() })
		if len(kinds) == 0 {
			continue
		}
		assumed := d
		for range 2 {
			assumed = assumed.With(kinds[rng.IntN(len(kinds))], "basis", "assumed")
		}
		with, without := c.Check(mixOf(assumed)).result, c.Check(mixOf(d)).result
		for _, rule := range c.set.Rules() {
			a, b := stateOf(without, rule.ID), stateOf(with, rule.ID)
			if a == "fail" && b == "warn" {
				softened++
			}
			if passesAfter(a, b) || a == "pass" && b != a {
				t.Errorf("%s gives %s, and %s where some of it is assumed:\n%v", rule.ID, a, b, assumed.Fields)
			}
		}
	}
	if softened < fewer(1000) {
		t.Errorf("only %d fails became a warning by what was assumed", softened)
	}
}

// Which rules may leave a mix undecided, and which keep quiet until their facts
// are stated, is a decision for each rule, not an accident of how it is written.
func TestRulesThatAskForFacts(t *testing.T) {
	set := standardChecker(t).set
	var list []string
	for _, rule := range set.Rules() {
		line := rule.ID
		for _, ref := range set.Asks(rule) {
			line += " " + ref.String()
		}
		if line == rule.ID {
			line += " may stay unknown"
		}
		list = append(list, line)
	}
	golden(t, "asked_facts.txt", joinLines(list))
}

func joinLines(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return strings.Join(list, "\n") + "\n"
}

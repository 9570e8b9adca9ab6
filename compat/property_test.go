package compat

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/rules"
)

// randomMixes is how many mixes the properties are held on.
const randomMixes = 10_000

// standsIn says what a rule goes by when such a field is not stated: another
// field, a default, or a usual value. Only rules that read one of these may give
// another definite answer without it, and which do is kept in a golden file.
var standsIn = map[string]string{
	"bench.chain_pitches":                 "the chain is taken as cut to the count worked out, or as sold",
	"bench.chainline_mm":                  "the chainline of the crankset is taken",
	"bench.cog_positions_mm":              "the cassette's own pitches are taken",
	"bench.end_to_end_pitches":            "the length is computed",
	"bench.position":                      "the bicycle is taken to have stood at rest",
	"bench.spacer_behind_mm":              "the spacer that comes with the cassette is assumed",
	"bench.step_positions_mm":             "the steps of shifter and derailleur are taken",
	"cassette.cog_thickness_mm":           "the usual thickness is assumed",
	"cassette.index_family":               "the numbers speak instead of the maker",
	"cassette.own_lockring_small_cog":     "none is the default",
	"cassette.pitch_mm":                   "the pitch is worked out of the stack height",
	"cassette.pitches_mm":                 "the pitch is worked out of the stack height",
	"cassette.roller_class":               "standard is the default",
	"cassette.spacer_mm":                  "none is assumed",
	"chain.inner_width_mm":                "the usual width is assumed",
	"chain.outer_width_mm":                "the usual width is assumed",
	"chain.pitches":                       "the chain is taken to be as long as wanted",
	"chain.roller_class":                  "standard is the default",
	"chainring.rings_t":                   "the crankset's own rings are taken",
	"crankset.roller_class":               "standard is the default",
	"rear_derailleur.actuation":           "the shifter's drive is taken, or what other facts show",
	"rear_derailleur.add_pitches":         "two half-inch links are assumed",
	"rear_derailleur.add_pitches_rest":    "only the longest axle distance counts",
	"rear_derailleur.index_family":        "the numbers speak instead of the maker",
	"rear_derailleur.made_for_pitch_mm":   "without it the derailleur is taken to be moved by cable",
	"rear_derailleur.made_for_pitches_mm": "without them the derailleur is taken to be moved by cable",
	"rear_derailleur.rest_cog":            "the smallest is usual",
	"rear_derailleur.steps_mm":            "the cassette that the motor is made for is taken",
	"rear_shifter.actuation":              "what other facts show is taken",
	"rear_shifter.first_pull_take_up_mm":  "none is assumed",
	"rear_shifter.index_family":           "the numbers speak instead of the maker",
	"rear_shifter.pull_factor":            "no converter is assumed",
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

// behind adds to a set the stated facts that a fact of a rule rests on: itself,
// or what a figure reads, through other figures too.
func behind(set map[string]bool, ref rules.Ref) {
	if ref.Object != figureObject {
		set[ref.String()] = true
		return
	}
	for _, in := range figureTable[ref.Index].reads {
		set[in.name] = true
	}
	for _, j := range figureTable[ref.Index].figures {
		behind(set, rules.Ref{Object: figureObject, Index: j})
	}
}

// readFacts gives, for each rule, the stated facts that its conditions rest on.
func readFacts(set *rules.Set) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, rule := range set.Rules() {
		out[rule.ID] = map[string]bool{}
		for _, ref := range set.Reads(rule) {
			behind(out[rule.ID], ref)
		}
	}
	return out
}

// askedFacts gives, for each rule, the stated facts that what it asks for by
// stated() rests on.
func askedFacts(set *rules.Set) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, rule := range set.Rules() {
		out[rule.ID] = map[string]bool{}
		for _, ref := range set.Asks(rule) {
			behind(out[rule.ID], ref)
		}
	}
	return out
}

// removals chooses which field to take away next: in turn the one that was
// tried least, and of those with a stand-in the one that made least difference,
// so that what seldom matters is tried most.
type removals struct {
	tried, changed map[string]int
	round          int
}

func (r *removals) choose(candidates []rules.Ref) rules.Ref {
	r.round++
	if r.round%2 == 0 {
		replaced := slices.DeleteFunc(slices.Clone(candidates), func(ref rules.Ref) bool { return standsIn[ref.String()] == "" })
		if len(replaced) > 0 {
			return slices.MinFunc(replaced, func(a, b rules.Ref) int { return r.changed[a.String()] - r.changed[b.String()] })
		}
	}
	return slices.MinFunc(candidates, func(a, b rules.Ref) int { return r.tried[a.String()] - r.tried[b.String()] })
}

// A missing field never passes: what was decided with it is left open without
// it, or decided the same way because it did not matter. The exceptions are
// closed: rules that ask for the field by stated(), and fields with a stand-in.
func TestLessKnownDecidesNoMore(t *testing.T) {
	c := standardChecker(t)
	reads, asks := readFacts(c.set), askedFacts(c.set)
	read := map[string]bool{}
	for _, facts := range reads {
		maps.Copy(read, facts)
	}
	random := seeded(1)
	chooser := removals{tried: map[string]int{}, changed: map[string]int{}}
	pairs := map[string]bool{}
	for range randomMixes {
		d := randomDraw(random)
		candidates := slices.DeleteFunc(d.stated(), func(ref rules.Ref) bool { return !read[ref.String()] })
		if len(candidates) == 0 {
			continue
		}
		ref := chooser.choose(candidates)
		name := ref.String()
		chooser.tried[name]++
		before := c.Check(d.mix(t)).result
		after := c.Check(d.without(ref.Object.Name(), ref.Field().Name).mix(t)).result
		for _, rule := range c.set.Rules() {
			a, b := stateOf(before, rule.ID), stateOf(after, rule.ID)
			switch {
			case a == b || !isDefinite(a) || b == "unknown":
			case b == "not applied, unstated" && asks[rule.ID][name]:
			case standsIn[name] != "" && reads[rule.ID][name]:
				pairs[rule.ID+" "+name] = true
				chooser.changed[name]++
			default:
				t.Errorf("%s gives %s with %s and %s without it:\n%v", rule.ID, a, name, b, d.fields)
			}
		}
	}
	for name := range standsIn {
		if chooser.changed[name] == 0 {
			t.Errorf("%s was taken away %d times and nothing stood in for it: take it off the list", name, chooser.tried[name])
		}
	}
	goldenPairs(t, pairs, reads)
}

// goldenPairs holds the rules and fields where something stood in against the
// golden list. Chance may miss a pair of the list; it may not add one.
func goldenPairs(t *testing.T, pairs map[string]bool, reads map[string]map[string]bool) {
	t.Helper()
	if *update {
		golden(t, "stands_in.txt", joinLines(slices.Sorted(maps.Keys(pairs))))
		return
	}
	listed := map[string]bool{}
	for _, pair := range goldenLines(t, "stands_in.txt") {
		listed[pair] = true
		rule, field, _ := strings.Cut(pair, " ")
		if !reads[rule][field] {
			t.Errorf("stands_in.txt: %s does not read %s", rule, field)
		}
	}
	for _, pair := range slices.Sorted(maps.Keys(pairs)) {
		if !listed[pair] {
			t.Errorf("%s: something stands in for the field, which stands_in.txt does not know", pair)
		}
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

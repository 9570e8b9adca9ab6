package compat

import (
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// spreadPoints is how many points inside the spread each mix is tried at.
const spreadPoints = 200

// What is said over the spread of usual values holds at every point of it: a Pass and
// a Warn fail nowhere, a Fail fails everywhere, and an Unknown carries two points of
// which one fails and one does not. What stands by a name is kept apart.
func TestUsualSoundness(t *testing.T) {
	c := standardChecker(t)
	rng := random.Seeded(1313)
	seen := map[string]int{}
	for range fewer(2000) {
		m := usualRandom(t, rng)
		r := c.Check(m)
		facts := usualFacts(r)
		if len(facts) == 0 {
			continue
		}
		seen["mixes"]++
		judged := leaningRules(c, r, facts)
		confirm(t, c, r, seen)
		for k := range spreadPoints {
			at := map[rules.Ref]float64{}
			for _, f := range facts {
				at[f] = drawn(rng, r, f, k%2 == 0)
			}
			now := c.Check(stateAt(m, r, at))
			for rule, was := range judged {
				switch is := stateOf(now.result, rule); {
				case was == "fail" && is != "fail":
					t.Errorf("%s fails over the spread, and is %s at %v of %v", rule, is, at, m.name)
				case was != "fail" && is == "fail":
					t.Errorf("%s is %s over the spread, and fails at %v of %v", rule, was, at, m.name)
				}
				seen[was]++
			}
		}
		if t.Failed() {
			t.FailNow()
		}
	}
	t.Logf("%v", seen)
	if seen["mixes"] < fewer(1000) || seen["fail"] == 0 || seen["pass"] == 0 || seen["unknown confirmed"] == 0 {
		t.Errorf("too little was tried: %v", seen)
	}
}

// usualRandom draws a mix of which much is only usual.
func usualRandom(t *testing.T, rng *rand.Rand) Mix {
	d := random.New(rng)
	taken := map[string][]string{
		"cassette": {"pitch_mm", "pitches_mm", "stack_height_mm", "cog_thickness_mm", "index_family"},
		"chain":    {"outer_width_mm", "inner_width_mm", "inner_class", "index_family"},
		"crankset": {"ring_thickness_mm"}, "chainring": {"ring_thickness_mm"}, "rear_shifter": {"pulls_mm", "clicks"},
		"bench": {"cog_positions_mm", "step_positions_mm"},
	}
	for _, kind := range slices.Sorted(maps.Keys(taken)) { // the same mixes in each run
		for _, f := range taken[kind] {
			if d.Fields[kind] != nil && rng.IntN(4) > 0 {
				delete(d.Fields[kind], f)
			}
		}
	}
	m := mixOf(d)
	for _, kind := range []string{"cassette", "chain", "rear_derailleur", "rear_shifter", "crankset", "hub", "front_derailleur"} {
		if classes := Usual().OfKind(kind); rng.IntN(3) == 0 {
			m = m.With(classes[rng.IntN(len(classes))])
		}
	}
	if p, ok := m.Part("chain"); ok && !p.Record().Value(chainSpeeds.Index).Known && rng.IntN(2) == 0 {
		if q, err := p.With(map[string]any{"speeds": 5 + rng.IntN(8)}); err == nil {
			m = m.With(q)
		}
	}
	return m
}

// usualFacts lists the usual facts of a report that have a spread.
func usualFacts(r Report) []rules.Ref {
	var out []rules.Ref
	for i, rec := range r.Figures.Records() {
		if rec == nil || i == figuresPlace {
			continue
		}
		for j, f := range rec.Object().Table().Fields() {
			if v := rec.At(j); v.Known && v.Spread() != nil {
				out = append(out, rec.Object().Ref(f.Name))
			}
		}
	}
	return out
}

// leaningRules gives the verdicts of the rules that hang on these facts, but for those
// that are open or warn because they lean, and those that stand by a name.
func leaningRules(c *Checker, r Report, facts []rules.Ref) map[string]string {
	out := map[string]string{}
	byName, _ := r.Figures.Value("index_by_name")
	for _, rule := range c.set.Rules() {
		if !slices.ContainsFunc(facts, func(f rules.Ref) bool { return slices.Contains(c.set.Facts(rule), f) }) {
			continue
		}
		i := slices.IndexFunc(r.result.Findings, func(f rules.Finding) bool { return f.Rule == rule })
		if i < 0 || r.result.Findings[i].Lean != nil || r.result.Findings[i].Ruled == rules.Unknown || len(r.result.Findings[i].Assumed) > 0 ||
			byName.Num != 0 && rule.ID == "index/residual" {
			continue
		}
		out[rule.ID] = stateOf(r.result, rule.ID)
	}
	return out
}

// drawn draws a value inside the spread of a fact, near an end where that is wanted.
func drawn(rng *rand.Rand, r Report, ref rules.Ref, nearEnd bool) float64 {
	v := ref.In(r.Figures.Records()[kindPlace(ref.Object.Name())])
	to := rng.Float64()*2 - 1
	if nearEnd {
		to = []float64{-1, 1}[rng.IntN(2)] * (1 - 0.03*float64(rng.IntN(2))*rng.Float64())
	}
	return v.Spread().At(v.Num, to, ref.Field().Type == fact.Whole)
}

// stateAt gives the mix with these values stated over what was usual.
func stateAt(m Mix, r Report, at map[rules.Ref]float64) Mix {
	records := map[int]*rules.Record{}
	for ref, x := range at {
		i := kindPlace(ref.Object.Name())
		if records[i] == nil {
			records[i] = r.Figures.Records()[i].Clone()
		}
		v := fact.Num(x)
		v.Usual = ref.In(r.Figures.Records()[i]).Usual // that it is stated changes what asks for it to be
		records[i].Put(ref.Index, v)
	}
	out := m
	for _, rec := range records {
		out.facts = out.facts.With(rec)
	}
	return out
}

// confirm tries the points that an open finding carries.
func confirm(t *testing.T, c *Checker, r Report, seen map[string]int) {
	m, facts := r.Mix, usualFacts(r)
	for _, f := range r.result.Findings {
		if f.Lean == nil || f.Lean.Open || f.Ruled != rules.Unknown || f.Margin != nil {
			continue
		}
		fails := failsOrWould(c.Check(stateAt(m, r, pointsOf(t, r, facts, f.Lean.FailsAt))).result, f.Rule)
		holds := failsOrWould(c.Check(stateAt(m, r, pointsOf(t, r, facts, f.Lean.HoldsAt))).result, f.Rule)
		if seen["unknown confirmed"]++; !fails || holds {
			t.Errorf("%s is open, and fails: %v at %v, %v at %v of %v", f.Rule.ID, fails, f.Lean.FailsAt, holds, f.Lean.HoldsAt, m.name)
		}
	}
}

// failsOrWould says whether a rule fails, or would where nothing is assumed beside.
func failsOrWould(res *rules.Result, rule *rules.Rule) bool {
	i := slices.IndexFunc(res.Findings, func(f rules.Finding) bool { return f.Rule == rule })
	return i >= 0 && (res.Findings[i].Ruled == rules.Fail || len(res.Findings[i].Assumed) > 0)
}

// pointsOf gives a value for each usual fact: the usual one where the points say none.
func pointsOf(t *testing.T, r Report, facts []rules.Ref, points []rules.Point) map[rules.Ref]float64 {
	out := map[rules.Ref]float64{}
	for _, ref := range facts {
		out[ref] = ref.In(r.Figures.Records()[kindPlace(ref.Object.Name())]).Num
	}
	v, err := Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range points {
		ref, ok := v.Find(p.Name)
		if !ok || catalog.SuggestKind(p.Name) == p.Name {
			t.Fatalf("there is no fact %s", p.Name)
		}
		out[ref] = p.Value
	}
	return out
}

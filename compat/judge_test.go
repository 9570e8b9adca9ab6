package compat

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// mixed draws a mix: of random parts with gaps, some loosened to tolerances, some
// exchanged for usual classes.
func mixed(r *rand.Rand) Mix {
	d := random.New(r)
	if r.IntN(3) == 0 {
		for range 4 {
			d.Loosen(r)
		}
	}
	m := mixOf(d)
	for _, p := range m.Parts() {
		if of := Usual().OfKind(p.Kind()); len(of) > 0 && r.IntN(6) == 0 {
			m = m.With(of[r.IntN(len(of))])
		}
	}
	return m
}

// found is what a rule comes to, for comparison.
func found(f rules.Finding, applied bool) string {
	if !applied {
		return "not applied"
	}
	return f.Verdict.String() + " " + f.Ruled.String()
}

// foundBy tells it of every rule of a report, by their places.
func foundBy(r Report) []string {
	out := make([]string, 0, len(r.set.Rules()))
	for _, rule := range r.set.Rules() {
		i := slices.IndexFunc(r.result.Findings, func(f rules.Finding) bool { return f.Rule == rule })
		if i < 0 {
			out = append(out, "not applied")
			continue
		}
		out = append(out, found(r.result.Findings[i], true))
	}
	return out
}

// One rule alone, with only the figures that it needs, says what the whole check says,
// while parts and measurements come one by one.
func TestOneRuleAloneIsCheck(t *testing.T) {
	c, err := New(Config{})
	if err != nil {
		t.Fatal(err)
	}
	without, err := New(Config{NoUsual: true})
	if err != nil {
		t.Fatal(err)
	}
	r := random.Seeded(31)
	decisions := 0
	for round := range fewer(140) {
		with := c
		if round%7 == 0 {
			with = without
		}
		m := mixed(r)
		j := with.Judge(m)
		for range 6 {
			other := mixed(r)
			for _, p := range other.Parts() {
				if r.IntN(3) == 0 {
					m = m.With(p)
					j.Put(p)
				}
			}
			if r.IntN(2) == 0 {
				m.facts = m.facts.With(other.facts.Bench())
				j.Measure(m)
			}
			want := foundBy(with.Check(m))
			for i, rule := range c.Rules().Rules() {
				if got := found(j.Rule(i)); got != want[i] {
					t.Fatalf("%s alone is %s, in the check it is %s", rule.ID, got, want[i])
				}
				decisions++
			}
		}
		j.Close()
	}
	if decisions < fewer(100_000) {
		t.Errorf("only %d decisions", decisions)
	}
}

// exchanged gives the mix with every fact that a rule does not read taken from another.
func exchanged(m, other Mix, reads map[rules.Ref]bool) Mix {
	swap := func(a, b *rules.Record) *rules.Record {
		if a == nil || b == nil {
			return a
		}
		out := a.Clone()
		for i, f := range a.Object().Table().Fields() {
			if !reads[a.Object().Ref(f.Name)] {
				out.Put(i, b.Value(i))
			}
		}
		return out
	}
	for i := range catalog.Kinds() {
		m.facts = m.facts.With(swap(m.facts.Part(i), other.facts.Part(i)))
	}
	m.facts = m.facts.With(swap(m.facts.Bench(), other.facts.Bench()))
	return m
}

// What a rule does not read makes no difference to it: all of that exchanged for
// random facts, its answer stays.
func TestUnreadFactsMakeNoDifference(t *testing.T) {
	c := standardChecker(t)
	all := c.Rules().Rules()
	reads := make([]map[rules.Ref]bool, len(all))
	for i, rule := range all {
		reads[i] = map[rules.Ref]bool{}
		for _, ref := range c.RuleReads(rule) {
			reads[i][ref] = true
		}
	}
	r := random.Seeded(32)
	decisions := 0
	for range fewer(840) {
		m, other := mixed(r), mixed(r)
		want := foundBy(c.Check(m))
		j := c.Judge(m)
		for i, rule := range all {
			next := exchanged(m, other, reads[i])
			for kind := range catalog.Kinds() {
				if rec := next.facts.Part(kind); rec != nil {
					j.put(kind, j.complete(kind, rec))
				}
			}
			j.Measure(next)
			if got := found(j.Rule(i)); got != want[i] {
				t.Fatalf("%s is %s, and %s where only facts differ that it does not read", rule.ID, want[i], got)
			}
			decisions++
		}
		j.Close()
	}
	if decisions < fewer(100_000) {
		t.Errorf("only %d decisions", decisions)
	}
}

// Two values have one key where they are the same, and only there.
func TestKeysAreEquality(t *testing.T) {
	r := random.Seeded(33)
	same, others := 0, 0
	for range fewer(2000) {
		a, b := mixed(r), mixed(r)
		for kind := range catalog.Kinds() {
			one, other := a.facts.Part(kind), b.facts.Part(kind)
			if one == nil || other == nil {
				continue
			}
			for i := range one.Object().Table().Fields() {
				v, w := one.Value(i), other.Value(i)
				equal := sameValue(&v, &w)
				if equal != (string(v.AppendKey(nil)) == string(w.AppendKey(nil))) {
					t.Fatalf("%v and %v: the same %t, of one key %t", v, w, equal, !equal)
				}
				if equal && v.Known {
					same++
				} else if !equal {
					others++
				}
			}
		}
	}
	if same < fewer(20_000) || others < fewer(20_000) {
		t.Errorf("%d known values were the same, %d others", same, others)
	}
}

func TestReach(t *testing.T) {
	c := standardChecker(t)
	reach := func(id string) []string {
		rule, ok := c.Rules().Rule(id)
		if !ok {
			t.Fatalf("there is no rule %s", id)
		}
		return c.Reach(rule)
	}
	if got, want := reach("drive/radio"), []string{"rear_derailleur", "rear_shifter"}; !slices.Equal(got, want) {
		t.Errorf("drive/radio reaches %v, want %v", got, want)
	}
	if got := reach("chain/wear"); !slices.Contains(got, "chain") { // which is measured on the chain alone
		t.Errorf("chain/wear reaches %v, and not the chain", got)
	}
	var none Checker
	if rule, _ := c.Rules().Rule("drive/radio"); none.RuleReads(rule) != nil || none.Reach(rule) != nil {
		t.Error("the zero Checker reads something")
	}
	j := none.Judge(Mix{})
	defer j.Close()
	if _, applied := j.Rule(0); applied {
		t.Error("a Checker without rules applies one")
	}
}

// Forget takes away what was measured on a kind, and Refit with the same part as well.
func TestForget(t *testing.T) {
	m := mixOf(random.Draw{Fields: map[string]map[string]any{
		"chain": {"speeds": 11}, "bench": {"chain_wear_percent": 0.3, "hanger_error_mm": 2.0},
	}})
	chain, _ := m.Part("chain")
	wear, hanger := figures.Bench.Ref("chain_wear_percent"), figures.Bench.Ref("hanger_error_mm")
	for name, got := range map[string]Mix{"forgotten": m.Forget("chain", "no such kind"), "refitted": m.Refit(chain)} {
		if got.Facts().Value(wear).Known || got.Facts().Value(hanger).Num != 2 {
			t.Errorf("%s: wear %v, hanger %v", name, got.Facts().Value(wear), got.Facts().Value(hanger))
		}
	}
	if v := m.Facts().Value(wear); v.Num != 0.3 {
		t.Errorf("the mix itself has forgotten: %v", v)
	}
	if v := (Mix{}).Forget("chain").Facts().Value(wear); v.Known || !sameValue(&v, &fact.Value{}) {
		t.Errorf("the zero mix knows %v", v)
	}
}

// A Judge gives each fact of the part that states it, and of the bench what was measured.
func TestJudgeGivesFactsWhereTheyStand(t *testing.T) {
	m := mixOf(random.Draw{Fields: map[string]map[string]any{
		"chain": {"outer_width_mm": 5.6, "speeds": 11}, "cassette": {"cogs_t": []int{11, 13, 15}, "pitch_mm": 3.7, "cog_thickness_mm": 1.6}, "bench": {"hanger_error_mm": 2.0},
	}})
	c := standardChecker(t)
	j := c.Judge(m)
	defer j.Close()
	for name, want := range map[string]float64{"chain.outer_width_mm": 5.6, "cassette.pitch_mm": 3.7, "bench.hanger_error_mm": 2, "figures.neighbour_gap_mm": 0.1} {
		ref, ok := c.Rules().Vocabulary().Find(name)
		if !ok {
			t.Fatalf("there is no %s", name)
		}
		if v, lack := j.Value(ref); !v.Known || v.Num != want {
			t.Errorf("%s is %v, want %v; %v", name, v, want, lack)
		}
	}
}

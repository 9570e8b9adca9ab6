package compat_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestAskDemo holds that one question decides the donated bicycle.
func TestAskDemo(t *testing.T) {
	c, m := checker(t), demoMix(t, "donated-undecided")
	r := c.Check(m)
	ask := r.Ask()
	if r.Verdict != rules.Unknown || len(ask) == 0 {
		t.Fatalf("%v, %d questions", r.Verdict, len(ask))
	}
	q := ask[0]
	if q.Name != "rear_derailleur.made_for_cogs" || q.How == "" || q.Effort == fact.NotSaid || len(q.Decides) == 0 || q.Limit == "" {
		t.Errorf("%+v", q)
	}
	for _, cogs := range []int{10, 11, 12, 13} {
		m, err := m.Stating(q.Name, cogs)
		if err != nil {
			t.Fatal(err)
		}
		if r := c.Check(m); r.Verdict == rules.Unknown || r.Verdict != rules.Fail && len(r.Ask()) > 0 {
			t.Errorf("made for %d: %v, then %v", cogs, r.Verdict, r.Ask())
		}
	}
}

// TestAskTellsANarrowLimit holds that what a frame may measure is told though nearly all
// that it could fails: on a through axle it is as wide as the hub to half a millimetre.
func TestAskTellsANarrowLimit(t *testing.T) {
	m, err := compat.NewMix("a hub and its frame", compat.ScopeCart, part(t, "frame", map[string]any{"material": "aluminium"}),
		part(t, "hub", map[string]any{"axle": "through", "over_locknut_mm": 144.5}))
	if err != nil {
		t.Fatal(err)
	}
	want := "hub/over-locknut fails up to 143.99 mm, passes from 144 to 145 mm, fails from 145.01 mm"
	ask := checker(t).Check(m).Ask()
	if i := slices.IndexFunc(ask, func(q compat.Question) bool { return q.Name == "frame.over_locknut_mm" }); i < 0 || ask[i].Limit != want {
		t.Errorf("a frame for 144.5 mm: %+v, want %s", ask, want)
	}
}

// TestAskUsual holds that a usual value that decides is asked for, with its spread,
// and that answers on both sides of the limit that is told decide it.
func TestAskUsual(t *testing.T) {
	c := checker(t)
	m, err := compat.ReadMix("phone.yaml", []byte("mix: phone\nparts:\n  chain: {speeds: 10}\n  cassette: {cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32]}\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	r := c.Check(m)
	if r.Verdict != rules.Unknown {
		t.Fatalf("%v: %v", r.Verdict, r.Verdicts())
	}
	i := slices.IndexFunc(r.Ask(), func(q compat.Question) bool { return q.Name == "chain.outer_width_mm" })
	if i < 0 {
		t.Fatalf("%+v", r.Ask())
	}
	q := r.Ask()[i]
	if q.Least != 5.84 || q.Most != 6.2 || q.Usual != 5.9 || !slices.Contains(q.Decides, "chain/neighbour-gap") {
		t.Errorf("%+v", q)
	}
	for width, want := range map[float64]rules.Verdict{5.7: rules.Pass, 6.5: rules.Fail} {
		with, err := m.Stating(q.Name, width)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(c.Check(with).Verdicts(), compat.RuleVerdict{Rule: "chain/neighbour-gap", Verdict: want}) {
			t.Errorf("%v: %v", width, c.Check(with).Verdicts())
		}
	}
}

// TestAskNothing holds that who has nothing to ask is harmless, and marshals.
func TestAskNothing(t *testing.T) {
	if q := (compat.Report{}).Ask(); len(q) > 0 {
		t.Errorf("%v", q)
	}
	if q := (&compat.Checker{}).Check(compat.Mix{}).Ask(); len(q) > 0 {
		t.Errorf("%v", q)
	}
	if w := (compat.Report{}).Would(compat.Finding{}); len(w) > 0 {
		t.Errorf("%v", w)
	}
	text, err := json.Marshal(compat.Question{})
	if want := `{"name":"","unit":"","how":"","effort":"","decides":[],"least":0,"most":0,"usual":0,"words":[],"limit":""}`; err != nil ||
		string(text) != want {
		t.Errorf("%s %v", text, err)
	}
}

// answering is a mix with questions and one answer for each fact that is asked for.
type answering struct {
	t       *testing.T
	c       *compat.Checker
	mix     compat.Mix
	rand    *rand.Rand
	answers map[string]any
	first   []compat.Question // of the mix without answers, in every round the same
	decided map[string]bool   // by which answers are given
}

// answer draws an answer to a question from all that the fact may be, once.
func (a *answering) answer(q compat.Question) any {
	if v, ok := a.answers[q.Name]; ok {
		return v
	}
	var v any
	field := refOf(a.t, q.Name).Field()
	switch {
	case len(q.Words) > 0:
		v = q.Words[a.rand.IntN(len(q.Words))]
		if field.Type == fact.Flag {
			v = v == "true"
		}
	case field.Type == fact.Whole:
		v = int(q.Least) + a.rand.IntN(int(q.Most-q.Least)+1)
	default:
		per := math.Round(1 / field.Grid())
		v = math.Round((q.Least+(q.Most-q.Least)*a.rand.Float64())*per) / per
	}
	a.answers[q.Name] = v
	return v
}

// with gives the mix with some of the answers.
func (a *answering) with(m compat.Mix, name string) compat.Mix {
	out, err := m.Stating(name, a.answers[name])
	if err != nil {
		return m // refused beside what is stated: as good as no answer
	}
	return out
}

// asked counts the questions that Ask takes to decide the mix.
func (a *answering) asked() int {
	m, questions := a.mix, a.first
	done := map[string]bool{}
	for n := 0; ; n++ {
		if len(questions) == 0 {
			return n
		}
		q := questions[0]
		done[q.Name] = true
		a.answer(q)
		m = a.with(m, q.Name)
		r := a.c.Check(m)
		if r.Verdict != rules.Unknown {
			return n + 1
		}
		questions = slices.DeleteFunc(r.Ask(), func(q compat.Question) bool { return done[q.Name] })
	}
}

// inOrder counts the questions that a fixed order takes.
func (a *answering) inOrder(order []string) int {
	names, given := slices.Sorted(slices.Values(order)), make([]byte, len(order))
	for n, name := range order {
		given[slices.Index(names, name)] = 1
		id := string(given)
		if _, known := a.decided[id]; !known {
			m := a.mix
			for _, name := range order[:n+1] {
				m = a.with(m, name)
			}
			a.decided[id] = a.c.Check(m).Verdict != rules.Unknown
		}
		if a.decided[id] {
			return n + 1
		}
	}
	return len(order)
}

// orders gives every order of some names.
func orders(names []string) [][]string {
	if len(names) < 2 {
		return [][]string{names}
	}
	var out [][]string
	for i, first := range names {
		for _, rest := range orders(slices.Delete(slices.Clone(names), i, i+1)) {
			out = append(out, append([]string{first}, rest...))
		}
	}
	return out
}

// TestAskIsNearTheBestOrder holds the questions that Ask takes against the best fixed
// order of the facts that were taken away, over the same answers.
func TestAskIsNearTheBestOrder(t *testing.T) {
	mixes, rounds := 300, 6
	if testing.Short() {
		mixes, rounds = 30, 4
	}
	c := checker(t)
	var ours, best float64
	done := 0
	for seed := uint64(1); done < mixes; seed++ {
		r := random.Seeded(seed)
		m, facts := undecided(c, r)
		if len(facts) == 0 {
			continue
		}
		done++
		mine, theirs := 0, map[int]int{}
		all, first := orders(facts), c.Check(m).Ask()
		for range rounds {
			a := &answering{t: t, c: c, mix: m, rand: r, answers: map[string]any{}, first: first, decided: map[string]bool{}}
			for _, q := range first {
				a.answer(q)
			}
			mine += a.asked()
			for i, order := range all {
				theirs[i] += a.inOrder(order)
			}
		}
		least := math.MaxInt
		for _, n := range theirs {
			least = min(least, n)
		}
		if mine > 2*least {
			t.Logf("seed %d: %d questions, %d of %v", seed, mine, least, facts)
		}
		ours, best = ours+float64(mine), best+float64(least)
	}
	n := float64(mixes * rounds)
	t.Logf("%.2f questions, %.2f in the best order: %.2f", ours/n, best/n, ours/best)
	if ours > 1.3*best {
		t.Errorf("%.2f times the questions of the best order", ours/best)
	}
}

// undecided draws a mix, takes facts away until it is undecided for want of one to
// five numbers and words, and names these; none where that does not come about.
func undecided(c *compat.Checker, r *rand.Rand) (compat.Mix, []string) {
	d := random.New(r)
	want := 1 + r.IntN(5)
	for range 40 {
		m, err := compat.NewMix("m", compat.ScopeCart, d.Parts()...)
		if bench := d.Fields["bench"]; err == nil && bench != nil {
			m, err = m.Measured(bench)
		}
		if err != nil {
			return m, nil // what is left contradicts itself
		}
		report := c.Check(m)
		if n := len(report.Missing()); report.Verdict == rules.Unknown && want <= n && n <= 5 {
			if facts := askedFor(report); want <= len(facts) && len(facts) <= 5 {
				return m, facts
			}
		}
		stated := statedOf(c, d, report, r)
		if len(stated) == 0 {
			return m, nil
		}
		ref := stated[r.IntN(len(stated))]
		d = d.Without(ref.Object.Name(), ref.Field().Name)
	}
	return compat.Mix{}, nil
}

// askedFor names the facts that a report asks for; none where one has no range to
// draw answers from.
func askedFor(r compat.Report) []string {
	var facts []string
	for _, q := range r.Ask() {
		if len(q.Words) == 0 && q.Least >= q.Most {
			return nil
		}
		facts = append(facts, q.Name)
	}
	return facts
}

// statedOf lists the stated facts of one rule: of one that fails where any does, else
// of any that is decided.
func statedOf(c *compat.Checker, d random.Draw, report compat.Report, r *rand.Rand) []rules.Ref {
	verdicts := report.Verdicts()
	if len(verdicts) == 0 {
		return nil
	}
	v := verdicts[0]
	if v.Verdict != rules.Fail {
		v = verdicts[r.IntN(len(verdicts))]
	}
	rule, _ := c.Rules().Rule(v.Rule)
	hangs := c.Rules().Facts(rule)
	return slices.DeleteFunc(d.Stated(), func(ref rules.Ref) bool { return !slices.Contains(hangs, ref) })
}

package fit_test

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

var compiled = sync.OnceValues(func() (*compat.Checker, error) { return compat.New(compat.Config{}) })

func standard(t testing.TB) *compat.Checker {
	t.Helper()
	c, err := compiled()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// fewer gives a number of rounds, or a tenth of it under -short.
func fewer(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}

// stall is a random mix and a catalog of a few parts for some of its kinds: parts like
// its own with a fact changed or left out, parts of other mixes, and usual classes.
type stall struct {
	*rand.Rand
	t     testing.TB
	mix   compat.Mix
	parts []catalog.Part
}

func newStall(t testing.TB, r *rand.Rand, kinds []string, each int) stall {
	s := stall{Rand: r, t: t}
	d := s.soundDraw(kinds)
	s.mix = read(t, d)
	for _, kind := range kinds {
		for range 1 + each/2 + r.IntN(each) {
			s.like(d, kind)
		}
		if mine := s.of(kind); r.IntN(3) > 0 {
			s.mix = s.mix.Without(kind)
			if len(mine) > 0 && r.IntN(2) == 0 {
				s.mix = s.mix.With(mine[r.IntN(len(mine))])
			}
		}
	}
	return s
}

// soundDraw draws a mix of which, for the most part, no rule fails that the kinds can
// change: of random parts few go together. Where kinds are named in only, it has no
// others.
func (s *stall) soundDraw(kinds []string, only ...string) random.Draw {
	c := standard(s.t)
	reach := reached(c, kinds)
	for try := 0; ; try++ {
		d := random.New(s.Rand)
		if s.IntN(3) == 0 {
			d.Loosen(s.Rand)
		}
		if only != nil {
			maps.DeleteFunc(d.Fields, func(kind string, _ map[string]any) bool { return kind != "bench" && !slices.Contains(only, kind) })
		}
		fails := slices.ContainsFunc(c.Check(read(s.t, d)).Verdicts(), func(v compat.RuleVerdict) bool {
			return reach[v.Rule] && v.Verdict == rules.Fail
		})
		if !fails || try == 20 {
			return d
		}
	}
}

// read makes the mix of a draw.
func read(t testing.TB, d random.Draw) compat.Mix {
	file := map[string]any{"mix": "stall", "scope": "cart"}
	if bench := d.Fields["bench"]; bench != nil {
		file["bench"] = bench
	}
	parts := maps.Clone(d.Fields)
	delete(parts, "bench")
	file["parts"] = parts
	text, err := json.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.ReadMix("stall.json", text, nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func (s *stall) of(kind string) []catalog.Part {
	return slices.DeleteFunc(slices.Clone(s.parts), func(p catalog.Part) bool { return p.Kind() != kind })
}

// like adds a part like the one of a draw, or quite another one.
func (s *stall) like(d random.Draw, kind string) {
	fields := maps.Clone(d.Fields[kind])
	other := random.New(s.Rand).Fields[kind]
	if usual := compat.Usual().OfKind(kind); len(usual) > 0 && s.IntN(8) == 0 {
		s.add(usual[s.IntN(len(usual))].With(map[string]any{"name": "usual"}))
		return
	}
	if fields == nil || other != nil && s.IntN(8) == 0 {
		fields = maps.Clone(other)
	}
	if fields == nil {
		return
	}
	names := slices.Sorted(maps.Keys(fields))
	for range min(s.IntN(3), len(names)) {
		switch name := names[s.IntN(len(names))]; {
		case s.IntN(2) == 0:
			delete(fields, name)
		case other[name] != nil:
			fields[name] = other[name]
		}
	}
	fields["id"] = fmt.Sprintf("%s-%d", kind, len(s.parts))
	fields["name"] = "any"
	if s.IntN(5) > 0 {
		fields["price"] = fmt.Sprintf("%d.00", 1+s.IntN(9))
	}
	if p, err := catalog.New(kind, fields); err == nil { // what no longer goes together is no part
		s.add(p, nil)
	}
}

func (s *stall) add(p catalog.Part, err error) {
	if err != nil {
		s.t.Fatal(err)
	}
	if !slices.ContainsFunc(s.parts, func(o catalog.Part) bool { return o.ID() == p.ID() }) {
		s.parts = append(s.parts, p)
	}
}

func (s *stall) catalog() *catalog.Catalog {
	c, err := catalog.Of(s.parts...)
	if err != nil {
		s.t.Fatal(err)
	}
	return c
}

// combination is one part of each kind, and what a whole check says of them.
type combination struct {
	key      string
	cost     [2]int64
	warnings int
	unknowns int
	passes   int
	fails    bool
}

// offer is a part that can be chosen: one of the catalog, or the one that the mix has.
type offer struct {
	catalog.Part
	own bool
}

func (o offer) key() string {
	if o.own {
		return "own"
	}
	return o.ID()
}

// offers gives what there is of a kind. Another part of the same as the mix's own is
// another one only where something was measured on that.
func (s *stall) offers(kind string) []offer {
	var out []offer
	own, has := s.mix.Part(kind)
	if has {
		out = append(out, offer{own, true})
	}
	measured := !sameBench(s.mix, s.mix.Forget(kind))
	for _, p := range s.of(kind) {
		if !has || p != own || measured {
			out = append(out, offer{p, false})
		}
	}
	return out
}

func sameBench(a, b compat.Mix) bool { return a.Facts().Bench() == b.Facts().Bench() }

// reached are the rules that kinds can change.
func reached(c *compat.Checker, kinds []string) map[string]bool {
	out := map[string]bool{}
	for _, r := range c.Rules().Rules() {
		out[r.ID] = slices.ContainsFunc(c.Reach(r), func(k string) bool { return slices.Contains(kinds, k) })
	}
	return out
}

// brute checks every combination of parts of the kinds, whole.
func (s *stall) brute(c *compat.Checker, kinds []string) []combination {
	reach := reached(c, kinds)
	var out []combination
	var choose func(i int, chosen []offer)
	choose = func(i int, chosen []offer) {
		if i == len(kinds) {
			out = append(out, s.judged(c, chosen, reach))
			return
		}
		for _, p := range s.offers(kinds[i]) {
			choose(i+1, append(slices.Clip(chosen), p))
		}
	}
	choose(0, nil)
	return out
}

func (s *stall) judged(c *compat.Checker, chosen []offer, reach map[string]bool) combination {
	var out combination
	var fresh []catalog.Part
	for _, p := range chosen {
		out.key = strings.TrimSpace(out.key + " " + p.key())
		if p.own {
			continue
		}
		fresh = append(fresh, p.Part)
		if cents, ok := p.Cents(); ok {
			out.cost[1] += cents
		} else {
			out.cost[0]++
		}
	}
	for _, v := range c.Check(s.mix.Refit(fresh...)).Verdicts() {
		switch {
		case !reach[v.Rule]:
		case v.Verdict == rules.Fail:
			out.fails = true
		case v.Verdict == rules.Warn:
			out.warnings++
		case v.Verdict == rules.Unknown:
			out.unknowns++
		case v.Verdict == rules.Pass:
			out.passes++
		}
	}
	return out
}

// spread gives every combination that a choice stands for.
func spread(c fit.Choice) []string {
	out := []string{""}
	for i, p := range c.Parts {
		keys := []string{offer{p, c.Kept(i)}.key()}
		for _, part := range c.Alike[i] {
			keys = append(keys, part.ID())
		}
		var next []string
		for _, k := range keys {
			for _, before := range out {
				next = append(next, strings.TrimSpace(before+" "+k))
			}
		}
		out = next
	}
	return out
}

// What Fit chooses is what Check says of every combination, the best first.
func TestFitIsCheckOfAll(t *testing.T) {
	c := standard(t)
	r := random.Seeded(41)
	combinations, chosen, none := 0, 0, 0
	for round := range fewer(1000) {
		kinds := someKinds(r, 1+round%3)
		s := newStall(t, r, kinds, []int{110, 21, 8}[len(kinds)-1])
		q := fit.Query{Mix: s.mix, Kinds: kinds, Limit: 1 << 20, Budget: 1 << 30, Undecided: r.IntN(2) == 0, Warnings: fit.Warnings(r.IntN(3))}
		answer, err := fit.NewIndex(c, s.catalog()).Fit(context.Background(), q)
		if err != nil || answer.Cut {
			t.Fatalf("round %d: %v, cut %t", round, err, answer.Cut)
		}
		all := s.brute(c, kinds)
		combinations += len(all)
		wanted := wantedOf(all, q)
		if len(wanted) == 0 {
			none++
		}
		chosen += len(wanted)
		compareAnswer(t, answer, wanted)
	}
	t.Logf("%d combinations, %d chosen, %d catalogues without a choice", combinations, chosen, none)
	if combinations < fewer(100_000) || chosen < fewer(5000) || none < fewer(200) {
		t.Errorf("only %d combinations, %d chosen, %d catalogues without a choice", combinations, chosen, none)
	}
}

// wantedOf keeps what a query allows.
func wantedOf(all []combination, q fit.Query) map[string]combination {
	out := map[string]combination{}
	for _, c := range all {
		if !c.fails && (c.unknowns == 0 || q.Undecided) && (c.warnings == 0 || q.Warnings != fit.None) {
			out[c.key] = c
		}
	}
	return out
}

// compareAnswer holds an answer against the combinations that are wanted.
func compareAnswer(t *testing.T, answer fit.Answer, wanted map[string]combination) {
	t.Helper()
	met := map[string]bool{}
	for _, choice := range answer.Choices {
		for i, k := range spread(choice) {
			want, ok := wanted[k]
			if !ok || met[k] {
				t.Fatalf("%q is chosen: wanted %t, chosen before %t", k, ok, met[k])
			}
			met[k] = true
			if choice.Passes != want.passes || choice.Warnings != want.warnings || choice.Unknowns != want.unknowns ||
				len(choice.Warns) != want.warnings || len(choice.Open) != want.unknowns {
				t.Fatalf("%q has %d warnings and %d unknowns, checked %+v", k, choice.Warnings, choice.Unknowns, want)
			}
			if cost := [2]int64{int64(choice.Unpriced), choice.Cents}; i == 0 && cost != want.cost {
				t.Fatalf("%q costs %v, wanted %v", k, cost, want.cost)
			}
		}
	}
	if len(met) != len(wanted) {
		t.Fatalf("%d combinations are chosen of %d", len(met), len(wanted))
	}
	if (len(wanted) == 0) != (len(answer.Blocked) > 0) && !slices.Contains(answer.Parts, 0) {
		t.Fatalf("%d combinations go, and %v block", len(wanted), answer.Blocked)
	}
}

// someKinds draws kinds that rules look at much.
func someKinds(r *rand.Rand, n int) []string {
	kinds := []string{"cassette", "chain", "rear_derailleur", "rear_shifter", "crankset", "hub", "bottom_bracket", "frame", "chainring", "cell",
		"controller_cell", "front_derailleur", "front_shifter", "chain_connector", "wheel", "hanger_link"}
	var out []string
	for len(out) < n {
		kind := kinds[min(r.IntN(len(kinds)), r.IntN(len(kinds)))]
		if _, ok := catalog.Kind(kind); ok && !slices.Contains(out, kind) {
			out = append(out, kind)
		}
	}
	return out
}

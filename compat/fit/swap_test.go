package fit_test

import (
	"context"
	"math/bits"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// Swap finds the smallest exchanges that mend, all of them, and none where there is none.
func TestSwapIsCheckOfAll(t *testing.T) {
	c := standard(t)
	r := random.Seeded(51)
	combinations, mended, none := 0, [4]int{}, 0
	for failing := 0; failing < fewer(300); {
		s := broken(t, r)
		if c.Check(s.mix).Verdict != rules.Fail {
			continue
		}
		failing++
		got, err := fit.NewIndex(c, s.catalog()).SwapBy(context.Background(), fit.Query{Mix: s.mix, Limit: 1 << 20, Budget: 1 << 30}, 3)
		if err != nil || got.Cut {
			t.Fatalf("mix %d: %v, cut %t", failing, err, got.Cut)
		}
		b := s.exchanges(c)
		combinations += b.tried
		compareMending(t, got, b)
		switch {
		case b.size > 0:
			mended[b.size-1]++
		case got.None:
			none++
		}
	}
	t.Logf("%d combinations; mended by 1, 2, 3, 4 parts: %v; none: %d", combinations, mended, none)
	if mended[0] < fewer(100) || mended[1] < fewer(30) || none < fewer(80) || combinations < fewer(20_000) {
		t.Errorf("too few of one: %d combinations, mended %v, none %d", combinations, mended, none)
	}
}

// broken is a mix of five kinds of which some parts were exchanged for random ones, and a
// catalog in which for the most part stand those that it had.
func broken(t testing.TB, r *rand.Rand) stall {
	kinds := someKinds(r, 5)
	s := stall{Rand: r, t: t}
	d := s.soundDraw(catalog.KindNames(), kinds...)
	s.mix = read(t, d)
	for _, kind := range kinds {
		for range 3 + r.IntN(5) {
			s.like(d, kind)
		}
	}
	for _, kind := range kinds[:1+r.IntN(3)] {
		s.spoil(kind)
	}
	return s
}

// spoil exchanges the part of a kind for a random one with which more fails, if one is
// found soon.
func (s *stall) spoil(kind string) {
	before := s.fails()
	for range 12 {
		fields := random.New(s.Rand).Fields[kind]
		if fields == nil || kind == "frame" {
			continue
		}
		p, err := catalog.New(kind, fields)
		if err != nil {
			s.t.Fatal(err)
		}
		if s.mix = s.mix.With(p); s.fails() > before {
			return
		}
	}
}

// fails counts what fails.
func (s *stall) fails() int {
	n := 0
	for _, v := range standard(s.t).Check(s.mix).Verdicts() {
		if v.Verdict == rules.Fail {
			n++
		}
	}
	return n
}

// exchanges is what whole checks say of exchanging parts of a mix.
type exchanges struct {
	size  int             // the fewest that mend; 0 for none
	keys  map[string]bool // those that do
	tried int
}

// exchanges tries every exchange of parts, those of the fewest first.
func (s *stall) exchanges(c *compat.Checker) exchanges {
	before := map[string]bool{}
	for _, v := range c.Check(s.mix).Verdicts() {
		before[v.Rule] = v.Verdict == rules.Unknown
	}
	var kinds []string
	for _, p := range s.mix.Parts() {
		if len(s.of(p.Kind())) > 0 && p.Kind() != "frame" { // which stays
			kinds = append(kinds, p.Kind())
		}
	}
	out := exchanges{keys: map[string]bool{}}
	for size := 1; size <= len(kinds) && len(out.keys) == 0; size++ {
		for set := range 1 << len(kinds) {
			if bits.OnesCount(uint(set)) == size {
				out.try(s, before, chosenOf(kinds, set))
			}
		}
		if len(out.keys) > 0 {
			out.size = size
		}
	}
	return out
}

func chosenOf(kinds []string, set int) []string {
	var out []string
	for i, kind := range kinds {
		if set&(1<<i) != 0 {
			out = append(out, kind)
		}
	}
	return out
}

// try exchanges the parts of these kinds.
func (e *exchanges) try(s *stall, before map[string]bool, kinds []string, fresh ...catalog.Part) {
	if len(fresh) < len(kinds) {
		for _, p := range s.of(kinds[len(fresh)]) {
			e.try(s, before, kinds, append(slices.Clip(fresh), p)...)
		}
		return
	}
	e.tried++
	for _, v := range standard(s.t).Check(s.mix.Refit(fresh...)).Verdicts() {
		if v.Verdict == rules.Fail || v.Verdict == rules.Unknown && !before[v.Rule] {
			return
		}
	}
	var ids []string
	for _, p := range fresh {
		ids = append(ids, p.ID())
	}
	e.keys[strings.Join(ids, " ")] = true
}

// compareMending holds a mending against what whole checks say.
func compareMending(t *testing.T, got fit.Mending, want exchanges) {
	t.Helper()
	if want.size > 3 {
		if got.None || got.Most != 3 || len(got.Swaps) > 0 {
			t.Fatalf("%d parts mend it: %+v", want.size, got)
		}
		return
	}
	if got.None != (want.size == 0) || got.Parts != want.size || got.None != (len(got.Blocks) > 0) {
		t.Fatalf("none %t with %d parts, blocked by %v; wanted %d parts", got.None, got.Parts, got.Blocks, want.size)
	}
	met := map[string]bool{}
	last := [2]int64{}
	for _, choice := range got.Swaps {
		cost := [2]int64{int64(choice.Unpriced), choice.Cents}
		if slices.Compare(cost[:], last[:]) < 0 {
			t.Fatalf("%v comes after %v", cost, last)
		}
		last = cost
		for _, k := range spread(choice) {
			if !want.keys[k] || met[k] {
				t.Fatalf("%q mends: wanted %t, met before %t", k, want.keys[k], met[k])
			}
			met[k] = true
		}
	}
	if len(met) != len(want.keys) {
		t.Fatalf("%d exchanges mend of %d", len(met), len(want.keys))
	}
}

// threeWrong is a mix with a fault in each of three parts, a checker that finds them, and an
// index with a part that mends each.
func threeWrong(t testing.TB) (compat.Mix, *fit.Index) {
	t.Helper()
	c := judging(t, "cassette.lockring_torque_nm < 20", "chain.strength_n < 3000", "crankset.length_mm < 170", "warn:chain.strength_n > 3500")
	return carted(t, `
parts:
  cassette: {cogs_t: [11, 13], lockring_torque_nm: 10}
  chain: {strength_n: 2000}
  crankset: {rings_t: [32], length_mm: 160}
`), fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: cassette, name: any, price: 1, cogs_t: [11, 13], lockring_torque_nm: 40}
  - {kind: chain, id: chain, name: any, price: 2, strength_n: 4000}
  - {kind: crankset, id: crankset, name: any, price: 3, rings_t: [32], length_mm: 175}
`))
}

// As many parts are exchanged as it takes, up to a bound, which is three where none is
// told. A swap may warn, whatever the query says of that.
func TestSwapsUpToTheMost(t *testing.T) {
	m, ix := threeWrong(t)
	for most, parts := range map[int]int{0: 3, 1: 0, 2: 0, 3: 3, 4: 3} {
		got, err := ix.SwapBy(context.Background(), fit.Query{Mix: m, Warnings: fit.None}, most)
		if err != nil || got.Parts != parts || got.None || got.Cut || len(got.Swaps) != parts/3 {
			t.Errorf("of at most %d parts: %+v, %v", most, got, err)
		}
		if parts == 0 && got.Most != most || parts > 0 && (got.Most != 0 || len(got.Swaps[0].Parts) != 3 || got.Swaps[0].Cents != 600) {
			t.Errorf("of at most %d parts: %+v", most, got)
		}
	}
}

// Only the kinds that are named are exchanged: where one is left out that fails, nothing
// mends it, and where the others are all that it takes, they are.
func TestSwapOfNamedKinds(t *testing.T) {
	m, ix := threeWrong(t)
	q := fit.Query{Mix: m, Kinds: []string{"chain", "cassette"}}
	got, err := ix.SwapBy(context.Background(), q, 0)
	if err != nil || !got.None || !slices.Equal(got.Blocks, []string{"test/rule-3"}) || !slices.Equal(got.Fixed, []string{"crankset"}) {
		t.Errorf("without the crankset: %+v, %v", got, err)
	}
	q.Mix = m.Without("crankset")
	got, err = ix.SwapBy(context.Background(), q, 0)
	if err != nil || got.Parts != 2 || len(got.Swaps) != 1 || len(got.Swaps[0].Parts) != 2 || got.Swaps[0].Cents != 300 {
		t.Errorf("of two that are wrong: %+v, %v", got, err)
	}
	q.Kinds = []string{"casette"}
	if _, err := ix.SwapBy(context.Background(), q, 0); err == nil || !strings.Contains(err.Error(), `did you mean "cassette"`) {
		t.Errorf("of a kind that there is not: %v", err)
	}
}

// No more swaps are told than are asked for, the cheapest, of whichever part they are.
func TestSwapsUpToTheLimit(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n < 100 * cassette.lockring_torque_nm"), shelved(t, `
  - {kind: cassette, id: loose, name: any, price: 3, cogs_t: [11, 13], lockring_torque_nm: 10}
  - {kind: chain, id: strong, name: any, price: 2, strength_n: 4000}
  - {kind: chain, id: stronger, name: any, price: 5, strength_n: 5000}
`))
	m := carted(t, "parts: {cassette: {cogs_t: [11, 13], lockring_torque_nm: 30}, chain: {strength_n: 2000}}\n")
	want := []string{"strong", "loose", "stronger"}
	for limit := 1; limit <= 4; limit++ {
		got, err := ix.SwapBy(context.Background(), fit.Query{Mix: m, Limit: limit}, 0)
		var ids []string
		for _, c := range got.Swaps {
			ids = append(ids, spread(c)...)
		}
		if err != nil || got.Parts != 1 || !slices.Equal(ids, want[:min(limit, 3)]) {
			t.Errorf("the first %d are %q: %+v, %v", limit, ids, got, err)
		}
	}
}

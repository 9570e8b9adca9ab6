package fit_test

import (
	"cmp"
	"context"
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

func demoParts(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The audit of the demo counts what a whole check says of each of its pairs.
func TestAuditIsCheckOfAllPairs(t *testing.T) {
	parts := demoParts(t)
	audit, err := fit.NewIndex(standard(t), parts).Audit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	pairs, openPairs := 0, 0
	goes := map[string]map[string]int{} // by part and kind
	for _, counted := range audit.Pairs {
		want := fit.Pairs{Kinds: counted.Kinds}
		for _, a := range parts.OfKind(counted.Kinds[0]) {
			for _, b := range parts.OfKind(counted.Kinds[1]) {
				pairs++
				if countPair(t, &want, a, b) {
					note(goes, a, b)
					note(goes, b, a)
				}
			}
		}
		if counted != want {
			t.Errorf("%v: counted %+v, checked %+v", counted.Kinds, counted, want)
		}
		openPairs += counted.Open
	}
	for _, kinds := range [][2]string{{"cassette", "chain"}, {"cassette", "hub"}, {"cassette", "rear_derailleur"}, {"chain", "chain_connector"}} {
		if !slices.ContainsFunc(audit.Pairs, func(p fit.Pairs) bool { return p.Kinds == kinds }) {
			t.Errorf("%v are not held together", kinds)
		}
	}
	if pairs < 6000 || openPairs == 0 {
		t.Errorf("%d pairs, %d of them open", pairs, openPairs)
	}
	for _, p := range audit.Partners {
		for _, with := range p.With {
			if with.Goes != goes[p.Part.ID()][with.Kind] || with.Of != len(parts.OfKind(with.Kind)) {
				t.Errorf("%s goes with %+v, checked %d", p.Part.ID(), with, goes[p.Part.ID()][with.Kind])
			}
			alone := slices.Contains(audit.Alone, fit.Alone{Part: p.Part, With: with.Kind, Parts: with.Of})
			if alone != (with.Goes == 0) {
				t.Errorf("%s goes with %d of %s; alone: %t", p.Part.ID(), with.Goes, with.Kind, alone)
			}
		}
	}
	if len(audit.Partners) < parts.Len()/2 || audit.Parts != parts.Len() {
		t.Errorf("%d parts of %d have partners", len(audit.Partners), audit.Parts)
	}
	statedDecides(t, parts, audit, openPairs)
}

func note(goes map[string]map[string]int, a, b catalog.Part) {
	if goes[a.ID()] == nil {
		goes[a.ID()] = map[string]int{}
	}
	goes[a.ID()][b.Kind()]++
}

// countPair counts one pair, and says whether nothing of it fails.
func countPair(t *testing.T, to *fit.Pairs, a, b catalog.Part) bool {
	c := standard(t)
	m, err := compat.NewMix("pair", compat.ScopeCart, a, b)
	if err != nil {
		t.Fatal(err)
	}
	worst, silent := rules.Pass, true
	for _, v := range c.Check(m).Verdicts() {
		silent = false
		if v.Verdict.Rank() < worst.Rank() {
			worst = v.Verdict
		}
	}
	switch {
	case silent:
		to.Silent++
	case worst == rules.Fail:
		to.Fail++
	case worst == rules.Unknown:
		to.Open++
	case worst == rules.Warn:
		to.Warn++
	default:
		to.Pass++
	}
	return worst != rules.Fail
}

// statedDecides holds what the audit asks for against the pairs that miss no other fact.
func statedDecides(t *testing.T, parts *catalog.Catalog, audit fit.Audit, open int) {
	t.Helper()
	c := standard(t)
	var wanting [][]string
	for _, pairs := range audit.Pairs {
		for _, a := range parts.OfKind(pairs.Kinds[0]) {
			for _, b := range parts.OfKind(pairs.Kinds[1]) {
				if missing, is := missingOf(c, a, b); is {
					wanting = append(wanting, missing)
				}
			}
		}
	}
	stated := map[string]bool{}
	for _, f := range audit.Facts {
		if most := mostDeciding(wanting, stated); most[f.Fact] != slices.MaxFunc(slices.Collect(maps.Values(most)), twice) {
			t.Errorf("%s is stated next, which decides and is missing for %v pairs, of %v", f.Fact, most[f.Fact], most)
		}
		stated[f.Fact] = true
		still := 0
		for _, missing := range wanting {
			if slices.ContainsFunc(missing, func(n string) bool { return !stated[n] }) {
				still++
			}
		}
		if f.Open != still {
			t.Errorf("with %s stated %d pairs are open, by whole checks %d", f.Fact, f.Open, still)
		}
	}
	if len(audit.Facts) < 3 || len(wanting) != open {
		t.Errorf("only %d facts are asked for, by %d open pairs", len(audit.Facts), len(wanting))
	}
}

// mostDeciding gives for each fact that is not stated how many pairs it decides alone, and
// for how many it is missing.
func mostDeciding(wanting [][]string, stated map[string]bool) map[string][2]int {
	out := map[string][2]int{}
	for _, missing := range wanting {
		left := slices.DeleteFunc(slices.Clone(missing), func(n string) bool { return stated[n] })
		for _, n := range left {
			at := out[n]
			if at[1]++; len(left) == 1 {
				at[0]++
			}
			out[n] = at
		}
	}
	return out
}

// twice compares by the first of two numbers, and by the second where it is the same.
func twice(a, b [2]int) int { return cmp.Or(a[0]-b[0], a[1]-b[1]) }

// missingOf gives what a pair misses; false where it is not open.
func missingOf(c *compat.Checker, a, b catalog.Part) ([]string, bool) {
	m, _ := compat.NewMix("pair", compat.ScopeCart, a, b)
	r := c.Check(m)
	var out []string
	open := false
	for _, v := range r.Verdicts() {
		if v.Verdict == rules.Fail {
			return nil, false
		}
		open = open || v.Verdict == rules.Unknown
	}
	for _, f := range r.Missing() {
		out = append(out, f.Name)
	}
	return out, open
}

func TestAuditEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := fit.NewIndex(standard(t), demoParts(t)).Audit(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled audit gives %v", err)
	}
}

// Of parts of which nothing is stated more facts are missing than an audit names: it names
// the ten that decide the most, none twice, and counts on.
func TestAuditNamesTenFacts(t *testing.T) {
	var bare []catalog.Part
	for _, kind := range catalog.KindNames() {
		fields := map[string]any{"id": strings.ReplaceAll(kind, "_", "-")}
		switch kind {
		case "cassette":
			fields["cog_count"] = 9
		case "crankset":
			fields["speeds"] = 9
		case "chainring":
			fields["rings_t"] = []int{40}
		}
		p, err := catalog.New(kind, fields)
		if err != nil {
			t.Fatal(err)
		}
		bare = append(bare, p)
	}
	parts, err := catalog.Of(bare...)
	if err != nil {
		t.Fatal(err)
	}
	audit, err := fit.NewIndex(standard(t), parts).Audit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, f := range audit.Facts {
		seen[f.Fact] = true
	}
	open := 0
	for _, p := range audit.Pairs {
		open += p.Open
	}
	statedDecides(t, parts, audit, open)
	if len(audit.Facts) != 10 || len(seen) != 10 {
		t.Errorf("%d facts, %d of them different: %+v", len(audit.Facts), len(seen), audit.Facts)
	}
}

// Kinds are held together where one rule looks at both, and not where it looks at one, or
// where there are no parts of one of them.
func TestAuditHoldsTogetherWhatOneRuleReads(t *testing.T) {
	c := judging(t, "cassette.lockring_torque_nm > chain.strength_n", "crankset.length_mm > 200",
		"chain_connector.outer_width_mm > crankset.length_mm", "chain.strength_n < hub.max_input_nm", "chain.strength_n < axle.length_mm")
	audit, err := fit.NewIndex(c, numbered(t, map[string]int{"cassette": 1, "chain": 2, "crankset": 1})).Audit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if want := []fit.Pairs{{Kinds: [2]string{"cassette", "chain"}, Pass: 2}}; !slices.Equal(audit.Pairs, want) {
		t.Errorf("held together are %+v", audit.Pairs)
	}
	if len(audit.Partners) != 3 { // the cassette and the chains
		t.Errorf("partners are told of %+v", audit.Partners)
	}
}

// A pair is not decided by what its rules miss where another of them is open for an
// error: there is nothing to state for that.
func TestNoFactDecidesAnError(t *testing.T) {
	c := judging(t, "chain.strength_n < cassette.lockring_torque_nm", "100 / (cassette.cogs_t[0] - 11) > chain.speeds")
	audit, err := fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: cassette, name: cassette, cogs_t: [11, 13], lockring_torque_nm: 40}
  - {kind: chain, id: chain, name: chain, speeds: 9}
`)).Audit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if want := []fit.Stated{{Fact: "chain.strength_n", Pairs: 0, Open: 1}}; !slices.Equal(audit.Facts, want) {
		t.Errorf("to state is %+v", audit.Facts)
	}
}

// Of facts that decide nothing alone that which is missing most often is asked for first.
func TestWhatIsMissingMostComesFirst(t *testing.T) {
	c := judging(t, "chain.strength_n < cassette.lockring_torque_nm", "chain.pitches < cassette.lockring_torque_nm",
		"chain.outer_link_gap_mm > cassette.lockring_torque_nm")
	audit, err := fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: cassette, name: cassette, cogs_t: [11, 13], lockring_torque_nm: 40}
  - {kind: chain, id: one, name: one, outer_link_gap_mm: 5}
  - {kind: chain, id: two, name: two, pitches: 114}
`)).Audit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	want := []fit.Stated{{Fact: "chain.strength_n", Pairs: 0, Open: 2}, {Fact: "chain.pitches", Pairs: 1, Open: 1},
		{Fact: "chain.outer_link_gap_mm", Pairs: 1, Open: 0}}
	if !slices.Equal(audit.Facts, want) {
		t.Errorf("to state is %+v", audit.Facts)
	}
}

// Chains that go with a cassette alike are not alike for that: one of them fails by itself,
// and two miss different facts. A rule that looks at no part is part of every pair.
func TestPairsAreMoreThanWhatGoesTogether(t *testing.T) {
	audited := func(conditions ...string) fit.Audit {
		audit, err := fit.NewIndex(judging(t, append(conditions, "cassette.lockring_torque_nm < chain.speeds")...), shelved(t, `
  - {kind: cassette, id: cassette, name: cassette, cogs_t: [11, 13], lockring_torque_nm: 40}
  - {kind: chain, id: strong, name: strong, speeds: 9, strength_n: 9000}
  - {kind: chain, id: weak, name: weak, speeds: 9, strength_n: 2000, outer_link_gap_mm: 5}
  - {kind: chain, id: short, name: short, speeds: 9, strength_n: 9000, pitches: 100}
`)).Audit(context.Background())
		if err != nil || len(audit.Pairs) != 1 {
			t.Fatalf("%+v, %v", audit.Pairs, err)
		}
		return audit
	}
	kinds := [2]string{"cassette", "chain"}
	if a := audited("chain.strength_n < 3000"); a.Pairs[0] != (fit.Pairs{Kinds: kinds, Pass: 2, Fail: 1}) {
		t.Errorf("beside a chain that fails there are %+v", a.Pairs)
	}
	a := audited("chain.pitches < 90", "chain.outer_link_gap_mm > 8")
	want := []fit.Stated{{Fact: "chain.pitches", Pairs: 1, Open: 2}, {Fact: "chain.outer_link_gap_mm", Pairs: 2, Open: 0}}
	if !slices.Equal(a.Facts, want) || a.Pairs[0].Open != 3 {
		t.Errorf("of %+v there is to state %+v", a.Pairs, a.Facts)
	}
	a = audited("bench.position == 'sag'")
	if want := []fit.Stated{{Fact: "bench.position", Pairs: 3, Open: 0}}; !slices.Equal(a.Facts, want) || a.Pairs[0].Open != 3 {
		t.Errorf("of %+v there is to state %+v", a.Pairs, a.Facts)
	}
}

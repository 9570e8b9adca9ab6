package compat

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// newPart makes a part, or fails the test.
func newPart(t testing.TB, kind string, fields map[string]any) catalog.Part {
	t.Helper()
	p, err := catalog.New(kind, fields)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sameMix says whether two mixes hold the same parts and bench facts.
func sameMix(a, b Mix) bool {
	return slices.Equal(a.Parts(), b.Parts()) && slices.Equal(a.Facts().Measure().Records()[:len(catalog.KindNames())], b.Facts().Measure().Records()[:len(catalog.KindNames())]) &&
		sameRecord(a.Facts().Bench(), b.Facts().Bench())
}

// The laws that make Mix a plain value: what was put in is there, what was taken
// out is not, the rest stays, and no mix ever changes.
func TestWithAndWithout(t *testing.T) {
	rng := random.Seeded(3)
	for range fewer(500) {
		a, b := mixOf(random.New(rng)), mixOf(random.New(rng))
		kept := a.Refit()
		for _, p := range b.Parts() {
			with := a.With(p)
			if got, ok := with.Part(p.Kind()); !ok || got != p {
				t.Errorf("With(%s): Part gives %v, %v", p.Kind(), got, ok)
			}
			if !sameMix(with.With(p), with) || !sameMix(with.Without(p.Kind()), a.Without(p.Kind())) {
				t.Errorf("With(%s) twice, or taken back, is not what once or never is", p.Kind())
			}
			without := a.Without(p.Kind())
			if _, ok := without.Part(p.Kind()); ok || !sameMix(without.Without(p.Kind()), without) {
				t.Errorf("Without(%s) leaves one", p.Kind())
			}
			if old, had := a.Part(p.Kind()); had && !sameMix(without.With(old), a) {
				t.Errorf("Without(%s) and back is another mix", p.Kind())
			}
			for _, other := range a.Parts() {
				got, ok := with.Part(other.Kind())
				if other.Kind() != p.Kind() && (!ok || got != other) {
					t.Errorf("With(%s) changes %s", p.Kind(), other.Kind())
				}
			}
		}
		if !sameMix(a, kept) || a.Name() != kept.Name() || a.Scope() != kept.Scope() {
			t.Fatal("a mix changed under With and Without")
		}
	}
}

// NewMix is With, part by part, in any order.
func TestNewMixIsWith(t *testing.T) {
	rng := random.Seeded(6)
	for range fewer(500) {
		m := mixOf(random.New(rng)).withBench(nil)
		parts := m.Parts()
		rng.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		made, err := NewMix("random", m.Scope(), parts...)
		if err != nil || !sameMix(made, m) {
			t.Fatalf("NewMix of %d parts: %v", len(parts), err)
		}
		var kinds []int
		for _, p := range made.Parts() {
			i, _ := catalog.KindIndex(p.Kind())
			kinds = append(kinds, i)
		}
		if len(kinds) != len(parts) || !slices.IsSorted(kinds) {
			t.Fatalf("Parts gives the kinds %v of %d", kinds, len(parts))
		}
	}
}

func TestNewMixNamesBothOfAKind(t *testing.T) {
	ferry := newPart(t, "cassette", map[string]any{"name": "Ferry cassette", "cogs_t": []int{11, 13}})
	pier := newPart(t, "cassette", map[string]any{"id": "pier-2", "cogs_t": []int{11, 15}})
	bare := newPart(t, "cassette", map[string]any{"cogs_t": []int{12, 15}})
	_, err := NewMix("Two of a kind", ScopeCart, ferry, pier, catalog.Part{}, bare)
	if err == nil {
		t.Fatal("two cassettes and no part at all make a mix")
	}
	for _, want := range []string{
		"two parts of the kind cassette: Ferry cassette and pier-2",
		"two parts of the kind cassette: Ferry cassette and the cassette described in place",
		"no part at all",
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the error does not say %q: %v", want, err)
		}
	}
}

func TestEmptyMix(t *testing.T) {
	c := standardChecker(t)
	for name, m := range map[string]Mix{"zero": {}, "made": mixOf(random.Draw{}).Named(""), "no part put in": Mix{}.With(catalog.Part{}), "emptied": Mix{}.Without("chain")} {
		r := c.Check(m)
		if r.Verdict != rules.Unknown || r.Complete || len(r.Findings()) != 0 {
			t.Errorf("%s: %s, complete %v, %d findings", name, r.Verdict, r.Complete, len(r.Findings()))
		}
		if len(m.Parts()) != 0 || m.Name() != "" || m.Scope().String() != "cart" {
			t.Errorf("%s: %v %q %s", name, m.Parts(), m.Name(), m.Scope())
		}
		if _, ok := m.Part("chain"); ok {
			t.Errorf("%s holds a chain", name)
		}
		if v, lack := Measure(m).Value("chain_pitches"); v.Known || len(lack.Absent) == 0 {
			t.Errorf("%s: chain_pitches %v %v", name, v, lack)
		}
	}
	if v, lack := (figures.Figures{}).Value("chain_pitches"); v.Known || lack.Reason == "" {
		t.Errorf("figures of nothing: %v %v", v, lack)
	}
}

package compat_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// refOf finds a fact.
func refOf(t testing.TB, name string) rules.Ref {
	t.Helper()
	v, err := compat.Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	ref, ok := v.Find(name)
	if !ok {
		t.Fatalf("there is no %s", name)
	}
	return ref
}

// statedOver states a fact as users do: over the part of a mix, or at the bench.
func statedOver(m compat.Mix, ref rules.Ref, value any) (compat.Mix, error) {
	if ref.Object == figures.Bench {
		return m.Stating(ref.String(), value)
	}
	p, _ := m.Part(ref.Object.Name())
	p, err := p.With(map[string]any{ref.Field().Name: value})
	return m.With(p), err
}

// everyValue is each value of the grid of a fact, with what a span says of it.
func everyValue(ref rules.Ref) []any {
	f := ref.Field()
	var out []any
	switch {
	case f.Type == fact.Flag:
		return []any{false, true}
	case f.Grid() == 0:
		for _, w := range append(slices.Clone(f.Choices), f.KnownNames()...) {
			if !slices.Contains(out, any(w)) {
				out = append(out, w)
			}
		}
		return out
	}
	per := math.Round(1 / f.Grid())
	for i := math.Ceil(f.Min*per - 1e-6); i <= f.Max*per+1e-6; i++ {
		out = append(out, i/per)
	}
	return out
}

// spanOf finds the span that a value lies in.
func spanOf(spans []compat.Span, value any) (compat.Span, bool) {
	i := slices.IndexFunc(spans, func(s compat.Span) bool {
		x, number := value.(float64)
		return number && s.From <= x && x <= s.To || !number && s.Word == fmt.Sprint(value)
	})
	if i < 0 {
		return compat.Span{}, false
	}
	return spans[i], true
}

// aloneOf is the worst verdict of the rules of a report that hang on a fact, and
// which give it.
func aloneOf(c *compat.Checker, r compat.Report, ref rules.Ref) (worst rules.Verdict, ids []string) {
	for _, v := range r.Verdicts() { // the worst first
		rule, _ := c.Rules().Rule(v.Rule)
		if !slices.Contains(c.Rules().Facts(rule), ref) {
			continue
		}
		if len(ids) == 0 {
			worst = v.Verdict
		}
		if v.Verdict == worst {
			ids = append(ids, v.Rule)
		}
	}
	return worst, ids
}

// TestValuesIsCheck holds the spans of facts of every type against a whole check of
// the mix with each value.
func TestValuesIsCheck(t *testing.T) {
	c := checker(t)
	for _, tc := range []struct{ mix, fact string }{
		{"cart-chain-cassette", "chain.outer_width_mm"},
		{"cart-chain-cassette", "chain.inner_width_mm"},
		{"ferry-motor", "chain.speeds"},
		{"ferry-motor", "cassette.pitch_mm"},
		{"ferry-motor", "rear_derailleur.max_cog_t"},
		{"ferry-motor", "hub.freehub"},
		{"ferry-motor", "chain.roller_class"},
		{"ferry-motor", "bench.hanger_error_mm"},
		{"club-two-ring", "rear_derailleur.ratio"},
		{"club-two-ring", "rear_derailleur.capacity_t"},
		{"club-nine-spacer", "bench.spacer_behind_mm"},
		{"club-nine-spacer", "chain.directional"},
		{"donated-undecided", "rear_derailleur.made_for_cogs"},
	} {
		t.Run(tc.mix+"/"+tc.fact, func(t *testing.T) {
			m, ref := demoMix(t, tc.mix), refOf(t, tc.fact)
			spans, err := c.Values(m, tc.fact)
			if err != nil {
				t.Fatal(err)
			}
			values := everyValue(ref)
			each := 1
			if testing.Short() && len(values) > 500 {
				each = 37
			}
			for i := 0; i < len(values); i += each {
				valuing{c, m, ref, spans}.check(t, values[i])
			}
			for i := 1; i < len(spans); i++ {
				if a, b := spans[i-1], spans[i]; b.Word == "" && (a.To >= b.From || a.Refused == "" && a.Verdict == b.Verdict &&
					a.Alone == b.Alone && slices.Equal(a.Rules, b.Rules)) {
					t.Errorf("%+v and %+v are one, or overlap", a, b)
				}
			}
		})
	}
}

// valuing is what Values says of one fact of a mix.
type valuing struct {
	c     *compat.Checker
	mix   compat.Mix
	ref   rules.Ref
	spans []compat.Span
}

// check holds it against a whole check of the mix with one value.
func (v valuing) check(t *testing.T, value any) {
	t.Helper()
	with, err := statedOver(v.mix, v.ref, value)
	span, in := spanOf(v.spans, value)
	if err != nil || !in {
		if (err != nil) == in {
			t.Errorf("%v: refused by %v, in a span %v", value, err, in)
		}
		return
	}
	r := v.c.Check(with)
	worst, ids := aloneOf(v.c, r, v.ref)
	slices.Sort(ids)
	got := slices.Sorted(slices.Values(span.Rules))
	if span.Verdict != r.Verdict || span.Alone != worst || !slices.Equal(got, ids) {
		t.Errorf("%s %v: %+v, Check says %v, alone %v %v", v.ref, value, span, r.Verdict, worst, ids)
	}
}

// TestValuesRefused holds that what is refused beside what is stated is left out, and
// why is told once.
func TestValuesRefused(t *testing.T) {
	p, err := catalog.New("frame", map[string]any{"rear_suspension": "none", "chainstay_mm": 430})
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.NewMix("m", compat.ScopeCart, p)
	if err != nil {
		t.Fatal(err)
	}
	spans, err := checker(t).Values(m, "frame.chain_growth_mm")
	if err != nil {
		t.Fatal(err)
	}
	if len(spans) != 1 || spans[0].From != 0 || spans[0].To != 0 || spans[0].Refused == "" {
		t.Errorf("%+v", spans)
	}
}

func TestValuesOfNoFact(t *testing.T) {
	c, m := checker(t), demoMix(t, "cart-chain-cassette")
	for name, want := range map[string]string{
		"chain.outer_width":            `chain.outer_width_mm`,
		"nonsense":                     `there is no such fact .*kind\.field`,
		"cassette.pitches_mm":          `is a list.*cassette\.pitch_mm`,
		"bench.cog_positions_mm":       `is a list.*bench\.`,
		"rear_derailleur.capacity_t":   `the mix has no rear_derailleur`,
		"figures.neighbour_gap_mm":     `is worked out`,
		"cassette.index_family":        `is a free word, and none is known to try`,
		"chain.nothing_of_that_sort!":  `there is no such fact`,
		"rear_derailleur.jockey_wheel": `there is no such fact .*rear_derailleur\.guide_pulley_t`,
	} {
		_, err := c.Values(m, name)
		if err == nil || !regexp.MustCompile(want).MatchString(strings.ReplaceAll(err.Error(), "\n", " ")) {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
}

// BenchmarkValues takes a thousand numbers each, of a fact that is usual and of one that is stated.
func BenchmarkValues(b *testing.B) {
	c := checker(b)
	for mix, fact := range map[string]string{"phone-question": "chain.outer_width_mm", "ferry-motor": "hub.over_locknut_mm"} {
		b.Run(fact, func(b *testing.B) {
			m := demoMix(b, mix)
			for b.Loop() {
				if _, err := c.Values(m, fact); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

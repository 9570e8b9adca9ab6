package compat

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestAssumedRoots holds what a finding says it hangs on: the facts that nobody
// stated, or the figure that took a usual value, and not what follows from them.
func TestAssumedRoots(t *testing.T) {
	c := standardChecker(t)
	cassette := func(basis string) Mix {
		fields := map[string]any{"basis": basis}
		for name, v := range lakeParts[0].fields {
			fields[name] = v
		}
		return lakeBike(t).With(newPart(t, "cassette", fields))
	}
	for _, want := range []struct {
		mix   Mix
		rule  string
		names string
	}{
		{cassette("stated"), "index/residual", "figures.step_positions_mm"},
		{cassette("assumed"), "index/residual", "figures.step_positions_mm cassette.cogs_t cassette.pitch_mm"},
		{cassette("assumed"), "cassette/largest-cog", "cassette.cogs_t"},
		{cassette("stated"), "cassette/largest-cog", ""},
	} {
		findings := c.Check(want.mix).Findings()
		i := slices.IndexFunc(findings, func(f Finding) bool { return f.Rule == want.rule })
		if i < 0 {
			t.Errorf("%s says nothing", want.rule)
			continue
		}
		names := strings.Fields(want.names)
		slices.Sort(names)
		if got := slices.Sorted(slices.Values(findings[i].Assumed)); !slices.Equal(got, names) {
			t.Errorf("%s hangs on %v, want %v", want.rule, got, names)
		}
	}
}

// A list is said by its step, by its numbers, or by its ends, whichever a sentence takes.
func TestListsAreSaidShortly(t *testing.T) {
	mm, teeth := fact.Field{Type: fact.Fractions, Unit: "mm"}, fact.Field{Type: fact.Wholes, Unit: "t"}
	for _, c := range []struct {
		list []float64
		f    fact.Field
		want string
	}{
		{[]float64{0, 3.65, 7.3}, mm, "3.65 mm each"}, {[]float64{0, 3.5, 7.3}, mm, "0, 3.5, 7.3 mm"},
		{[]float64{11, 13, 15, 18, 21, 24}, teeth, "11, 13, 15, 18, 21, 24 t"},
		{[]float64{11, 13, 15, 18, 21, 24, 28}, teeth, "11 to 28 t (7 numbers)"},
		{[]float64{1, 2, 4, 5, 6, 7, 9.5}, fact.Field{Type: fact.Fractions}, "1 to 9.5 (7 numbers)"},
	} {
		if got := measure(fact.Nums(c.list), c.f); got != c.want {
			t.Errorf("%v is said as %q, want %q", c.list, got, c.want)
		}
	}
}

// TestAssumedIsNamed holds over many mixes that a finding which uses something
// assumed names its roots, that each of them is assumed, and no others do.
func TestAssumedIsNamed(t *testing.T) {
	c, rng, named := standardChecker(t), random.Seeded(31), 0
	for range fewer(1500) {
		m := mixOf(random.New(rng))
		r := c.Check(m)
		for _, f := range r.Findings() {
			uses := slices.ContainsFunc(f.Used, func(u rules.Fact) bool { return u.Value.Assumed })
			if uses != (len(f.Assumed) > 0) {
				t.Fatalf("%s uses %v and names %v", f.Rule, f.Used, f.Assumed)
			}
			for _, name := range f.Assumed {
				named++
				if v := factOf(r, name); !v.Known || !v.Assumed {
					t.Fatalf("%s names %s, which is %+v", f.Rule, name, v)
				}
			}
		}
	}
	if named < fewer(1000) {
		t.Errorf("%d names only", named)
	}
}

// factOf reads a fact or figure by its name.
func factOf(r Report, name string) fact.Value {
	object, field, _ := strings.Cut(name, ".")
	if object == "figures" {
		v, _ := r.Figures.Value(field)
		return v
	}
	ref, ok := r.set.Vocabulary().Find(name)
	if !ok {
		return fact.Value{}
	}
	return r.Mix.facts.Value(ref)
}

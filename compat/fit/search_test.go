package fit_test

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
)

// judging is a checker by which nothing fails but by these conditions: test/rule-1 by the
// first, and so on.
func judging(t testing.TB, conditions ...string) *compat.Checker {
	t.Helper()
	var pack strings.Builder
	pack.WriteString("pack: test\nedition: 1\nrules:\n")
	for i, cond := range conditions {
		fmt.Fprintf(&pack, "  - {id: test/rule-%d, title: A rule., why: For a test., fail_if: %q, say: So it is., remedy: Another part., "+
			"basis: {practice: none}}\n", i+1, cond)
	}
	c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{fstest.MapFS{"test.yaml": {Data: []byte(pack.String())}}}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// shelved is a catalog of the parts of a list.
func shelved(t testing.TB, parts string) *catalog.Catalog {
	t.Helper()
	c, err := catalog.ReadFile("shelf.yaml", []byte("parts:\n"+strings.TrimPrefix(parts, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// carted is a mix in a cart.
func carted(t testing.TB, rest string) compat.Mix {
	t.Helper()
	m, err := compat.ReadMix("mix.yaml", []byte("mix: cart\nscope: cart\n"+strings.TrimPrefix(rest, "\n")), nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// chosen gives every combination that an answer stands for, each once.
func chosen(a fit.Answer) []string {
	var out []string
	for _, c := range a.Choices {
		out = append(out, spread(c)...)
	}
	return out
}

// numbered is a shelf of parts that a rule tells apart by one number each: as many as are
// asked for of every kind, from 1 on, each dearer than the one before.
func numbered(t testing.TB, counts map[string]int) *catalog.Catalog {
	t.Helper()
	fields := map[string]string{"cassette": "cogs_t: [11, 13], lockring_torque_nm", "chain": "strength_n", "crankset": "rings_t: [32], length_mm",
		"hub": "max_input_nm"}
	from := map[string]int{"cassette": 30, "chain": 2000, "crankset": 160, "hub": 30}
	var list strings.Builder
	for kind, n := range counts {
		for i := range n {
			fmt.Fprintf(&list, "  - {kind: %s, id: %s-%d, name: any, price: %d, %s: %d}\n", kind, kind, i+1, i+1, fields[kind], from[kind]+i+1)
		}
	}
	return shelved(t, list.String())
}

// A search takes as many steps as its budget and no more: of three chains that all go, each
// is one step.
func TestBudgetIsExact(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n > 5000"), numbered(t, map[string]int{"chain": 3}))
	for budget, want := range map[int]int{1: 1, 2: 2, 3: 3, 4: 3} {
		a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}, Budget: budget})
		if len(a.Choices) != want || a.Cut != (budget < 3) {
			t.Errorf("within %d steps %d chains go, cut %t", budget, len(a.Choices), a.Cut)
		}
	}
}

// The kind with the fewest candidates is chosen first, wherever the question names it:
// one step for the only chain, and one for each of the ten cassettes beside it.
func TestFewestFirst(t *testing.T) {
	ix := fit.NewIndex(judging(t, "cassette.lockring_torque_nm > chain.strength_n"), numbered(t, map[string]int{"cassette": 10, "chain": 1}))
	for _, kinds := range [][]string{{"cassette", "chain"}, {"chain", "cassette"}} {
		q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: kinds, Limit: 100, Budget: 11}
		if a := ask(t, ix, q); a.Cut || len(a.Choices) != 10 {
			t.Errorf("%v: %d choices in eleven steps, cut %t", kinds, len(a.Choices), a.Cut)
		}
		q.Budget = 10
		if a := ask(t, ix, q); !a.Cut || len(a.Choices) != 9 {
			t.Errorf("%v: %d choices in ten steps, cut %t", kinds, len(a.Choices), a.Cut)
		}
	}
}

// What goes with none of four others is known before the first step; of five it has to be
// tried.
func TestFewShapesAreTriedBeforehand(t *testing.T) {
	c := judging(t, "cassette.lockring_torque_nm < chain.strength_n")
	for n, cut := range map[int]bool{4: false, 5: true} {
		ix := fit.NewIndex(c, numbered(t, map[string]int{"cassette": n, "chain": n}))
		a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain"}, Budget: 1})
		if a.Cut != cut || len(a.Choices) > 0 || slices.Equal(a.Blocked, []string{"test/rule-1"}) == cut {
			t.Errorf("of %d each: cut %t, blocked by %v", n, a.Cut, a.Blocked)
		}
	}
}

// A rule over three kinds that has refused a choice is asked as soon as two of them are
// chosen. Where it refuses everything, the third kind is gone through once: of five each
// that is five steps, beside one for each pair and each of the first kind.
func TestRulesThatRefuseAreAskedEarly(t *testing.T) {
	ix := fit.NewIndex(judging(t, "cassette.lockring_torque_nm + crankset.length_mm < chain.strength_n"),
		numbered(t, map[string]int{"cassette": 5, "chain": 5, "crankset": 5}))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}}
	exhausted(t, ix, q, 5+25+5, "test/rule-1")
}

// exhausted holds that a search finds that nothing goes, and by which rules, in so many
// steps and in no fewer.
func exhausted(t *testing.T, ix *fit.Index, q fit.Query, steps int, blocked ...string) {
	t.Helper()
	q.Budget = steps
	if a := ask(t, ix, q); a.Cut || len(a.Choices) > 0 || !slices.Equal(a.Blocked, blocked) {
		t.Errorf("in %d steps: cut %t, %d choices, blocked by %v", steps, a.Cut, len(a.Choices), a.Blocked)
	}
	q.Budget--
	if a := ask(t, ix, q); !a.Cut || len(a.Choices) > 0 {
		t.Errorf("in %d steps: cut %t, %d choices", q.Budget, a.Cut, len(a.Choices))
	}
}

// Where nothing goes for a reason that a kind has no part in, another of its candidates is
// not tried: six chains leave no crankset, whichever of the four cassettes is chosen.
func TestWhatHasNoPartInItIsNotTriedAgain(t *testing.T) {
	ix := fit.NewIndex(judging(t,
		"cassette.lockring_torque_nm < 30 || crankset.length_mm > 190", // some cranksets, and no cassette
		"chain.strength_n > crankset.length_mm"),
		numbered(t, map[string]int{"cassette": 4, "chain": 6, "crankset": 60}))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}}
	exhausted(t, ix, q, 1+6, "test/rule-2")
}

// A rule that left nothing counts for more from then on, so that its kinds are chosen
// before others. Beside the first cassette a hub is chosen before the six chains,
// and beside the three others no more.
func TestHardRulesComeFirst(t *testing.T) {
	ix := fit.NewIndex(judging(t,
		"cassette.lockring_torque_nm > 32 ? crankset.length_mm < 175 : crankset.length_mm > 200", // each cassette takes some
		"chain.strength_n > crankset.length_mm",
		"hub.max_input_nm < 0 || crankset.length_mm < 0"),
		numbered(t, map[string]int{"cassette": 4, "chain": 6, "crankset": 60, "hub": 5}))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "hub", "chain", "crankset"}}
	exhausted(t, ix, q, 4+1+4*6, "test/rule-2")
}

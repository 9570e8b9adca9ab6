package fit_test

import (
	"context"
	"errors"
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
// first, and so on. One behind "warn:" only warns.
func judging(t testing.TB, conditions ...string) *compat.Checker {
	t.Helper()
	var pack strings.Builder
	pack.WriteString("pack: test\nedition: 1\nrules:\n")
	for i, cond := range conditions {
		key := "fail_if"
		if rest, warns := strings.CutPrefix(cond, "warn:"); warns {
			key, cond = "warn_if", rest
		}
		fmt.Fprintf(&pack, "  - {id: test/rule-%d, title: A rule., why: For a test., %s: %q, say: So it is., remedy: Another part., "+
			"basis: {practice: none}}\n", i+1, key, cond)
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

// told is a fact that tells parts of a kind apart, behind what such a part has to state
// besides, and a number below the first of it.
type told struct {
	field string
	below int
}

// numbered is a shelf of parts that a rule tells apart by one number each: as many as are
// asked for of every kind, all of one price.
func numbered(t testing.TB, counts map[string]int) *catalog.Catalog {
	t.Helper()
	facts := map[string]told{
		"cassette": {"cogs_t: [11, 13], lockring_torque_nm", 30}, "chain": {"strength_n", 2000}, "crankset": {"rings_t: [32], length_mm", 160},
		"hub": {"max_input_nm", 30}, "frame": {"chainstay_mm", 400}, "wheel": {"tyre_width_mm", 20}, "cockpit": {"free_bar_mm", 20},
		"axle": {"length_mm", 120}, "rear_derailleur": {"mount_torque_nm", 2}, "rear_shifter": {"clamp_torque_nm", 2},
		"front_shifter": {"clamp_torque_nm", 2}, "bottom_bracket": {"cup_torque_nm", 30}, "front_derailleur": {"max_ring_t", 30},
	}
	var list strings.Builder
	for kind, n := range counts {
		for i := 1; i <= n; i++ {
			fmt.Fprintf(&list, "  - {kind: %s, id: %s-%d, name: any, price: 1, %s: %d}\n",
				kind, strings.ReplaceAll(kind, "_", "-"), i, facts[kind].field, facts[kind].below+i)
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
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}, Budget: 5 + 25 + 5}
	exhausted(t, ix, q, "test/rule-1")
}

// Wide is a rule that tells apart the parts of three kinds. One that sees two kinds beside an
// only chain is asked as soon as one of these is left, and one beside two chains is not.
func TestRulesThatSeeLittleAreNotWide(t *testing.T) {
	c := judging(t, "cassette.lockring_torque_nm + crankset.length_mm < chain.strength_n")
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain", "cassette", "crankset"}, Budget: 1 + 5}
	exhausted(t, fit.NewIndex(c, numbered(t, map[string]int{"cassette": 5, "chain": 1, "crankset": 5})), q, "test/rule-1")
	q.Budget = 2 + 2*5 + 5
	exhausted(t, fit.NewIndex(c, numbered(t, map[string]int{"cassette": 5, "chain": 2, "crankset": 5})), q, "test/rule-1")
}

// Each choice that a rule over three kinds refuses counts for it. The only hub is chosen
// before the five chains beside the first cassette, and after them beside the others.
func TestRefusedChoicesMakeRulesHard(t *testing.T) {
	conds := []string{"cassette.lockring_torque_nm + crankset.length_mm < chain.strength_n", "hub.max_input_nm > crankset.length_mm"}
	for range 10 { // so that a cassette is chosen before the hub
		conds = append(conds, "cassette.lockring_torque_nm > crankset.length_mm")
	}
	ix := fit.NewIndex(judging(t, conds...), numbered(t, map[string]int{"cassette": 5, "hub": 1, "chain": 5, "crankset": 16}))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "hub", "chain", "crankset"}, Budget: 5 + 1 + 5 + 16 + 4*5}
	exhausted(t, ix, q, "test/rule-1")
}

// Eight chains that another rule tells apart are two to a rule that reads their speeds
// alone: few enough to be tried before the first step.
func TestShapesAreCountedOnce(t *testing.T) {
	var list strings.Builder
	for i := range 8 {
		fmt.Fprintf(&list, "  - {kind: chain, id: chain-%d, name: any, speeds: %d, strength_n: %d}\n", i, 9+i%2, 2000+i)
	}
	for i := range 5 {
		fmt.Fprintf(&list, "  - {kind: cassette, id: cassette-%d, name: any, cogs_t: [11, 13], lockring_torque_nm: %d}\n", i, 30+i)
		fmt.Fprintf(&list, "  - {kind: crankset, id: crankset-%d, name: any, rings_t: [32], length_mm: %d}\n", i, 160+i)
	}
	c := judging(t, "cassette.lockring_torque_nm > chain.speeds", "crankset.length_mm > chain.strength_n")
	ix := fit.NewIndex(c, shelved(t, list.String()))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}, Budget: 1})
	if a.Cut || !slices.Equal(a.Blocked, []string{"test/rule-1"}) {
		t.Errorf("cut %t, blocked by %v", a.Cut, a.Blocked)
	}
}

// exhausted holds that a search finds that nothing goes, and by which rule, within the
// budget of a query and in no fewer steps.
func exhausted(t *testing.T, ix *fit.Index, q fit.Query, blocked string) {
	t.Helper()
	if a := ask(t, ix, q); a.Cut || len(a.Choices) > 0 || !slices.Equal(a.Blocked, []string{blocked}) {
		t.Errorf("in %d steps: cut %t, %d choices, blocked by %v", q.Budget, a.Cut, len(a.Choices), a.Blocked)
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
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}, Budget: 1 + 6}
	exhausted(t, ix, q, "test/rule-2")
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
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "hub", "chain", "crankset"}, Budget: 4 + 1 + 4*6}
	exhausted(t, ix, q, "test/rule-2")
}

// wide is a shelf of 64 frames and of 32 parts of each of twelve other kinds, their kinds,
// and a condition that reads one number of each of them and is true.
func wide(t testing.TB) (shelf *catalog.Catalog, kinds []string, cond string) {
	t.Helper()
	counts, kinds, cond := map[string]int{"frame": 64}, []string{"frame"}, "frame.chainstay_mm > 0"
	for _, ref := range []string{"cassette.lockring_torque_nm", "chain.strength_n", "crankset.length_mm", "hub.max_input_nm",
		"wheel.tyre_width_mm", "cockpit.free_bar_mm", "axle.length_mm", "rear_derailleur.mount_torque_nm", "rear_shifter.clamp_torque_nm",
		"front_shifter.clamp_torque_nm", "bottom_bracket.cup_torque_nm", "front_derailleur.max_ring_t"} {
		kind, _, _ := strings.Cut(ref, ".")
		counts[kind], kinds = 32, append(kinds, kind)
		cond += " && " + ref + " > 0"
	}
	return numbered(t, counts), kinds, cond
}

// A rule over thirteen kinds sees more combinations than a number of 64 bits tells apart.
// The one frame that goes is the 17th: counted through, its combinations have the last 64
// bits of those of the first.
func TestManyKindsAreNotTakenForEachOther(t *testing.T) {
	shelf, kinds, cond := wide(t)
	ix := fit.NewIndex(judging(t, cond+" && (frame.chainstay_mm < 416.5 || frame.chainstay_mm > 417.5)"), shelf)
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: kinds, Limit: 1, Budget: 100})
	if len(a.Choices) != 1 || a.Choices[0].Parts[0].ID() != "frame-17" || a.Choices[0].Cents != 1300 || a.Cut {
		t.Errorf("chosen are %q, cut %t", chosen(a), a.Cut)
	}
}

// ending is a context that ends when it has been asked a few times.
type ending struct {
	context.Context
	left int
}

func (c *ending) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}

// A search ends with its context: before its only step, and among more choices than anybody
// can go through.
func TestSearchEndsWithItsContext(t *testing.T) {
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}}
	one := fit.NewIndex(judging(t, "chain.strength_n > 5000"), numbered(t, map[string]int{"chain": 1}))
	if _, err := one.Fit(&ending{context.Background(), 0}, q); !errors.Is(err, context.Canceled) {
		t.Errorf("a search of one step gives %v", err)
	}
	shelf, kinds, cond := wide(t)
	q.Kinds, q.Limit, q.Budget = kinds, 1<<40, 1<<40
	if _, err := fit.NewIndex(judging(t, "!("+cond+")"), shelf).Fit(&ending{context.Background(), 2}, q); !errors.Is(err, context.Canceled) {
		t.Errorf("a search without an end gives %v", err)
	}
}

// A search begins anew after 64 steps, and after twice as many each time: of 200 chains it
// finds 64, then 128, then all.
func TestRoundsAreTwiceAsLong(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n > 5000"), numbered(t, map[string]int{"chain": 200}))
	for budget, want := range map[int]int{64: 64, 64 + 100: 100, 64 + 128: 128, 64 + 128 + 199: 199, 64 + 128 + 200: 200} {
		a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}, Limit: 1000, Budget: budget})
		if len(a.Choices) != want || a.Cut != (want < 200) {
			t.Errorf("within %d steps %d chains go, cut %t", budget, len(a.Choices), a.Cut)
		}
	}
}

// Why nothing comes of a choice is also what took the others away: beside the first cassette
// only chains are left that go with no crankset, and the second is tried all the same.
func TestWhatTookOthersAwayIsWhy(t *testing.T) {
	ix := fit.NewIndex(judging(t,
		"cassette.lockring_torque_nm < 31.5 ? chain.strength_n > 2002.5 : chain.strength_n < 2002.5", // two for the first, one for the second
		"chain.strength_n < 2002.5 && crankset.length_mm > 0"),
		numbered(t, map[string]int{"cassette": 2, "chain": 3, "crankset": 6}))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}})
	for _, got := range chosen(a) {
		if !strings.HasPrefix(got, "cassette-2 chain-3 crankset-") {
			t.Errorf("%s is chosen", got)
		}
	}
	if len(chosen(a)) != 6 || a.Cut {
		t.Errorf("%d are chosen, cut %t", len(chosen(a)), a.Cut)
	}
}

// counted holds that there are so many choices, and that the budget of a query finds them
// and no fewer steps do.
func counted(t *testing.T, ix *fit.Index, q fit.Query, choices int) {
	t.Helper()
	q.Limit = 1000
	if a := ask(t, ix, q); a.Cut || len(a.Choices) != choices {
		t.Errorf("%v: in %d steps %d choices, cut %t", q.Kinds, q.Budget, len(a.Choices), a.Cut)
	}
	q.Budget--
	if a := ask(t, ix, q); !a.Cut {
		t.Errorf("%v: in %d steps %d choices, and not cut", q.Kinds, q.Budget, len(a.Choices))
	}
}

// What goes with nothing, whatever else is chosen, is tried once: five of six chains go with
// no crankset, and are found to beside the first of four cassettes.
func TestWhatGoesWithNothingIsTriedOnce(t *testing.T) {
	ix := fit.NewIndex(judging(t, "cassette.lockring_torque_nm > crankset.length_mm", "chain.strength_n < 2005.5 && crankset.length_mm > 0"),
		numbered(t, map[string]int{"cassette": 4, "chain": 6, "crankset": 12}))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}, Budget: 4 + 5 + 4*(1+12)}
	counted(t, ix, q, 4*12)
}

// A rule counts for a kind as long as it is to be asked of another with it: rules over one
// kind alone make it no harder. Of kinds that are as hard the first is chosen.
func TestOnlyRulesThatAreLeftCount(t *testing.T) {
	m := carted(t, "parts: {}\n")
	alone := fit.NewIndex(judging(t, "cassette.lockring_torque_nm > chain.strength_n", "chain.strength_n > 5000", "chain.strength_n > 6000"),
		numbered(t, map[string]int{"cassette": 5, "chain": 6}))
	counted(t, alone, fit.Query{Mix: m, Kinds: []string{"cassette", "chain"}, Budget: 5 + 30}, 30)
	equal := fit.NewIndex(judging(t, "cassette.lockring_torque_nm > chain.strength_n", "cassette.lockring_torque_nm > crankset.length_mm"),
		numbered(t, map[string]int{"cassette": 3, "chain": 2, "crankset": 7})) // 3 / (1 + 2) and 2 / (1 + 1)
	counted(t, equal, fit.Query{Mix: m, Kinds: []string{"cassette", "chain", "crankset"}, Budget: 3 + 6 + 42}, 42)
	counted(t, equal, fit.Query{Mix: m, Kinds: []string{"chain", "cassette", "crankset"}, Budget: 2 + 6 + 42}, 42)
}

// A rule over three kinds tells which they are when it refuses: a hub that is no part of it
// is not tried again.
func TestWideRulesTellWhatTheyRefuse(t *testing.T) {
	c := judging(t, "cassette.lockring_torque_nm + crankset.length_mm < chain.strength_n", "hub.max_input_nm > crankset.length_mm")
	ix := fit.NewIndex(c, numbered(t, map[string]int{"cassette": 5, "hub": 6, "chain": 7, "crankset": 16}))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "hub", "chain", "crankset"}, Budget: 5 + 1 + 7 + 16 + 4*7}
	exhausted(t, ix, q, "test/rule-1")
}

// Rules that leave nothing together are told in their order, however many parts they tell
// apart.
func TestBlockedInTheOrderOfRules(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n < 2003.5", "chain.strength_n > 2003.5 && cassette.lockring_torque_nm > 0"),
		numbered(t, map[string]int{"cassette": 6, "chain": 6}))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain"}})
	if !slices.Equal(a.Blocked, []string{"test/rule-1", "test/rule-2"}) {
		t.Errorf("blocked by %v", a.Blocked)
	}
}

// The cheapest come first, whenever they are found, and of one price in the order in which
// they are found; no more than are asked for.
func TestBestComeFirst(t *testing.T) {
	ix := fit.NewIndex(judging(t, "cassette.lockring_torque_nm > chain.strength_n"), shelved(t, `
  - {kind: cassette, id: a, name: any, price: 1, cogs_t: [11, 13], lockring_torque_nm: 30}
  - {kind: cassette, id: b, name: any, price: 2, cogs_t: [11, 13], lockring_torque_nm: 31}
  - {kind: chain, id: one, name: any, price: 1, strength_n: 2001}
  - {kind: chain, id: two, name: any, price: 10, strength_n: 2002}
  - {kind: chain, id: three, name: any, price: 10, strength_n: 2003}
`))
	want := []string{"a one", "b one", "a two", "a three", "b two", "b three"}
	for _, limit := range []int{1, 2, 3, 4, 6, 7} {
		a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain"}, Limit: limit})
		if got := chosen(a); !slices.Equal(got, want[:min(limit, 6)]) {
			t.Errorf("the first %d are %q", limit, got)
		}
	}
}

// The rule that refuses most parts is told first, of as many the first rule; and how many
// are refused only because it is open, where that is not allowed.
func TestRefusedAreCounted(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n < 3000", "chain.pitches < 90", "chain.outer_link_gap_mm > 8"), shelved(t, `
  - {kind: chain, id: weak, name: any, strength_n: 2000, pitches: 114, outer_link_gap_mm: 5}
  - {kind: chain, id: short, name: any, strength_n: 8000, pitches: 80, outer_link_gap_mm: 5}
  - {kind: chain, id: uncounted, name: any, strength_n: 8000, outer_link_gap_mm: 5}
  - {kind: chain, id: narrow, name: any, strength_n: 8000, pitches: 114, outer_link_gap_mm: 9}
`))
	q := fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}}
	want := []fit.Refusal{{Rule: "test/rule-2", Kind: "chain", Parts: 2, Open: 1}, {Rule: "test/rule-1", Kind: "chain", Parts: 1},
		{Rule: "test/rule-3", Kind: "chain", Parts: 1}}
	if a := ask(t, ix, q); !slices.Equal(a.Refused, want) || len(a.Choices) > 0 {
		t.Errorf("refused are %+v", a.Refused)
	}
	q.Undecided, want[0].Parts, want[0].Open = true, 1, 0
	slices.SortFunc(want, func(a, b fit.Refusal) int { return strings.Compare(a.Rule, b.Rule) })
	if a := ask(t, ix, q); !slices.Equal(a.Refused, want) || !slices.Equal(chosen(a), []string{"uncounted"}) {
		t.Errorf("with open ones allowed refused are %+v", a.Refused)
	}
}

// The one that is asked for is the cheapest, though it stands behind dearer ones.
func TestTheCheapestIsNotPassedOver(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n > 5000"), shelved(t, `
  - {kind: chain, id: five, name: five, price: 5, strength_n: 2005}
  - {kind: chain, id: nine, name: nine, price: 9, strength_n: 2009}
  - {kind: chain, id: one, name: one, price: 1, strength_n: 2001}
`))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}, Limit: 1})
	if got := chosen(a); !slices.Equal(got, []string{"one"}) {
		t.Errorf("chosen is %q", got)
	}
}

// Where two kinds are open, parts that go with those of the other alike, and of which the
// rules over their kind alone say the same, are one choice; where one is, each is one.
func TestWhatGoesAlikeIsOneChoice(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.strength_n > 8900", "chain.speeds > cassette.lockring_torque_nm"), shelved(t, `
  - {kind: cassette, id: cassette, name: any, cogs_t: [11, 13], lockring_torque_nm: 40}
  - {kind: chain, id: weak, name: any, price: 1, speeds: 9, strength_n: 8000}
  - {kind: chain, id: fair, name: any, price: 2, speeds: 9, strength_n: 8500}
  - {kind: chain, id: strong, name: any, price: 3, speeds: 9, strength_n: 9000}
`))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain"}})
	if got := chosen(a); !slices.Equal(got, []string{"cassette weak", "cassette fair"}) || len(a.Choices) != 1 {
		t.Errorf("%d choices: %q", len(a.Choices), got)
	}
	a = ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}})
	if got := chosen(a); !slices.Equal(got, []string{"weak", "fair"}) || len(a.Choices) != 2 {
		t.Errorf("of one kind %d choices: %q", len(a.Choices), got)
	}
}

// Choices that warn fill up what is left of those that are asked for.
func TestWarningsFillUp(t *testing.T) {
	ix := fit.NewIndex(judging(t, "warn:chain.strength_n > 2001.5"), numbered(t, map[string]int{"chain": 4}))
	for limit, want := range map[int]int{1: 1, 2: 2, 3: 3, 5: 4} {
		a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}, Warnings: fit.Last, Limit: limit})
		if len(a.Choices) != want || a.Choices[0].Warnings > 0 || want > 1 && a.Choices[1].Warnings != 1 {
			t.Errorf("of %d that are asked for there are %d: %q", limit, len(a.Choices), chosen(a))
		}
	}
}

// A rule may hang on a part being there of which it reads nothing. What a link adds to a
// derailleur's rating means nothing without one; but every choice has one.
func TestEveryKindIsThere(t *testing.T) {
	ix := fit.NewIndex(judging(t, "figures.link_reach_t > 3"), shelved(t, `
  - {kind: rear_derailleur, id: rear, name: any, price: 1}
  - {kind: hanger_link, id: long, name: any, price: 1, drop_mm: 10.1}
  - {kind: hanger_link, id: short, name: any, price: 2, drop_mm: 4.04}
`))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"hanger_link", "rear_derailleur"}})
	if got := chosen(a); !slices.Equal(got, []string{"short rear"}) {
		t.Errorf("chosen are %q", got)
	}
}

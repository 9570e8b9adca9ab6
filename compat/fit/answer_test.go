package fit_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// bike is a mix of the demo.
func bike(t testing.TB, name string) compat.Mix {
	t.Helper()
	text, ok := demo.Mix(name)
	if !ok {
		t.Fatalf("there is no demo %s", name)
	}
	m, err := compat.ReadMix(name, text, demoParts(t))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func demoIndex(t testing.TB) *fit.Index {
	t.Helper()
	return fit.NewIndex(standard(t), demoParts(t))
}

func ask(t testing.TB, ix *fit.Index, q fit.Query) fit.Answer {
	t.Helper()
	a, err := ix.Fit(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// One kind of the bicycle with three faults: what goes on, what is refused, and what
// fails whatever is chosen. Every cassette of the demo is one or the other.
func TestFitOfOneKind(t *testing.T) {
	m := bike(t, "fleet-three-faults")
	a := ask(t, demoIndex(t), fit.Query{Mix: m, Kinds: []string{"cassette"}, Limit: 100})
	if one := ask(t, demoIndex(t), fit.Query{Mix: m, Kinds: []string{"cassette"}, Limit: 1}); len(one.Choices) != 1 || len(a.Choices) < 2 {
		t.Errorf("of %d choices one is asked for, and %d are told", len(a.Choices), len(one.Choices))
	}
	refused := 0
	if !slices.IsSortedFunc(a.Refused, func(a, b fit.Refusal) int { return b.Parts - a.Parts }) || len(a.Refused) < 2 {
		t.Errorf("the rule that refuses most is not the first: %+v", a.Refused)
	}
	text, err := json.Marshal(a)
	var out struct {
		Choices []struct {
			Parts []json.RawMessage
			Alike [][]string
		}
	}
	if err := errors.Join(err, json.Unmarshal(text, &out)); err != nil || len(out.Choices) != len(a.Choices) {
		t.Fatalf("%v: %s", err, text)
	}
	for _, c := range out.Choices {
		if len(c.Parts) != 1 || len(c.Alike) != 1 {
			t.Errorf("%d parts are chosen, with lists of %d that are alike", len(c.Parts), len(c.Alike))
		}
	}
	for _, r := range a.Refused {
		if r.Kind != "cassette" || r.Open > r.Parts {
			t.Errorf("%+v is refused", r)
		}
		refused += r.Parts
	}
	if len(a.Parts) != 1 || len(a.Choices)+refused != a.Parts[0] {
		t.Errorf("of %v cassettes %d go and %d are refused", a.Parts, len(a.Choices), refused)
	}
	if len(a.Standing) != 1 || a.Standing[0].Rule != "drive/radio" || a.Standing[0].Verdict != rules.Fail {
		t.Errorf("standing: %+v", a.Standing)
	}
	last := int64(0)
	for _, c := range a.Choices {
		if c.Unpriced == 0 && c.Cents < last {
			t.Errorf("%s costs %d, and comes after %d", c.Parts[0].ID(), c.Cents, last)
		}
		last = max(last, c.Cents)
		if got := standard(t).Check(c.Mix()); slices.ContainsFunc(got.Findings(), func(f compat.Finding) bool {
			return f.Verdict == rules.Fail && f.Rule != "drive/radio"
		}) {
			t.Errorf("with %s something else fails", c.Parts[0].ID())
		}
	}
}

// The part that the mix has costs nothing, is told apart and keeps what was measured on
// it, as long as it is chosen.
func TestFitKeepsWhatIsThere(t *testing.T) {
	m := bike(t, "ferry-motor")
	a := ask(t, demoIndex(t), fit.Query{Mix: m, Kinds: []string{"chain", "cassette"}})
	first := a.Choices[0]
	if !first.Kept(0) || !first.Kept(1) || first.Cents != 0 || first.Unpriced != 0 {
		t.Fatalf("the first choice is %+v", first)
	}
	if !sameBench(first.Mix(), m) {
		t.Error("what was measured is forgotten, and every part stays")
	}
	cut := bike(t, "fleet-three-faults") // whose chain is cut too short
	for _, c := range ask(t, demoIndex(t), fit.Query{Mix: cut, Kinds: []string{"chain"}}).Choices {
		if c.Kept(0) || c.Mix().Facts().Value(figures.Bench.Ref("chain_pitches")).Known {
			t.Errorf("%s: it is the old chain (%t), or its count is kept", c.Parts[0].ID(), c.Kept(0))
		}
	}
}

// Money: what has no price comes last where prices are stated, cannot be had where the
// caller says so, and a bound holds.
func TestFitForMoney(t *testing.T) {
	m, ix := bike(t, "fleet-three-faults"), demoIndex(t)
	q := fit.Query{Mix: m, Kinds: []string{"cassette"}, Limit: 100}
	all := ask(t, ix, q)
	if last := all.Choices[len(all.Choices)-1]; last.Unpriced != 1 || last.Cents != 0 {
		t.Errorf("the last choice has a price: %+v", last)
	}
	q.Spend = 7000
	bounded := ask(t, ix, q)
	for _, c := range bounded.Choices {
		if c.Cents > q.Spend {
			t.Errorf("%s costs %d", c.Parts[0].ID(), c.Cents)
		}
	}
	if len(bounded.Choices) == 0 || len(bounded.Choices) >= len(all.Choices) {
		t.Errorf("%d choices of %d within the bound", len(bounded.Choices), len(all.Choices))
	}
	q.Spend = bounded.Choices[0].Cents // to the cent
	if exact := ask(t, ix, q); len(exact.Choices) == 0 || exact.Choices[0].Cents != q.Spend {
		t.Errorf("for %d cents nothing is had that costs so much", q.Spend)
	}
	q.Spend = 1
	if none := ask(t, ix, q); len(none.Choices) != 1 || len(none.Blocked) > 0 { // which has no price
		t.Errorf("for next to nothing: %+v", none)
	}
	q.Spend = 0
	q.Price = func(p catalog.Part) (int64, bool) { return 900, p.Maker() == "Wennowmere Cogwrights" }
	for _, c := range ask(t, ix, q).Choices {
		if c.Cents != 900 || c.Parts[0].Maker() != "Wennowmere Cogwrights" {
			t.Errorf("%s is to be had for %d", c.Parts[0].ID(), c.Cents)
		}
	}
	q.Price = func(catalog.Part) (int64, bool) { return 0, false }
	if none := ask(t, ix, q); len(none.Choices) > 0 || none.Parts[0] != 1 { // its own
		t.Errorf("of nothing that is to be had: %+v", none)
	}
}

// Where nothing goes, the rules that block are enough to block, and each is needed: a
// checker without one of them finds something.
func TestBlockedByRules(t *testing.T) {
	parts := demoParts(t)
	m := bike(t, "ferry-motor")
	var few []catalog.Part
	for _, p := range parts.Parts() {
		if p.Kind() == "cassette" && (strings.Contains(p.ID(), "-9-") || strings.Contains(p.ID(), "-8-")) {
			few = append(few, p)
		}
	}
	shelf, err := catalog.Of(few...)
	if err != nil {
		t.Fatal(err)
	}
	m = m.Without("cassette")
	blocked := ask(t, fit.NewIndex(standard(t), shelf), fit.Query{Mix: m, Kinds: []string{"cassette"}}).Blocked
	if len(blocked) == 0 {
		t.Fatal("something goes")
	}
	without := func(rule string) int {
		n := 0
		for _, p := range few {
			open := slices.ContainsFunc(standard(t).Check(m.Refit(p)).Verdicts(), func(v compat.RuleVerdict) bool {
				return slices.Contains(blocked, v.Rule) && v.Rule != rule && (v.Verdict == rules.Fail || v.Verdict == rules.Unknown)
			})
			if !open {
				n++
			}
		}
		return n
	}
	if n := without(""); n > 0 {
		t.Errorf("%v do not refuse %d of the parts", blocked, n)
	}
	for _, rule := range blocked {
		if without(rule) == 0 {
			t.Errorf("%v block without %s as well", blocked, rule)
		}
	}
}

// A search that its budget ends says so, and proves nothing.
func TestCut(t *testing.T) {
	m, ix := bike(t, "fleet-three-faults"), demoIndex(t)
	q := fit.Query{Mix: m, Kinds: []string{"cassette", "chain", "rear_shifter", "rear_derailleur"}, Budget: 3}
	if a := ask(t, ix, q); !a.Cut || len(a.Blocked) > 0 || len(a.Choices) > 3 {
		t.Errorf("after three steps: cut %t, %d choices, blocked %v", a.Cut, len(a.Choices), a.Blocked)
	}
	q.Kinds, q.Budget = nil, 2
	mending, err := ix.SwapBy(context.Background(), q, 0)
	if err != nil || !mending.Cut || mending.None {
		t.Errorf("after two steps: %+v, %v", mending, err)
	}
}

func TestBadQueries(t *testing.T) {
	ix, m := demoIndex(t), bike(t, "ferry-motor")
	for want, q := range map[string]fit.Query{
		"no kind is named":                           {Mix: m},
		`no kind "casette"; did you mean "cassette"`: {Mix: m, Kinds: []string{"casette"}},
		"the kind chain is named twice":              {Mix: m, Kinds: []string{"chain", "chain"}},
	} {
		if _, err := ix.Fit(context.Background(), q); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, wanted %q", err, want)
		}
	}
	for _, kind := range []string{"casette", "rotor"} { // none such, and none in the mix
		if _, err := ix.SwapBy(context.Background(), fit.Query{Mix: m, Kinds: []string{kind}}, 1); err == nil || !strings.Contains(err.Error(), kind) {
			t.Errorf("a %s that there is not is exchanged: %v", kind, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := ix.Fit(ctx, fit.Query{Mix: m, Kinds: []string{"cassette"}}); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled search gives %v", err)
	}
	if _, err := ix.Swap(ctx, bike(t, "fleet-three-faults"), 0); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled exchange gives %v", err)
	}
}

// The exchange that mends three faults is of two parts; without cassettes and hubs there
// is none, for one rule alone.
func TestSwapOfTheDemo(t *testing.T) {
	m := bike(t, "fleet-three-faults")
	got, err := demoIndex(t).Swap(context.Background(), m, 0)
	if err != nil || got.Parts != 2 || got.None || got.Cut || len(got.Swaps) == 0 {
		t.Fatalf("%+v, %v", got, err)
	}
	for _, c := range got.Swaps {
		if v := standard(t).Check(c.Mix()).Verdict; v != rules.Warn && v != rules.Pass {
			t.Errorf("with %s and %s it is %s", c.Parts[0].ID(), c.Parts[1].ID(), v)
		}
	}
	shelf, err := catalog.Of(slices.DeleteFunc(demoParts(t).Parts(), func(p catalog.Part) bool {
		return p.Kind() == "cassette" || p.Kind() == "hub"
	})...)
	if err != nil {
		t.Fatal(err)
	}
	got, err = fit.NewIndex(standard(t), shelf).Swap(context.Background(), m, 0)
	if err != nil || !got.None || !slices.Equal(got.Blocks, []string{"hub/freehub"}) || !slices.Contains(got.Fixed, "hub") {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err = demoIndex(t).Swap(context.Background(), bike(t, "ferry-motor"), 0); err != nil || len(got.Fails)+len(got.Swaps) > 0 || got.None {
		t.Errorf("of a bicycle that fails nothing: %+v, %v", got, err)
	}
}

// What is usual is told: of a chain that states its speeds alone, the widths that chains
// of that count have.
func TestChoicesRestOnWhatIsUsual(t *testing.T) {
	shelf, err := catalog.ReadFile("box.yaml", []byte(`parts:
  - {kind: chain, id: nine, name: nine, speeds: 9}
`))
	if err != nil {
		t.Fatal(err)
	}
	m := bike(t, "club-nine-spacer").Without("chain")
	a := ask(t, fit.NewIndex(standard(t), shelf), fit.Query{Mix: m, Kinds: []string{"chain"}})
	if len(a.Choices) != 1 || !slices.Contains(a.Choices[0].Usual(), "chain.outer_width_mm") {
		t.Fatalf("%+v", a)
	}
	if (fit.Choice{}).Usual() != nil {
		t.Error("no choice rests on something")
	}
}

// What is usual is named once, in order, and only where the chain can change what is read:
// the cassette that the mix has is as usual with any.
func TestUsualIsNamedOnce(t *testing.T) {
	c := judging(t, "chain.outer_width_mm > 12", "chain.outer_width_mm > 13 || chain.inner_width_mm > 5", "cassette.pitch_mm > 7")
	m := carted(t, "parts: {cassette: {cog_count: 9}}\n")
	a := ask(t, fit.NewIndex(c, shelved(t, "  - {kind: chain, id: nine, name: nine, speeds: 9}\n")), fit.Query{Mix: m, Kinds: []string{"chain"}})
	if len(a.Choices) != 1 || !slices.Equal(a.Choices[0].Usual(), []string{"chain.inner_width_mm", "chain.outer_width_mm"}) {
		t.Errorf("%q is chosen: %q", chosen(a), a.Choices[0].Usual())
	}
	all := c.Check(a.Choices[0].Mix()).Findings()
	if !slices.ContainsFunc(all, func(f compat.Finding) bool { return slices.Contains(f.Usual, "cassette.pitch_mm") }) {
		t.Errorf("no pitch is usual: %+v", all)
	}
}

// Equal questions have equal answers, in whatever goroutine.
func TestSameAnswer(t *testing.T) {
	ix := demoIndex(t)
	failing, sound := bike(t, "fleet-three-faults"), bike(t, "club-nine-spacer")
	one := func() string {
		var all bytes.Buffer
		for _, q := range []fit.Query{
			{Mix: failing, Kinds: []string{"cassette", "rear_shifter", "chain"}, Warnings: fit.Last},
			{Mix: sound, Kinds: []string{"hub", "cassette"}, Undecided: true},
		} {
			a, err := ix.Fit(context.Background(), q)
			if err != nil {
				t.Error(err)
			}
			text, err := json.Marshal(a)
			if err != nil {
				t.Error(err)
			}
			all.Write(text)
		}
		mending, err := ix.Swap(context.Background(), failing, 0)
		if err != nil {
			t.Error(err)
		}
		text, err := json.Marshal(mending)
		if err != nil {
			t.Error(err)
		}
		all.Write(text)
		return all.String()
	}
	want := one()
	if len(want) < 5000 || strings.Contains(want, "null") {
		t.Errorf("the answers are %d bytes, and hold null: %t", len(want), strings.Contains(want, "null"))
	}
	var done sync.WaitGroup
	for range 8 {
		done.Go(func() {
			if got := one(); got != want {
				t.Error("another goroutine has another answer")
			}
		})
	}
	done.Wait()
}

// A checker without rules decides nothing, so nothing is a choice by it.
func TestNothingIsChosenWithoutRules(t *testing.T) {
	ix := fit.NewIndex(&compat.Checker{}, demoParts(t))
	m := bike(t, "ferry-motor")
	_, fits := ix.Fit(context.Background(), fit.Query{Mix: m, Kinds: []string{"cassette"}})
	_, swaps := ix.Swap(context.Background(), m, 0)
	_, audits := ix.Audit(context.Background())
	for what, err := range map[string]error{"fit": fits, "swap": swaps, "audit": audits} {
		if err == nil || !strings.Contains(err.Error(), "no rules") {
			t.Errorf("%s gives %v", what, err)
		}
	}
}

// Where no rule has anything to say of a part, it is a choice that is not decided.
func TestSilenceIsNoPass(t *testing.T) {
	m, err := compat.NewMix("bare", compat.ScopeCart)
	if err != nil {
		t.Fatal(err)
	}
	a := ask(t, demoIndex(t), fit.Query{Mix: m, Kinds: []string{"bottom_bracket"}})
	if len(a.Choices) == 0 {
		t.Fatal("nothing is a choice")
	}
	for _, c := range a.Choices {
		if c.Passes+c.Warnings+c.Unknowns > 0 || c.Verdict() != rules.Unknown {
			t.Errorf("%s alone is %s by %d passes", c.Parts[0].ID(), c.Verdict(), c.Passes)
		}
	}
}

// Parts that differ in nothing that a rule reads are one choice, the cheapest of them, and
// the others are told beside it.
func TestWhatNoRuleReadsMakesNoChoice(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.speeds > 12"), shelved(t, `
  - {kind: chain, id: strong, name: strong, price: 3, speeds: 9, strength_n: 9000}
  - {kind: chain, id: weak, name: weak, price: 2, speeds: 9, strength_n: 8000}
  - {kind: chain, id: ten, name: ten, price: 4, speeds: 10, strength_n: 8000}
`))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}})
	if len(a.Choices) != 2 || a.Choices[0].Parts[0].ID() != "weak" || a.Choices[1].Parts[0].ID() != "ten" {
		t.Fatalf("chosen are %q", chosen(a))
	}
	if alike := a.Choices[0].Alike[0]; len(alike) != 1 || alike[0].ID() != "strong" || len(a.Choices[1].Alike[0]) > 0 {
		t.Errorf("alike are %v, and %v", alike, a.Choices[1].Alike[0])
	}
}

// A part that two rules refuse is counted with the one that tells fewer parts apart, which
// is asked first, wherever it stands in its file.
func TestRefusedByTheEasiestRule(t *testing.T) {
	shelf := shelved(t, `
  - {kind: chain, id: one, name: one, speeds: 9, strength_n: 8000}
  - {kind: chain, id: two, name: two, speeds: 9, strength_n: 8100}
  - {kind: chain, id: three, name: three, speeds: 9, strength_n: 8200}
`)
	for _, conds := range [][]string{{"chain.strength_n < 9000", "chain.speeds < 10"}, {"chain.speeds < 10", "chain.strength_n < 9000"}} {
		a := ask(t, fit.NewIndex(judging(t, conds...), shelf), fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}})
		easy := fmt.Sprintf("test/rule-%d", slices.Index(conds, "chain.speeds < 10")+1)
		if want := []fit.Refusal{{Rule: easy, Kind: "chain", Parts: 3}}; !slices.Equal(a.Refused, want) {
			t.Errorf("by %q there are refused %+v", conds, a.Refused)
		}
	}
}

// Of parts that are the same to all rules the cheapest is chosen, by the prices that the
// caller tells, and only of those that are to be had; the others are told beside it, the
// cheapest first. Of one price the first of the file goes before.
func TestCheapestByTheCallersPrices(t *testing.T) {
	ix := fit.NewIndex(judging(t, "chain.speeds > 12"), shelved(t, `
  - {kind: chain, id: gone, name: gone, price: 1, speeds: 9}
  - {kind: chain, id: dear, name: dear, price: 2, speeds: 9}
  - {kind: chain, id: cheap, name: cheap, price: 3, speeds: 9}
  - {kind: chain, id: fair, name: fair, price: 4, speeds: 9}
  - {kind: chain, id: other, name: other, price: 3, speeds: 9}
  - {kind: chain, id: ten, name: ten, price: 5, speeds: 10}
`))
	prices := map[string]int64{"dear": 900, "cheap": 300, "fair": 500, "other": 300, "ten": 100}
	price := func(p catalog.Part) (int64, bool) { cents, ok := prices[p.ID()]; return cents, ok }
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"chain"}, Price: price})
	if got := chosen(a); !slices.Equal(got, []string{"ten", "cheap", "other", "fair", "dear"}) || len(a.Choices) != 2 || a.Parts[0] != 5 ||
		a.Choices[0].Cents != 100 || a.Choices[1].Cents != 300 {
		t.Errorf("of %v parts there are chosen %q: %+v", a.Parts, got, a.Choices)
	}
}

// The part that the mix has is counted once, also where the catalog has it: another of it
// makes no difference. Others that are the same to all rules are counted.
func TestOwnPartIsCountedOnce(t *testing.T) {
	shelf := shelved(t, `
  - {kind: chain, id: first, name: first, price: 1, speeds: 9}
  - {kind: chain, id: middle, name: middle, price: 2, speeds: 9}
  - {kind: chain, id: last, name: last, price: 3, speeds: 9}
`)
	ix := fit.NewIndex(judging(t, "chain.speeds > 12"), shelf)
	for own, want := range map[string][]string{"first": {"own", "middle", "last"}, "middle": {"own", "first", "last"}} {
		p, _ := shelf.Part(own)
		a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n").With(p), Kinds: []string{"chain"}})
		if got := chosen(a); !slices.Equal(got, want) || a.Parts[0] != 3 || !a.Choices[0].Kept(0) {
			t.Errorf("beside %s of %v parts there are chosen %q", own, a.Parts, got)
		}
	}
}

// A choice is as good as its worst finding, and one without a finding is not decided.
func TestVerdictOfChoices(t *testing.T) {
	for _, test := range []struct {
		choice fit.Choice
		want   rules.Verdict
	}{
		{fit.Choice{}, rules.Unknown},
		{fit.Choice{Passes: 1}, rules.Pass},
		{fit.Choice{Warnings: 1}, rules.Warn},
		{fit.Choice{Passes: 1, Warnings: 1}, rules.Warn},
		{fit.Choice{Passes: 1, Warnings: 1, Unknowns: 1}, rules.Unknown},
	} {
		if got := test.choice.Verdict(); got != test.want {
			t.Errorf("%d passes, %d warnings and %d unknowns are %s", test.choice.Passes, test.choice.Warnings, test.choice.Unknowns, got)
		}
	}
}

// The zero values marshal.
func TestNothingMarshals(t *testing.T) {
	for _, v := range []json.Marshaler{fit.Answer{}, fit.Mending{}, fit.Audit{}} {
		if text, err := v.MarshalJSON(); err != nil || strings.Contains(string(text), "null") {
			t.Errorf("%s, %v", text, err)
		}
	}
}

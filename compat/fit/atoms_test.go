package fit_test

import (
	"context"
	"slices"
	"testing"

	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// oneSided is a condition of which the answer turns on a corner of a tolerance, one way.
const oneSided = "figures.index_residual_mm > 0.4 && rear_derailleur.made_for_pitch_mm > 3.68 && chain.speeds > 0"

// Two cassettes miss the steps by as much, one with wider cogs and one with narrower.
// Only as long as the steps stand where they are said to: with a tolerance on these the
// two are not alike.
func TestEqualFiguresMayPartWhereTolerancesMove(t *testing.T) {
	c := judging(t, oneSided)
	shelf := shelved(t, `
  - {kind: cassette, id: wide, name: wide, price: 1, cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.71, cog_thickness_mm: 1.6}
  - {kind: cassette, id: narrow, name: narrow, price: 2, cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.59, cog_thickness_mm: 1.6}
  - {kind: chain, id: chain, name: chain, price: 1, speeds: 12}
  - {kind: crankset, id: crank, name: crank, price: 1, rings_t: [32]}
`)
	m := carted(t, `
parts:
  rear_derailleur: {actuation: motor, made_for_pitch_mm: 3.65 ± 0.06, steps_selectable: [11], made_for_cogs: 12}
`)
	var checked []rules.Verdict
	for _, p := range shelf.OfKind("cassette") {
		chain, _ := shelf.Part("chain")
		crank, _ := shelf.Part("crank")
		checked = append(checked, c.Check(m.Refit(p, chain, crank)).Verdict)
	}
	if !slices.Equal(checked, []rules.Verdict{rules.Pass, rules.Warn}) {
		t.Fatalf("the mixes are %v: the rule does not tell them apart", checked)
	}
	a, err := fit.NewIndex(c, shelf).Fit(context.Background(), fit.Query{Mix: m, Kinds: []string{"cassette", "chain", "crankset"}})
	if err != nil || len(a.Choices) != 2 {
		t.Fatalf("%d choices, %v", len(a.Choices), err)
	}
	for i, want := range []int{0, 1} {
		if a.Choices[i].Warnings != want {
			t.Errorf("with %s there are %d warnings, checked %d", a.Choices[i].Parts[0].ID(), a.Choices[i].Warnings, want)
		}
	}
}

// Two cranksets with lines of their own, for a mix of which the line was measured on the
// crankset that it has: beside that measurement they come to the same, but it is not true
// of either.
func TestMeasuredOnPartsThatAreExchangedIsNoShape(t *testing.T) {
	c := judging(t, "figures.ring_lines_mm[0] > 47 && chain.speeds > 0 && cassette.pitch_mm > 0")
	m := carted(t, `
parts:
  crankset: {rings_t: [32], chainline_mm: 44}
bench: {chainline_mm: 44.5}
`)
	a := ask(t, fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: cassette, name: cassette, price: 1, cogs_t: [11, 13, 15], pitch_mm: 3.7}
  - {kind: chain, id: chain, name: chain, price: 1, speeds: 12}
  - {kind: crankset, id: inside, name: inside, price: 1, rings_t: [32], chainline_mm: 45}
  - {kind: crankset, id: outside, name: outside, price: 2, rings_t: [32], chainline_mm: 49}
`)), fit.Query{Mix: m, Kinds: []string{"cassette", "chain", "crankset"}})
	if got := chosen(a); !slices.Equal(got, []string{"cassette chain own", "cassette chain inside"}) {
		t.Errorf("chosen are %q", got)
	}
}

// Of two cassettes one has too high a step, beside a chain of half an inch. Beside other
// chains, one cheaper and one dearer, the step means nothing, and tells no cassettes apart.
func TestFiguresOfHalfInchChainsTellPartsApart(t *testing.T) {
	c := judging(t, "figures.cog_step_mm > 5 && chain.speeds > 0 && crankset.length_mm > 0")
	ix := fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: even, name: even, price: 1, cogs_t: [11, 13, 15]}
  - {kind: cassette, id: jump, name: jump, price: 2, cogs_t: [11, 13, 25]}
  - {kind: chain, id: eight, name: eight, price: 1, speeds: 12, pitch_mm: 8}
  - {kind: chain, id: half-inch, name: half inch, price: 2, speeds: 12, pitch_mm: 12.7}
  - {kind: chain, id: ten, name: ten, price: 5, speeds: 12, pitch_mm: 10}
  - {kind: crankset, id: crank, name: crank, price: 1, rings_t: [32], length_mm: 170}
`))
	for kinds, want := range map[[3]string][]string{
		{"cassette", "chain", "crankset"}: {"even eight crank", "even half-inch crank", "even ten crank", "jump eight crank", "jump ten crank"},
		{"chain", "crankset", "cassette"}: {"eight crank even", "eight crank jump", "half-inch crank even", "ten crank even", "ten crank jump"},
	} {
		got := chosen(ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: kinds[:]}))
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("chosen are %q", got)
		}
	}
}

// Three cranksets state one line, by more or less. Only of the least certain of them it may
// lie too far outside.
func TestTolerancesTellPartsApart(t *testing.T) {
	c := judging(t, "figures.ring_lines_mm[0] > 47 && chain.speeds > 0 && cassette.pitch_mm > 0")
	a := ask(t, fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: cassette, name: cassette, price: 1, cogs_t: [11, 13, 15], pitch_mm: 3.7}
  - {kind: chain, id: chain, name: chain, price: 1, speeds: 12}
  - {kind: crankset, id: exact, name: exact, price: 1, rings_t: [32], chainline_mm: 46}
  - {kind: crankset, id: rough, name: rough, price: 2, rings_t: [32], chainline_mm: 46 ± 3}
  - {kind: crankset, id: near, name: near, price: 3, rings_t: [32], chainline_mm: 46 ± 0.5}
`)), fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}})
	var warnings []int
	for _, c := range a.Choices {
		warnings = append(warnings, c.Warnings)
	}
	if got := chosen(a); !slices.Equal(got, []string{"cassette chain exact", "cassette chain rough", "cassette chain near"}) ||
		!slices.Equal(warnings, []int{0, 1, 0}) {
		t.Errorf("chosen are %q, with %v warnings", got, warnings)
	}
}

// Cassettes that come to the same step are one choice where three kinds are open, though
// their cogs differ; that with another step is one of its own. Of two open kinds facts
// tell them apart.
func TestEqualFiguresAreOneChoice(t *testing.T) {
	ix := fit.NewIndex(judging(t, "figures.cog_step_mm > 20 && chain.speeds > 0", "crankset.length_mm > 200 && chain.speeds > 0"), shelved(t, `
  - {kind: cassette, id: eleven, name: eleven, price: 1, cogs_t: [11, 13, 15]}
  - {kind: cassette, id: twelve, name: twelve, price: 2, cogs_t: [12, 13, 15]}
  - {kind: cassette, id: wider, name: wider, price: 3, cogs_t: [12, 13, 16]}
  - {kind: chain, id: chain, name: chain, price: 1, speeds: 12}
  - {kind: crankset, id: crank, name: crank, price: 1, rings_t: [32], length_mm: 170}
`))
	a := ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}})
	if len(a.Choices) != 2 || !slices.Equal(chosen(a), []string{"eleven chain crank", "twelve chain crank", "wider chain crank"}) {
		t.Errorf("%d choices: %q", len(a.Choices), chosen(a))
	}
	a = ask(t, ix, fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain"}})
	if len(a.Choices) != 3 || !slices.Equal(chosen(a), []string{"eleven chain", "twelve chain", "wider chain"}) {
		t.Errorf("of two kinds %d choices: %q", len(a.Choices), chosen(a))
	}
}

// A single cog has no step, so that the rule is not applied; of a cassette that tells its
// count alone nobody knows the step, and the rule is open. Both have none, and are not alike.
func TestNoFigureIsNotOneReason(t *testing.T) {
	c := judging(t, "figures.cog_step_mm > 20 && chain.speeds > 0 && crankset.length_mm > 0", "chain.speeds > 13")
	a := ask(t, fit.NewIndex(c, shelved(t, `
  - {kind: cassette, id: single, name: single, price: 1, cogs_t: [16]}
  - {kind: cassette, id: counted, name: counted, price: 2, cog_count: 16}
  - {kind: chain, id: chain, name: chain, price: 1, speeds: 12}
  - {kind: crankset, id: crank, name: crank, price: 1, rings_t: [32], length_mm: 170}
`)), fit.Query{Mix: carted(t, "parts: {}\n"), Kinds: []string{"cassette", "chain", "crankset"}, Undecided: true})
	if got := chosen(a); !slices.Equal(got, []string{"single chain crank", "counted chain crank"}) ||
		a.Choices[0].Unknowns != 0 || a.Choices[1].Unknowns != 1 {
		t.Errorf("chosen are %q: %+v", got, a.Choices)
	}
}

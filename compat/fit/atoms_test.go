package fit_test

import (
	"context"
	"io/fs"
	"slices"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// oneSided is a rule of which the answer turns on a corner of a tolerance, one way.
const oneSided = `pack: test
edition: 1
rules:
  - id: test/one-sided
    title: The steps meet the cogs
    why: For a test.
    fail_if: figures.index_residual_mm > 0.4 && rear_derailleur.made_for_pitch_mm > 3.68 && chain.speeds > 0
    say: "{figures.index_residual_mm} mm."
    remedy: Another cassette.
    basis: {practice: none}
    examples:
      - name: beside
        given: {figures: {index_residual_mm: 0.5}, rear_derailleur: {made_for_pitch_mm: 3.7}, chain: {speeds: 12}}
        want: fail
`

// Two cassettes miss the steps by as much, one with wider cogs and one with narrower.
// Only as long as the steps stand where they are said to: with a tolerance on these the
// two are not alike.
func TestEqualFiguresMayPartWhereTolerancesMove(t *testing.T) {
	c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{fstest.MapFS{"one.yaml": {Data: []byte(oneSided)}}}})
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := catalog.ReadFile("shelf.yaml", []byte(`parts:
  - {kind: cassette, id: wide, name: wide, price: 1, cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.71, cog_thickness_mm: 1.6}
  - {kind: cassette, id: narrow, name: narrow, price: 2, cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.59, cog_thickness_mm: 1.6}
  - {kind: chain, id: chain, name: chain, price: 1, speeds: 12}
  - {kind: crankset, id: crank, name: crank, price: 1, rings_t: [32]}
`))
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.ReadMix("mix.yaml", []byte(`mix: steps
scope: cart
parts:
  rear_derailleur: {actuation: motor, made_for_pitch_mm: 3.65 ± 0.06, steps_selectable: [11], made_for_cogs: 12}
`), nil)
	if err != nil {
		t.Fatal(err)
	}
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

package compat

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// Where a figure means something at some values of a usual fact alone, it declares how it
// goes with that fact, and its meaning goes the same way: it is lost towards one end of
// the spread and never comes back. So at one end of the line on which the figure rises it
// means something if it does anywhere, and a rule that asks for it need be tried nowhere
// else for that.
func TestMeaningGoesOneWay(t *testing.T) {
	c := standardChecker(t)
	rng := random.Seeded(4242)
	gains := map[rules.Ref]int8{} // whether a figure means something as it rises, 1, or as it falls
	seen := map[string]int{}
	for range fewer(2000) {
		r := c.Check(usualRandom(t, rng))
		records, facts := r.Figures.Records(), usualFacts(r)
		if len(facts) == 0 {
			continue
		}
		for range 4 {
			moved := facts[rng.IntN(len(facts))]
			known := meaningAlong(records, facts, moved, rng)
			for i, k := range known {
				fig := rules.Ref{Object: figures.Object, Index: i}
				if k[0] == k[1] && k[1] == k[2] {
					continue
				}
				way, turns := figures.Ways(fig, moved)
				if k[0] == k[2] || turns || way != 1 && way != -1 {
					t.Fatalf("%s means something: %v as %s rises, with which it is said to go %d", fig, k, moved, way)
				}
				if k[0] {
					way = -way
				}
				if gains[fig] == -way {
					t.Fatalf("%s gains and loses its meaning as it rises with %s", fig, moved)
				}
				gains[fig] = way
				seen[fig.String()]++
			}
		}
	}
	for _, name := range []string{"figures.chain_cogs_over", "figures.connector_gap_mm"} {
		if seen[name] == 0 {
			t.Errorf("%s never gained or lost its meaning: %v", name, seen)
		}
	}
}

// meaningAlong says of each figure whether it has a value at the least of a usual fact, at
// a place between, and at its most, with the other usual facts anywhere.
func meaningAlong(records []*rules.Record, facts []rules.Ref, moved rules.Ref, rng *rand.Rand) [][3]bool {
	known := make([][3]bool, len(figures.Object.Table().Fields()))
	others := map[rules.Ref]float64{}
	for _, f := range facts {
		others[f] = []float64{-1, 1, 2*rng.Float64() - 1}[rng.IntN(3)]
	}
	for k, to := range [3]float64{-1, 2*rng.Float64() - 1, 1} {
		others[moved] = to
		at := slices.Clone(records)
		for _, f := range facts {
			at[kindPlace(f.Object.Name())] = at[kindPlace(f.Object.Name())].Moved(f.Index, others[f])
		}
		figures.Again(at, facts, nil, func(now []*rules.Record) {
			for i := range known {
				known[i][k] = now[figuresPlace].At(i).Known
			}
		})
	}
	return known
}

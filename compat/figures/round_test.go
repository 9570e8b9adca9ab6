package figures_test

import (
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules/fact"
)

// Cogs that stand evenly have one room between them, in the last decimal too, though the
// sum of two widths of six decimals is halved and each room is reckoned from two other
// positions: a rule may compare one with another.
func TestEvenCogsHaveEqualRoom(t *testing.T) {
	rng := random.Seeded(31)
	gaps, _ := figures.Object.Table().Index("neighbour_gaps_mm")
	tried := 0
	for range fewer(1000) {
		d := random.New(rng)
		for _, ref := range d.Stated() {
			switch ref.String() {
			case "cassette.pitches_mm", "cassette.stack_height_mm", "bench.cog_positions_mm":
				d = d.Without(ref.Object.Name(), ref.Field().Name)
			}
		}
		f := d.Facts()
		for name, least := range map[string]int{"cassette.pitch_mm": 3_000_000, "cassette.cog_thickness_mm": 1_500_000, "chain.outer_width_mm": 5_000_000} {
			ref := figures.FactNamed(name)
			if rec := f.Part(figures.PlaceOf(ref)); rec != nil {
				rec = rec.Clone()
				rec.Put(ref.Index, fact.Num(float64(least+rng.IntN(1_000_000))/1e6))
				f = f.With(rec)
			}
		}
		list := f.Measure().Record().Value(gaps).List
		for _, x := range list {
			if tried++; x != list[0] {
				t.Fatalf("the rooms are %v", list)
			}
		}
	}
	if tried < fewer(1000) {
		t.Errorf("only %d rooms were compared", tried)
	}
}

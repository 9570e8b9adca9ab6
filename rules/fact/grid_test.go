package fact_test

import (
	"testing"

	"example.org/cogcourt/rules/fact"
)

func TestGrid(t *testing.T) {
	for _, c := range []struct {
		field fact.Field
		want  float64
	}{
		{fact.Field{Type: fact.Fraction, Unit: "mm"}, 0.01},
		{fact.Field{Type: fact.Fraction}, 0.001},
		{fact.Field{Type: fact.Fraction, Unit: "percent"}, 0.1},
		{fact.Field{Type: fact.Fraction, Unit: "N m"}, 0.1},
		{fact.Field{Type: fact.Fraction, Unit: "N"}, 1},
		{fact.Field{Type: fact.Fraction, Unit: "V"}, 0.01},
		{fact.Field{Type: fact.Whole, Unit: "t"}, 1},
		{fact.Field{Type: fact.Fractions, Unit: "mm"}, 0.01},
		{fact.Field{Type: fact.Choice}, 0},
		{fact.Field{Type: fact.Flag}, 0},
	} {
		if got := c.field.Grid(); got != c.want {
			t.Errorf("%v in %q: %v, want %v", c.field.Type, c.field.Unit, got, c.want)
		}
	}
}

package catalog_test

import (
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/fact"
)

// TestVaryingIsWith holds that a field that is varied is stated as With states it:
// values, name, what it takes the place of, and what it contradicts.
func TestVaryingIsWith(t *testing.T) {
	below, err := catalog.New("cassette", map[string]any{"id": "reed", "name": "Reed", "cogs_t": []int{11, 13, 15}, "pitches_mm": []float64{4, 4}})
	if err != nil {
		t.Fatal(err)
	}
	frame, err := catalog.New("frame", map[string]any{"name": "Gang", "rear_suspension": "none"})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		part  catalog.Part
		field string
		given any
		value fact.Value
	}{
		{below, "pitch_mm", 3.9, fact.Num(3.9)},
		{below, "freehub", []string{"spline-9"}, fact.Texts("spline-9")},
		{below, "own_lockring_small_cog", true, fact.Truth(true)},
		{below, "height_class", "thin-10", fact.Word("thin-10")},
		{frame, "chain_growth_mm", 0, fact.Num(0)},
		{frame, "chain_growth_mm", 5, fact.Num(5)}, // refused beside a frame that is stated as rigid
	} {
		want, refused := c.part.With(map[string]any{c.field: c.given})
		vary, err := c.part.Varying(c.field)
		if err != nil {
			t.Fatal(err)
		}
		got, err := vary(c.value)
		if (err != nil) != (refused != nil) || err != nil && err.Error() != refused.Error() {
			t.Errorf("%s %v: %v, With says %v", c.field, c.given, err, refused)
		}
		if err != nil {
			continue
		}
		if got.Name() != want.Name() || got.ID() != want.ID() || got.Basis() != want.Basis() {
			t.Errorf("%q %q %q, With gives %q %q %q", got.Name(), got.ID(), got.Basis(), want.Name(), want.ID(), want.Basis())
		}
		for i, f := range want.Record().Object().Table().Fields() {
			a, b := got.Record().Value(i), want.Record().Value(i)
			if a.String() != b.String() || a.Own != b.Own || a.Known != b.Known || a.Usual != b.Usual || got.States(f.Name) != want.States(f.Name) ||
				!slices.Equal(a.Words(), b.Words()) {
				t.Errorf("%s, of %s: %+v, With gives %+v", c.field, f.Name, a, b)
			}
		}
	}
	if _, err := below.Varying("pitch"); err == nil {
		t.Error("there is a field pitch")
	}
	if _, err := (catalog.Part{}).Varying("pitch_mm"); err == nil {
		t.Error("no part has a field")
	}
}

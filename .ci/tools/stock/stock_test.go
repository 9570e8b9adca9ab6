package stock

import (
	"bytes"
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
)

// The same seed gives the same articles, which load; popular models come often, and
// some articles lack something.
func TestMake(t *testing.T) {
	o := Options{Seed: 3, Each: 1000, Kinds: Kinds()}
	parts, err := Make(o)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := Make(o)
	same := func(a, b catalog.Part) bool {
		return a.ID() == b.ID() && a.Price() == b.Price() && bytes.Equal(a.Record().AppendKey(nil), b.Record().AppendKey(nil))
	}
	if !slices.EqualFunc(parts, again, same) {
		t.Error("the same seed gives other articles")
	}
	c, err := catalog.Of(parts...)
	if err != nil || c.Len() != 8000 {
		t.Fatalf("%d parts, %v", c.Len(), err)
	}
	for _, kind := range Kinds() {
		distinct := map[string]int{}
		for _, p := range c.OfKind(kind) {
			distinct[string(p.Record().AppendKey(nil))]++
		}
		most := 0
		for _, n := range distinct {
			most = max(most, n)
		}
		if len(distinct) < 25 || len(distinct) > 250 || most < 20 {
			t.Errorf("%s: %d different articles, the most frequent %d times", kind, len(distinct), most)
		}
	}
}

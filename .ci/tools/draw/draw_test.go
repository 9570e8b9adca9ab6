package draw_test

import (
	"encoding/json"
	"reflect"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/tools/draw"
)

// TestDrawnMixesLoad holds that every mix is one that a file could hold, and that
// a seed draws the same ones again.
func TestDrawnMixesLoad(t *testing.T) {
	for _, tolerances := range []bool{false, true} {
		mixes, again := draw.New(1, tolerances), draw.New(1, tolerances)
		for range 3000 {
			doc := mixes.Next()
			if second := again.Next(); !reflect.DeepEqual(doc, second) {
				t.Fatalf("%v, and again %v", doc, second)
			}
			text, err := json.Marshal(doc)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := compat.ReadMix("drawn.json", text, nil); err != nil {
				t.Fatalf("%v\n%s", err, text)
			}
		}
	}
	if reflect.DeepEqual(draw.New(1, false).Next(), draw.New(2, false).Next()) {
		t.Error("another seed draws the same mix")
	}
}

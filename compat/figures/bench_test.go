package figures

import (
	"testing"

	"example.org/cogcourt/catalog"
)

// Every measured fact says which parts it was measured on, and nothing else does.
func TestEveryMeasurementHasItsParts(t *testing.T) {
	known := map[string]bool{}
	for _, f := range Bench.Table().Fields() {
		known[f.Name] = true
		kinds, listed := measuredOn[f.Name]
		if !listed || len(kinds) == 0 && f.Name != "position" {
			t.Errorf("%s was measured on nothing", f.Name)
		}
		for _, kind := range kinds {
			if _, ok := catalog.KindIndex(kind); !ok {
				t.Errorf("%s: there is no kind %s", f.Name, kind)
			}
		}
	}
	for name := range measuredOn {
		if !known[name] {
			t.Errorf("nothing measured is called %s", name)
		}
	}
}

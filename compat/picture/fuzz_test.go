package picture_test

import (
	"encoding/json"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/internal/blind"
)

// FuzzDraw draws any mix that can be read, where each drawing is whole and no label lies
// over another, and any outline that anybody may have written, where none stops the
// program or shows what is no number.
func FuzzDraw(f *testing.F) {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		f.Fatal(err)
	}
	var seeds []string
	for _, name := range demo.Mixes() {
		text, _ := demo.Mix(name)
		seeds = append(seeds, string(text))
	}
	for _, name := range []string{"club-two-ring", "donated-classes"} {
		text, err := json.Marshal(demoOutline(f, name))
		if err != nil {
			f.Fatal(err)
		}
		seeds = append(seeds, string(text))
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		if noNumber.Match(text) {
			return false // names and reasons are shown as they are
		}
		if choice%2 == 0 {
			var o compat.Outline
			if json.Unmarshal(text, &o) != nil {
				return false
			}
			if found := noNumber.FindString(all(o)); found != "" {
				t.Errorf("%q in the drawings of %s", found, text)
			}
			return true
		}
		m, err := compat.ReadMix("m.yaml", text, parts)
		if err != nil {
			return false
		}
		o := outline(t, m)
		wholeDrawings(t, m.Name(), o)
		for _, p := range everything(o) {
			if faults, _ := p.Faults(); len(faults) > 0 {
				t.Errorf("%s: %q", p.Title, faults)
			}
		}
		return true
	})
}

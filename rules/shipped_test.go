package rules_test

import (
	"io/fs"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/standard"
)

// TestPlacesOfShippedRules misspells every name of the shipped rules and steps,
// each in one manner of writing.
func TestPlacesOfShippedRules(t *testing.T) {
	v, err := compat.Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	names, err := fs.Glob(standard.Files(), "*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal("no shipped rules", err)
	}
	if testing.Short() {
		names = names[:2]
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text, err := fs.ReadFile(standard.Files(), name)
			if err != nil {
				t.Fatal(err)
			}
			tried := 0
			for _, n := range checkPlaces(t, v, string(text), false) {
				tried += n
			}
			t.Logf("%d names", tried)
		})
	}
}

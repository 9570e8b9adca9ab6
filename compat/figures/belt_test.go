package figures_test

import (
	"strings"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules/fact"
)

// On a belt nothing that is read from a chain means anything, whatever is stated of one: no
// figure that hangs on a fact of the chain, itself or by another figure, has a value.
func TestNoFigureOfAChainOnABelt(t *testing.T) {
	aboutChain := map[string]bool{}
	for _, f := range figures.Declared() { // each stands behind what it reads
		for _, read := range f.Reads {
			if strings.HasPrefix(read, "chain.") || aboutChain[strings.TrimPrefix(read, "figures.")] {
				aboutChain[f.Name] = true
			}
		}
	}
	r, drive := random.Seeded(61), figures.FactNamed("frame.drive")
	with, without := map[string]bool{}, map[string]bool{}
	for range fewer(600) {
		f := random.New(r).Facts()
		rec := f.Part(figures.PlaceOf(drive))
		if rec == nil {
			continue
		}
		belt := rec.Clone()
		belt.Put(drive.Index, fact.Value{Known: true, Text: "belt"})
		for name := range aboutChain {
			if v, _ := f.Measure().Value(name); v.Known {
				with[name] = true
			}
			if v, _ := f.With(belt).Measure().Value(name); v.Known {
				without[name] = true
			}
		}
	}
	for name := range without {
		t.Errorf("%s has a value on a belt", name)
	}
	if len(with) < 12 {
		t.Errorf("only %d figures of %d had a value on a chain", len(with), len(aboutChain))
	}
}

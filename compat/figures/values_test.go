package figures_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules/fact"
)

// On a belt nothing that is read from a chain or called after one means anything, whatever
// is stated of it: no figure that hangs on a fact of the chain, itself or by another
// figure, has a value. Whether there is a guide, and whether the maker of the derailleur
// has a table, are no questions of the chain.
func TestNoFigureOfAChainOnABelt(t *testing.T) {
	aside := []string{"chain_guided", "chain_table_unsaid"}
	aboutChain := map[string]bool{}
	for _, f := range figures.Declared() { // each stands behind what it reads
		for _, read := range f.Reads {
			if strings.HasPrefix(read, "chain.") || strings.HasPrefix(f.Name, "chain_") && !slices.Contains(aside, f.Name) || aboutChain[strings.TrimPrefix(read, "figures.")] {
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

// A flag is one or nothing, whatever it was worked out from.
func TestFlagsAreOneOrNothing(t *testing.T) {
	r := random.Seeded(62)
	set := map[string]bool{}
	for range fewer(1500) {
		figs := random.New(r).Facts().Measure()
		for _, f := range figures.Object.Table().Fields() {
			v, _ := figs.Value(f.Name)
			if f.Type != fact.Flag || !v.Known {
				continue
			}
			if set[f.Name] = set[f.Name] || v.Num == 1; v.Num != 0 && v.Num != 1 {
				t.Fatalf("%s is %v", f.Name, v.Num)
			}
		}
	}
	if len(set) < 8 {
		t.Errorf("only %d flags had a value", len(set))
	}
}

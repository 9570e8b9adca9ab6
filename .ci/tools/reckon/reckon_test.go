package reckon

import (
	"flag"
	"math"
	"slices"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/tools/second"
)

var mixes = flag.Int("mixes", 3000, "how many random mixes the figures are worked out twice on; 100000 takes some minutes")

func twins() map[string]twin {
	all := map[string]twin{}
	for _, some := range []map[string]twin{numbers, lines, words, steps, hold, pairs, spacers} {
		for name, f := range some {
			all[name] = f
		}
	}
	return all
}

// TestEveryFigureHasATwin names every figure that a shipped rule reads and that has no
// twin.
func TestEveryFigureHasATwin(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	all := twins()
	read := map[string]bool{}
	for _, r := range c.Rules().Rules() {
		for _, ref := range c.Rules().Reads(r) {
			if ref.Object.Name() == "figures" {
				read[ref.Field().Name] = true
			}
		}
	}
	for name := range read {
		if all[name] == nil {
			t.Errorf("%s is read by a rule and is worked out by one road alone", name)
		}
	}
	if len(read) < 100 {
		t.Errorf("only %d figures are read by a rule", len(read))
	}
	for name := range all {
		if !slices.Contains(Known(), name) {
			t.Errorf("there is no figure %s", name)
		}
	}
}

// TestFiguresTwice works every figure with a twin out twice, on random mixes.
func TestFiguresTwice(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	all, row, tried := twins(), second.NewMixes(5), map[string]int{}
	names := Known()
	for i := range *mixes {
		mix, text, err := row.Next()
		if err != nil {
			t.Fatal(err)
		}
		if i%3 == 0 { // the axle or nothing takes the chain up
			mix = mix.Without("rear_derailleur").Without("chain_tensioner")
		}
		b := newBike(c.Rules().Vocabulary(), c.Check(mix))
		for _, name := range names {
			got := b.value("figures." + name)
			if all[name] == nil || !got.Known {
				continue
			}
			want, ok := all[name](b)
			if !ok {
				continue
			}
			if tried[name]++; !alike(got, want) {
				t.Errorf("%s is %v, and %v by another road:\n%s", name, got, want, text)
			}
		}
		if t.Failed() {
			return // one mix says enough
		}
	}
	for name := range all {
		if tried[name] == 0 {
			t.Errorf("%s was never worked out twice", name)
		}
	}
}

// alike holds numbers against each other within a millionth, and a half of one for each
// rounded figure that a twin begins with.
func alike(got fact.Value, want any) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 2.5e-6*max(1, math.Abs(a)/1000) }
	switch w := want.(type) {
	case float64:
		return near(got.Num, w)
	case about:
		return math.Abs(got.Num-w.x) <= w.within
	case []float64:
		return slices.EqualFunc(got.List, w, near)
	case bool:
		return (got.Num == 1) == w
	case string:
		return got.Text == w
	}
	return false
}

package reckon

import (
	"flag"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/tools/second"
)

var mixes = flag.Int("mixes", 2500, "how many random mixes the figures are worked out twice on; 100000 takes some minutes")

func twins() map[string]twin {
	all := map[string]twin{}
	for _, some := range []map[string]twin{numbers, lines, words, steps, hold} {
		for name, f := range some {
			all[name] = f
		}
	}
	return all
}

// alone reads the figures that have no twin yet, each with what holds it meanwhile.
func alone(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile("alone.txt")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for line := range strings.Lines(string(text)) {
		name, why, ok := strings.Cut(strings.TrimSpace(line), ": ")
		if !ok || out[name] != "" {
			t.Errorf("%q is no figure with a reason, or stands twice", line)
		}
		out[name] = why
	}
	return out
}

// TestEveryFigureHasATwin names every figure that a shipped rule reads: it has a twin, or
// stands in the list of those that have none.
func TestEveryFigureHasATwin(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	all, without := twins(), alone(t)
	read := map[string]bool{}
	for _, r := range c.Rules().Rules() {
		for _, ref := range c.Rules().Reads(r) {
			if ref.Object.Name() == "figures" {
				read[ref.Field().Name] = true
			}
		}
	}
	for name := range read {
		if (all[name] == nil) == (without[name] == "") {
			t.Errorf("%s is read by a rule and has no twin, or has one and stands in alone.txt too", name)
		}
	}
	for name := range without {
		if !read[name] {
			t.Errorf("%s stands in alone.txt, and no rule reads it", name)
		}
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
	for range *mixes {
		mix, text, err := row.Next()
		if err != nil {
			t.Fatal(err)
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
	case []float64:
		return slices.EqualFunc(got.List, w, near)
	case bool:
		return (got.Num == 1) == w
	case string:
		return got.Text == w
	}
	return false
}

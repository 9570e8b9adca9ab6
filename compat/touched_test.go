package compat

import (
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// faultsOf counts what fails in a whole check.
func faultsOf(r Report) int {
	n := 0
	for _, v := range r.Verdicts() {
		n += count(v.Verdict == rules.Fail)
	}
	return n
}

// Between two mixes that differ in parts of some kinds alone, the faults that such parts
// can touch differ by as much as all faults do: with other parts, and with none.
func TestTouchedCountsWhatDiffers(t *testing.T) {
	c := standardChecker(t)
	rng := random.Seeded(31)
	differ := 0
	for i := range fewer(200) {
		a, b := mixOf(random.New(rng)), mixOf(random.New(rng))
		names := catalog.KindNames()
		kinds := []string{names[i%len(names)], names[(i*7+3)%len(names)]}
		other := a
		for _, kind := range kinds {
			if p, there := b.Part(kind); there {
				other = other.Refit(p)
			} else {
				other = other.Without(kind)
			}
		}
		touched := c.Touched(kinds...)
		want := faultsOf(c.Check(other)) - faultsOf(c.Check(a))
		if got := touched.Faults(other) - touched.Faults(a); got != want {
			t.Fatalf("%v: the faults differ by %d, of all by %d", kinds, got, want)
		}
		differ += count(want != 0)
	}
	if differ < fewer(200)/8 {
		t.Errorf("only %d of the pairs differ", differ)
	}
	if n := (&Checker{}).Touched("chain").Faults(lakeBike(t)); n != 0 {
		t.Errorf("a checker without rules counts %d faults", n)
	}
}

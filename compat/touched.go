package compat

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// Touched counts the faults of mixes that differ in parts of some kinds alone: those of
// the rules that such parts can touch. What the other rules say is the same of all these
// mixes, so that a difference of two counts is that of two whole checks. It is immutable
// and safe for use by many goroutines; the zero Touched counts nothing.
type Touched struct {
	checker *Checker
	rules   []*rules.Rule
	reads   []rules.Ref
}

// Touched makes ready to count what parts of these kinds bring about.
func (c *Checker) Touched(kinds ...string) Touched {
	t := Touched{checker: c}
	if c.set == nil {
		return t
	}
	var all uint64
	for _, kind := range kinds {
		if i, ok := catalog.KindIndex(kind); ok {
			all |= 1 << i
		}
	}
	for _, r := range c.set.Rules() {
		if r.CanFail() && c.printed.rule(r).touched&all != 0 {
			t.rules = append(t.rules, r)
			t.reads = append(t.reads, c.set.Reads(r)...)
		}
	}
	return t
}

// Faults counts what fails.
func (t Touched) Faults(m Mix) int {
	faults := 0
	if len(t.rules) == 0 {
		return 0
	}
	m.facts.MeasureFor(t.reads, t.checker.filling(), func(records []*rules.Record) {
		t.checker.set.SomeOnce(t.rules, records, func(res *rules.Result) {
			for i := range res.Findings {
				if res.Findings[i].Verdict == rules.Fail {
					faults++
				}
			}
		})
	})
	return faults
}

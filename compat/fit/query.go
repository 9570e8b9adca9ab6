package fit

import (
	"fmt"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Warnings says what becomes of choices that warn.
type Warnings uint8

const (
	Allowed Warnings = iota // they are as good as any other: the cheapest come first
	Last                    // those that warn of nothing come first, then the cheapest of the others
	None                    // they are left out
)

// Query asks for parts for a mix.
type Query struct {
	Mix   compat.Mix
	Kinds []string // to choose, each once; the part of such a kind that the mix has is a candidate too, and costs nothing

	Limit     int      // how many choices are wanted; 0 stands for 10
	Undecided bool     // also choices that leave a finding open, after all others
	Warnings  Warnings // what becomes of those that warn

	// Price tells what a part costs, in hundredths, and whether it can be had at all.
	// Nil takes the prices that parts state: one without is told apart, and comes
	// after all that have one.
	Price func(catalog.Part) (cents int64, has bool)
	Spend int64 // the most that a choice may cost, in hundredths; 0 for no bound

	Budget int // how many steps a search may take; 0 stands for 5,000
}

// Answer is what fits.
type Answer struct {
	Mix     string   // its name
	Kinds   []string // that were asked for, in the order of the question
	Parts   []int    // of each kind, how many there are to choose from
	Choices []Choice // the best first; equal questions have equal answers

	Standing []compat.Finding // fails and unknowns that no choice can change
	Refused  []Refusal        // the parts that go with nothing, whatever else is chosen
	Blocked  []string         // where nothing fits: rules that leave nothing together, none of them without need
	Cut      bool             // the budget ended the search: there may be better ones, or any at all
}

// Choice is one part of each kind that go together on the mix.
type Choice struct {
	Parts    []catalog.Part // in the order of the kinds
	Cents    int64          // what those cost together that have a price; what the mix has already costs nothing
	Unpriced int            // how many have none
	Warnings int            // findings that warn, of the rules that the choice can change
	Unknowns int            // and that are open
	Warns    []string       // the rules that warn
	Open     []string       // and that are open
	Passes   int            // findings that pass; where there is no finding at all, nothing is known of the choice

	// Alike gives for each of the parts others that do as well in its place beside the
	// rest of this choice, as far as the rules can tell; the cheapest first.
	Alike [][]catalog.Part

	kept    uint64 // kinds, by their places, whose part is the one that the mix has
	on      compat.Mix
	checker *compat.Checker
}

// Mix gives the mix with the choice fitted. What was measured on a part that stays is
// kept, and forgotten where another takes its place.
func (c Choice) Mix() compat.Mix {
	var fresh []catalog.Part
	for i, p := range c.Parts {
		if !c.Kept(i) {
			fresh = append(fresh, p)
		}
	}
	return c.on.Refit(fresh...)
}

// Verdict is what the choice comes to, by the rules that it can change: open where any
// of them is, and where none has anything to say.
func (c Choice) Verdict() rules.Verdict {
	switch {
	case c.Unknowns > 0 || c.Warnings+c.Passes == 0:
		return rules.Unknown
	case c.Warnings > 0:
		return rules.Warn
	}
	return rules.Pass
}

// Usual names the facts that nobody stated and that the choice rests on, as they are
// usual, where a rule reads them that the choice can change.
func (c Choice) Usual() []string {
	if c.checker == nil {
		return nil
	}
	kinds := uint64(0)
	for _, p := range c.Parts {
		kinds |= places([]string{p.Kind()})
	}
	var out []string
	for _, f := range c.checker.Check(c.Mix()).Findings() {
		rule, _ := c.checker.Rules().Rule(f.Rule)
		if places(c.checker.Reach(rule))&kinds == 0 {
			continue
		}
		for _, name := range f.Usual {
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	slices.Sort(out)
	return out
}

// Kept says whether the i-th part is the one that the mix has already.
func (c Choice) Kept(i int) bool {
	place, _ := catalog.KindIndex(c.Parts[i].Kind())
	return c.kept&(1<<place) != 0
}

// Refusal is how many parts of a kind one rule refuses, each counted once: with the
// first rule that refuses it.
type Refusal struct {
	Rule, Kind string
	Parts      int
	Open       int // so many of them only because the rule is left open
}

const (
	usualLimit  = 10
	usualBudget = 5000
)

// bounded gives the query with its defaults.
func (q Query) bounded() Query {
	if q.Limit <= 0 {
		q.Limit = usualLimit
	}
	if q.Budget <= 0 {
		q.Budget = usualBudget
	}
	return q
}

// fault says what is wrong with the kinds of a query.
func (q Query) fault() error {
	for i, kind := range q.Kinds {
		if _, ok := catalog.Kind(kind); !ok {
			return fmt.Errorf("fit: there is no kind %q; %s", kind, catalog.SuggestKind(kind))
		}
		if slices.Contains(q.Kinds[:i], kind) {
			return fmt.Errorf("fit: the kind %s is named twice", kind)
		}
	}
	return nil
}

// priced is what a part costs; false where it is not to be had.
func (q *Query) priced(p catalog.Part) (cost, bool) {
	if q.Price == nil {
		return costOf(p), true
	}
	cents, ok := q.Price(p)
	return cost{cents: cents}, ok
}

// passes are what is allowed, one search after another, as long as too little is found.
func (q *Query) passes() []allowance {
	var out []allowance
	switch q.Warnings {
	case Last:
		out = []allowance{{}, {warns: true}}
	case None:
		out = []allowance{{}}
	default:
		out = []allowance{{warns: true}}
	}
	if q.Undecided {
		last := out[len(out)-1]
		last.open = true
		out = append(out, last)
	}
	return out
}

// allowance is what findings a choice may have beside passes.
type allowance struct{ warns, open bool }

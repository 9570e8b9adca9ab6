package compat

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Judge judges a mix rule by rule while its parts are exchanged: it works out only
// what the asked rule reads and what the last exchange has touched. Each answer is the
// finding of Check for the mix as it stands. It is for one goroutine; one Checker
// gives any number of them.
type Judge struct {
	checker   *Checker
	demand    *figures.Demand
	decider   *rules.Decider // nil for a Checker without rules
	completed map[*rules.Record]*rules.Record
}

// Judge makes one that begins with a mix. Close gives its memory back.
func (c *Checker) Judge(base Mix) *Judge {
	j := &Judge{checker: c, completed: map[*rules.Record]*rules.Record{}}
	records := base.facts.Records()
	for i, rec := range records {
		if rec != nil {
			records[i] = j.complete(i, rec)
		}
	}
	j.demand = figures.NewDemand(records)
	if c.set != nil {
		c.learn()
		j.decider = c.set.Decider(j.demand.Records())
	}
	return j
}

// complete gives a record with what is usual of it, or without, as the Checker has it.
// Parts that state the same share their record, so few are made.
func (j *Judge) complete(place int, rec *rules.Record) *rules.Record {
	out, ok := j.completed[rec]
	if !ok {
		if j.checker.noUsual {
			out = dropped(rec, nil)
		} else {
			out = filled(place, rec, nil)
		}
		j.completed[rec] = out
	}
	return out
}

// Put fits a part in the place of the one of its kind, as Mix.With does: what was
// measured stays. The zero Part changes nothing.
func (j *Judge) Put(p catalog.Part) {
	if place, ok := catalog.KindIndex(p.Kind()); ok {
		j.put(place, j.complete(place, p.Record()))
	}
}

// Measure takes what was measured at the bench from another mix.
func (j *Judge) Measure(m Mix) { j.put(benchPlace, m.facts.Bench()) }

func (j *Judge) put(place int, rec *rules.Record) {
	records := j.demand.Records()
	if records[place] == rec {
		return
	}
	j.demand.Put(place, rec)
	if j.decider != nil {
		j.decider.Put(place, records[place])
	}
}

// Rule judges by one rule, by its place in Rules().Rules(). It is false where the rule
// is not applied.
func (j *Judge) Rule(i int) (rules.Finding, bool) {
	if j.decider == nil {
		return rules.Finding{}, false
	}
	j.demand.Want(j.checker.needs[i])
	return j.decider.Decide(i)
}

// Value gives a fact as rules read it: as it is stated, measured or usual, or worked out;
// of a figure without a value also why.
func (j *Judge) Value(ref rules.Ref) (fact.Value, fact.Lack) {
	place := benchPlace
	if ref.Object == figures.Object {
		place = figuresPlace
		j.demand.Want(figures.MadeFrom(ref))
	} else if i, ok := catalog.KindIndex(ref.Object.Name()); ok {
		place = i
	}
	rec := j.demand.Records()[place]
	if rec == nil {
		return fact.Value{}, fact.Lack{}
	}
	return rec.Value(ref.Index), rec.Lack(ref.Index)
}

// Loose gives the facts of the part of a kind of which rules try other values too: those
// with a tolerance, and usual ones with a spread.
func (j *Judge) Loose(kind string) []rules.Ref {
	place, ok := catalog.KindIndex(kind)
	if !ok || j.demand.Records()[place] == nil {
		return nil
	}
	rec := j.demand.Records()[place]
	var out []rules.Ref
	for _, list := range [2][]int{rec.Toleranced(), rec.Spreads()} {
		for _, i := range list {
			out = append(out, rules.Ref{Object: rec.Object(), Index: i})
		}
	}
	return out
}

// Close gives the memory of a Judge back, which is not to be used afterwards.
func (j *Judge) Close() {
	if j.decider != nil {
		j.decider.Close()
	}
}

// learn finds out once which figures each rule needs.
func (c *Checker) learn() {
	c.once.Do(func() {
		c.needs = make([][]int, len(c.set.Rules()))
		for i, r := range c.set.Rules() {
			c.needs[i] = figures.Wanted(c.set.Reads(r))
		}
	})
}

// RuleReads gives the stated facts that a rule hangs on, through figures and through
// what is usual where one of them is not stated; those of the bench among them.
// Nothing else that is stated changes what the rule says, but whether a part is there.
func (c *Checker) RuleReads(r *rules.Rule) []rules.Ref {
	if c.set == nil {
		return nil
	}
	return slices.Clone(c.set.Facts(r))
}

// Reach gives the kinds of parts whose exchange can change what a rule says, in the
// order of catalog.KindNames: it reads them, or something that was measured on them.
func (c *Checker) Reach(r *rules.Rule) []string {
	var kinds uint64
	for _, ref := range c.RuleReads(r) {
		if ref.Object == figures.Bench {
			kinds |= figures.MeasuredOn(ref.Index)
		} else if i, ok := catalog.KindIndex(ref.Object.Name()); ok {
			kinds |= 1 << i
		}
	}
	var out []string
	for i, kind := range catalog.KindNames() {
		if kinds&(1<<i) != 0 {
			out = append(out, kind)
		}
	}
	return out
}

// benchPlace is where what was measured stands among the records.
var benchPlace = figuresPlace + 1

package main

import (
	"fmt"
	"regexp"
	"slices"
	"time"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	rulesprove "example.org/cogcourt/rules/prove"
)

// prove runs the examples of the rules, and on demand measures how well they pin
// the rules down.
func prove(o options, s stream) int {
	pattern, err := regexp.Compile(o.run)
	if err != nil {
		return usage(s, "prove", "--run: "+err.Error())
	}
	if !(o.min >= 0 && o.min <= 100) {
		return usage(s, "prove", "--min is a percentage, from 0 to 100")
	}
	o.rules = append(o.rules, o.args...)
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	start := time.Now()
	set := c.Rules().Only(pattern.MatchString)
	p := view.Proof{Rules: len(set.Rules()), WithCoverage: o.coverage || o.min > 0, WithMutants: o.mutants}
	if p.Rules == 0 {
		return usage(s, "prove", fmt.Sprintf("no rule's id matches %q; cogcourt rules lists them", o.run))
	}
	p.Wrong, p.Ran = set.Prove()
	if p.Ran == 0 {
		return usage(s, "prove", "there is no example to run; write examples: under a rule")
	}
	own, err := o.ownRules(c)
	if err != nil {
		return complain(s, err)
	}
	named := set.Only(func(id string) bool { return slices.Contains(own, id) })
	if len(named.Rules()) == 0 && (p.WithCoverage || p.WithMutants) {
		return usage(s, "prove", "there is nothing to measure: no such rule stands in what the command line names")
	}
	p.Bare, p.BarePacks = bare(named.Rules())
	if p.WithCoverage {
		if p.Coverage, err = rulesprove.Coverage(named); err != nil {
			return complain(s, err)
		}
	}
	if p.WithMutants {
		if p.Mutants, err = rulesprove.Mutants(named); err != nil {
			return complain(s, err)
		}
	}
	p.Took = time.Since(start)
	if err := view.Prove(s.out, p, o.format == "json"); err != nil {
		return complain(s, err)
	}
	return gate(p, o.min, s)
}

// ownRules gives the ids of the rules that are measured: those of the folders that
// the command line names, or all where it names none. The shipped rules stand
// before them, and are measured by tests of their own.
func (o options) ownRules(c *compat.Checker) ([]string, error) {
	all := c.Rules().Rules()
	if len(o.rules) > 0 && !o.noStandard {
		shipped, err := compat.New(compat.Config{})
		if err != nil {
			return nil, err
		}
		all = all[len(shipped.Rules().Rules()):]
	}
	var ids []string
	for _, r := range all {
		ids = append(ids, r.ID)
	}
	return ids, nil
}

// bare lists the rules without an example, and the packs in which no rule has one.
func bare(all []*rules.Rule) (without []*rules.Rule, packs []string) {
	proven := map[string]bool{}
	for _, r := range all {
		if len(r.Examples()) > 0 {
			proven[r.Pack] = true
		} else {
			without = append(without, r)
		}
	}
	for _, r := range without {
		if !proven[r.Pack] && !slices.Contains(packs, r.Pack) {
			packs = append(packs, r.Pack)
		}
	}
	return without, packs
}

// gate turns what was found into an exit status. With --min a share of coverage
// suffices; without it, a gap is shown and does not fail.
func gate(p view.Proof, minimum float64, s stream) int {
	status := exitOK
	if len(p.Wrong)+len(p.Mutants.Survivors())+len(p.Mutants.Stale)+len(p.Faults())+len(p.BarePacks) > 0 {
		status = exitFail
	}
	for _, pack := range p.BarePacks {
		fmt.Fprintf(s.err, "cogcourt prove: no rule of the pack %s has an example; write examples: under each\n", pack)
	}
	if share := p.Share(); p.WithCoverage && share < minimum {
		fmt.Fprintf(s.err, "cogcourt prove: the examples cover %.1f percent, and --min wants %g\n", share, minimum)
		status = exitFail
	}
	return status
}

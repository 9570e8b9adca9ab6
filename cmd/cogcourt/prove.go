package main

import (
	"fmt"
	"regexp"
	"time"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
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
		fmt.Fprintf(s.err, "cogcourt prove: no rule's id matches %q; cogcourt rules lists them\n", o.run)
		return exitLoad
	}
	p.Wrong, p.Ran = set.Prove()
	if p.Ran == 0 {
		fmt.Fprintln(s.err, "cogcourt prove: there is no example to run; write examples: under a rule")
		return exitLoad
	}
	if p.WithCoverage {
		p.Coverage = set.Coverage()
	}
	if p.WithMutants {
		if p.Mutants, err = set.Mutants(); err != nil {
			return complain(s, err)
		}
	}
	p.Took = time.Since(start)
	if err := view.Prove(s.out, p, o.format == "json"); err != nil {
		return complain(s, err)
	}
	return gate(p, o.min, s)
}

// gate turns what was found into an exit status. With --min a share of coverage
// suffices; without it, a gap is shown and does not fail.
func gate(p view.Proof, minimum float64, s stream) int {
	status := exitOK
	if len(p.Wrong) > 0 || len(p.Mutants.Survivors()) > 0 || len(p.Mutants.Stale) > 0 {
		status = exitFail
	}
	if share := p.Share(); p.WithCoverage && share < minimum {
		fmt.Fprintf(s.err, "cogcourt prove: the examples cover %.1f percent, and --min wants %g\n", share, minimum)
		status = exitFail
	}
	return status
}

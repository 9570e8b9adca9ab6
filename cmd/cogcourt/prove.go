package main

import (
	"flag"
	"fmt"
	"regexp"
	"time"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
)

// prove runs the examples of the rules, and on demand measures how well they pin
// the rules down.
func prove(args []string, s stream) int {
	var p view.Proof
	var run string
	var minimum float64
	l := line{name: "prove", args: args, formats: []string{"text", "json"}, flags: func(set *flag.FlagSet) {
		set.BoolVar(&p.WithCoverage, "coverage", false, "")
		set.BoolVar(&p.WithMutants, "mutants", false, "")
		set.StringVar(&run, "run", "", "")
		set.Float64Var(&minimum, "min", 0, "")
	}}
	o, status := l.parse(s)
	if status >= 0 {
		return status
	}
	pattern, err := regexp.Compile(run)
	if err != nil {
		return usage(s, "prove", "--run: "+err.Error())
	}
	o.rules = append(o.rules, o.args...)
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	start := time.Now()
	set := c.Rules().Only(pattern.MatchString)
	p.Rules = len(set.Rules())
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
	return gate(p, minimum, s)
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

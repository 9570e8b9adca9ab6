package main

import (
	"slices"
	"strings"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// check judges mixes and prints a report for each.
func check(o options, s stream) int {
	if len(o.args) == 0 {
		return usage(s, "check", "name at least one mix: a file, - for standard input, or demo:NAME; demos are "+strings.Join(demo.Mixes(), ", "))
	}
	if first := slices.Index(o.args, "-"); first >= 0 && slices.Contains(o.args[first+1:], "-") {
		return usage(s, "check", "- stands twice, and standard input can be read once")
	}
	if o.full && o.format != "jsonl" {
		return usage(s, "check", "--full goes with --format jsonl; json always holds every finding, and text does with --explain")
	}
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	if o.format == "jsonl" {
		return checkLines(o, s, c, cat)
	}
	status := exitOK
	var reports []compat.Report
	var answers []any // a report for each mix, or why there is none
	for _, name := range o.args {
		m, err := readMix(name, s.in, cat)
		if err != nil {
			tell(s, err)
			status = exitLoad
			answers = append(answers, view.FaultsOf(err))
			continue
		}
		r := c.Check(m)
		status = graver(status, verdictStatus(r.Verdict))
		reports, answers = append(reports, r), append(answers, r)
	}
	if o.format == "json" {
		err = view.JSON(s.out, answers)
	} else {
		view.Reports(s.out, reports, len(o.args)-len(reports),
			view.Style{Explain: o.explain, Colour: s.terminal && view.Colours(o.plain), Sources: c.Rules().Citations()})
	}
	if err != nil {
		return complain(s, err)
	}
	return status
}

// graver gives the exit status that counts of two.
func graver(a, b int) int {
	for _, s := range []int{exitLoad, exitFail, exitUnknown} {
		if a == s || b == s {
			return s
		}
	}
	return exitOK
}

// verdictStatus is the exit status of one verdict.
func verdictStatus(v rules.Verdict) int {
	switch v {
	case rules.Fail:
		return exitFail
	case rules.Unknown:
		return exitUnknown
	}
	return exitOK
}

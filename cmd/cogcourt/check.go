package main

import (
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
	if o.inputTwice() {
		return usage(s, "check", inputTwice)
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
	return judgeAll(o, s, sort[compat.Report]{
		judge: func(name string) (compat.Report, rules.Verdict, error) {
			m, err := readMix(name, s.in, cat)
			if err != nil {
				return compat.Report{}, 0, err
			}
			r := c.Check(m)
			return r, r.Verdict, nil
		},
		print: func(reports []compat.Report, broken int) { view.Reports(s.out, reports, broken, o.style(s, c)) },
	})
}

// sort says how files of one sort are judged and how their reports are printed;
// broken is the number of files that did not load.
type sort[R any] struct {
	judge func(name string) (R, rules.Verdict, error)
	print func(reports []R, broken int)
}

// judgeAll judges the files of a command line and prints what came of them. One
// that does not load is told, and the others are judged all the same.
func judgeAll[R any](o options, s stream, files sort[R]) int {
	status := exitOK
	var reports []R
	var answers []any // a report for each file, or why there is none
	for _, name := range o.args {
		r, verdict, err := files.judge(name)
		if err != nil {
			tell(s, err)
			status = exitLoad
			answers = append(answers, view.FaultsOf(err))
			continue
		}
		status = graver(status, verdictStatus(verdict))
		reports, answers = append(reports, r), append(answers, r)
	}
	if o.format != "json" {
		files.print(reports, len(o.args)-len(reports))
		return status
	}
	if len(answers) == 1 {
		return asJSON(s, answers[0], status)
	}
	return asJSON(s, answers, status)
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

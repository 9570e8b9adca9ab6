package main

import (
	"io"
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
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	cat, err := o.catalogue()
	if err != nil {
		return complain(s, err)
	}
	if o.format == "jsonl" {
		return checkLines(o, s, c, cat)
	}
	status := exitOK
	var reports []compat.Report
	for _, name := range o.args {
		m, err := readMix(name, s.in, cat)
		if err != nil {
			status = complain(s, err)
			continue
		}
		reports = append(reports, c.Check(m))
	}
	style := view.Style{Explain: o.explain, Colour: s.terminal && view.Colours(o.plain), Sources: c.Rules().Sources()}
	if err := printReports(reports, o, style, s.out); err != nil {
		return complain(s, err)
	}
	return worse(status, reports)
}

// worse gives the exit status of several reports, some of which may not exist.
func worse(status int, reports []compat.Report) int {
	if status == exitLoad {
		return status
	}
	for _, r := range reports {
		switch verdictStatus(r.Verdict) {
		case exitFail:
			return exitFail
		case exitUnknown:
			status = exitUnknown
		}
	}
	return status
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

// printReports prints one object for one mix and an array for several in JSON,
// and the reports one below the other in text.
func printReports(reports []compat.Report, o options, style view.Style, w io.Writer) error {
	if o.format == "json" {
		return view.JSON(w, reports, len(o.args) == 1)
	}
	view.Reports(w, reports, len(o.args)-len(reports), style)
	return nil
}

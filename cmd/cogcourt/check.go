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
		return usage(s, "check", "name at least one mix: a file, - for standard input, demo:NAME, or its parts as in "+
			oneLine+"; demos are "+strings.Join(demo.Mixes(), ", "))
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
	style, read := o.style(s, c), 0
	return judgeAll(o, s, sort[compat.Report]{
		files: asks(o.args),
		judge: func(of asked) (compat.Report, rules.Verdict, error) {
			m, err := of.read(s.in, cat)
			if err != nil {
				return compat.Report{}, 0, err
			}
			if read++; of.file == "" {
				style.Asked = read
			}
			style.Mends = append(style.Mends, o.mends(of))
			r := c.Check(m)
			return r, r.Verdict, nil
		},
		print: func(reports []compat.Report, broken int) error {
			switch o.format {
			case "html":
				return view.ReportsHTML(s.out, reports, broken, style)
			case "outline":
				return outlines(s, reports)
			}
			view.Reports(s.out, reports, broken, style)
			return nil
		},
	})
}

// outlines prints what is drawn of reports, for who draws it: a line of JSON for each.
func outlines(s stream, reports []compat.Report) error {
	for _, r := range reports {
		line, err := view.Line(r.Outline())
		if err != nil {
			return err
		}
		_, _ = s.out.Write(line) // run says where it could not be written
	}
	return nil
}

// mends is how to ask what would mend a mix, where there is a catalogue for its parts:
// the demo's for the demo's own, else that of --parts.
func (o options) mends(of asked) string {
	if len(o.parts) == 0 && !strings.HasPrefix(of.file, "demo:") {
		return ""
	}
	words := []string{"cogcourt", "swap"}
	switch of.file {
	case "":
		for _, a := range of.line {
			words = append(words, shellWord(a.whole))
		}
	case "-":
		words = append(words, "FILE")
	default:
		words = append(words, shellWord(of.file))
	}
	for _, dir := range o.parts {
		words = append(words, "--parts", shellWord(dir))
	}
	for _, dir := range o.rules {
		words = append(words, "--rules", shellWord(dir))
	}
	if o.noStandard {
		words = append(words, "--no-standard")
	}
	if o.noUsual {
		words = append(words, "--no-usual")
	}
	return strings.Join(words, " ")
}

// shellWord writes an argument so that a shell reads it as one.
func shellWord(arg string) string {
	plain := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("-_./:=,+@%", r)
	}
	if arg != "" && strings.IndexFunc(arg, func(r rune) bool { return !plain(r) }) < 0 {
		return arg
	}
	return "'" + strings.ReplaceAll(arg, "'", `'\''`) + "'"
}

// sort says how files of one sort are judged and how their reports are printed;
// broken is the number of files that did not load.
type sort[R any] struct {
	files []asked // a mix that stands on the line is one of them
	judge func(of asked) (R, rules.Verdict, error)
	print func(reports []R, broken int) error
}

// judgeAll judges the mixes or carts of a command line and prints what came of them. One
// that does not load is told, and the others are judged all the same.
func judgeAll[R any](o options, s stream, sorted sort[R]) int {
	status := exitOK
	var reports []R
	var answers []any // a report for each file, or why there is none
	for _, of := range sorted.files {
		r, verdict, err := sorted.judge(of)
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
		if err := sorted.print(reports, len(sorted.files)-len(reports)); err != nil {
			return complain(s, err)
		}
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

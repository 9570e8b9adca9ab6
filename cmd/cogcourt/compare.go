package main

import (
	"slices"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
)

// compareMixes prints what is another finding in the second mix than in the
// first. The exit status is that of the second: of what is to be ridden.
func compareMixes(o options, s stream) int {
	mixes := asks(o.args)
	if fault := notTwo(mixes); fault != "" {
		return usage(s, "compare", fault)
	}
	if o.inputTwice() {
		return usage(s, "compare", inputTwice)
	}
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	var reports [2]compat.Report
	var faults error
	for i, of := range mixes {
		m, err := of.read(s.in, cat)
		if err != nil {
			faults = together(faults, err)
			continue
		}
		reports[i] = c.Check(m)
	}
	if faults != nil {
		return complain(s, faults)
	}
	change := compat.Compare(reports[0], reports[1])
	status := verdictStatus(change.After.Verdict)
	if o.format == "json" {
		return asJSON(s, change, status)
	}
	if o.format == "html" {
		return page(s, view.ChangeHTML(s.out, change, o.style(s, c)), status)
	}
	view.Change(s.out, change, o.style(s, c))
	return status
}

// notTwo says why the arguments are not two mixes, of which it is clear which one
// comes first. All with = together are one.
func notTwo(mixes []asked) string {
	const wanted = "name two mixes, the bicycle as it is and as it will be"
	line := slices.IndexFunc(mixes, func(m asked) bool { return m.file == "" })
	switch {
	case line < 0 && len(mixes) != 2:
		return wanted
	case line >= 0 && len(mixes) != 2:
		return wanted + "; all arguments with = are one mix together, and beside it stands one file, - or demo:NAME"
	case line >= 0 && mixes[line].apart:
		return "arguments with = stand on both sides of " + mixes[1-line].file + ", and are one mix together: put them all in front of it or all behind it"
	}
	return ""
}

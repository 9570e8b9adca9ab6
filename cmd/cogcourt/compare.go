package main

import (
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
)

// compareMixes prints what is another finding in the second mix than in the
// first. The exit status is that of the second: of what is to be ridden.
func compareMixes(o options, s stream) int {
	if len(o.args) != 2 {
		return usage(s, "compare", "name two mixes, the bicycle as it is and as it will be")
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
	for i, name := range o.args {
		m, err := readMix(name, s.in, cat)
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
	view.Change(s.out, change, o.style(s, c))
	return status
}

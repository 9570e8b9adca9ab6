package main

import (
	"flag"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
)

// sheet prints how to set a mix up, or the block to write the finished job into.
func sheet(args []string, s stream) int {
	asBuilt := false
	o, status := line{name: "sheet", args: args, formats: []string{"text", "json", "markdown"}, flags: func(set *flag.FlagSet) {
		set.BoolVar(&asBuilt, "as-built", false, "")
	}}.parse(s)
	if status >= 0 {
		return status
	}
	if len(o.args) != 1 {
		return usage(s, "sheet", "name one mix")
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	cat, err := o.catalogue()
	if err != nil {
		return complain(s, err)
	}
	m, err := readMix(o.args[0], s.in, cat)
	if err != nil {
		return complain(s, err)
	}
	made := c.Sheet(m)
	switch {
	case asBuilt:
		view.AsBuilt(s.out, made)
	case o.format == "json":
		if err := view.SheetJSON(s.out, made); err != nil {
			return complain(s, err)
		}
	case o.format == "markdown":
		view.SheetMarkdown(s.out, made)
	default:
		view.Sheet(s.out, made)
	}
	return verdictStatus(made.Verdict)
}

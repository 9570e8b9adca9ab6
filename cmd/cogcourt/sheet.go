package main

import "example.org/cogcourt/cmd/cogcourt/internal/view"

// sheet prints how to set a mix up, or the block to write the finished job into.
func sheet(o options, s stream) int {
	mixes := asks(o.args)
	if len(mixes) != 1 {
		return usage(s, "sheet", "name one mix: a file, - for standard input, demo:NAME, or its parts as in "+oneLine)
	}
	if o.asBuilt && o.format != "text" {
		return usage(s, "sheet", "--as-built prints YAML to put into the mix; leave --format out")
	}
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	m, err := mixes[0].read(s.in, cat)
	if err != nil {
		return complain(s, err)
	}
	made := c.Sheet(m)
	switch {
	case o.asBuilt:
		view.AsBuilt(s.out, made)
	case o.format == "json":
		return asJSON(s, made, verdictStatus(made.Verdict))
	case o.format == "markdown":
		view.SheetMarkdown(s.out, made)
	case o.format == "html":
		return page(s, view.SheetHTML(s.out, made), verdictStatus(made.Verdict))
	default:
		view.Sheet(s.out, made)
	}
	return verdictStatus(made.Verdict)
}

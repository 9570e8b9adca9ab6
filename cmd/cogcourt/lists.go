package main

import (
	"fmt"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
)

// listRules prints a line or two for each rule.
func listRules(o options, s stream) int {
	if len(o.args) > 0 {
		return usage(s, "rules", "takes no arguments; cogcourt rule "+o.args[0]+" shows one rule")
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	if o.sources {
		if o.format == "html" {
			return usage(s, "rules", "--sources prints text; each rule of --format html says what it rests on")
		}
		view.Sources(s.out, c.Rules())
		return exitOK
	}
	if o.format == "markdown" {
		view.RulesMarkdown(s.out, c.Rules())
		return exitOK
	}
	if o.format == "html" {
		return page(s, view.RulesHTML(s.out, c.Rules()), exitOK)
	}
	view.Rules(s.out, c.Rules())
	return exitOK
}

// showRule prints one rule whole.
func showRule(o options, s stream) int {
	if len(o.args) != 1 {
		return usage(s, "rule", "name one rule; cogcourt rules lists them")
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	r, ok := c.Rules().Rule(o.args[0])
	if !ok {
		var ids []string
		for _, r := range c.Rules().Rules() {
			ids = append(ids, r.ID)
		}
		return usage(s, "rule", fmt.Sprintf("there is no rule %q", o.args[0])+near(o.args[0], ids))
	}
	view.Rule(s.out, c.Rules(), r)
	return exitOK
}

package main

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/schema"
	"example.org/cogcourt/rules/source"
)

// printSchema prints the JSON Schema of one kind of file.
func printSchema(args []string, s stream) int {
	o, status := line{name: "schema", args: args, formats: []string{"json"}}.parse(s)
	if status >= 0 {
		return status
	}
	known := strings.Join(schema.Names(), ", ")
	if len(o.args) != 1 {
		return usage(s, "schema", "name one of "+known)
	}
	of, ok := schema.Of(o.args[0])
	if !ok {
		return usage(s, "schema", fmt.Sprintf("there is no schema of %q; known are %s", o.args[0], known))
	}
	enc := json.NewEncoder(s.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(of); err != nil {
		return complain(s, err)
	}
	return exitOK
}

var ruleID = regexp.MustCompile(`^[a-z0-9-]+(/[a-z0-9-]+)+$`)

// newRule prints a rule file that loads and proves, for an author to change.
func newRule(args []string, s stream) int {
	o, status := line{name: "new", args: args, formats: []string{"text"}}.parse(s)
	if status >= 0 {
		return status
	}
	if len(o.args) != 1 {
		return usage(s, "new", "name the rule, such as my-shop/largest-cog")
	}
	id := o.args[0]
	if !ruleID.MatchString(id) {
		return usage(s, "new", fmt.Sprintf("%q is no id for a rule; write group/name, with a-z, 0-9 and -", id))
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	if _, taken := c.Rules().Rule(id); taken {
		return usage(s, "new", fmt.Sprintf("there is a rule %s already; cogcourt rule %s shows it", id, id))
	}
	pack, _, _ := strings.Cut(id, "/")
	fmt.Fprintf(s.out, ruleTemplate, pack, id)
	return exitOK
}

// ruleTemplate is a whole rule with everything that an author may want to change.
// The modeline at its end lets an editor indent it as YAML.
const ruleTemplate = `# Words that the conditions may use: cogcourt words
# Does it do what it means? Put this file into a folder and run: cogcourt prove --coverage --mutants FOLDER
pack: %s
edition: 1
rules:
  - id: %s
    title: The largest cog is no larger than our workshop fits        # says the good state
    why: Say here why it matters, in one sentence.
    when: stated(cassette.cogs_t)                                     # where the rule has something to say
    let:
      largest: last(cassette.cogs_t)                                  # names for what is used twice
    fail_if: largest > 52                                             # the rule fails where this is true
    warn_if: largest > 46                                             # else it warns where this is true
    say: "The largest cog has {largest} teeth."
    pass: "The largest cog has {largest} teeth, up to 46 are fine."
    remedy: A cassette with a largest cog of 46 teeth or fewer.
    basis: {practice: "who says so"}                                  # or source, geometry; memory may only warn
    examples:                                                         # one on either side of each limit
      - {name: small, given: {cassette: {cogs_t: [11, 13, 46]}}, want: pass}
      - {name: a tooth over, given: {cassette: {cogs_t: [11, 13, 47]}}, want: warn}
      - {name: largest of all, given: {cassette: {cogs_t: [11, 13, 52]}}, want: warn}
      - {name: too large, given: {cassette: {cogs_t: [11, 13, 53]}}, want: fail}
      - {name: no cassette, given: {}, want: not_applied}
# vim: set ft=yaml sw=2 et:
`

// suggest makes a hint part of a sentence.
func suggest(name string, known []string) string {
	if hint := source.Suggest(name, known); hint != "" {
		return "; " + hint
	}
	return ""
}

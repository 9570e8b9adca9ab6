package main

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/schema"
	"example.org/cogcourt/rules"
)

// printSchema prints the JSON Schema of one kind of file.
func printSchema(o options, s stream) int {
	known := schema.Names()
	if len(o.args) != 1 {
		return usage(s, "schema", "name one of "+strings.Join(known, ", "))
	}
	of, ok := schema.Of(o.args[0])
	if !ok {
		return usage(s, "schema", fmt.Sprintf("there is no schema of %q", o.args[0])+near(o.args[0], known))
	}
	return asJSON(s, of, exitOK)
}

// newFile prints a file to begin from: a mix, parts, or a rule.
func newFile(o options, s stream) int {
	what := ""
	if len(o.args) > 0 {
		what = o.args[0]
	}
	switch {
	case what == "mix":
		return newMix(o, s)
	case o.like != "":
		return usage(s, "new", "--like goes with mix: cogcourt new mix --like "+o.like)
	case len(o.parts) > 0:
		return usage(s, "new", "--parts goes with mix and --like, which names parts")
	case what == "part":
		return newParts(o, s)
	}
	return newRule(o, s)
}

// newRule prints a rule file that loads and proves, for an author to change.
func newRule(o options, s stream) int {
	if len(o.args) != 1 {
		return usage(s, "new", "name the rule, such as my-shop/largest-cog, or write mix, or part and a kind")
	}
	id := o.args[0]
	if !rules.ValidID(id) {
		if noKind([]string{id}) == "" {
			return usage(s, "new", fmt.Sprintf("%q is a kind; cogcourt new part %s prints a part to begin from", id, id))
		}
		return usage(s, "new", fmt.Sprintf("%q is no id for a rule; write group/name, with a-z, 0-9 and -, or mix, or part and a kind", id))
	}
	if !o.noStandard || len(o.rules) > 0 { // else there is no rule that could have the id
		c, err := o.checker()
		if err != nil {
			return complain(s, err)
		}
		if _, taken := c.Rules().Rule(id); taken {
			return usage(s, "new", fmt.Sprintf("there is a rule %s already; cogcourt rule %s shows it", id, id))
		}
	}
	pack, _, _ := strings.Cut(id, "/")
	fmt.Fprintf(s.out, ruleTemplate, asText(pack), asText(id))
	return exitOK
}

var plainWord = regexp.MustCompile(`^[a-z][a-z0-9/-]*$`)

// asText writes a word so that YAML reads it as a text: 9 and true are none.
func asText(word string) string {
	if plainWord.MatchString(word) && word != "true" && word != "false" && word != "null" {
		return word
	}
	return strconv.Quote(word)
}

// ruleTemplate is a whole rule with everything that an author may want to change.
// Remarks stand on lines of their own: behind a text they would be refused. The
// modeline at its end lets an editor indent it as YAML.
const ruleTemplate = `# Words that the conditions may use: cogcourt words
# Does it do what it means? Put this file into a folder and run:
#   cogcourt prove --coverage --mutants FOLDER
pack: %s
edition: 1
rules:
  - id: %s
    # The title says the good state, why says what goes wrong without it.
    title: The largest cog is no larger than our workshop fits
    why: Say here why it matters, in one sentence.
    # The rule has something to say where this is true.
    when: stated(cassette.cogs_t)
    # Names for what is used more than once.
    let:
      largest: last(cassette.cogs_t)
    # It fails where fail_if is true, else it warns where warn_if is true, else it passes.
    fail_if: largest > 52
    warn_if: largest > 46
    # Texts print what stands in braces. Put texts with a brace, a colon or a # in quotes.
    say: "The largest cog has {largest} teeth."
    pass: "The largest cog has {largest} teeth, up to 46 are fine."
    remedy: A cassette with a largest cog of 46 teeth or fewer.
    # What the rule rests on: practice, source or geometry; on memory alone it may only warn.
    basis: {practice: "who says so"}
    # One on either side of each limit, and one for each thing that the rule can give.
    examples:
      - {name: small, given: {cassette: {cogs_t: [11, 13, 46]}}, want: pass}
      - {name: a tooth over, given: {cassette: {cogs_t: [11, 13, 47]}}, want: warn}
      - {name: largest of all, given: {cassette: {cogs_t: [11, 13, 52]}}, want: warn}
      - {name: too large, given: {cassette: {cogs_t: [11, 13, 53]}}, want: fail}
      - {name: no cassette, given: {}, want: not_applied}
# vim: set ft=yaml sw=2 et:
`

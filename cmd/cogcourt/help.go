package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/schema"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
)

// flagLine says what a flag does; value is empty for one that is there or not.
type flagLine struct{ name, value, does string }

// flagHelp lists the flags in the order in which the help shows them.
var flagHelp = [...]flagLine{
	{"parts", "DIR", "folder of part files, instead of the demo; repeatable"},
	{"kind", "KIND", "a kind to choose, or to exchange; repeatable"},
	{"have", "DIR", "choose from the parts of this folder alone; repeatable"},
	{"budget", "SUM", "the most that a choice may cost"},
	{"limit", "N", "how many choices; unless stated 10, of swap 5"},
	{"most", "N", "how many parts are exchanged at most, 3 unless stated"},
	{"why", "ID", "why this part goes on the mix, or does not"},
	{"audit", "", "what goes with what, and what goes with nothing"},
	{"mend", "", "also the smallest exchange that mends a failing bike"},
	{"rules", "DIR", "folder of more rule files; repeatable"},
	{"no-standard", "", "leave the standard rules out"},
	{"no-usual", "", "take nothing as usual, by a count or by a class"},
	{"output", "FILE", "a new file for the mix with its answers"},
	{"like", "MIX", "begin from this mix and what its report misses"},
	{"explain", "", "also show why, values used, gears, passes and the rest"},
	{"full", "", "with jsonl: also the findings that pass"},
	{"as-built", "", "print a block to fill in when the job is done"},
	{"coverage", "", "show outcomes and conditions that no example reaches"},
	{"mutants", "", "show small changes of rules that no example notices"},
	{"sources", "", "show what the rules rest on, and which rest on memory"},
	{"usual", "", "the usual classes, which stand in where nobody measured"},
	{"run", "REGEXP", "only rules whose id matches"},
	{"min", "N", "least coverage in percent, else the exit status is 1"},
	{"plain", "", "no colours; of a report a finding a line, with tabs"},
}

// help prints the list of commands.
func help(w io.Writer) {
	fmt.Fprint(w, "cogcourt judges whether the drivetrain parts of one bicycle go together.\n\nCommands:\n")
	for _, c := range commands() {
		fmt.Fprintf(w, "  %-17s %s\n", c.name+" "+c.args, c.does)
	}
	fmt.Fprint(w, `
Flags may stand before or after the arguments; cogcourt help COMMAND lists those
of a command.

Exit status: 0 every mix or cart passes or warns, 1 some fails, 4 none fails and
some is unknown, 3 a file did not load, 2 wrong use. Of fit and swap: 0 they
found something, 1 nothing, 4 only what is undecided.

Try: cogcourt check demo:ferry-motor
`)
}

// helpOn prints the help, or that of the named command.
func helpOn(names []string, s stream) int {
	if len(names) == 0 {
		help(s.out)
		return exitOK
	}
	for _, c := range commands() {
		if c.name == names[0] {
			c.help(s.out)
			return exitOK
		}
	}
	return unknownCommand(names[0], s)
}

// help prints what one command does, its flags and an example of use.
func (c command) help(w io.Writer) {
	fmt.Fprintf(w, "%s\n\n%s.\n", strings.TrimSpace("cogcourt "+c.name+" "+c.args), view.Capital(c.does))
	if len(c.formats) > 1 {
		fmt.Fprintf(w, "\n  --format %-11s %s by default\n", strings.Join(c.formats, "|"), c.formats[0])
	} else {
		fmt.Fprintln(w)
	}
	for _, f := range flagHelp {
		if c.takes(f.name) {
			fmt.Fprintf(w, "  --%-18s %s\n", strings.TrimSpace(f.name+" "+f.value), f.does)
		}
	}
	if more := examples(c.name); more != "" {
		fmt.Fprintf(w, "\n%s", more)
	}
}

// takes says whether a flag is for this command.
func (c command) takes(flag string) bool {
	return flag == "format" || flag == "plain" || slices.Contains(c.flags, flag)
}

// examples are command lines to begin with.
func examples(command string) string {
	if command == "schema" {
		var b strings.Builder
		b.WriteString("  cogcourt schema mix > mix.schema.json\n\nNAME is one of\n")
		view.Listed(&b, schema.Names())
		return b.String()
	}
	for _, e := range exampleLines {
		if e.command == command {
			return e.lines
		}
	}
	return ""
}

// exampleLines are those of each command that has any.
var exampleLines = [...]struct{ command, lines string }{
	{"check", `  cogcourt check demo:ferry-motor
  cogcourt check chain.speeds=9 cassette=reedbed-12-10-51
  cogcourt check --rules my-rules bike.yaml
  cogcourt check --plain bike.yaml | grep ^fail
  cogcourt check --format json - < bike.yaml
  cogcourt check --format jsonl - < mixes.jsonl > reports.jsonl

All arguments with = are one mix together: kind=id, kind.field=value,
bench.field=value, mix=NAME, scope=bike. Lists have commas, tolerances a ±.
`},
	{"cart", `  cogcourt cart demo:order
  cogcourt cart --parts our-parts order.yaml
  cogcourt cart --format json - < order.json
`},
	{"compare", `  cogcourt compare bike.yaml bike-with-new-cassette.yaml
  cogcourt compare bike.yaml chain.speeds=9 cassette=reedbed-12-10-51
`},
	{"fit", `  cogcourt fit demo:fleet-three-faults --kind cassette
  cogcourt fit bike.yaml --kind cassette --kind chain --budget 150
  cogcourt fit bike.yaml --kind rear_derailleur --have box
  cogcourt fit demo:fleet-three-faults --why lantern-12-10-50

The part that the mix has is a choice too, and costs nothing. What fails
whatever is chosen is told apart. Exit status: 0 where something goes, 1 where
nothing does, 4 where it is undecided of all that might.
`},
	{"swap", `  cogcourt swap demo:fleet-three-faults
  cogcourt swap bike.yaml --parts our-parts --kind cassette --kind chain
  cogcourt swap bike.yaml --have box --most 2

Afterwards nothing fails, and nothing is open that was not. All kinds of the mix
are for exchange but the frame; --kind names others. Exit status: 0 where an
exchange mends it, 1 where none does, 4 where it would leave something open.
`},
	{"values", `  cogcourt values demo:cart-chain-cassette chain.outer_width_mm
  cogcourt values chain.speeds=10 cassette=reedbed-12-10-51 chain.outer_width_mm
  cogcourt values --format json bike.yaml bench.spacer_behind_mm
`},
	{"ask", `  cogcourt ask demo:donated-undecided
  cogcourt ask --output answered.yaml bike.yaml
  cogcourt ask --format json bike.yaml

On a terminal it puts one question after the other: ? or nothing for don't know,
q to stop. Elsewhere it prints the next one. Exit status: 0 where the mix is
decided, 4 while something is open.
`},
	{"prove", `  cogcourt prove --coverage --mutants my-rules
  cogcourt prove --no-standard --run '^my-shop/' my-rules
`},
	{"words", `  cogcourt words cassette
  cogcourt words pitch_mm
  cogcourt words jockey wheel
`},
	{"parts", `  cogcourt parts cassette
  cogcourt parts --usual rear_shifter
  cogcourt parts usual-cassette-11-378-road
`},
	{"new", `  mkdir my-rules
  cogcourt new my-shop/largest-cog > my-rules/mine.yaml
  cogcourt prove --coverage --mutants my-rules
  cogcourt new mix > bike.yaml
  cogcourt new mix --like demo:donated-undecided
  cogcourt new part chain > my-parts/chain.yaml

A rule has an id with a / in it. Behind part stands its kind or several, behind
mix the kinds that you have; those of a whole bicycle where none is named.
`},
}

// version prints the tool's version.
func version(o options, s stream) int {
	if len(o.args) > 0 {
		return usage(s, "version", "takes no arguments")
	}
	fmt.Fprintln(s.out, "cogcourt "+compat.Version)
	return exitOK
}

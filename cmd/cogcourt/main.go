// Command cogcourt says whether the drivetrain parts of one bicycle work
// together, why, what would mend it, and with which values it is set up.
//
// It is a thin front to the packages compat, catalog and rules. Run it without
// arguments for its commands.
package main

import (
	"fmt"
	"io"
	"os"

	"example.org/cogcourt/rules/source"
)

// Exit statuses. Where several apply, a file that did not load beats a fail, and
// a fail beats an unknown.
const (
	exitOK      = 0 // every mix passes or warns
	exitFail    = 1 // some mix fails, or an example or gate does
	exitUsage   = 2 // the command line is wrong
	exitLoad    = 3 // a file did not load
	exitUnknown = 4 // no mix fails, some is unknown
)

func main() {
	os.Exit(run(os.Args[1:], stream{os.Stdin, os.Stdout, os.Stderr}))
}

// stream is where a command reads and writes: results on out, the rest on err.
type stream struct {
	in       io.Reader
	out, err io.Writer
}

// command is one line of the table below.
type command struct {
	name string
	args string
	does string
	run  func(args []string, s stream) int
}

// commands lists every command in the order in which the help shows them.
func commands() []command {
	return []command{
		{"check", "MIX...", "judge mixes: files, - for standard input, demo:NAME", check},
		{"sheet", "MIX", "how to set a mix up, in bench order; --as-built prints a block to fill in", sheet},
		{"rules", "", "list the rules", listRules},
		{"rule", "ID", "show one rule with its reason, limits and examples", showRule},
		{"prove", "[DIR...]", "run the examples of the rules; --coverage, --mutants, --run REGEXP, --min N", prove},
		{"words", "[WORD]", "list what rules and parts may speak of, and how to measure it", words},
		{"schema", "NAME", "print the JSON Schema of parts, mix, rules or report", printSchema},
		{"new", "ID", "print a rule file that loads, to begin from", newRule},
		{"parts", "", "list the parts of the catalogue", parts},
		{"version", "", "print the version", version},
	}
}

// run carries out one command line and returns the exit status.
func run(args []string, s stream) int {
	if len(args) == 0 || args[0] == "help" || args[0] == "-h" || args[0] == "--help" {
		help(s.out)
		if len(args) == 0 {
			return exitUsage
		}
		return exitOK
	}
	var names []string
	for _, c := range commands() {
		if c.name == args[0] {
			return c.run(args[1:], s)
		}
		names = append(names, c.name)
	}
	fmt.Fprintf(s.err, "cogcourt: there is no command %q", args[0])
	if hint := source.Suggest(args[0], names); hint != "" {
		fmt.Fprintf(s.err, " (%s)", hint)
	}
	fmt.Fprintln(s.err, "; run cogcourt help")
	return exitUsage
}

func help(w io.Writer) {
	fmt.Fprint(w, "cogcourt judges whether the drivetrain parts of one bicycle work together.\n\nCommands:\n")
	for _, c := range commands() {
		fmt.Fprintf(w, "  %-18s %s\n", c.name+" "+c.args, c.does)
	}
	fmt.Fprint(w, `
Flags, before or after the arguments:
  --format text|json     how results are printed (text)
  --parts DIR            part files to find ids in, instead of the demo; repeatable
  --rules DIR            more rule files; repeatable
  --no-standard          leave the standard rules out
  --explain              also show what passed, what did not apply, and the values used
  --plain                no colours

Exit status: 0 all pass or warn, 1 some fail, 4 some unknown, 3 a file did not
load, 2 wrong use. Try: cogcourt check demo:ferry-motor
`)
}

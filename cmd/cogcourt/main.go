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
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/fact"
)

// Exit statuses. Where several apply, a file that did not load beats a fail, and
// a fail beats an unknown.
const (
	exitOK      = 0 // every mix or cart passes or warns
	exitFail    = 1 // some fails, or an example or gate does
	exitUsage   = 2 // the command line is wrong
	exitLoad    = 3 // a file did not load
	exitUnknown = 4 // none fails, some is unknown
)

func main() {
	os.Exit(run(os.Args[1:], stream{in: os.Stdin, out: os.Stdout, err: os.Stderr,
		terminal: view.Terminal(os.Stdout), screen: view.SizeOf(os.Stdout), typed: view.Terminal(os.Stdin)}))
}

// stream is where a command reads and writes: results on out, the rest on err.
type stream struct {
	in       io.Reader
	out, err io.Writer
	terminal bool      // out is looked at by a person
	screen   view.Size // how much of out that person sees at once
	typed    bool      // in is written by one
	format   string    // in which the command prints; faults take it as well
}

// command is one line of the table below: its words in the help, the formats
// that it prints, the first by default, and the flags that it takes beside
// --format and --plain.
type command struct {
	name    string
	args    string
	does    string
	formats []string
	flags   []string
	run     func(o options, s stream) int
}

// commands lists every command in the order in which the help shows them.
func commands() []command {
	text, textJSON := []string{"text"}, []string{"text", "json"}
	ruleFlags := []string{"rules", "no-standard"}
	return []command{
		{"check", "MIX...", "judge mixes: files, -, demo:NAME, or kind.field=value", []string{"text", "json", "jsonl", "html", "outline"},
			[]string{"parts", "rules", "no-standard", "no-usual", "explain", "full", "brief"}, check},
		{"cart", "CART...", "judge a shop's carts, line by line: files, -, demo:order", textJSON,
			[]string{"mend", "parts", "rules", "no-standard", "no-usual", "explain"}, checkCarts},
		{"compare", "MIX MIX", "what a change makes new, worse, better or gone, and why", []string{"text", "json", "html"},
			[]string{"parts", "rules", "no-standard", "no-usual"}, compareMixes},
		{"fit", "MIX", "which parts of some kinds go on a mix, the best first", []string{"text", "json", "html"},
			[]string{"kind", "parts", "have", "budget", "limit", "why", "rules", "no-standard", "no-usual"}, fitParts},
		{"swap", "MIX", "the smallest exchange of parts that mends a mix that fails", textJSON,
			[]string{"kind", "parts", "have", "budget", "limit", "most", "why", "rules", "no-standard", "no-usual"}, swap},
		{"values", "MIX FACT", "over which values of one fact a mix passes, warns or fails", textJSON,
			[]string{"parts", "rules", "no-standard", "no-usual"}, values},
		{"ask", "MIX", "put the questions that decide a mix, the most useful first", textJSON,
			[]string{"parts", "rules", "no-standard", "no-usual", "output"}, ask},
		{"sheet", "MIX", "how to set a mix up, in bench order", []string{"text", "json", "markdown", "html"},
			[]string{"parts", "rules", "no-standard", "no-usual", "as-built"}, sheet},
		{"rules", "", "list the rules", []string{"text", "markdown", "html"},
			[]string{"rules", "no-standard", "sources"}, listRules},
		{"rule", "ID", "show one rule with its reason, limits and examples", text, ruleFlags, showRule},
		{"prove", "[DIR...]", "run the examples of the rules, also of those in folders", textJSON,
			[]string{"rules", "no-standard", "coverage", "mutants", "run", "min"}, prove},
		{"words", "[WORD...]", "list what parts state and rules read, and how to measure it",
			[]string{"text", "json", "markdown"}, nil, words},
		{"schema", "NAME", "print the JSON Schema of a file or of an answer", []string{"json"}, nil, printSchema},
		{"new", "ID|mix|part", "print a rule, a mix or a part to begin from", text,
			[]string{"parts", "rules", "no-standard", "like"}, newFile},
		{"parts", "[KIND|ID]", "list the parts of the catalogue, or show all facts of one", textJSON,
			[]string{"parts", "usual", "audit", "rules", "no-standard", "no-usual"}, parts},
		{"version", "", "print the version", text, nil, version},
	}
}

// run carries out one command line and returns the exit status. What could not
// be written counts as a file that did not load: the reader has not got it.
func run(args []string, s stream) int {
	out := &watched{Writer: s.out}
	s.out = out
	status := dispatch(args, s)
	if out.err != nil {
		fmt.Fprintln(s.err, "cogcourt: the output could not be written:", view.Clean(plain(out.err).Error()))
		return exitLoad
	}
	return status
}

// watched keeps the first error of a writer.
type watched struct {
	io.Writer
	err error
}

func (w *watched) Write(b []byte) (int, error) {
	n, err := w.Writer.Write(b)
	if w.err == nil {
		w.err = err
	}
	return n, err
}

// dispatch finds the command and runs it.
func dispatch(args []string, s stream) int {
	if len(args) == 0 {
		help(s.err)
		return exitUsage
	}
	name, rest := args[0], args[1:]
	switch name {
	case "help", "-h", "-help", "--help":
		return helpOn(rest, s)
	case "-version", "--version":
		name = "version"
	}
	for _, c := range commands() {
		if c.name != name {
			continue
		}
		o, status := c.parse(rest, s)
		if status >= 0 {
			return status
		}
		s.format = o.format
		return c.run(o, s)
	}
	return unknownCommand(name, s)
}

func unknownCommand(name string, s stream) int {
	if len(name) > 1 && name[0] == '-' {
		return usage(s, "", "the command comes first, then its flags; run cogcourt help")
	}
	if _, err := os.Stat(name); err == nil || strings.HasPrefix(name, "demo:") {
		judge := "check"
		if _, root, err := inputTree(name, s.in, cart.FileLimits()); err == nil && sortOf(root) == "cart" {
			judge = "cart"
		}
		return usage(s, "", fmt.Sprintf("%q is no command; cogcourt %s %s judges it", name, judge, name))
	}
	if assigns(name) {
		return usage(s, "", fmt.Sprintf("%q is no command; cogcourt check %s judges a mix on the line", name, name))
	}
	var names []string
	for _, c := range commands() {
		names = append(names, c.name)
	}
	hint := fact.Nearest(name, names)
	if hint != "" {
		hint = "; did you mean " + hint + "?"
	}
	return usage(s, "", fmt.Sprintf("there is no command %q%s (cogcourt help lists them)", name, hint))
}

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// options are a command line, taken apart.
type options struct {
	format     string
	parts      []string
	rules      []string
	noStandard bool
	noUsual    bool
	explain    bool
	full       bool
	asBuilt    bool
	plain      bool
	coverage   bool
	mutants    bool
	sources    bool
	like       string
	output     string
	usual      bool
	run        string
	min        float64
	kinds      []string
	have       []string
	why        string
	budget     string
	limit      int
	most       int
	audit      bool
	mend       bool
	args       []string
}

// flags declares every flag there is; a command refuses those that it does not
// take with a sentence of its own.
func (o *options) flags() *flag.FlagSet {
	set := flag.NewFlagSet("", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.StringVar(&o.format, "format", o.format, "")
	set.Func("parts", "", func(dir string) error { o.parts = append(o.parts, dir); return nil })
	set.Func("rules", "", func(dir string) error { o.rules = append(o.rules, dir); return nil })
	set.BoolVar(&o.noStandard, "no-standard", false, "")
	set.BoolVar(&o.noUsual, "no-usual", false, "")
	set.BoolVar(&o.explain, "explain", false, "")
	set.BoolVar(&o.full, "full", false, "")
	set.BoolVar(&o.asBuilt, "as-built", false, "")
	set.BoolVar(&o.plain, "plain", false, "")
	set.BoolVar(&o.coverage, "coverage", false, "")
	set.BoolVar(&o.mutants, "mutants", false, "")
	set.BoolVar(&o.sources, "sources", false, "")
	set.StringVar(&o.like, "like", "", "")
	set.StringVar(&o.output, "output", "", "")
	set.BoolVar(&o.usual, "usual", false, "")
	set.StringVar(&o.run, "run", "", "")
	set.Float64Var(&o.min, "min", 0, "")
	set.Func("kind", "", func(kind string) error { o.kinds = append(o.kinds, kind); return nil })
	set.Func("have", "", func(dir string) error { o.have = append(o.have, dir); return nil })
	set.StringVar(&o.why, "why", "", "")
	set.StringVar(&o.budget, "budget", "", "")
	set.IntVar(&o.limit, "limit", 0, "")
	set.IntVar(&o.most, "most", 0, "")
	set.BoolVar(&o.audit, "audit", false, "")
	set.BoolVar(&o.mend, "mend", false, "")
	return set
}

// parse reads a command's flags and arguments, in any order; behind -- there are
// arguments alone. The second result is the exit status where there is nothing
// more to do, else -1.
func (c command) parse(args []string, s stream) (options, int) {
	o := options{format: c.formats[0]}
	set := o.flags()
	for {
		err := set.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			c.help(s.out)
			return o, exitOK
		}
		if err != nil {
			return o, usage(s, c.name, c.flagFault(err))
		}
		read := len(args) - set.NArg()
		if read > 0 && args[read-1] == "--" {
			o.args = append(o.args, set.Args()...)
			break
		}
		if args = set.Args(); len(args) == 0 {
			break
		}
		o.args = append(o.args, args[0])
		args = args[1:]
	}
	if fault := c.misused(set, o); fault != "" {
		return o, usage(s, c.name, fault)
	}
	return o, -1
}

// misused says which flag or format is none of this command.
func (c command) misused(set *flag.FlagSet, o options) (fault string) {
	set.Visit(func(f *flag.Flag) {
		if !c.takes(f.Name) {
			fault = fmt.Sprintf("--%s is no flag of %s (cogcourt help %s lists them)", f.Name, c.name, c.name)
		}
	})
	if fault == "" {
		fault = o.emptiness()
	}
	if fault == "" && !slices.Contains(c.formats, o.format) {
		fault = fmt.Sprintf("there is no format %q here", o.format) + near(o.format, c.formats)
		if !strings.Contains(fault, "known") {
			fault += "; known are " + strings.Join(c.formats, ", ")
		}
	}
	return fault
}

// emptiness says which argument or folder is an empty text, as an unset variable
// of a shell gives one: no message about a file could name it.
func (o options) emptiness() string {
	const likely = " is empty; is a variable of the shell not set?"
	if i := slices.Index(o.args, ""); i >= 0 {
		return fmt.Sprintf("argument %d%s", i+1, likely)
	}
	switch {
	case slices.Contains(o.parts, ""):
		return "the folder of --parts" + likely
	case slices.Contains(o.have, ""):
		return "the folder of --have" + likely
	case slices.Contains(o.rules, ""):
		return "the folder of --rules" + likely
	}
	return ""
}

// inputTwice is what is wrong with a command line that names the standard input
// more than once.
const inputTwice = "- stands twice, and standard input can be read once"

// inputTwice reports whether the command line does.
func (o options) inputTwice() bool {
	first := slices.Index(o.args, "-")
	return first >= 0 && slices.Contains(o.args[first+1:], "-")
}

// style is how reports are to be shown.
func (o options) style(s stream, c *compat.Checker) view.Style {
	return view.Style{Explain: o.explain, Colour: s.terminal && view.Colours(o.plain), Plain: o.plain, Screen: s.screen,
		Sources: c.Rules().Citations()}
}

// shortFlag finds the single dash of the flag that an error names.
var shortFlag = regexp.MustCompile(`(for |flag |: )-([a-z])`)

// flagFault makes an error of the flag package one of this program, with the
// nearest flag for one that is not there.
func (c command) flagFault(err error) string {
	name, ok := strings.CutPrefix(err.Error(), "flag provided but not defined: -")
	if !ok {
		return shortFlag.ReplaceAllString(err.Error(), "$1--$2")
	}
	name = strings.TrimPrefix(name, "-")
	var known []string
	var o options
	o.flags().VisitAll(func(f *flag.Flag) {
		if c.takes(f.Name) {
			known = append(known, f.Name)
		}
	})
	if hint := fact.Nearest(name, known); hint != "" {
		return fmt.Sprintf("there is no flag --%s; did you mean --%s?", name, hint)
	}
	return fmt.Sprintf("there is no flag --%s (cogcourt help %s lists them)", name, c.name)
}

// near makes a hint the end of a sentence.
func near(name string, known []string) string {
	if hint := fact.Suggest(name, known); hint != "" {
		return "; " + hint
	}
	return ""
}

// usage says what is wrong with the command line.
func usage(s stream, name, text string) int {
	fmt.Fprintf(s.err, "%s: %s\n", strings.TrimSpace("cogcourt "+name), view.Clean(text))
	return exitUsage
}

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// options are the flags of all commands; each command admits those it names.
type options struct {
	format     string
	parts      []string
	rules      []string
	noStandard bool
	explain    bool
	plain      bool
	args       []string
}

// line is the command line of one command: its words, the formats that it prints,
// the first by default, and its own flags beside the common ones.
type line struct {
	name    string
	args    []string
	formats []string
	flags   func(*flag.FlagSet)
}

// parse reads a command's flags and arguments, in any order. The second result
// is the exit status where there is nothing more to do, else -1.
func (l line) parse(s stream) (options, int) {
	o := options{format: l.formats[0]}
	name, args := l.name, l.args
	set := flag.NewFlagSet("cogcourt "+name, flag.ContinueOnError)
	set.SetOutput(io.Discard)
	if l.flags != nil {
		l.flags(set)
	}
	set.StringVar(&o.format, "format", o.format, "")
	set.Func("parts", "", func(dir string) error { o.parts = append(o.parts, dir); return nil })
	set.Func("rules", "", func(dir string) error { o.rules = append(o.rules, dir); return nil })
	set.BoolVar(&o.noStandard, "no-standard", false, "")
	set.BoolVar(&o.explain, "explain", false, "")
	set.BoolVar(&o.plain, "plain", false, "")
	for {
		err := set.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			help(s.out)
			return o, exitOK
		}
		if err != nil {
			return o, usage(s, name, flagError(err, set))
		}
		if args = set.Args(); len(args) == 0 {
			break
		}
		o.args = append(o.args, args[0])
		args = args[1:]
	}
	if !slices.Contains(l.formats, o.format) {
		return o, usage(s, name, fmt.Sprintf("there is no format %q here; known are %s", o.format, strings.Join(l.formats, ", ")))
	}
	return o, -1
}

// flagError names the nearest flag for one that is not there.
func flagError(err error, set *flag.FlagSet) string {
	name, ok := strings.CutPrefix(err.Error(), "flag provided but not defined: -")
	if !ok {
		return err.Error()
	}
	var known []string
	set.VisitAll(func(f *flag.Flag) { known = append(known, f.Name) })
	hint := ""
	if near := source.Nearest(strings.TrimPrefix(name, "-"), known); near != "" {
		hint = "; did you mean --" + near + "?"
	}
	return "there is no flag --" + strings.TrimPrefix(name, "-") + hint
}

// usage says what is wrong with the command line.
func usage(s stream, name, text string) int {
	fmt.Fprintf(s.err, "cogcourt %s: %s\n", name, text)
	return exitUsage
}

// complain prints why something did not load.
func complain(s stream, err error) int {
	fmt.Fprintln(s.err, err)
	return exitLoad
}

// folder is a directory whose files are named by the path that the user gave.
type folder struct {
	fs.FS
	dir string
}

// Shown implements source.Shower.
func (f folder) Shown(name string) string { return filepath.Join(f.dir, filepath.FromSlash(name)) }

func folders(dirs []string) []fs.FS {
	var out []fs.FS
	for _, dir := range dirs {
		out = append(out, folder{os.DirFS(dir), dir})
	}
	return out
}

// catalogue loads the part files that the flags name, or the demo.
func (o options) catalogue() (*catalog.Catalog, error) {
	if len(o.parts) == 0 {
		return catalog.Load(demo.Files())
	}
	return catalog.Load(folders(o.parts)...)
}

// checker compiles the rules that the flags name.
func (o options) checker() (*compat.Checker, error) {
	return compat.New(compat.Config{Rules: folders(o.rules), NoStandard: o.noStandard})
}

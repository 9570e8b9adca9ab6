package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// check judges mixes and prints a report for each.
func check(args []string, s stream) int {
	o, status := line{name: "check", args: args, formats: []string{"text", "json"}}.parse(s)
	if status >= 0 {
		return status
	}
	if len(o.args) == 0 {
		return usage(s, "check", "name at least one mix: a file, - for standard input, or demo:NAME; demos are "+strings.Join(demo.Mixes(), ", "))
	}
	c, err := o.checker()
	if err != nil {
		return complain(s, err)
	}
	cat, err := o.catalogue()
	if err != nil {
		return complain(s, err)
	}
	status = exitOK
	var reports []compat.Report
	for _, name := range o.args {
		m, err := readMix(name, s.in, cat)
		if err != nil {
			status = complain(s, err)
			continue
		}
		reports = append(reports, c.Check(m))
	}
	if err := printReports(reports, o, s.out); err != nil {
		fmt.Fprintln(s.err, "cogcourt check:", err)
		return exitLoad
	}
	return worse(status, reports)
}

// worse gives the exit status of several reports, some of which may not exist.
func worse(status int, reports []compat.Report) int {
	if status == exitLoad {
		return status
	}
	for _, r := range reports {
		switch r.Verdict {
		case rules.Fail:
			return exitFail
		case rules.Unknown:
			status = exitUnknown
		}
	}
	return status
}

// verdictStatus is the exit status of one verdict.
func verdictStatus(v rules.Verdict) int {
	switch v {
	case rules.Fail:
		return exitFail
	case rules.Unknown:
		return exitUnknown
	}
	return exitOK
}

// readMix reads one mix as the command line names it.
func readMix(name string, in io.Reader, cat *catalog.Catalog) (compat.Mix, error) {
	file, text, err := mixText(name, in)
	if err != nil {
		return compat.Mix{}, source.Problems{{Pos: source.Pos{File: file}, Text: err.Error()}}
	}
	return compat.ReadMix(file, text, cat)
}

func mixText(name string, in io.Reader) (file string, text []byte, err error) {
	if demoName, ok := strings.CutPrefix(name, "demo:"); ok {
		text, ok := demo.Mix(demoName)
		if !ok {
			hint := source.Suggest(demoName, demo.Mixes())
			if hint == "" {
				hint = "known are " + strings.Join(demo.Mixes(), ", ")
			}
			return name, nil, fmt.Errorf("there is no such demo (%s)", hint)
		}
		return name, text, nil
	}
	if name == "-" {
		text, err = io.ReadAll(io.LimitReader(in, source.MaxBytes+1))
		return stdinName(text), text, err
	}
	f, err := os.Open(name)
	if err != nil {
		return name, nil, fmt.Errorf("cannot be read: %w", plain(err))
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && !info.Mode().IsRegular() {
		return name, nil, fmt.Errorf("is not a regular file")
	}
	text, err = io.ReadAll(io.LimitReader(f, source.MaxBytes+1))
	return name, text, err
}

// stdinName gives what was read from standard input the ending of its format.
func stdinName(text []byte) string {
	if t := strings.TrimSpace(string(text[:min(len(text), 64)])); strings.HasPrefix(t, "{") {
		return "stdin.json"
	}
	return "stdin"
}

// plain takes the path out of an error, which the place says already.
func plain(err error) error {
	if p, ok := err.(*os.PathError); ok {
		return p.Err
	}
	return err
}

// printReports prints one object for one mix and an array for several in JSON,
// and the reports one below the other in text.
func printReports(reports []compat.Report, o options, w io.Writer) error {
	if o.format == "json" {
		return view.JSON(w, reports, len(o.args) == 1)
	}
	for i, r := range reports {
		if i > 0 {
			fmt.Fprintln(w)
		}
		view.Report(w, r, view.Style{Explain: o.explain, Colour: view.Colours(w, o.plain)})
	}
	return nil
}

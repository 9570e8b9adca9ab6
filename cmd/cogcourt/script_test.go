package main

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// script is one file of testdata: a remark, files, and runs of the command in a
// folder that holds those files. Sections begin with a line such as
// -- bike.yaml --; those named args begin a run, and stdin, exit, stdout and
// stderr belong to it. A file whose name ends in / is an empty folder.
type script struct {
	remark string
	files  []section
	runs   []run1
}

type section struct{ name, text string }

// run1 is one run of the command and what came of it.
type run1 struct {
	args           string
	stdin          string
	exit           string
	stdout, stderr string
}

var sectionLine = regexp.MustCompile(`^-- (\S+) --$`)

func parseScript(t *testing.T, text string) script {
	t.Helper()
	var s script
	into := &s.remark
	for line := range strings.Lines(text) {
		m := sectionLine.FindStringSubmatch(strings.TrimSuffix(line, "\n"))
		if m == nil {
			*into += line
			continue
		}
		if m[1] == "args" {
			s.runs = append(s.runs, run1{})
		}
		if of := resultOf(m[1]); of == nil {
			if len(s.runs) > 0 {
				t.Fatalf("the file %s stands behind a run", m[1])
			}
			s.files = append(s.files, section{name: m[1]})
			into = &s.files[len(s.files)-1].text
		} else if len(s.runs) == 0 {
			t.Fatalf("%s stands before any args", m[1])
		} else {
			into = of(&s.runs[len(s.runs)-1])
		}
	}
	return s
}

// resultOf finds where a section of a run is kept; nil for the name of a file.
func resultOf(name string) func(r *run1) *string {
	switch name {
	case "args":
		return func(r *run1) *string { return &r.args }
	case "stdin":
		return func(r *run1) *string { return &r.stdin }
	case "exit":
		return func(r *run1) *string { return &r.exit }
	case "stdout":
		return func(r *run1) *string { return &r.stdout }
	case "stderr":
		return func(r *run1) *string { return &r.stderr }
	}
	return nil
}

// String writes a script as it is read.
func (s script) String() string {
	var b strings.Builder
	b.WriteString(s.remark)
	put := func(name, text string, always bool) {
		if text != "" || always {
			fmt.Fprintf(&b, "-- %s --\n%s", name, text)
		}
	}
	for _, f := range s.files {
		put(f.name, f.text, true)
	}
	for _, r := range s.runs {
		put("args", r.args, true)
		put("stdin", r.stdin, false)
		put("exit", r.exit, true)
		put("stdout", r.stdout, false)
		put("stderr", r.stderr, false)
	}
	return b.String()
}

// arguments splits a line at its blanks; those between single quotes stay.
func arguments(line string) []string {
	var out []string
	word, quoted, begun := "", false, false
	for _, r := range strings.TrimSuffix(line, "\n") {
		switch {
		case r == '\'':
			quoted, begun = !quoted, true
		case r == ' ' && !quoted:
			if begun {
				out = append(out, word)
			}
			word, begun = "", false
		default:
			word, begun = word+string(r), true
		}
	}
	if begun {
		out = append(out, word)
	}
	return out
}

// fickle are the parts of an output that change without a change of behaviour.
var fickle = []struct {
	pattern *regexp.Regexp
	instead string
}{
	{regexp.MustCompile(`sha256:[0-9a-f]{64}`), "sha256:HASH"},
	{regexp.MustCompile(`cogcourt \d+\.\d+\.\d+`), "cogcourt VERSION"},
	{regexp.MustCompile(`took \d+\.\d+ s`), "took SOME s"},
	{regexp.MustCompile(`("figures": ?\{)[^}]+\}`), "$1 FIGURES }"},
}

func normalised(out string) string {
	for _, f := range fickle {
		out = f.pattern.ReplaceAllString(out, f.instead)
	}
	if out != "" && !strings.HasSuffix(out, "\n") {
		out += "\n(no line break at the end)\n"
	}
	return out
}

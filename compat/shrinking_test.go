package compat_test

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// shrunk is a golden list of what is known to be wrong: an update takes off what is
// right by now, and never adds.
type shrunk struct {
	file  string
	lines []string
	seen  map[string]bool
}

// shrinking reads such a list.
func shrinking(t *testing.T, name string) *shrunk {
	t.Helper()
	s := &shrunk{file: filepath.Join("testdata", name), seen: map[string]bool{}}
	text, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		s.lines = append(s.lines, strings.TrimSuffix(line, "\n"))
	}
	return s
}

// has says whether a line is listed, and remembers that it was met.
func (s *shrunk) has(line string) bool {
	s.seen[line] = true
	return slices.Contains(s.lines, line)
}

// hold holds that every line was met; with -update those that were not are taken off.
func (s *shrunk) hold(t *testing.T) {
	t.Helper()
	var left []string
	for _, line := range s.lines {
		switch {
		case s.seen[line] || strings.HasPrefix(line, "#"):
			left = append(left, line+"\n")
		case !updating():
			t.Errorf("%s: %q is right by now: .ci/update takes it off", s.file, line)
		}
	}
	if updating() {
		if err := os.WriteFile(s.file, []byte(strings.Join(left, "")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// updating says whether golden files are to be written anew.
func updating() bool { return flag.Lookup("update").Value.String() == "true" } // of golden_test.go

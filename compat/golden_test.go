package compat

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// update writes golden files anew: .ci/update, then look at what git diff shows.
var update = flag.Bool("update", false, "write the golden files anew")

// golden holds a text against a file of testdata.
func golden(t testing.TB, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs (.ci/update writes it anew). Now:\n%s\nin the file:\n%s", file, got, want)
	}
}

// goldenLines gives the lines of a golden file.
func goldenLines(t testing.TB, name string) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSpace(string(text)), "\n")
}

// compiled compiles the standard rules once: a Checker is immutable.
var compiled = sync.OnceValues(func() (*Checker, error) { return New(Config{}) })

// standardChecker gives the checker of the standard rules.
func standardChecker(t testing.TB) *Checker {
	t.Helper()
	c, err := compiled()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// fewer gives a number of rounds, or a tenth of it under -short.
func fewer(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}

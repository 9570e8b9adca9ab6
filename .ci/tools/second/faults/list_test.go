package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestFaultsFit holds that each fault still has its place in the library.
func TestFaultsFit(t *testing.T) {
	for _, f := range faults {
		text, err := os.ReadFile(filepath.Join("..", "..", "..", "..", f.file))
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(text), f.sound); n != 1 || f.sound == f.faulty {
			t.Errorf("%s: %s: %q stands there %d times", f.file, f.what, f.sound, n)
		}
	}
}

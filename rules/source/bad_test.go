package source

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// TestBad reads every file of testdata/bad and compares its problems with the
// comments that tell them, line by line: # want "regexp" for each problem of
// the line. A JSON file has them in a file of its own, as LINE "regexp".
func TestBad(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.*")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, ".want") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		err = readSample(filepath.Base(file), text)
		compare(t, file, wanted(t, file, string(text)), err)
		var ps Problems
		errors.As(err, &ps)
		for _, p := range ps {
			sound(t, wholeLayout(filepath.Base(file), string(text)), p)
		}
	}
}

// wanted gives the patterns of each line.
func wanted(t *testing.T, file, text string) map[int][]string {
	want := make(map[int][]string)
	beside := strings.HasSuffix(file, ".json")
	if beside {
		lines, err := os.ReadFile(strings.TrimSuffix(file, ".json") + ".want")
		if err != nil {
			t.Fatal(err)
		}
		text = string(lines)
	}
	for i, line := range strings.Split(text, "\n") {
		at := i + 1
		_, patterns, _ := strings.Cut(line, "# want ")
		if beside {
			line, patterns, _ = strings.Cut(line, " ")
			at, _ = strconv.Atoi(line)
		}
		for patterns = strings.TrimSpace(patterns); patterns != ""; patterns = strings.TrimSpace(patterns) {
			quoted, err := strconv.QuotedPrefix(patterns)
			if err != nil {
				t.Fatalf("%s:%d: %v", file, at, err)
			}
			pattern, _ := strconv.Unquote(quoted)
			want[at] = append(want[at], pattern)
			patterns = patterns[len(quoted):]
		}
	}
	if len(want) == 0 {
		t.Errorf("%s wants no problem", file)
	}
	return want
}

// compare matches problems with patterns; neither may be left over.
func compare(t *testing.T, file string, want map[int][]string, err error) {
	var ps Problems
	errors.As(err, &ps)
	for _, p := range ps {
		found := false
		for i, pattern := range want[p.Pos.Line] {
			if regexp.MustCompile(pattern).MatchString(p.String()) {
				want[p.Pos.Line] = append(want[p.Pos.Line][:i:i], want[p.Pos.Line][i+1:]...)
				found = true
				break
			}
		}
		if !found {
			t.Errorf("%s: surplus: %v", file, p)
		}
	}
	for line, patterns := range want {
		for _, pattern := range patterns {
			t.Errorf("%s:%d: missing: %s", file, line, pattern)
		}
	}
}

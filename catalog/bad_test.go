package catalog

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/rules/source"
)

var (
	wantMark   = regexp.MustCompile(`# want (.*)$`)
	wantQuoted = regexp.MustCompile("`([^`]*)`|\"((?:[^\"\\\\]|\\\\.)*)\"")
	wantLine   = regexp.MustCompile(`^(\d+) (.*)$`)
)

// wants finds which problems a bad file should give, by line. In YAML each
// stands on its line as # want "regexp"; beside JSON, which has no comments, a
// file of the same name and .want holds lines of a line number and the regexp.
func wants(t *testing.T, file, text string) map[int][]*regexp.Regexp {
	found := map[int][]*regexp.Regexp{}
	add := func(line int, quoted string) {
		for _, m := range wantQuoted.FindAllStringSubmatch(quoted, -1) {
			found[line] = append(found[line], regexp.MustCompile(m[1]+m[2]))
		}
	}
	if filepath.Ext(file) == ".json" {
		beside, err := os.ReadFile(file + ".want")
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(beside)) {
			m := wantLine.FindStringSubmatch(strings.TrimSpace(line))
			if m == nil {
				t.Fatalf("%s.want: no line number in %q", file, line)
			}
			n, _ := strconv.Atoi(m[1])
			add(n, m[2])
		}
		return found
	}
	for i, line := range strings.Split(text, "\n") {
		if m := wantMark.FindStringSubmatch(line); m != nil {
			add(i+1, m[1])
		}
	}
	return found
}

func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*")
	if err != nil || len(files) == 0 {
		t.Fatal("no bad files", err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, ".want") {
			continue
		}
		t.Run(filepath.Base(file), func(t *testing.T) { testBadFile(t, file) })
	}
}

func testBadFile(t *testing.T, file string) {
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	wanted := wants(t, file, string(text))
	c, err := ReadFile(filepath.Base(file), text)
	var ps source.Problems
	if !errors.As(err, &ps) || c != nil {
		t.Fatalf("want Problems and no catalog, got %v", err)
	}
	checkPlaces(t, filepath.Base(file), text, err)
	for _, p := range ps {
		if !take(wanted, p) {
			t.Errorf("not wanted: %s", p)
		}
	}
	for line, left := range wanted {
		for _, re := range left {
			t.Errorf("line %d: no problem matches %q", line, re)
		}
	}
}

// take strikes out the first wanted problem that this one matches.
func take(wanted map[int][]*regexp.Regexp, p source.Problem) bool {
	left := wanted[p.Pos.Line]
	for i, re := range left {
		if re.MatchString(p.String()) {
			wanted[p.Pos.Line] = append(left[:i:i], left[i+1:]...)
			return true
		}
	}
	return false
}

package main

import (
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// No end of the scanner but its own word is taken for a clean module.
func TestAnswers(t *testing.T) {
	const offline = `govulncheck: fetching vulnerabilities: Get "https://vuln.go.dev/index/modules.json.gz": dial tcp: no such host`
	for _, c := range []struct {
		status     int
		out, wrong string
		want       string // what the text begins with
		is         int
		unreached  bool
	}{
		{0, "No vulnerabilities found.\n", "", "none is known", 0, false},
		{3, "Vulnerability #1: GO-0000-0000\n", "", "some is known:\nVulnerability #1", 1, false},
		{1, "", offline, "the database was not reached", 0, true},
		{0, "No vulnerabilities found.\n", offline, "the database was not reached", 0, true},
		{1, "", "govulncheck: loading packages: there are errors", "the scanner ended with status 1", 2, false},
		{0, "", "", "the scanner ended with status 0", 2, false},
		{2, "No vulnerabilities found.\n", "", "the scanner ended with status 2", 2, false},
	} {
		a := answerOf(c.status, c.out, c.wrong)
		if !strings.HasPrefix(a.text, c.want) || a.status != c.is || a.unreached != c.unreached {
			t.Errorf("%d %q %q: %+v", c.status, c.out, c.wrong, a)
		}
		if a.unreached && strings.Contains(strings.ToLower(a.text), "none is known") {
			t.Errorf("it was not reached, and says %s", a.text)
		}
	}
}

// What was read by hand is of the versions that the library requires by itself: another
// version is read anew.
func TestReadingsAreOfTheVersionsInUse(t *testing.T) {
	c := exec.Command("go", "list", "-m", "-f", "{{if not (or .Indirect .Main)}}{{.Path}} {{.Version}}{{end}}", "all")
	c.Dir = filepath.Join("..", "..", "..")
	out, err := c.Output()
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(strings.TrimSpace(string(out)), "\n")
	want = slices.DeleteFunc(want, func(line string) bool { return line == "" })
	line := regexp.MustCompile(`^(\S+ \S+) (\d{4}-\d\d-\d\d): \S.{30,}\n$`)
	var got []string
	for text := range strings.Lines(read) {
		m := line.FindStringSubmatch(text)
		if m == nil {
			t.Fatalf("%q is no line of module, version, day and what was read", text)
		}
		if _, err := time.Parse(time.DateOnly, m[2]); err != nil {
			t.Error(err)
		}
		got = append(got, m[1])
	}
	if len(want) < 3 || !slices.Equal(got, want) {
		t.Errorf("%q were read, and %q are required", got, want)
	}
}

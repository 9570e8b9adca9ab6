package main

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
)

// textLines are command lines whose text is for people.
func textLines() []string {
	lines := []string{"rules", "words", "parts", "help", "prove --coverage --mutants --run ^cassette/"}
	if testing.Short() {
		lines[4] = "prove --coverage --run ^bar/"
	}
	for _, c := range commands() {
		lines = append(lines, "help "+c.name)
	}
	for _, name := range demo.Mixes() {
		lines = append(lines, "check demo:"+name, "check --explain demo:"+name, "sheet demo:"+name, "sheet --as-built demo:"+name)
	}
	lines = append(lines, "compare demo:ferry-motor demo:fleet-three-faults", "compare demo:club-two-ring demo:donated-undecided")
	for _, name := range demo.Orders() {
		lines = append(lines, "cart demo:"+name, "cart --explain demo:"+name, "cart demo:"+name+" demo:"+name)
	}
	return lines
}

// ruleTexts shows every rule whole.
func ruleTexts(t *testing.T) string {
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, r := range c.Rules().Rules() {
		view.Rule(&out, c.Rules(), r)
	}
	return out.String()
}

// TestColumns holds that no line of a text is longer than 80 characters, and that
// none ends in a blank; reports also stand in their gutter.
func TestColumns(t *testing.T) {
	texts := map[string]string{"rule": ruleTexts(t)}
	for _, line := range textLines() {
		_, stdout, stderr := command1("", strings.Fields(line)...)
		if stdout == "" {
			t.Errorf("%s prints nothing: %s", line, stderr)
		}
		texts[line] = stdout
	}
	gutters := 0
	for line, text := range texts {
		if strings.HasPrefix(line, "check ") || strings.HasPrefix(line, "cart ") || strings.HasPrefix(line, "compare ") {
			gutters++
			shaped(t, line, text)
		}
		for _, out := range strings.Split(text, "\n") {
			if n := utf8.RuneCountInString(out); n > 80 {
				t.Errorf("%s: %d columns: %s", line, n, out)
			}
			if strings.TrimRight(out, " \t") != out {
				t.Errorf("%s: blanks at the end of %q", line, out)
			}
		}
	}
	if gutters < 10 {
		t.Errorf("only %d reports were seen", gutters)
	}
}

// TestColours holds that only a terminal gets colours, and none where the user or
// the environment says no; the words are the same either way.
func TestColours(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "xterm")
	report := func(terminal bool, args ...string) string {
		var out, told strings.Builder
		run(append([]string{"check", "demo:fleet-three-faults"}, args...), stream{in: strings.NewReader(""), out: &out, err: &told, terminal: terminal})
		if out.Len() == 0 {
			t.Fatal(told.String())
		}
		return out.String()
	}
	plain := report(false)
	if strings.Contains(plain, "\x1b") {
		t.Error("there are colours though nobody looks")
	}
	coloured := report(true)
	if !strings.Contains(coloured, "\x1b[1;31mFAIL\x1b[0m ") {
		t.Errorf("a fail is not red on a terminal:\n%q", coloured)
	}
	for _, code := range []string{"\x1b[1;31m", "\x1b[1;32m", "\x1b[1;33m", "\x1b[1;35m", "\x1b[0m"} {
		coloured = strings.ReplaceAll(coloured, code, "")
	}
	if coloured != plain {
		t.Error("the words differ with colours")
	}
	if lines := report(true, "--plain"); lines != report(false, "--plain") || strings.Contains(lines, "\x1b") {
		t.Error("--plain colours")
	}
	t.Setenv("NO_COLOR", "1")
	if report(true) != plain {
		t.Error("NO_COLOR is not heard")
	}
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "dumb")
	if report(true) != plain {
		t.Error("a dumb terminal gets colours")
	}
}

// TestTerminal holds that files and pipes are no terminals.
func TestTerminal(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/out")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	closed, err := os.Create(t.TempDir() + "/closed")
	if err != nil {
		t.Fatal(err)
	}
	closed.Close()
	for _, f := range []*os.File{file, w, closed} {
		if view.Terminal(f) {
			t.Errorf("%s is no terminal", f.Name())
		}
	}
}

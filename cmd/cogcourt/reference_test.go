package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
)

// references are the documents of the repository that the command prints.
var references = []struct {
	file string
	args []string
}{
	{"../../catalog/WORDS.md", []string{"words", "--format", "markdown"}},
	{"../../rules/standard/RULES.md", []string{"rules", "--format", "markdown"}},
}

// TestReferences holds that the documents say what the program says.
func TestReferences(t *testing.T) {
	for _, r := range references {
		status, got, stderr := command1("", r.args...)
		if status != exitOK {
			t.Fatalf("cogcourt %v: %s", r.args, stderr)
		}
		if *update {
			if err := os.WriteFile(r.file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(r.file)
		if err != nil || got != string(want) {
			t.Errorf("%s is stale (%v): make it anew with .ci/update\nFirst difference: %s",
				filepath.Base(r.file), err, firstDifference(string(want), got))
		}
	}
}

func firstDifference(a, b string) string {
	old, now := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range max(len(old), len(now)) {
		var x, y string
		if i < len(old) {
			x = old[i]
		}
		if i < len(now) {
			y = now[i]
		}
		if x != y {
			return "\n- " + x + "\n+ " + y
		}
	}
	return "none"
}

// TestReferencesAreWhole holds that every word and every rule stands in its
// document, and that no line of a table is torn.
func TestReferencesAreWhole(t *testing.T) {
	v, err := compat.Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	_, words, _ := command1("", references[0].args...)
	for _, o := range v.Objects() {
		_, section, found := strings.Cut(words, "\n## "+o.Name()+"\n")
		section, _, _ = strings.Cut(section, "\n## ")
		if !found {
			t.Errorf("the words of %s are missing", o.Name())
		}
		for _, f := range o.Table().Fields() {
			if !strings.Contains(section, "\n| `"+f.Name+"` | ") {
				t.Errorf("%s.%s is missing", o.Name(), f.Name)
			}
			if len(f.Also) > 0 && !strings.Contains(section, "Also called "+strings.Join(f.Also, ", ")+". |") {
				t.Errorf("the other names of %s.%s are missing", o.Name(), f.Name)
			}
		}
	}
	for line := range strings.Lines(words) {
		if bars := strings.Count(strings.ReplaceAll(line, `\|`, ""), "|"); line[0] == '|' && bars != 5 {
			t.Errorf("%d bars: %s", bars, line)
		}
	}
	_, rules, _ := command1("", references[1].args...)
	c, err := options{}.checker()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range c.Rules().Rules() {
		if !strings.Contains(rules, "\n## "+r.ID+"\n") {
			t.Errorf("the rule %s is missing", r.ID)
		}
	}
}

// TestWordsAsJSON holds that every word is there once, with what it needs.
func TestWordsAsJSON(t *testing.T) {
	_, out, _ := command1("", "words", "--format", "json")
	var words []struct {
		Name, Kind, Type, Unit, Doc, How string
		Min, Max                         *float64
		Longest                          int
		Choices, Also                    []string
		Effort                           string
		KindAlso                         []string `json:"kind_also"`
	}
	if err := json.Unmarshal([]byte(out), &words); err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, w := range words {
		if seen[w.Name] || !strings.HasPrefix(w.Name, w.Kind+".") || w.Doc == "" || w.Choices == nil {
			t.Errorf("%+v", w)
		}
		if w.Kind != "figures" && (w.How == "" || w.Effort == "") {
			t.Errorf("%s does not say how to measure it, and what that takes", w.Name)
		}
		if w.Also == nil || w.KindAlso == nil {
			t.Errorf("%s has no list of other names", w.Name)
		}
		if w.Type == "choice" && len(w.Choices) < 2 {
			t.Errorf("%s is a choice of %v", w.Name, w.Choices)
		}
		seen[w.Name] = true
	}
	if len(words) < 150 {
		t.Errorf("only %d words", len(words))
	}
}

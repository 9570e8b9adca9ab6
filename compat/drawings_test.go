package compat_test

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/standard"
)

// ruleText is one shipped rule by itself, as it stands in its file.
func ruleText(t *testing.T, id string) string {
	t.Helper()
	entries, err := fs.ReadDir(standard.Files(), ".")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		text, err := fs.ReadFile(standard.Files(), e.Name())
		if err != nil {
			t.Fatal(err)
		}
		if _, from, found := strings.Cut(string(text), "  - id: "+id+"\n"); found {
			body, _, _ := strings.Cut(from, "\n  - id: ")
			body, _, _ = strings.Cut(body, "\n    examples:")
			return "pack: alone\nrules:\n  - id: " + id + "\n" + body + "\n"
		}
	}
	t.Fatalf("no file has the rule %s", id)
	return ""
}

// TestDrawnLimitsAreJudged holds that a limit which is drawn is tied to the condition:
// where a shop writes another number in one of the two, the file is refused.
func TestDrawnLimitsAreJudged(t *testing.T) {
	count := 0
	for _, r := range checker(t).Rules().Rules() {
		text := ruleText(t, r.ID)
		for _, l := range r.Draw.Limits {
			count++
			before, line, _ := strings.Cut(text, "\n    draw: ")
			_, is, _ := strings.Cut(line, l.Name+": ")
			is = is[:strings.IndexAny(is, ",}")]
			changed := before + "\n    draw: " + strings.Replace(line, l.Name+": "+is, l.Name+": "+is+"7", 1)
			_, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{fstest.MapFS{"a.yaml": {Data: []byte(changed)}}}})
			if err == nil || !strings.Contains(err.Error(), is+"7 is no number of this rule's conditions") {
				t.Errorf("%s draws %s %s7, and the load says %v", r.ID, l.Name, is, err)
			}
		}
	}
	if count != 6 {
		t.Errorf("%d limits are drawn", count)
	}
}

// TestEveryDrawingHasRules holds that the shipped rules lead to each drawing of a report.
// The gauge stands on the sheet, where no finding does.
func TestEveryDrawingHasRules(t *testing.T) {
	for _, d := range compat.Drawings() {
		leads := slices.ContainsFunc(checker(t).Rules().Rules(), func(r *rules.Rule) bool { return r.Draw.Name == d.Name })
		if leads != (d.Name != "gauge") || d.Doc == "" {
			t.Errorf("%s: a rule leads there: %t; it shows %q", d.Name, leads, d.Doc)
		}
	}
}

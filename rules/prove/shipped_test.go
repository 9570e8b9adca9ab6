package prove_test

import (
	"bytes"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/prove"
	"example.org/cogcourt/rules/standard"
)

// rewrite gives the shipped files with other examples: edit is given the rule's
// id and the lines of each of its examples.
func rewrite(t *testing.T, edit func(id string, examples []string) []string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	paths, err := fs.Glob(standard.Files(), "*.yaml")
	if err != nil || len(paths) == 0 {
		t.Fatalf("%d files: %v", len(paths), err)
	}
	for _, path := range paths {
		text, err := fs.ReadFile(standard.Files(), path)
		if err != nil {
			t.Fatal(err)
		}
		var file strings.Builder
		var examples []string
		id, inside := "", false
		flush := func() {
			for _, ex := range edit(id, examples) {
				file.WriteString(ex)
			}
			examples, inside = nil, false
		}
		for line := range bytes.Lines(text) {
			s := string(line)
			switch {
			case inside && strings.HasPrefix(s, "      - "):
				examples = append(examples, s)
				continue
			case inside && strings.HasPrefix(s, "       "):
				examples[len(examples)-1] += s
				continue
			case inside:
				flush()
			}
			if name, ok := strings.CutPrefix(s, "  - id: "); ok {
				id = strings.TrimSpace(name)
			}
			inside = s == "    examples:\n"
			file.WriteString(s)
		}
		if inside {
			flush()
		}
		out[path] = &fstest.MapFile{Data: []byte(file.String())}
	}
	return out
}

func loadShipped(t *testing.T, files fs.FS) *rules.Set {
	t.Helper()
	c, err := compat.New(compat.Config{Rules: []fs.FS{files}, NoStandard: true})
	if err != nil {
		t.Fatal(err)
	}
	return c.Rules()
}

// TestProposalsLoad takes all examples but one from each shipped rule. Whatever the
// search then proposes is an example that loads where it is pasted, and gives what
// it says.
func TestProposalsLoad(t *testing.T) {
	wanted := func(id string) bool { return !testing.Short() || strings.HasPrefix(id, "c") }
	weak := loadShipped(t, rewrite(t, func(_ string, examples []string) []string { return examples[:1] }))
	part := weak.Only(wanted)
	covered, err := prove.Coverage(part)
	if err != nil {
		t.Fatal(err)
	}
	report, err := prove.Mutants(part)
	if err != nil {
		t.Fatal(err)
	}
	proposals, open, closed := map[string][]string{}, 0, 0
	add := func(id string, p *prove.Proposal) {
		if open++; p == nil {
			return
		}
		closed++
		if line := "      " + p.YAML + "\n"; !slices.Contains(proposals[id], line) {
			proposals[id] = append(proposals[id], line)
		}
	}
	for _, c := range covered {
		for _, g := range c.Gaps {
			add(c.Rule.ID, g.Closing)
		}
		for _, f := range c.Faults {
			t.Errorf("%s: %s", c.Rule.ID, f.Text)
		}
	}
	for _, m := range report.Survivors() {
		add(m.Rule.ID, m.Closing)
	}
	strong := loadShipped(t, rewrite(t, func(id string, examples []string) []string { return append(examples[:1:1], proposals[id]...) }))
	wrong, ran := strong.Prove()
	for _, w := range wrong {
		t.Errorf("%s: %s wants %s, gives %s: %s", w.Rule.ID, w.Example.Name, w.Example.Want, w.Got, w.Detail)
	}
	if ran < len(weak.Rules())+len(proposals) {
		t.Errorf("only %d examples ran", ran)
	}
	t.Logf("of %d gaps and survivors %d are closed", open, closed)
	if closed < open*9/10 {
		t.Errorf("of %d gaps and survivors only %d are closed", open, closed)
	}
}

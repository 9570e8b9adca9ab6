package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestNewProves holds that a new rule file loads, and that its examples leave no
// gap and no mutant, so that an author begins from a whole rule.
func TestNewProves(t *testing.T) {
	for _, id := range []string{"my-shop/largest-cog", "a/b/c-d", "9/9", "true/null", "1-e3/-"} {
		t.Run(id, func(t *testing.T) {
			dir := t.TempDir()
			status, text, stderr := command1("", "new", id)
			if status != exitOK {
				t.Fatal(stderr)
			}
			if err := os.WriteFile(filepath.Join(dir, "mine.yaml"), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			status, out, stderr := command1("", "prove", "--no-standard", "--coverage", "--mutants", "--min", "100", dir)
			if status != exitOK || !strings.Contains(out, "coverage 100.0 percent") || !strings.Contains(out, " 0 survive\n") {
				t.Errorf("exit status %d\n%s%s", status, out, stderr)
			}
			if status, _, stderr := command1("", "new", id, "--rules", dir); status != exitUsage || !strings.Contains(stderr, "already") {
				t.Errorf("a taken id is given again: %d %s", status, stderr)
			}
			if status, out, _ := command1("", "rule", id, "--rules", dir); status != exitOK || !strings.Contains(out, id) {
				t.Errorf("the rule is not shown: %s", out)
			}
		})
	}
}

// TestEveryLineOfNewCounts takes each line of a new rule away. What is left must
// be refused, or prove worse, or lose no more than a remark or a text: nothing in
// the template is there for show.
func TestEveryLineOfNewCounts(t *testing.T) {
	_, text, _ := command1("", "new", "my-shop/one")
	lines := strings.SplitAfter(text, "\n")
	free := regexp.MustCompile(`^\s*(#|edition:|pass:)`)
	for i, line := range lines {
		if line == "" || free.MatchString(line) {
			continue
		}
		dir := t.TempDir()
		rest := strings.Join(lines[:i], "") + strings.Join(lines[i+1:], "")
		if err := os.WriteFile(filepath.Join(dir, "mine.yaml"), []byte(rest), 0o644); err != nil {
			t.Fatal(err)
		}
		if status, _, _ := command1("", "prove", "--no-standard", "--coverage", "--mutants", "--min", "100", dir); status == exitOK {
			t.Errorf("nothing is missed without %s", line)
		}
	}
}

// TestAsBuiltLoads holds that the block for the finished job can be put into the
// mix as it is, and filled in.
func TestAsBuiltLoads(t *testing.T) {
	dir := t.TempDir()
	bike := filepath.Join(dir, "bike.yaml")
	const head = "mix: As built\nparts:\n  chain: {speeds: 9}\n"
	for _, bench := range []string{"", "bench: {hanger_error_mm: 1, position: sag}\n"} {
		if err := os.WriteFile(bike, []byte(head+bench), 0o644); err != nil {
			t.Fatal(err)
		}
		_, block, stderr := command1("", "sheet", "--as-built", bike)
		if !strings.Contains(block, "bench:\n") {
			t.Fatalf("no block: %s%s", block, stderr)
		}
		filled := strings.Replace(block, "# chain_wear_percent:", "chain_wear_percent: 0.4", 1)
		for _, text := range []string{block, filled} {
			if err := os.WriteFile(bike, []byte(head+text), 0o644); err != nil {
				t.Fatal(err)
			}
			if status, _, stderr := command1("", "check", bike); status == exitLoad {
				t.Errorf("%s\n%s", stderr, text)
			}
		}
		if filled == block {
			t.Error("the block has no line for the wear of the chain")
		}
		_, again, _ := command1("", "sheet", "--as-built", bike)
		if !strings.Contains(again, "\n  chain_wear_percent: 0.4\n") || bench != "" && !strings.Contains(again, "\n  position: sag\n") {
			t.Errorf("what was filled in is not kept:\n%s", again)
		}
	}
}

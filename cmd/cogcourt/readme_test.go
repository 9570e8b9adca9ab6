package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// documents are the texts of the repository that show the command.
var documents = []string{"../../README.md", "../../DEVELOPERS.md"}

// TestDocumentsLoad holds that every mix and every rule that a document shows
// loads as it stands there, and that the rules give what their examples say.
func TestDocumentsLoad(t *testing.T) {
	block := regexp.MustCompile("(?s)```yaml\n(.*?)```")
	shown := 0
	for _, file := range documents {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range block.FindAllStringSubmatch(string(text), -1) {
			dir := t.TempDir()
			path := filepath.Join(dir, "shown.yaml")
			if err := os.WriteFile(path, []byte(m[1]), 0o644); err != nil {
				t.Fatal(err)
			}
			line := []string{"check", path}
			if strings.HasPrefix(m[1], "pack:") {
				line = []string{"prove", "--no-standard", dir}
			}
			shown++
			if status, out, stderr := command1("", line...); status == exitLoad || status == exitUsage || line[0] == "prove" && status != exitOK {
				t.Errorf("%s shows what does not load:\n%s%s%s", filepath.Base(file), m[1], out, stderr)
			}
		}
	}
	if shown == 0 {
		t.Error("no document shows a mix or a rule")
	}
}

// TestDocumentsNameCommands holds that the command lines of the documents name
// commands and flags that there are.
func TestDocumentsNameCommands(t *testing.T) {
	line := regexp.MustCompile("(?m)(?:`cogcourt |^ {4}go run ./cmd/cogcourt )([^`\n]+)")
	seen := 0
	for _, file := range documents {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range line.FindAllStringSubmatch(string(text), -1) {
			words := strings.Fields(m[1])
			i := slices.IndexFunc(commands(), func(c command) bool { return c.name == words[0] })
			if i < 0 {
				t.Errorf("%s: there is no command in %q", filepath.Base(file), m[1])
				continue
			}
			seen++
			for _, w := range words[1:] {
				if name, ok := strings.CutPrefix(w, "--"); ok && !commands()[i].takes(name) {
					t.Errorf("%s: %s takes no --%s, in %q", filepath.Base(file), words[0], name, m[1])
				}
			}
		}
	}
	if seen < 3 {
		t.Errorf("only %d command lines were found", seen)
	}
}

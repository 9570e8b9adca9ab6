package main

import (
	"os"
	"os/exec"
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

// commandLine finds the command lines that a document shows.
var commandLine = regexp.MustCompile("(?:`cogcourt |go run ./cmd/cogcourt )([^`\n]+)")

// TestDocumentsNameCommands holds that the command lines of the documents name
// commands and flags that there are.
func TestDocumentsNameCommands(t *testing.T) {
	seen := 0
	for _, file := range documents {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range commandLine.FindAllStringSubmatch(string(text), -1) {
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

// shown gives the first block of a language in the README that has a word in it.
func shown(t *testing.T, language, word string) string {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile("(?s)```"+language+"\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		if strings.Contains(m[1], word) {
			return m[1]
		}
	}
	t.Fatalf("the README shows no %s with %s", language, word)
	return ""
}

// readersFolder makes the folder of somebody who follows the documents, and goes
// there: the mix that the README shows, parts, an empty folder for rules.
func readersFolder(t *testing.T) {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "parts"), os.DirFS("../../catalog/demo/parts")); err != nil {
		t.Fatal(err)
	}
	mix := shown(t, "yaml", "mix:")
	for name, text := range map[string]string{
		"bike.yaml": mix, "before.yaml": mix, "after.yaml": strings.Replace(mix, "speeds: 12", "speeds: 9", 1),
		"mixes.jsonl": `{"cassette": "reedbed-12-10-51"}` + "\n", "rules/readme.txt": "Mine.\n",
	} {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
}

// Every command line of the documents does what it is shown for, one after the
// other as they stand there.
func TestDocumentsRun(t *testing.T) {
	var lines []string
	for _, file := range documents {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range commandLine.FindAllStringSubmatch(string(text), -1) {
			lines = append(lines, m[1])
		}
	}
	readersFolder(t)
	for _, line := range lines {
		if status, out, stderr := redirected(t, line); status == exitUsage || status == exitLoad || out == "" {
			t.Errorf("cogcourt %s ends with %d:\n%s%s", line, status, out, stderr)
		}
	}
}

// redirected runs a line, which may read from a file and write to one.
func redirected(t *testing.T, line string) (status int, stdout, stderr string) {
	t.Helper()
	line, to, _ := strings.Cut(line, " > ")
	line, from, reads := strings.Cut(line, " < ")
	var stdin []byte
	if reads {
		var err error
		if stdin, err = os.ReadFile(from); err != nil {
			t.Fatal(err)
		}
	}
	status, stdout, stderr = command1(string(stdin), arguments(line)...)
	if to != "" {
		if err := os.WriteFile(to, []byte(stdout), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return status, stdout, stderr
}

// The Go that the README shows is a program: it is built, and judges the mix that
// stands there.
func TestReadmeGoRuns(t *testing.T) {
	body := strings.ReplaceAll(shown(t, "go", "compat.New("), "\"bike.yaml\", text", "\"bike.yaml\", text()")
	main := "package main\n\nimport (\n\t\"fmt\"\n\t\"log\"\n\t\"os\"\n\n\t\"example.org/cogcourt/catalog\"\n" +
		"\t\"example.org/cogcourt/compat\"\n)\n\nfunc main() {\n" + body + "}\n\n" +
		"func text() []byte {\n\ttext, err := os.ReadFile(\"bike.yaml\")\n\tif err != nil {\n\t\tlog.Fatal(err)\n\t}\n\treturn text\n}\n"
	dir := t.TempDir()
	file, program := filepath.Join(dir, "main.go"), filepath.Join(dir, "readme")
	if err := os.WriteFile(file, []byte(main), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("go", "build", "-o", program, file).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s\n%s", err, out, main)
	}
	readersFolder(t)
	out, err := exec.Command(program).CombinedOutput()
	if err != nil || !regexp.MustCompile(`^(pass|warn|fail|unknown) (true|false)\n(.+\n)+$`).Match(out) {
		t.Errorf("%v: %s", err, out)
	}
}

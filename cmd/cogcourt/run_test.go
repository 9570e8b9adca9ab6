package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// update writes golden files and the reference documents anew: .ci/update, then
// look at what git diff shows.
var update = flag.Bool("update", false, "write the golden files and the reference documents anew")

// command1 runs one command line with buffers.
func command1(stdin string, args ...string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = run(args, stream{in: strings.NewReader(stdin), out: &out, err: &err})
	return status, out.String(), err.String()
}

// scripts reads every script of testdata, by name.
func scripts(t *testing.T) map[string]script {
	t.Helper()
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d scripts, %v", len(files), err)
	}
	out := map[string]script{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out[file] = parseScript(t, string(text))
	}
	return out
}

// TestScripts carries every script out and compares what came of each run.
func TestScripts(t *testing.T) {
	for file, s := range scripts(t) {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			got := carryOut(t, s)
			if *update {
				if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			for i, r := range s.runs {
				if r != got.runs[i] {
					t.Errorf("cogcourt %swant:\n%s\ngot:\n%s\n(.ci/update writes it anew)",
						r.args, script{runs: s.runs[i : i+1]}, script{runs: got.runs[i : i+1]})
				}
			}
		})
	}
}

// carryOut writes the files of a script into a folder and makes its runs there.
func carryOut(t *testing.T, s script) script {
	t.Helper()
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for _, f := range s.files {
		path := filepath.Join(dir, filepath.FromSlash(f.name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(f.name, "/") {
			err = os.MkdirAll(path, 0o755)
		} else {
			err = os.WriteFile(path, []byte(f.text), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chdir(dir); err != nil {
		t.Fatal(err)
	}
	defer os.Chdir(here)
	out := script{remark: s.remark, files: s.files}
	for _, r := range s.runs {
		status, stdout, stderr := command1(r.stdin, arguments(r.args)...)
		out.runs = append(out.runs, run1{args: r.args, stdin: r.stdin, exit: fmt.Sprintln(status),
			stdout: normalised(stdout), stderr: normalised(stderr)})
	}
	return out
}

// TestScriptsReachEverything holds that the scripts use every command, every flag
// and every exit status, so that a new one does not go without.
func TestScriptsReachEverything(t *testing.T) {
	var used, statuses []string
	for _, s := range scripts(t) {
		for _, r := range s.runs {
			used = append(used, arguments(r.args)...)
			statuses = append(statuses, strings.TrimSpace(r.exit))
		}
	}
	var wanted []string
	for _, c := range commands() {
		wanted = append(wanted, c.name)
		for _, f := range c.formats {
			if len(c.formats) > 1 && !slices.Contains(wanted, f) {
				wanted = append(wanted, f)
			}
		}
	}
	for _, f := range flagHelp {
		wanted = append(wanted, "--"+f.name)
	}
	for _, w := range append(wanted, "--format", "-", "--", "help") {
		if !slices.Contains(used, w) {
			t.Errorf("no script uses %s", w)
		}
	}
	for _, status := range []string{"0", "1", "2", "3", "4"} {
		if !slices.Contains(statuses, status) {
			t.Errorf("no script ends with the exit status %s", status)
		}
	}
}

// TestFlagTables holds that the help, the flags and the commands speak of the
// same flags.
func TestFlagTables(t *testing.T) {
	var o options
	set := o.flags()
	for _, f := range flagHelp {
		if set.Lookup(f.name) == nil {
			t.Errorf("the help has --%s, which is no flag", f.name)
		}
	}
	for _, c := range commands() {
		for _, name := range c.flags {
			if !slices.ContainsFunc(flagHelp[:], func(f flagLine) bool { return f.name == name }) {
				t.Errorf("%s takes --%s, of which the help says nothing", c.name, name)
			}
		}
	}
}

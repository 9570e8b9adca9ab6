//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestOddFiles names what is neither file nor folder, or cannot be opened. A pipe
// into which nobody writes must not keep the command waiting.
func TestOddFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, dir := range []string{"rules", "parts"} {
		if err := os.Mkdir(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, pipe := range []string{"pipe.yaml", "rules/pipe.yaml", "parts/pipe.yaml"} {
		if err := syscall.Mkfifo(pipe, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, link := range []string{"loop.yaml", "rules/loop.yaml"} {
		if err := os.Symlink(filepath.Base(link), link); err != nil {
			t.Fatal(err)
		}
	}
	cases := []struct{ line, want string }{
		{"check --no-standard --rules rules pipe.yaml", "rules/pipe.yaml: cannot be read: it is not a regular file"},
		{"check --no-standard --rules rules pipe.yaml", "rules/loop.yaml: cannot be read: too many levels of symbolic links"},
		{"check pipe.yaml", "pipe.yaml: is not a regular file (write - and send it to the standard input)"},
		{"sheet pipe.yaml", "pipe.yaml: is not a regular file"},
		{"check loop.yaml", "loop.yaml: cannot be read: too many levels of symbolic links"},
		{"check /dev/null", "/dev/null: is not a regular file"},
		{"check --parts parts pipe.yaml", "parts/pipe.yaml: cannot be read: it is not a regular file"},
		{"check --parts pipe.yaml pipe.yaml", "pipe.yaml: is not a folder"},
		{"prove loop.yaml", "loop.yaml: cannot be read"},
	}
	if os.Getuid() != 0 { // who may read everything cannot try what may not be read
		if err := os.WriteFile("locked.yaml", nil, 0o000); err != nil {
			t.Fatal(err)
		}
		cases = append(cases, struct{ line, want string }{"check locked.yaml", "locked.yaml: cannot be read: permission denied"})
	}
	for _, c := range cases {
		done := make(chan string)
		go func() {
			status, _, stderr := command1("", strings.Fields(c.line)...)
			if status != exitLoad {
				stderr += "(the exit status is wrong)"
			}
			done <- stderr
		}()
		select {
		case stderr := <-done:
			if !strings.Contains(stderr, c.want) || strings.Contains(stderr, "status is wrong") {
				t.Errorf("%s: %s\nwant %s", c.line, stderr, c.want)
			}
		case <-time.After(20 * time.Second):
			t.Fatalf("%s: still waits", c.line)
		}
	}
}

// TestFullDisk holds that an output that did not arrive is no success.
func TestFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("there is no /dev/full here:", err)
	}
	defer full.Close()
	var told strings.Builder
	status := run([]string{"version"}, stream{in: strings.NewReader(""), out: full, err: &told})
	if status != exitLoad || !strings.Contains(told.String(), "could not be written: no space left") {
		t.Errorf("exit status %d, %q", status, told.String())
	}
}

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestFilesThatAreWaitedFor names files of the kernel that call themselves regular and
// that readers wait for, such as its log, of which the list of mounts is one that
// everybody may open.
func TestFilesThatAreWaitedFor(t *testing.T) {
	t.Chdir(t.TempDir())
	const odd = "/proc/self/mounts"
	if info, err := os.Stat(odd); err != nil || !info.Mode().IsRegular() {
		t.Fatalf("%v: %s calls itself no regular file", err, odd)
	}
	for _, dir := range []string{"rules", "parts"} {
		if err := os.Mkdir(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(odd, filepath.Join(dir, "a.yaml")); err != nil {
			t.Fatal(err)
		}
	}
	for line, want := range map[string]string{
		"check " + odd: odd + ": is not a regular file", "cart " + odd: odd + ": is not a regular file",
		"parts --parts parts":                            "parts/a.yaml: cannot be read: it is not a regular file",
		"check --rules rules demo:ferry-motor":           "rules/a.yaml: cannot be read: it is not a regular file",
		"check --rules rules/a.yaml demo:phone-question": "rules/a.yaml: cannot be read: it is not a regular file",
	} {
		if status, out, stderr := command1("", strings.Fields(line)...); status != exitLoad || out != "" || !strings.HasPrefix(stderr, want) {
			t.Errorf("%s ends with %d: %s%s", line, status, out, stderr)
		}
	}
}

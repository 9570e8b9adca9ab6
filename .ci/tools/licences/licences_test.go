package main

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/licences.txt anew")

// everything is read once, for the go command is asked of each module.
var everything = sync.OnceValues(func() ([]required, error) { return all(filepath.Join("..", "..", "..")) })

// Every module that is required has a licence that is allowed where it is used, and the
// list of them is the one that was looked at.
func TestLicences(t *testing.T) {
	found, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range faultsOf(found) {
		t.Error(fault)
	}
	uses := map[string]bool{}
	for _, r := range found {
		for _, use := range r.uses {
			uses[use] = true
		}
	}
	if len(found) < 50 || len(uses) != len(folders) {
		t.Fatalf("only %d modules, of %v", len(found), uses)
	}
	golden, got := filepath.Join("testdata", "licences.txt"), table(found)
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	was := slices.Collect(strings.Lines(string(want)))
	for line := range strings.Lines(got) {
		if i := slices.Index(was, line); i >= 0 {
			was = slices.Delete(was, i, i+1)
			continue
		}
		t.Errorf("new: %s(go test ./licences -update takes it in)", line)
	}
	for _, line := range was {
		t.Errorf("gone: %s(go test ./licences -update takes it out)", line)
	}
}

// What was read by hand is still there and says why; what no longer is goes.
func TestReadingsAreOfUse(t *testing.T) {
	found, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range byHand {
		used := slices.ContainsFunc(found, func(m required) bool { return m.path == r.module })
		if !used || r.why == "" || len(r.sum) != 16 {
			t.Errorf("%s, %s: %t, %q, %s", r.module, r.file, used, r.why, r.sum)
		}
	}
}

// What must not be used is told: by its place, its text, or for want of one.
func TestFaultsOfLicences(t *testing.T) {
	for _, c := range []struct {
		licences, uses []string
		want           string // a part of the one fault; empty for none
	}{
		{[]string{"MIT"}, []string{"library"}, ""},
		{[]string{"Apache-2.0", "BSD-3-Clause"}, []string{"library", "tools"}, ""},
		{[]string{"MPL-2.0"}, []string{"tools"}, ""},
		{[]string{"MPL-2.0"}, []string{"pipeline", "tools"}, "weak copyleft"},
		{[]string{"MIT", "MPL-2.0"}, []string{"library"}, "weak copyleft"},
		{nil, []string{"tools"}, "has no licence file"},
		{[]string{"GPL-3.0"}, []string{"tools"}, "GPL-3.0, which is not allowed"},
		{[]string{"MIT", unknown}, []string{"tools"}, "unknown, which is not allowed"},
	} {
		faults := faultsOf([]required{{"example.org/x", "v1.0.0", c.licences, c.uses}})
		if c.want == "" && len(faults) > 0 || c.want != "" && (len(faults) != 1 || !strings.Contains(faults[0], c.want)) {
			t.Errorf("%v in %v: %q", c.licences, c.uses, faults)
		}
	}
}

// A licence is told by its text, in whichever file it stands; a text that only begins
// like one, or goes on with something else, is not known.
func TestLicencesOfTexts(t *testing.T) {
	mit, err := os.ReadFile(filepath.Join("testdata", "mit.txt"))
	if err != nil {
		t.Fatal(err)
	}
	extra := strings.Repeat("Each copy that is sold costs a fee, to be paid to the author by the end of the month in which it was sold. ", 40)
	for text, want := range map[string]string{string(mit): "MIT", "All rights reserved.\n": unknown, string(mit[:300]): unknown, string(mit) + extra: unknown} {
		dir := t.TempDir()
		for _, name := range []string{"LICENSE.txt", "license.go", "README", "licenses.d"} {
			body := text
			if name != "LICENSE.txt" {
				body = "GNU GENERAL PUBLIC LICENSE"
			}
			if err := os.WriteFile(filepath.Join(dir, name), []byte(body), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := licencesIn("example.org/x", dir); err != nil || !slices.Equal(got, []string{want}) {
			t.Errorf("%.40q: %q, %v", text, got, err)
		}
	}
	if got, err := licencesIn("example.org/x", t.TempDir()); err != nil || len(got) > 0 {
		t.Errorf("an empty folder has %q, %v", got, err)
	}
	if _, known := readByHand("modernc.org/memory", "LICENSE-LOGO", []byte("another text")); known {
		t.Error("another text counts as read")
	}
}

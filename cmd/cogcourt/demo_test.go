package main

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.org/cogcourt/catalog/demo"
)

// TestDemoGolden holds the text reports of the demo as files, to be read aloud:
// does each make sense to a mechanic? They change with every text of a shipped
// rule; .ci/update writes them anew.
func TestDemoGolden(t *testing.T) {
	all := slices.Concat(demo.Mixes(), demo.Orders())
	for i, name := range all {
		file := filepath.Join("testdata", "demo", name+".txt")
		judge := "check"
		if i >= len(demo.Mixes()) {
			judge = "cart"
		}
		_, got, stderr := command1("", judge, "demo:"+name)
		if stderr != "" {
			t.Error(stderr)
		}
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil || got != string(want) {
			t.Errorf("%s differs (%v; .ci/update writes it anew):%s", file, err, firstDifference(string(want), got))
		}
	}
	files, err := filepath.Glob("testdata/demo/*.txt")
	if err != nil || len(files) != len(all) {
		t.Errorf("%d files for %d mixes and orders", len(files), len(all))
	}
}

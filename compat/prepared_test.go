package compat

import (
	"io/fs"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/standard"
)

// TestPrepared holds the checked expressions that are shipped against what parsing
// and checking the shipped rules gives. .ci/update writes them anew.
func TestPrepared(t *testing.T) {
	v, err := Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	got, err := rules.Prepare(rules.Config{Vocabulary: v, Sound: []fs.FS{standard.Files()}})
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "../../rules/standard/prepared.txt", string(got))
}

package compat

import (
	"io/fs"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
	"example.org/cogcourt/rules/standard"
)

// TestPrepared holds what is shipped of parsing and checking the shipped files against
// parsing and checking them. .ci/update writes it anew.
func TestPrepared(t *testing.T) {
	v, err := Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	expressions, trees, err := rules.Prepare(rules.Config{Vocabulary: v, Sound: []fs.FS{standard.Files()}})
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "../../rules/standard/expressions.txt", expressions)
	golden(t, "../../rules/standard/trees.txt", trees)
	for folder, files := range map[string]fs.FS{"demo": demo.Files(), "usual": usual.Files()} {
		var ps source.Problems
		trees, err := source.Trees(source.ReadFiles(files, &ps))
		if err != nil || len(ps) > 0 {
			t.Fatal(err, ps)
		}
		golden(t, "../../catalog/"+folder+"/trees.txt", trees)
	}
}

package compat

import (
	"bytes"
	"io/fs"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
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
	expressions, trees, err := rules.Prepare(rules.Config{Vocabulary: v, Sound: []fs.FS{standard.Files()}, Drawings: Drawings()})
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

// bare hides the trees of a file system.
type bare struct{ fs.FS }

// TestPreparedReports holds reports and sheets by what is shipped prepared against those by
// the same rules parsed and checked.
func TestPreparedReports(t *testing.T) {
	v, err := Vocabulary()
	if err != nil {
		t.Fatal(err)
	}
	set, err := rules.Load(rules.Config{Vocabulary: v, Sound: []fs.FS{bare{standard.Files()}},
		Derive: derive, Again: figures.Again, Behind: behind, Ways: figures.Ways, Others: others,
		Drawings: Drawings()})
	if err != nil {
		t.Fatal(err)
	}
	parsed, prepared := &Checker{set: set, printed: newPrinted(set)}, standardChecker(t)
	mixes := []Mix{lakeBike(t)}
	rng := random.Seeded(41)
	for range fewer(60) {
		mixes = append(mixes, mixOf(random.New(rng)))
	}
	for _, m := range mixes {
		if a, b := wholeJSON(t, parsed.Check(m)), wholeJSON(t, prepared.Check(m)); !bytes.Equal(a, b) {
			t.Fatalf("%s: parsed\n%s\nprepared\n%s", m.Name(), a, b)
		}
		a, errA := parsed.Sheet(m).MarshalJSON()
		b, errB := prepared.Sheet(m).MarshalJSON()
		if !bytes.Equal(a, b) || errA != nil || errB != nil {
			t.Fatalf("%s: parsed\n%s %v\nprepared\n%s %v", m.Name(), a, errA, b, errB)
		}
	}
}

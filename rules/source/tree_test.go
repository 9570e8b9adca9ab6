package source

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// keeping is a file system of one file with a tree.
type keeping struct {
	fstest.MapFS
	trees string
}

func (k keeping) Trees() string { return k.trees }

// kept reads a file of a file system that keeps these trees, and the tree that it has.
func kept(t *testing.T, name, text, trees string) *Node {
	t.Helper()
	var ps Problems
	files := ReadFiles(keeping{fstest.MapFS{name: {Data: []byte(text)}}, trees}, &ps)
	if len(ps) > 0 || len(files) != 1 {
		t.Fatalf("%d files: %v", len(files), ps)
	}
	return files[0].Tree()
}

// same holds two trees to be one in all that is shown and hidden, places included.
func same(t *testing.T, path string, want, got *Node) {
	t.Helper()
	flat := func(n *Node) Node {
		f := *n
		f.Items, f.Pairs, f.from = nil, nil, nil
		return f
	}
	if d := cmp.Diff(flat(want), flat(got), cmp.AllowUnexported(Node{}, layout{})); d != "" || len(want.Items) != len(got.Items) || len(want.Pairs) != len(got.Pairs) {
		t.Errorf("%s, - is as parsed, + as kept: %d and %d items, %d and %d pairs\n%s", path,
			len(want.Items), len(got.Items), len(want.Pairs), len(got.Pairs), d)
		return
	}
	if want.from.name != got.from.name || want.from.text != got.from.text || want.from.json != got.from.json {
		t.Errorf("%s is of another text", path)
	}
	for i := range want.Items {
		same(t, fmt.Sprintf("%s[%d]", path, i), want.Items[i], got.Items[i])
	}
	for i := range want.Pairs {
		same(t, path+" name", want.Pairs[i].Key, got.Pairs[i].Key)
		same(t, path+"."+want.Pairs[i].Key.Text, want.Pairs[i].Value, got.Pairs[i].Value)
	}
}

// TestTree holds trees that were written down and read again against what the parser
// gives: of every way to write a value, and of the files of other tests.
func TestTree(t *testing.T) {
	texts := map[string]string{
		"plain":   "a: 1\nb: true\nc:\nd: ~\ne: some words # and a remark\nf: bolt #4\ng: 1.5 #tight\n",
		"quoted":  "'a b': 'it''s'\n\"c\\td\": \"e\\u00e9\\n\"\nf: ''\ng: \"plain\"\n",
		"blocks":  "a: |\n  one\n  two\nb: >-\n  three\n  four\n\n\nc: >\n  five\n",
		"folded":  "a: one\n  two\n  three\nb: [1, 2,\n  3]\n",
		"flow":    "- {a: 1, b: [x, 'y', {c: d}]}\n- []\n- {}\n-\n  - - 1\n    - 2\n",
		"letters": "größe: 1.5 ± 0.1\nnaïve: {ü: ö, a: ß} # ä\n",
		"scalar":  "31.8\n",
		"last":    "a: 1\nb:",
	}
	files, _ := filepath.Glob("../standard/*.yaml")
	more, _ := filepath.Glob("../../catalog/usual/parts/*.yaml")
	if len(files) < 20 || len(more) < 5 {
		t.Fatalf("only %d and %d files", len(files), len(more))
	}
	for _, file := range append(files, more...) {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		texts[file] = string(text)
	}
	for name, text := range texts {
		name = filepath.Base(name) + ".yaml"
		want, err := Parse(name, []byte(text))
		if err != nil {
			t.Fatal(name, err)
		}
		trees, err := Trees([]File{{Name: "a.yaml", Text: []byte("a: 1\n")}, {Name: name, Text: []byte(text)}})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got := kept(t, name, text, trees)
		if got == nil {
			t.Errorf("%s has no tree in\n%s", name, trees)
			continue
		}
		same(t, name, want, got)
	}
}

package source

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
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

// TestTreeOfAnotherFile holds that a tree is not given for another text, nor one that
// does not fit its text.
func TestTreeOfAnotherFile(t *testing.T) {
	const text = "a: 1 # one\nb:\n  - 'x'\n  - {c: true, d: ü}\n\n\ne: >-\n  two\n"
	trees, err := Trees([]File{{Name: "a.yaml", Text: []byte(text)}})
	if err != nil {
		t.Fatal(err)
	}
	if kept(t, "a.yaml", text, trees) == nil {
		t.Fatalf("no tree in\n%s", trees)
	}
	if kept(t, "b.yaml", text, trees) != nil || kept(t, "a.yaml", text+"\n", trees) != nil || kept(t, "a.yaml", text, "") != nil {
		t.Error("another file has this tree")
	}
	head, body, _ := strings.Cut(trees, "\n")
	for i := range body[:strings.Index(body, "\n\n")] {
		for _, broken := range []string{body[:i] + "\n\n", body[:i] + "9" + body[i:], body[:i] + "\n" + body[i:], body[:i] + body[i+1:], body[:i] + "+" + body[i:]} {
			// Whatever is broken, the reader gives a tree of this text or none.
			if n := kept(t, "a.yaml", text, head+"\n"+broken); n != nil {
				inside(t, broken, n, int32(len(text)))
			}
		}
	}
	if _, err := Trees([]File{{Name: "a.yaml", Text: []byte("a: [")}}); err == nil {
		t.Error("a file with a fault has a tree")
	}
	if _, err := Trees([]File{{Name: "a.json", Text: []byte("{}")}}); err == nil {
		t.Error("a JSON file has a tree")
	}
}

// inside holds that every place of a tree lies in its text.
func inside(t *testing.T, from string, n *Node, end int32) {
	t.Helper()
	if n.at < 0 || n.at > end || n.Pos.Line < 1 || n.Pos.Col < 1 {
		t.Errorf("%q gives a node at %d, %v", from, n.at, n.Pos)
	}
	for i := range n.Items {
		inside(t, from, n.Items[i], end)
	}
	for i := range n.Pairs {
		inside(t, from, n.Pairs[i].Key, end)
		inside(t, from, n.Pairs[i].Value, end)
	}
	_, _ = n.At(0), n.End()
}

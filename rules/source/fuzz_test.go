package source

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"unicode/utf8"
)

// FuzzParse reads any text without a safety net. Nothing may panic, and each
// place that comes out lies within the file: those of problems, of nodes, and
// of the code points of texts, which have to be found.
func FuzzParse(f *testing.F) {
	files, _ := filepath.Glob("testdata/bad/*.*")
	for _, file := range files {
		if text, err := os.ReadFile(file); err == nil {
			f.Add(text, filepath.Ext(file) == ".json")
		}
	}
	for text := range hostile() {
		if len(text) < 2000 {
			f.Add([]byte(text), false)
		}
	}
	f.Add([]byte(goodYAML), false)
	f.Add([]byte(goodJSON), true)
	f.Fuzz(func(t *testing.T, text []byte, json bool) {
		file := "x.yaml"
		if json {
			file = "x.json"
		}
		root, err := Limits{}.parse(file, text, nil)
		l := wholeLayout(file, string(text))
		var ps Problems
		if err != nil && !errors.As(err, &ps) {
			t.Fatalf("an error of type %T", err)
		}
		if root != nil {
			visit(t, l, root)
			root.ReadRecord(sample(), "", nil, &ps)
			root.Keys("", &ps, "a", "b")
		}
		var more Problems
		if err := readSample(file, text); err != nil && !errors.As(err, &more) {
			t.Fatalf("an error of type %T", err)
		}
		for _, p := range append(ps, more...) {
			sound(t, l, p)
		}
	})
}

// sound makes sure that a problem says what it is, and begins and ends in the file.
func sound(t *testing.T, l *layout, p Problem) {
	within(t, l, p.Pos)
	within(t, l, p.End)
	if p.End != (Pos{}) && (p.End.Line == 0 || p.End.Compare(p.Pos) < 0) {
		t.Errorf("%v ends at %v", p, p.End)
	}
	if p.Code == "" || p.Code == Invalid || p.Text == "" {
		t.Errorf("%v has the code %q", p, p.Code)
	}
}

func visit(t *testing.T, l *layout, n *Node) {
	within(t, l, n.Pos)
	within(t, l, n.End())
	if n.Text != "" {
		if n.End() == (Pos{}) || n.End().Compare(n.Pos) <= 0 {
			t.Errorf("%v: %q ends at %v", n.Pos, n.Text, n.End())
		}
		if n.Kind != Null && n.glyphs() == nil {
			t.Errorf("%v: the places of %q are not found", n.Pos, n.Text)
		}
		for _, i := range []int{0, utf8.RuneCountInString(n.Text) / 2, len(n.Text)} {
			within(t, l, n.At(i))
		}
	}
	for _, item := range n.Items {
		visit(t, l, item)
	}
	for _, p := range n.Pairs {
		visit(t, l, p.Key)
		visit(t, l, p.Value)
	}
}

func within(t *testing.T, l *layout, p Pos) {
	if p.Line == 0 {
		return // the file as a whole
	}
	l.index()
	if p.File != l.name || p.Line < 1 || p.Line > len(l.lines) || p.Col < 1 || l.pos(l.offset(p.Line, p.Col)) != p {
		t.Errorf("%v lies outside of the file", p)
	}
}

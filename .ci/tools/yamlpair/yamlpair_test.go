package yamlpair

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	next "go.yaml.in/yaml/v3"
	used "gopkg.in/yaml.v3"
)

const root = "../../.."

// documents gives every YAML file of the repository, and as texts of their own
// the ones that stand in the scripts of the command's tests.
func documents(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() == ".git" { // a file in a worktree
			return fs.SkipDir
		}
		if d.IsDir() || !strings.Contains(" .yaml .yml .json .txt ", " "+filepath.Ext(path)+" ") {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if filepath.Ext(path) != ".txt" {
			out[path] = text
			return nil
		}
		for i, part := range strings.Split("\n"+string(text), "\n-- ") {
			out[fmt.Sprintf("%s, part %d", path, i)] = []byte(part[strings.Index(part, "\n")+1:])
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestSameTrees reads every document with both parsers.
func TestSameTrees(t *testing.T) {
	good, bad := 0, 0
	for name, text := range documents(t) {
		a, errA := usedTrees(text)
		b, errB := nextTrees(text)
		if (errA == nil) != (errB == nil) || errA != nil && errA.Error() != errB.Error() {
			t.Errorf("%s: %v against %v", name, errA, errB)
			continue
		}
		if a != b {
			t.Errorf("%s: the trees differ:\n%s\nagainst\n%s", name, a, b)
		}
		if errA == nil {
			good++
		} else {
			bad++
		}
	}
	t.Logf("%d documents with one tree, %d with one error", good, bad)
	if good < 50 || bad < 10 {
		t.Errorf("only %d good and %d bad documents were found", good, bad)
	}
}

// TestDifferencesAreSeen holds that the texts of trees tell what may differ.
func TestDifferencesAreSeen(t *testing.T) {
	seen := map[string]string{}
	for _, text := range []string{"a: 1", "a:  1", "a: '1'", "a: \"1\"", "a: 1 # one", "a: &x 1", "a: !!str 1", "a: [1]", "a:\n- 1", "{a: 1}", "a: |\n 1", "a: 1\n---\nb: 1"} {
		tree, err := usedTrees([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if other := seen[tree]; other != "" {
			t.Errorf("%q and %q give one text", text, other)
		}
		seen[tree] = text
	}
}

// usedTrees gives the trees of all documents of a text as a text.
func usedTrees(text []byte) (string, error) {
	dec := used.NewDecoder(bytes.NewReader(text))
	var b strings.Builder
	for {
		var n used.Node
		if err := dec.Decode(&n); err != nil {
			return b.String(), end(err)
		}
		writeUsed(&b, &n, 0)
	}
}

// nextTrees is the same with the successor.
func nextTrees(text []byte) (string, error) {
	dec := next.NewDecoder(bytes.NewReader(text))
	var b strings.Builder
	for {
		var n next.Node
		if err := dec.Decode(&n); err != nil {
			return b.String(), end(err)
		}
		writeNext(&b, &n, 0)
	}
}

// end takes the end of the text for no error.
func end(err error) error {
	if err.Error() == "EOF" {
		return nil
	}
	return err
}

func writeUsed(b *strings.Builder, n *used.Node, depth int) {
	line(b, depth, n.Kind, n.Style, n.Tag, n.Value, n.Anchor, n.Line, n.Column, n.HeadComment, n.LineComment, n.FootComment, n.Alias != nil)
	for _, c := range n.Content {
		writeUsed(b, c, depth+1)
	}
}

func writeNext(b *strings.Builder, n *next.Node, depth int) {
	line(b, depth, n.Kind, n.Style, n.Tag, n.Value, n.Anchor, n.Line, n.Column, n.HeadComment, n.LineComment, n.FootComment, n.Alias != nil)
	for _, c := range n.Content {
		writeNext(b, c, depth+1)
	}
}

func line(b *strings.Builder, depth int, values ...any) {
	b.WriteString(strings.Repeat(" ", depth))
	for _, v := range values {
		fmt.Fprintf(b, "%#v ", v)
	}
	b.WriteString("\n")
}

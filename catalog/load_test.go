package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/rules/source"
)

func folder(files map[string]string) fstest.MapFS {
	m := fstest.MapFS{}
	for name, text := range files {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

func ids(parts []Part) string {
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = p.ID()
	}
	return strings.Join(names, " ")
}

func TestLoad(t *testing.T) {
	c, err := Load(folder(map[string]string{
		"a.yaml":       "catalog: Ferry shed (invented)\ncurrency: EUR\nnote: counted in spring\nparts:\n- {kind: chain, id: a1, name: A one, sku: 1200, price: 20.5}\n- {kind: cell, id: 2024-7, name: A two, sku: S2}\n",
		"b/c.json":     `{"catalog": "Club boxes (invented)", "currency": "EUR", "parts": [{"kind": "chain", "id": "c1", "name": "C one", "sku": "S2"}]}`,
		"b/d.yml":      "catalog: Ferry shed (invented)\nparts: []\n",
		".git/x.yaml":  "not: parts\n",
		"b/.hid.yaml":  "not: parts\n",
		"readme.txt":   "not: parts\n",
		"b/notes.yamx": "not: parts\n",
	}))
	if err != nil {
		t.Fatal(err)
	}
	if got := ids(c.Parts()); got != "a1 2024-7 c1" || c.Len() != 3 {
		t.Errorf("the parts are %s", got)
	}
	if got := ids(c.OfKind("chain")) + "|" + ids(c.OfKind("hub")) + "|" + ids(c.BySKU("S2")) + "|" + ids(c.BySKU("1200")) + "|" + ids(c.BySKU("")); got != "a1 c1||2024-7 c1|a1|" {
		t.Errorf("kinds and numbers give %s", got)
	}
	if c.Name() != "Ferry shed (invented), Club boxes (invented)" || c.Currency() != "EUR" {
		t.Errorf("the catalog is %q in %q", c.Name(), c.Currency())
	}
	p, ok := c.Part("c1")
	if !ok || p != c.Parts()[2] || p.Pos() != (source.Pos{File: "b/c.json", Line: 1, Col: 67}) {
		t.Errorf("c1 is %v at %s", ok, p.Pos())
	}
	if _, ok := c.Part("c2"); ok {
		t.Error("there is a part c2")
	}
	c.Parts()[0], c.OfKind("chain")[0] = Part{}, Part{}
	if c.Parts()[0].ID() != "a1" || c.OfKind("chain")[0].ID() != "a1" {
		t.Error("a caller can change the catalog")
	}
}

// All faults of all files come at once, in the order of their places.
func TestLoadIsWholeOrNothing(t *testing.T) {
	c, err := Load(
		folder(map[string]string{
			"a.yaml": "currency: EUR\nparts:\n- {kind: chain, id: x, name: X}\n",
			"b.yaml": "currency: CHF\nparts:\n- {kind: chain, id: x, name: X}\n- {kind: chain, id: y, name: Y, speeds: 99}\n",
			"c.yaml": "parts: [\n",
		}),
		folder(map[string]string{"d.json": `{"parts": [{"kind": "chain", "id": "y", "name": "Y"}]}`}),
		folder(nil),
	)
	var ps source.Problems
	if !errors.As(err, &ps) || c != nil {
		t.Fatalf("got %v", err)
	}
	want := []string{
		".: the folder holds no part file",
		`b.yaml:1:11: currency: the currency is "CHF" here and "EUR" at a.yaml:1:11`,
		`b.yaml:3:21: parts[0].id: the id "x" is taken already, at a.yaml:3:21`,
		"b.yaml:4:41: parts[1].speeds: 99 is above the most, 16",
		"c.yaml:",
		`d.json:1:36: parts[0].id: the id "y" is taken already, at b.yaml:4:21`,
	}
	if len(ps) != len(want) {
		t.Fatalf("want %d problems, got\n%s", len(want), err)
	}
	for i, p := range ps {
		if !strings.HasPrefix(p.String(), want[i]) {
			t.Errorf("problem %d is\n%s\nwant\n%s", i, p, want[i])
		}
	}
}

// A file that cannot be opened is told of with the faults of the rest.
type lockedFS struct{ fstest.MapFS }

func (l lockedFS) Open(name string) (fs.File, error) {
	if name == "locked.yaml" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return l.MapFS.Open(name)
}

func TestLoadTellsOfUnreadableFiles(t *testing.T) {
	_, err := Load(lockedFS{folder(map[string]string{"locked.yaml": "", "open.yaml": "parts: 3\n"})})
	if err == nil || !strings.Contains(err.Error(), "locked.yaml: cannot be read: permission denied") || !strings.Contains(err.Error(), "open.yaml:1:8: parts: must be a list") {
		t.Errorf("got %v", err)
	}
}

// manyParts writes a part file of n random parts, all kinds in turn.
func manyParts(n int) []byte {
	rng := rand.New(rand.NewPCG(3, 14))
	var b strings.Builder
	b.WriteString("catalog: generated\ncurrency: EUR\nparts:\n")
	for i := range n {
		object := Kinds()[i%len(Kinds())]
		fmt.Fprintf(&b, "  - kind: %s\n    id: part-%d\n    name: Part %d\n    sku: \"%d\"\n    price: %d.50\n", object.Name(), i, i, i/2, i%90)
		for name, v := range sample(object, rng) {
			switch list := v.(type) {
			case []int, []float64, []string:
				v = strings.Join(strings.Fields(fmt.Sprint(list)), ", ")
			}
			if rng.IntN(3) == 0 || name == "cogs_t" || name == "rings_t" {
				fmt.Fprintf(&b, "    %s: %v\n", name, v)
			}
		}
	}
	return []byte(b.String())
}

func TestTenThousandParts(t *testing.T) {
	const n = 10_000
	text := manyParts(n)
	c, err := ReadFile("many.yaml", text)
	if err != nil {
		t.Fatal(firstLines(err))
	}
	if c.Len() != n || len(c.OfKind("cassette")) != (n+len(Kinds())-1)/len(Kinds()) || len(c.BySKU("4999")) != 2 {
		t.Errorf("%d parts, %d cassettes", c.Len(), len(c.OfKind("cassette")))
	}
	last, ok := c.Part("part-9999")
	if !ok || last.Pos().Line < n {
		t.Errorf("the last part is at %s", last.Pos())
	}
}

func firstLines(err error) string {
	lines := strings.SplitN(err.Error(), "\n", 6)
	return strings.Join(lines[:min(5, len(lines))], "\n")
}

// A file of nothing but faults ends, and says how many there are.
func TestManyFaultsEnd(t *testing.T) {
	_, err := ReadFile("bad.yaml", []byte("parts:\n"+strings.Repeat("- 1\n", 50_000)))
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) != source.MaxProblems+1 || ps[len(ps)-1].Text != "and 49800 more" {
		t.Errorf("%d problems: %s", len(ps), firstLines(err))
	}
}

func BenchmarkReadFile(b *testing.B) {
	text := manyParts(1000)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := ReadFile("many.yaml", text); err != nil {
			b.Fatal(firstLines(err))
		}
	}
}

package yamlpair

import (
	"bytes"
	"fmt"
	"io/fs"
	"slices"
	"testing"
	"testing/fstest"
	"time"

	used "gopkg.in/yaml.v3"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
)

// manyParts makes a catalogue of n parts in four files: the demo's own, over and
// over, under ids of their own, in the style in which they are written.
func manyParts(tb testing.TB, n int) fstest.MapFS {
	tb.Helper()
	var items []*used.Node
	for _, doc := range demoDocuments(tb) {
		top := doc.Content[0]
		for i := 0; i+1 < len(top.Content); i += 2 {
			if top.Content[i].Value == "parts" {
				items = append(items, top.Content[i+1].Content...)
			}
		}
	}
	if len(items) == 0 {
		tb.Fatal("the demo has no parts")
	}
	out := fstest.MapFS{}
	for file := range 4 {
		list := &used.Node{Kind: used.SequenceNode}
		for i := file * n / 4; i < (file+1)*n/4; i++ {
			list.Content = append(list.Content, renamed(items[i%len(items)], i))
		}
		var text bytes.Buffer
		enc := used.NewEncoder(&text)
		enc.SetIndent(2)
		if err := enc.Encode(map[string]*used.Node{"parts": list}); err != nil {
			tb.Fatal(err)
		}
		out[fmt.Sprintf("parts%d.yaml", file)] = &fstest.MapFile{Data: text.Bytes()}
	}
	return out
}

// demoDocuments reads the demo's files.
func demoDocuments(tb testing.TB) []*used.Node {
	tb.Helper()
	var out []*used.Node
	err := fs.WalkDir(demo.Files(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Files(), path)
		if err != nil {
			return err
		}
		doc := &used.Node{}
		out = append(out, doc)
		return used.Unmarshal(text, doc)
	})
	if err != nil {
		tb.Fatal(err)
	}
	return out
}

// renamed copies an item under another id.
func renamed(item *used.Node, i int) *used.Node {
	n := *item
	n.Content = slices.Clone(n.Content)
	for k := 0; k+1 < len(n.Content); k += 2 {
		if n.Content[k].Value == "id" {
			id := *n.Content[k+1]
			id.Value = fmt.Sprintf("%s-%d", id.Value, i)
			n.Content[k+1] = &id
		}
	}
	return &n
}

// toNodes is the parser's own work on the same bytes.
func toNodes(tb testing.TB, files fstest.MapFS) {
	tb.Helper()
	for _, f := range files {
		var n used.Node
		if err := used.Unmarshal(f.Data, &n); err != nil {
			tb.Fatal(err)
		}
	}
}

func loadParts(tb testing.TB, files fstest.MapFS) int {
	tb.Helper()
	c, err := catalog.Load(files)
	if err != nil {
		tb.Fatal(err)
	}
	return len(c.Parts())
}

func TestManyPartsLoad(t *testing.T) {
	if got := loadParts(t, manyParts(t, 1000)); got != 1000 {
		t.Errorf("%d parts of 1000", got)
	}
}

// BenchmarkLoadParts loads 10,000 parts, and reads the same bytes to the parser's
// nodes, in turn; ratio is the median of what the first takes of the second.
func BenchmarkLoadParts(b *testing.B) {
	files := manyParts(b, 10_000)
	var ratios []float64
	for b.Loop() {
		start := time.Now()
		toNodes(b, files)
		parser := time.Since(start)
		start = time.Now()
		loadParts(b, files)
		ratios = append(ratios, float64(time.Since(start))/float64(parser))
	}
	slices.Sort(ratios)
	size := 0
	for _, f := range files {
		size += len(f.Data)
	}
	b.ReportMetric(ratios[len(ratios)/2], "ratio")
	b.ReportMetric(float64(size)/1e6, "MB")
}

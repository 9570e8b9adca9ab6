package source

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/cogcourt/rules/fact"
)

const goodYAML = `# the sample
title: "A: mix" # with a remark
edition: 2
weight: 3.65 ± 0.02
done: true
notes: [one, 'two', "th\u0072ee"]
parts:
  - id: a
    cogs_t: [11, 13, 15]
    rings_t: [30, 42.0, 36]
    pitches_mm: [3.65 ± 0.1, 3.7]
    speeds: 3
    assist_rated: false
    actuation: cable
    freehub: 24
    fits: [hg-9, 24]
  - {id: b, kind: x, cogs_t: [11, 12], usual_mm: 2}
`

const goodJSON = `{"title": "A: mix", "edition": 2, "weight": "3.65 ± 0.02", "done": true,
 "notes": ["one", "two", "th\u0072ee"],
 "parts": [{"id": "a", "cogs_t": [11, 13, 15], "rings_t": [30, 42.0, 36], "pitches_mm": ["3.65 ± 0.1", 3.7],
   "speeds": 3, "assist_rated": false, "actuation": "cable", "freehub": 24, "fits": ["hg-9", 24]},
  {"id": "b", "kind": "x", "cogs_t": [11, 12], "usual_mm": 2}]}`

// TestFormatsAgree reads the same content from YAML, from JSON and from Go.
func TestFormatsAgree(t *testing.T) {
	yamlTree, err := Parse("x.yaml", []byte(goodYAML))
	if err != nil {
		t.Fatal(err)
	}
	jsonTree, err := Parse("x.JSON", []byte(goodJSON))
	if err != nil {
		t.Fatal(err)
	}
	dec := json.NewDecoder(strings.NewReader(goodJSON))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		t.Fatal(err)
	}
	goTree, err := FromGo("x", v)
	if err != nil {
		t.Fatal(err)
	}
	want := sampleValues(t, yamlTree)
	for name, tree := range map[string]*Node{"JSON": jsonTree, "Go": goTree} {
		if diff := cmp.Diff(want, sampleValues(t, tree)); diff != "" {
			t.Errorf("%s differs from YAML:\n%s", name, diff)
		}
	}
	if err := readSample("x.yaml", []byte(goodYAML)); err != nil {
		t.Error(err)
	}
	usual := fact.Value{Known: true, Assumed: true, Num: 1.8}
	rows := [][]fact.Value{{
		fact.Nums([]float64{11, 13, 15}), fact.Nums([]float64{42, 36, 30}), {},
		{Known: true, List: []float64{3.65, 3.7}, More: &fact.More{Tols: []float64{0.1, 0}}},
		fact.Num(3), fact.Truth(false), fact.Word("cable"), fact.Word("24"), fact.Texts("hg-9", "24"), {}, usual,
	}, {
		fact.Nums([]float64{11, 12}), {}, {}, {}, {}, {}, {}, {}, {}, {}, fact.Num(2),
	}}
	if diff := cmp.Diff(rows, want); diff != "" {
		t.Errorf("values:\n%s", diff)
	}
}

// sampleValues reads the parts of a tree, and nothing may be wrong.
func sampleValues(t *testing.T, root *Node) [][]fact.Value {
	var ps Problems
	var rows [][]fact.Value
	for i, n := range root.Get("parts").ReadList("parts", &ps) {
		rows = append(rows, n.ReadRecord(sample(), entry("parts", i), []string{"id", "kind"}, &ps))
	}
	if err := ps.Err(); err != nil {
		t.Error(err)
	}
	return rows
}

// TestNilNodes asks the readers for what is absent.
func TestNilNodes(t *testing.T) {
	var n *Node
	var ps Problems
	s, ok1 := n.Get("a").ReadText("a", &ps)
	x, tol, ok2 := n.ReadNumber("a", &ps)
	i, ok3 := n.ReadWhole("a", &ps)
	b, ok4 := n.ReadFlag("a", &ps)
	if s != "" || x != 0 || tol != 0 || i != 0 || b || ok1 || ok2 || ok3 || ok4 || n.Keys("a", &ps) ||
		n.ReadList("a", &ps) != nil || n.ReadTexts("a", &ps) != nil || len(ps) > 0 {
		t.Error("a nil node gives something", ps)
	}
	values := (*Node)(nil).ReadRecord(sample(), "a", nil, &ps)
	if len(ps) > 0 || len(values) != 11 || !values[10].Known || values[0].Known {
		t.Error("a nil record gives", values, ps)
	}
}

func TestKeys(t *testing.T) {
	n, err := Parse("x.yaml", []byte("a: 1\nb: [2]\n"))
	if err != nil {
		t.Fatal(err)
	}
	var ps Problems
	if !n.Keys("", &ps, "a", "b", "c") || len(ps) > 0 {
		t.Error(ps)
	}
	if n.Keys("", &ps, "b") || n.Get("b").Keys("b", &ps) || n.Get("a").Keys("a", &ps, "x") || len(ps) != 3 {
		t.Error(ps)
	}
	if n.Get("c") != nil || n.Get("a").Get("a") != nil || n.Get("b").Get("") != nil {
		t.Error("Get finds what is not there")
	}
}

func TestRemark(t *testing.T) {
	n, err := Parse("x.yaml", []byte("a: use #4 or\nb: use#4\nc: 'x' # y\nd: two\n  lines # z\ne: # only\nf:\n  # below\ng: [x # y\n  ]\nh: |\n  a # b\ni: 3 \t# n\n"))
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, p := range n.Pairs {
		if p.Value.Comment || p.Value.Kind == List && p.Value.Items[0].Comment {
			got += p.Key.Text
		}
	}
	if got != "adegi" {
		t.Errorf("remarks at %s", got)
	}
}

func TestFromGo(t *testing.T) {
	n, err := FromGo("go", map[string]any{
		"b": []int{1, 2}, "a": []float64{1e-7, 2.5e30}, "c": []string{"x"}, "d": nil, "e": true, "f": float32(0.1),
		"g": uint8(7), "i": []float32{1}, "j": []int32{1}, "k": []json.Number{"1"}, "l": []any{}, "h": []map[string]any{{"z": json.Number("1.50")}},
	})
	if err != nil {
		t.Fatal(err)
	}
	text := func(s string, k Kind) *Node { return &Node{Kind: k, Text: s, Pos: Pos{File: "go"}, Plain: k != Text} }
	want := map[string]*Node{
		"a": {Kind: List, Items: []*Node{text("1e-07", Number), text("2.5e+30", Number)}},
		"b": {Kind: List, Items: []*Node{text("1", Number), text("2", Number)}},
		"c": {Kind: List, Items: []*Node{text("x", Text)}},
		"d": text("", Null), "e": text("true", Bool), "f": text("0.1", Number), "g": text("7", Number),
		"h": {Kind: List, Items: []*Node{{Kind: Map, Pos: Pos{File: "go"}, Pairs: []Pair{{text("z", Text), text("1.50", Number)}}}}},
	}
	for _, key := range []string{"i", "j", "k"} {
		want[key] = &Node{Kind: List, Items: []*Node{text("1", Number)}}
	}
	want["l"] = &Node{Kind: List}
	if len(n.Pairs) != len(want) {
		t.Fatalf("%d pairs", len(n.Pairs))
	}
	for i, p := range n.Pairs {
		w := want[p.Key.Text]
		w.Pos.File = "go"
		if diff := cmp.Diff(w, p.Value, cmpopts.IgnoreUnexported(Node{})); diff != "" || p.Key.Text != string(rune('a'+i)) {
			t.Errorf("%s: %s", p.Key.Text, diff)
		}
		if p.Value.At(3) != (Pos{File: "go"}) {
			t.Error("a place in no file", p.Value.At(3))
		}
	}
}

func TestFromGoRefuses(t *testing.T) {
	loop := map[string]any{}
	loop["self"] = loop
	wide := map[string]any{}
	for i := range 50 {
		wide[fmt.Sprint(i)] = wide
	}
	list := []any{nil}
	list[0] = list
	for _, c := range []struct {
		v    any
		want string
	}{
		{map[string]any{"a": []any{1, math.NaN()}}, "x: a[1]: is no finite number"},
		{[]float64{math.Inf(-1)}, "x: [0]: is no finite number"},
		{map[string]any{"a": struct{}{}}, "x: a: is a struct {}, which no file can hold"},
		{map[int]any{1: 2}, "x: is a map[int]interface {}, which"},
		{map[string]any{"a": "\xff"}, "x: a: is a text that is not UTF-8"},
		{map[string]any{"\xff": 1}, "x: is a text that is not UTF-8"},
		{json.Number("01"), `x: "01" is no number`},
		{json.Number("1e999"), "x: is too large a number"},
		{loop, "lies more than 32 deep (a map may hold itself)"},
		{wide, "lies more than 32 deep (a map may hold itself)"},
		{list, "lies more than 32 deep"},
		{make([]int64, maxValues), "there are more than 500000 values"},
		{map[string]any{"a": make([]uint, maxValues), "b": 1}, "there are more than 500000 values"},
	} {
		n, err := FromGo("x", c.v)
		if n != nil || err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.40v: %v, want %s", c.want, err, c.want)
		}
	}
}

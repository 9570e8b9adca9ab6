package source

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules/fact"
)

// sameTree says where two trees differ, "" for nowhere.
func sameTree(a, b *Node) string {
	switch {
	case a.Kind != b.Kind || a.Pos != b.Pos || a.Text != b.Text || a.Plain != b.Plain || a.at != b.at || a.style != b.style ||
		a.indent != b.indent || a.Comment != b.Comment || a.TightComment != b.TightComment:
		return fmt.Sprintf("%v %s %q at %v, and %v %s %q at %v", a.Kind, string(rune('0'+a.style)), a.Text, a.Pos, b.Kind, string(rune('0'+b.style)), b.Text, b.Pos)
	case len(a.Items) != len(b.Items) || len(a.Pairs) != len(b.Pairs):
		return fmt.Sprintf("at %v %d items and %d pairs, and %d and %d", a.Pos, len(a.Items), len(a.Pairs), len(b.Items), len(b.Pairs))
	case a.End() != b.End():
		return fmt.Sprintf("%q ends at %v, and at %v", a.Text, a.End(), b.End())
	}
	for i := range a.Items {
		if differs := sameTree(a.Items[i], b.Items[i]); differs != "" {
			return differs
		}
	}
	for i := range a.Pairs {
		for _, pair := range [][2]*Node{{a.Pairs[i].Key, b.Pairs[i].Key}, {a.Pairs[i].Value, b.Pairs[i].Value}} {
			if differs := sameTree(pair[0], pair[1]); differs != "" {
				return differs
			}
		}
	}
	return ""
}

// bothRead reads a text both ways, as a file and as a line of one: what the quick reader
// takes, encoding/json takes, and the trees are one. It tells whether it was quick.
func bothRead(t testing.TB, text string) (quick bool) {
	t.Helper()
	for _, whole := range []Pos{{File: "a.json"}, {File: "a.jsonl", Line: 7, Col: 1}} {
		l, ps := Limits{}.admit(whole, []byte(text))
		if len(ps) > 0 {
			return false
		}
		l.json = true
		got, ok := parseQuick(l)
		if !ok {
			return false
		}
		want, ps := parseTokens(l)
		if len(ps) > 0 {
			t.Fatalf("%q is read, and is refused: %v", text, ps)
		}
		if differs := sameTree(got, want); differs != "" {
			t.Fatalf("%q: %s", text, differs)
		}
	}
	return true
}

// plainJSON is sound, and has no escape.
func plainJSON() string { return strings.ReplaceAll(goodJSON, `\u0072`, "r") }

// What is sound is read quickly, and what is unusual is left to encoding/json.
func TestQuickJSON(t *testing.T) {
	deep := func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) }
	keys := func(n int, last string) string {
		out := "{"
		for i := range n {
			out += fmt.Sprintf("%q: %d, ", fmt.Sprint("k", i), i)
		}
		return out + `"` + last + `": 0}`
	}
	for _, text := range []string{
		`{}`, `[]`, " \t\r\n{ \"a\" : [ 1 , -2.50 , 0 , true , false , null , \"é ± x\" ] , \"ü\" : { } }\r\n", "[\n1,\r2,\r\n3,\n\n\"a\"]", `"a"`, `-0`, `12345678901234567890`,
		`null`, `[[], {}, [{}]]`, deep(maxDepth), keys(5, "x"), keys(100, "x"), "{\"ключ\":\n\"日本\", \"b\"\n: 2}", plainJSON(),
	} {
		if !bothRead(t, text) {
			t.Errorf("%q is not read quickly", text)
		}
	}
	for _, text := range []string{
		``, ` `, `{`, `[1`, `{"a"`, `{"a":`, `{"a":1`, `{"a":1,}`, `[1,]`, `[,1]`, `[1 2]`, `{"a" 1}`, `{1:2}`, `{a:1}`, `tru`, `nulls`, `truefalse`, `1 2`, `{}{}`, `"a`, `"a\n"`,
		"\"a\nb\"", `"\u00e9"`, `{"a":1,"a":2}`, `{"":1}`, `01`, `1.`, `.5`, `+1`, `-`, `1e3`, `1E400`, `0.0000000000000000000000001`, `--1`, `1.2.3`, `'a'`, `NaN`, `/**/1`,
		deep(maxDepth + 1), keys(5, "k3"), keys(100, "k50"), `[1}`, `{"a":1]`, `]`, `,`, `:`,
	} {
		if bothRead(t, text) {
			t.Errorf("%q is read quickly", text)
		}
	}
}

// Files with random damage are either left to encoding/json or read as it reads them.
func TestQuickJSONDamaged(t *testing.T) {
	texts := []string{goodJSON, plainJSON()}
	files, _ := filepath.Glob("testdata/bad/*.json")
	for _, file := range files {
		if text, err := os.ReadFile(file); err == nil {
			texts = append(texts, string(text))
		}
	}
	random := rand.New(rand.NewPCG(5, 6))
	quick := 0
	const rounds = 4000
	for i := range rounds {
		text := damaged(random, texts[i%len(texts)])
		if bothRead(t, text) {
			quick++
		}
	}
	if quick < rounds/50 || quick == rounds {
		t.Errorf("%d of %d texts are read quickly: that proves little", quick, rounds)
	}
}

// damaged changes a text in up to three places.
func damaged(random *rand.Rand, text string) string {
	b := []byte(text)
	signs := "{}[]\",:\\ \n\r\t0123456789.-eEtruefalsnux\x00\x7fé"
	for range random.IntN(4) {
		if len(b) == 0 {
			break
		}
		at := random.IntN(len(b))
		end := min(at+random.IntN(4), len(b))
		switch sign := signs[random.IntN(len(signs))]; random.IntN(4) {
		case 0:
			b[at] = sign
		case 1:
			b = slices.Insert(b, at, sign)
		case 2:
			b = slices.Delete(b, at, end)
		case 3:
			b = slices.Insert(b, random.IntN(len(b)), slices.Clone(b[at:end])...)
		}
	}
	return string(b)
}

// FuzzQuickJSON reads any text both ways: the trees are one, and so are the records that
// are read of each map in them, value by value.
func FuzzQuickJSON(f *testing.F) {
	seeds := []string{
		plainJSON(), `{"a": [1, {"b": null}], "c": "é"}`, `{"fits": ["a-1", "b"], "rings_t": [30, 46], "actuation": "cable", "speeds": 12, "assist_rated": true}`,
		`[{"cogs_t": [11, 13, 15], "pitches_mm": [3.7, 3.8], "offset_mm": -0.25, "freehub": "8"}, {"pitch_mm": 3.65, "speeds": 1.0, "fits": "a"}]`,
	}
	table := sample()
	blind.Fuzz(f, seeds, func(t testing.TB, raw []byte, choice byte) bool {
		text := string(raw)
		if !bothRead(t, text) {
			bothRead(t, damaged(rand.New(rand.NewPCG(uint64(choice), 0)), text))
			return false
		}
		root, err := Parse("a.json", raw)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		for n := range eachMap(root) {
			sameValues(t, table, n)
		}
		return true
	})
}

// eachMap gives every map of a tree.
func eachMap(n *Node) iter.Seq[*Node] {
	return func(yield func(*Node) bool) {
		var walk func(n *Node) bool
		walk = func(n *Node) bool {
			if n.Kind == Map && !yield(n) {
				return false
			}
			for _, item := range n.Items {
				if !walk(item) {
					return false
				}
			}
			for _, p := range n.Pairs {
				if !walk(p.Value) {
					return false
				}
			}
			return true
		}
		walk(n)
	}
}

// sameValues holds each value that is read quickly against the reader that words what is
// wrong: it finds nothing wrong with it, and the same value.
func sameValues(t testing.TB, table *fact.Table, n *Node) {
	t.Helper()
	for _, p := range n.Pairs {
		i, ok := table.Index(p.Key.Text)
		if !ok {
			continue
		}
		got, quick := quickly(&table.Fields()[i], p.Value)
		if !quick {
			continue
		}
		var ps Problems
		want := readField(&table.Fields()[i], p.Value, p.Key.Text, &ps)
		if len(ps) > 0 || !reflect.DeepEqual(got, want) {
			t.Errorf("%v: %s is read as %+v, and as %+v: %v", p.Value.Pos, p.Key.Text, got, want, ps)
		}
	}
}

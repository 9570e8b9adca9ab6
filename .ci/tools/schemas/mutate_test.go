package schemas

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// seed begins another run of changes: go test ./schemas -seed 7.
var seed = flag.Uint64("seed", 1, "begin of the random changes")

// TestChangedFiles makes one change in a good file, at random, and holds that
// loader and schema agree on what comes of it. The changes are those of a hand
// that slips: an entry lost, misspelt, of another type, out of range, twice.
func TestChangedFiles(t *testing.T) {
	rounds := map[string]int{"parts": 6000, "mix": 4000, "cart": 1500, "rules": 1500}
	if testing.Short() {
		rounds = map[string]int{"parts": 600, "mix": 400, "cart": 300, "rules": 150}
	}
	random := rand.New(rand.NewPCG(*seed, 2))
	for _, kind := range []string{"parts", "mix", "cart", "rules"} {
		pieces := piecesOf(t, kind)
		loads, both, beyond := 0, 0, map[string]int{}
		for range rounds[kind] {
			piece := clone(pieces[random.IntN(len(pieces))])
			what := change(random, piece)
			text := jsonText(t, piece)
			v := judge(t, kind, "changed.json", text)
			if fault := v.disagree(); fault != "" {
				t.Errorf("%s, %s: %s\n%s", kind, what, fault, text)
			}
			switch {
			case len(v.faults) == 0:
				loads++
			case v.schema != nil:
				both++
			default:
				beyond[why(v.faults[0])]++
			}
		}
		t.Logf("%s: %d load, %d refused by both, beyond the schema %v", kind, loads, both, beyond)
		if loads == 0 || both == 0 {
			t.Errorf("%s: the changes are all of one sort", kind)
		}
	}
}

// piecesOf gives the good files of a kind, taken to pieces of one entry each.
func piecesOf(t *testing.T, kind string) []any {
	t.Helper()
	var out []any
	for _, d := range good(t) {
		if d.kind != kind {
			continue
		}
		v, err := instance(d.name, d.text)
		if err != nil {
			t.Fatal(err)
		}
		whole := v.(map[string]any)
		lists := 0
		for _, key := range []string{"parts", "rules", "sources", "steps", "adjust"} {
			list, _ := whole[key].([]any)
			for _, item := range list {
				piece := map[string]any{key: []any{item}}
				for other, v := range whole {
					if _, isList := v.([]any); !isList {
						piece[other] = v
					}
				}
				out = append(out, piece)
				lists++
			}
		}
		if lists == 0 {
			out = append(out, whole)
		}
	}
	if len(out) < 4 {
		t.Fatalf("%d pieces of %s", len(out), kind)
	}
	return out
}

func clone(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := make(map[string]any, len(v))
		for k, child := range v {
			out[k] = clone(child)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, child := range v {
			out[i] = clone(child)
		}
		return out
	}
	return v
}

// spot is one place of a tree: an entry of an object or of a list.
type spot struct {
	object map[string]any
	key    string
	list   []any
	i      int
	path   string
}

func spots(v any, path string) []spot {
	var out []spot
	switch v := v.(type) {
	case map[string]any:
		keys := make([]string, 0, len(v))
		for k := range v {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		for _, k := range keys {
			out = append(out, spot{object: v, key: k, path: path + "." + k})
			out = append(out, spots(v[k], path+"."+k)...)
		}
	case []any:
		for i := range v {
			at := fmt.Sprintf("%s[%d]", path, i)
			out = append(out, spot{list: v, i: i, path: at})
			out = append(out, spots(v[i], at)...)
		}
	}
	return out
}

func (s spot) get() any {
	if s.object != nil {
		return s.object[s.key]
	}
	return s.list[s.i]
}

func (s spot) set(v any) {
	if s.object != nil {
		s.object[s.key] = v
	} else {
		s.list[s.i] = v
	}
}

// others are the values that stand in for another.
var others = []any{
	nil, true, false, "", "  ", "x", "Big X", "lake-12", "3.65", "3.65 ± 0.02", "3.65 +/- 0.02", "3.65 ± -1", "± 1", "2027-03-31", "1.375", "stated",
	0, 1, 3, -1, 2.5, 12.5, 3.0, 1e3, 1e9, 1e300, 34,
	[]any{}, []any{1}, []any{1.5, 2.5}, []any{"a"}, []any{nil}, map[string]any{}, map[string]any{"x": 1}, map[string]any{"kind": "chain"},
}

// change makes one change in a tree and says which.
func change(r *rand.Rand, tree any) string {
	all := spots(tree, "")
	s := all[r.IntN(len(all))]
	old := s.get()
	switch pick := r.IntN(10); {
	case pick < 2 && s.object != nil:
		delete(s.object, s.key)
		return "without " + s.path
	case pick < 3 && s.object != nil:
		delete(s.object, s.key)
		s.object[s.key+"x"] = old
		return s.path + " misspelt"
	case pick < 4:
		if list, ok := old.([]any); ok && len(list) > 0 {
			s.set(append(slices.Clone(list), clone(list[r.IntN(len(list))])))
			return s.path + " with an entry twice"
		}
		if list, ok := old.([]any); ok && len(list) > 1 {
			s.set(list[1:])
			return s.path + " without its first entry"
		}
		if object, ok := old.(map[string]any); ok {
			object["unheard_of"] = 1
			return s.path + " with an unknown entry"
		}
	case pick < 5:
		twin := all[r.IntN(len(all))].get()
		s.set(clone(twin))
		return s.path + " replaced by another value of the file"
	}
	v := others[r.IntN(len(others))]
	s.set(clone(v))
	return fmt.Sprintf("%s is %#v", s.path, v)
}

package compat_test

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// faultsWanted is how many single faults the table holds; it only grows.
const faultsWanted = 200

// TestSingleFaults puts one fault at a time into a sound demo mix: exactly one
// rule must say so, and the right one. No rule goes without such a fault.
func TestSingleFaults(t *testing.T) {
	c := checker(t)
	parts := demoParts(t)
	bases := soundBases(t)
	faults := append(readFaults(t, "faults.yaml"), readFaults(t, "faults_more.yaml")...)
	if len(faults) < faultsWanted {
		t.Errorf("%d faults, at least %d are wanted", len(faults), faultsWanted)
	}
	for _, r := range c.Rules().Rules() {
		if !slices.ContainsFunc(faults, func(f fault) bool { return f.rule == r.ID }) {
			t.Errorf("%s: no fault makes %s speak", r.Pos, r.ID)
		}
	}
	misses := shrinking(t, "misses.txt")
	names := map[string]bool{}
	for _, f := range faults {
		if names[f.name] {
			t.Errorf("two faults are called %q", f.name)
		}
		names[f.name] = true
		t.Run(f.name, func(t *testing.T) {
			if got := f.judge(t, c, f.docs(t, parts, bases)); got != "" && !misses.has(f.name+": "+f.rule+" "+f.verdict) {
				t.Error(got)
			}
		})
	}
	misses.hold(t)
}

// soundBases gives the documents of the sound mixes by their names.
func soundBases(t *testing.T) map[string]map[string]any {
	t.Helper()
	out := map[string]map[string]any{}
	for _, row := range readMixes(t, "sound.yaml", "sound") {
		out[row.name] = row.doc
	}
	return out
}

// judge says what is wrong about the findings that the fault brings, beside those
// of the sound mix; nothing where its rule speaks and no other.
func (f fault) judge(t *testing.T, c *compat.Checker, with func(faulty bool) compat.Mix) string {
	t.Helper()
	before, after := c.Check(with(false)), c.Check(with(true))
	fresh := map[string][]string{}
	for _, v := range []rules.Verdict{rules.Fail, rules.Warn, rules.Unknown} {
		old := said(before, v)
		fresh[v.String()] = slices.DeleteFunc(said(after, v), func(id string) bool { return slices.Contains(old, id) })
	}
	t.Logf("%-40s %-26s wanted %s; new %v", f.name, f.rule, f.verdict, fresh)
	for verdict, got := range fresh {
		var want []string
		if verdict == f.verdict {
			want = []string{f.rule}
		}
		if !slices.Equal(got, want) && (verdict != "warn" || f.verdict == "warn") {
			return fmt.Sprintf("wanted %s of %s alone; new are %v", f.verdict, f.rule, fresh)
		}
	}
	return ""
}

// said lists the rules that give a verdict.
func said(r compat.Report, v rules.Verdict) []string {
	var out []string
	for _, f := range r.Findings() {
		if f.Verdict == v {
			out = append(out, f.Rule)
		}
	}
	return out
}

type fault struct {
	name, base, rule, verdict string
	change                    *source.Node
}

func readFaults(t *testing.T, file string) []fault {
	t.Helper()
	text, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	root, err := source.Parse(file, text)
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	var out []fault
	for _, n := range root.Get("faults").ReadList("faults", &ps) {
		n.Keys("faults", &ps, "name", "base", "rule", "verdict", "change")
		f := fault{change: n.Get("change")}
		f.name, _ = n.Get("name").ReadText("name", &ps)
		f.base, _ = n.Get("base").ReadText("base", &ps)
		f.rule, _ = n.Get("rule").ReadText("rule", &ps)
		f.verdict, _ = n.Get("verdict").ReadText("verdict", &ps)
		out = append(out, f)
	}
	if err := ps.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

func demoParts(t testing.TB) *catalog.Catalog {
	t.Helper()
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

// docs gives the base mix, with the fault in it and without: the facts of some parts
// and of the bench are replaced, null takes one away.
func (f fault) docs(t *testing.T, parts *catalog.Catalog, bases map[string]map[string]any) func(bool) compat.Mix {
	t.Helper()
	doc := bases[f.base]
	if doc == nil {
		text, ok := demo.Mix(f.base)
		if !ok {
			t.Fatalf("there is no sound mix and no demo %q", f.base)
		}
		root, err := source.Parse(f.base, text)
		if err != nil {
			t.Fatal(err)
		}
		doc = plainNode(root).(map[string]any)
	}
	return func(faulty bool) compat.Mix {
		if !faulty {
			return mixOf(t, doc, parts)
		}
		return mixOf(t, f.changes(doc, parts), parts)
	}
}

// changes gives the document with the fault in it.
func (f fault) changes(doc map[string]any, parts *catalog.Catalog) map[string]any {
	doc = maps.Clone(doc)
	mixParts := maps.Clone(doc["parts"].(map[string]any))
	doc["parts"] = mixParts
	for _, pair := range f.change.Pairs {
		kind, change := pair.Key.Text, plainNode(pair.Value)
		if kind == "bench" {
			measured, _ := doc["bench"].(map[string]any)
			doc["bench"] = changed(measured, change.(map[string]any))
			continue
		}
		if change == nil {
			delete(mixParts, kind)
			continue
		}
		facts := map[string]any{}
		switch v := mixParts[kind].(type) {
		case string:
			p, _ := parts.Part(v)
			facts = factsOf(p)
		case map[string]any:
			facts = v
		}
		mixParts[kind] = changed(facts, change.(map[string]any))
	}
	return doc
}

// changed replaces entries; nil takes one away.
func changed(facts, change map[string]any) map[string]any {
	out := maps.Clone(facts)
	if out == nil {
		out = map[string]any{}
	}
	for name, v := range change {
		if v == nil {
			delete(out, name)
		} else {
			out[name] = v
		}
	}
	return out
}

// factsOf gives the stated facts of a part as a file would state them.
func factsOf(p catalog.Part) map[string]any {
	out := map[string]any{}
	for i, field := range p.Record().Object().Table().Fields() {
		v := p.Record().Value(i)
		switch {
		case !v.Known || field.Default != nil && v.Num == field.Default.Num && v.Text == field.Default.Text:
		case v.List != nil:
			out[field.Name] = v.List
		case v.Words() != nil:
			out[field.Name] = v.Words()
		case field.Type == fact.Choice || field.Type == fact.Name:
			out[field.Name] = v.Text
		case field.Type == fact.Flag:
			out[field.Name] = v.Num != 0
		default:
			out[field.Name] = v.Num
		}
	}
	return out
}

// mixOf makes the mix of a document whose parts are ids or facts.
func mixOf(t *testing.T, doc map[string]any, parts *catalog.Catalog) compat.Mix {
	t.Helper()
	var list []catalog.Part
	for kind, v := range doc["parts"].(map[string]any) {
		if id, ok := v.(string); ok {
			p, _ := parts.Part(id)
			list = append(list, p)
			continue
		}
		p, err := catalog.New(kind, v.(map[string]any))
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
	slices.SortFunc(list, func(a, b catalog.Part) int {
		i, _ := catalog.KindIndex(a.Kind())
		j, _ := catalog.KindIndex(b.Kind())
		return i - j
	})
	m, err := compat.NewMix(doc["mix"].(string), compat.ScopeBike, list...)
	if err != nil {
		t.Fatal(err)
	}
	measured, ok := doc["bench"].(map[string]any)
	if !ok {
		return m
	}
	m, err = m.Measured(measured)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// plainNode gives a node as Go values.
func plainNode(n *source.Node) any {
	switch n.Kind {
	case source.Map:
		out := map[string]any{}
		for _, p := range n.Pairs {
			out[p.Key.Text] = plainNode(p.Value)
		}
		return out
	case source.List:
		out := []any{}
		for _, item := range n.Items {
			out = append(out, plainNode(item))
		}
		return out
	case source.Number:
		var ps source.Problems
		x, _, _ := n.ReadNumber("", &ps)
		return x
	case source.Bool:
		return n.Text == "true"
	case source.Null:
		return nil
	}
	return n.Text
}

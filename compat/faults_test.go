package compat_test

import (
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
const faultsWanted = 120

// TestSingleFaults puts one fault at a time into a sound demo mix: exactly one
// rule must say so, and the right one. No rule goes without such a fault.
func TestSingleFaults(t *testing.T) {
	c := checker(t)
	parts := demoParts(t)
	faults := readFaults(t)
	if len(faults) < faultsWanted {
		t.Errorf("%d faults, at least %d are wanted", len(faults), faultsWanted)
	}
	for _, r := range c.Rules().Rules() {
		if !slices.ContainsFunc(faults, func(f fault) bool { return f.rule == r.ID }) {
			t.Errorf("%s: no fault makes %s speak", r.Pos, r.ID)
		}
	}
	sound := map[string][]string{}
	for _, base := range []string{"ferry-motor", "club-nine-spacer"} {
		text, _ := demo.Mix(base)
		m, err := compat.ReadMix(base, text, parts)
		if err != nil {
			t.Fatal(err)
		}
		sound[base] = said(c.Check(m), rules.Warn)
	}
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			r := c.Check(f.mix(t, parts))
			fails, warns := said(r, rules.Fail), said(r, rules.Warn)
			warns = slices.DeleteFunc(warns, func(id string) bool { return slices.Contains(sound[f.base], id) })
			want := map[string][]string{"fail": {f.rule}, "warn": nil}[f.verdict]
			t.Logf("%-40s %-26s wanted %s; fails %v, new warnings %v", f.name, f.rule, f.verdict, fails, warns)
			if !slices.Equal(fails, want) {
				t.Errorf("fails %v, want %v", fails, want)
			}
			if f.verdict == "warn" && !slices.Equal(warns, []string{f.rule}) {
				t.Errorf("new warnings %v, want %s alone", warns, f.rule)
			}
		})
	}
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

func readFaults(t *testing.T) []fault {
	t.Helper()
	text, err := os.ReadFile("testdata/faults.yaml")
	if err != nil {
		t.Fatal(err)
	}
	root, err := source.Parse("faults.yaml", text)
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

// mix is the base mix with the fault in it: the facts of some parts and of the
// bench are replaced, null takes one away.
func (f fault) mix(t *testing.T, parts *catalog.Catalog) compat.Mix {
	t.Helper()
	text, ok := demo.Mix(f.base)
	if !ok {
		t.Fatalf("there is no demo %s", f.base)
	}
	root, err := source.Parse(f.base, text)
	if err != nil {
		t.Fatal(err)
	}
	doc := plainNode(root).(map[string]any)
	mixParts := doc["parts"].(map[string]any)
	for _, pair := range f.change.Pairs {
		kind, change := pair.Key.Text, plainNode(pair.Value)
		if kind == "bench" {
			doc["bench"] = changed(doc["bench"].(map[string]any), change.(map[string]any))
			continue
		}
		if change == nil {
			delete(mixParts, kind)
			continue
		}
		facts := map[string]any{}
		if id, ok := mixParts[kind].(string); ok {
			p, _ := parts.Part(id)
			facts = factsOf(p)
		}
		mixParts[kind] = changed(facts, change.(map[string]any))
	}
	return mixOf(t, doc, parts)
}

// changed replaces entries; nil takes one away.
func changed(facts, change map[string]any) map[string]any {
	out := maps.Clone(facts)
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
		case v.Words != nil:
			out[field.Name] = v.Words
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
	m, err = m.Measured(doc["bench"].(map[string]any))
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

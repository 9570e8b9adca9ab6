package compat_test

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// soundWanted is how many sound mixes the table holds; it only grows.
const soundWanted = 60

// tableMix is one bicycle of a table of mixes, and what the report must name as not
// judged.
type tableMix struct {
	pos       source.Pos
	name      string
	doc       map[string]any
	notJudged []string
	row       *source.Node
}

// readMixes reads a table of mixes. A row is a mix of its own, or like an earlier
// one with some facts changed.
func readMixes(t *testing.T, file, list string, more ...string) []tableMix {
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
	root.Keys("", &ps, list)
	docs := map[string]map[string]any{}
	var out []tableMix
	for _, n := range root.Get(list).ReadList(list, &ps) {
		n.Keys(list, &ps, append([]string{"name", "like", "change", "scope", "parts", "bench", "not_judged"}, more...)...)
		m := tableMix{pos: n.Pos, row: n, doc: rowDoc(t, n, docs)}
		m.name, _ = n.Get("name").ReadText("name", &ps)
		if docs[m.name] != nil {
			t.Errorf("%s: %q stands twice", n.Pos, m.name)
		}
		docs[m.name] = m.doc
		if named := n.Get("not_judged"); named != nil {
			m.notJudged = named.ReadTexts("not_judged", &ps)
		}
		out = append(out, m)
	}
	if err := ps.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// rowDoc makes the mix file that a row stands for.
func rowDoc(t *testing.T, n *source.Node, docs map[string]map[string]any) map[string]any {
	t.Helper()
	doc := map[string]any{"mix": n.Get("name").Text, "scope": "bike"}
	if like := n.Get("like"); like != nil {
		before := docs[like.Text]
		if before == nil {
			t.Fatalf("%s: no earlier row is called %q", n.Pos, like.Text)
		}
		doc["scope"], doc["parts"], doc["bench"] = before["scope"], before["parts"], before["bench"]
	}
	for _, key := range []string{"scope", "parts", "bench"} {
		if at := n.Get(key); at != nil {
			doc[key] = plainNode(at)
		}
	}
	parts, _ := doc["parts"].(map[string]any)
	parts = changed(parts, nil)
	if at := n.Get("change"); at != nil {
		for kind, change := range plainNode(at).(map[string]any) {
			switch facts, ok := parts[kind].(map[string]any); {
			case kind == "bench":
				measured, _ := doc["bench"].(map[string]any)
				doc["bench"] = changed(measured, change.(map[string]any))
			case change == nil:
				delete(parts, kind)
			case ok:
				parts[kind] = changed(facts, change.(map[string]any))
			default:
				parts[kind] = change
			}
		}
	}
	doc["parts"] = parts
	if doc["bench"] == nil {
		delete(doc, "bench")
	}
	return doc
}

// mix reads the row as the mix file that it stands for.
func (m tableMix) mix(t *testing.T) compat.Mix {
	t.Helper()
	text, err := json.Marshal(m.doc)
	if err != nil {
		t.Fatal(err)
	}
	mix, err := compat.ReadMix(m.name+".json", text, nil)
	if err != nil {
		t.Fatalf("%s: %v", m.pos, err)
	}
	return mix
}

// holdNotJudged holds that a report names what no rule judges, and nothing else.
func (m tableMix) holdNotJudged(t *testing.T, r compat.Report) {
	t.Helper()
	var drive bool
	for _, n := range r.NotJudged() {
		drive = drive || n.Drive
		if !slices.ContainsFunc(m.notJudged, func(what string) bool { return strings.HasPrefix(n.What, what) }) {
			t.Errorf("%s: %q is named as not judged, and the row does not say so", m.pos, n.What)
		}
	}
	if len(r.NotJudged()) != len(m.notJudged) {
		t.Errorf("%s: %d things are named as not judged, want %v", m.pos, len(r.NotJudged()), m.notJudged)
	}
	if drive && (r.Complete || r.Verdict == rules.Pass || r.Verdict == rules.Warn) {
		t.Errorf("%s: part of the drive is not judged, and the report is %s, complete %v", m.pos, r.Verdict, r.Complete)
	}
}

// A false alarm costs a customer as a miss does: of a sound bicycle nothing fails,
// warns or stays open. The alarms that a shipped rule still gives are listed, and
// .ci/update only takes off those that are gone.
func TestSoundMixes(t *testing.T) {
	c := checker(t)
	rows := readMixes(t, "sound.yaml", "sound")
	if len(rows) < soundWanted {
		t.Errorf("%d sound mixes, at least %d are wanted", len(rows), soundWanted)
	}
	alarms := shrinking(t, "alarms.txt")
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			r := c.Check(row.mix(t))
			row.holdNotJudged(t, r)
			known := false
			for _, f := range r.Findings() {
				if f.Verdict == rules.Pass {
					continue
				}
				if alarms.has(row.name + ": " + f.Rule + " " + f.Verdict.String()) {
					known = true
					continue
				}
				t.Errorf("%s: %s gives %s: %s %v %s", row.pos, f.Rule, f.Verdict, f.Text, f.Missing, f.Error)
			}
			drive := slices.ContainsFunc(r.NotJudged(), func(n compat.NotJudged) bool { return n.Drive })
			judged := len(r.Findings()) > 0
			if !known && judged && !drive && (r.Verdict != rules.Pass || !r.Complete) {
				t.Errorf("%s: the report is %s, complete %v, absent %v", row.pos, r.Verdict, r.Complete, r.Absent())
			}
			if !judged && !alarms.has(row.name+": nothing is judged") {
				t.Errorf("%s: no rule judges anything of it", row.pos)
			}
		})
	}
	alarms.hold(t)
}

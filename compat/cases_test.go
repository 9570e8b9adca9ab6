package compat_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/tabwriter"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

const casesFile = "../testdata/outside/cases.yaml"

// pendingRules are rules that published facts ask for and that no file has yet.
// A rule that comes must be taken off, so that its cases are held from then on.
var pendingRules = []string{}

// openCases are facts that no stated field decides: the fact that would, and the
// rule that asks for it. The mix must still load, and nothing in it fail.
var openCases = map[string]struct{ fact, rule string }{
	"own-pull-before-1997": {"rear_derailleur.ratio", "index/residual"},
}

// outsideCase is one published fact as a mix.
type outsideCase struct {
	pos        source.Pos
	id, rule   string
	want       []string
	otherFails bool
	figures    map[string][2]float64 // value and tolerance
	published  string
	mix        *source.Node
}

var caseKeys = []string{
	"id", "ref", "says", "source", "status", "numbers", "mix", "rule", "want",
	"other_fails", "figures", "build", "published", "reason", "decides",
}

// readCases reads the file of cases. What does not fit is a test failure.
func readCases(t *testing.T) []outsideCase {
	t.Helper()
	text, err := os.ReadFile(casesFile)
	if err != nil {
		t.Fatal(err)
	}
	root, err := source.Parse("cases.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	root.Keys("", &ps, "cases")
	var out []outsideCase
	for i, n := range root.Get("cases").ReadList("cases", &ps) {
		path := fmt.Sprintf("cases[%d]", i)
		if n.Keys(path, &ps, caseKeys...) {
			out = append(out, readCase(path, n, &ps))
		}
	}
	if err := ps.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

func readCase(path string, n *source.Node, ps *source.Problems) outsideCase {
	word := func(key string) string {
		if n.Get(key) == nil {
			ps.Add(n.Pos, path, key+" is missing", "")
			return ""
		}
		s, _ := n.Get(key).ReadText(path+"."+key, ps)
		return s
	}
	c := outsideCase{pos: n.Pos, id: word("id"), rule: word("rule"), mix: n.Get("mix"), figures: map[string][2]float64{}}
	for _, key := range []string{"ref", "says", "source", "status", "numbers"} {
		word(key)
	}
	c.want = n.Get("want").ReadTexts(path+".want", ps)
	c.otherFails, _ = n.Get("other_fails").ReadFlag(path+".other_fails", ps)
	for _, pair := range n.Get("figures").Pairs {
		var both [2]float64
		for i, item := range pair.Value.ReadList(path+".figures", ps) {
			both[i], _ = strconv.ParseFloat(item.Text, 64)
		}
		c.figures[pair.Key.Text] = both
	}
	if p := n.Get("published"); p != nil {
		c.published, _ = p.ReadText(path+".published", ps)
	}
	if len(c.want) == 0 && n.Get("decides") == nil {
		ps.Add(n.Pos, path, "no verdict is wanted, and decides does not say why", "")
	}
	return c
}

// asJSON writes a node of the case file as a JSON document of its own.
func asJSON(n *source.Node) string {
	var parts []string
	switch n.Kind {
	case source.Map:
		for _, p := range n.Pairs {
			parts = append(parts, strconv.Quote(p.Key.Text)+":"+asJSON(p.Value))
		}
		return "{" + strings.Join(parts, ",") + "}"
	case source.List:
		for _, item := range n.Items {
			parts = append(parts, asJSON(item))
		}
		return "[" + strings.Join(parts, ",") + "]"
	case source.Text:
		text, _ := json.Marshal(n.Text)
		return string(text)
	}
	return n.Text // numbers and flags are written alike
}

// check reads the mix of a case and judges it.
func (c outsideCase) check(t *testing.T, by *compat.Checker) compat.Report {
	t.Helper()
	m, err := compat.ReadMix(c.id+".json", []byte(asJSON(c.mix)), nil)
	if err != nil {
		t.Fatalf("%s: the mix does not load: %v", c.pos, err)
	}
	return by.Check(m)
}

// saidOf gives what the report says by a rule: its verdict or not_applied, and the
// facts that it names.
func saidOf(r compat.Report, rule string) (verdict string, names []string) {
	for _, f := range r.Findings() {
		if f.Rule == rule {
			return f.Verdict.String(), f.Missing
		}
	}
	for _, na := range r.NotApplied() {
		if na.Rule.ID == rule {
			return "not_applied", na.Names
		}
	}
	return "(no rule)", nil
}

// TestCases judges published facts. With -v it prints one line a case: what the
// rule is wanted to say, and what it says.
func TestCases(t *testing.T) {
	by := checker(t)
	var table strings.Builder
	w := tabwriter.NewWriter(&table, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "case\trule\twanted\tours\tpublished")
	for _, c := range readCases(t) {
		var ours string
		t.Run(c.id, func(t *testing.T) {
			r := c.check(t, by)
			ours, _ = saidOf(r, c.rule)
			c.hold(t, by, r)
		})
		wanted := strings.Join(c.want, " or ")
		if wanted == "" {
			wanted = "(open)"
		}
		if slices.Contains(pendingRules, c.rule) {
			ours = "(rule to come)"
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", c.id, c.rule, wanted, ours, c.published)
	}
	w.Flush()
	t.Log("\n" + table.String())
}

// hold holds a report against its case: the rule says what it should, the
// figures are right, and no other rule fails where none should.
func (c outsideCase) hold(t *testing.T, by *compat.Checker, r compat.Report) {
	c.holdFigures(t, r)
	others := 0
	for _, f := range r.Findings() {
		if f.Verdict == rules.Fail && (f.Rule != c.rule || len(c.want) == 0) {
			others++
			if !c.otherFails {
				t.Errorf("%s: %s fails as well: %s", c.pos, f.Rule, f.Text)
			}
		}
	}
	if c.otherFails && others == 0 {
		t.Errorf("%s: another rule should fail, and none does", c.pos)
	}
	_, there := by.Rules().Rule(c.rule)
	switch {
	case len(c.want) == 0:
		c.holdOpen(t, by, r)
	case !there:
		if !slices.Contains(pendingRules, c.rule) {
			t.Errorf("%s: there is no rule %s, and it is not among the pending ones", c.pos, c.rule)
		}
	default:
		if got, names := saidOf(r, c.rule); !slices.Contains(c.want, got) {
			t.Errorf("%s: %s gives %s (%v), want %v", c.pos, c.rule, got, names, c.want)
		}
	}
}

func (c outsideCase) holdFigures(t *testing.T, r compat.Report) {
	for name, want := range c.figures {
		v, lack := r.Figures.Value(name)
		if !v.Known || v.List != nil || !(math.Abs(v.Num-want[0]) <= want[1]) {
			t.Errorf("%s: %s is %v (%+v), want %v within %v", c.pos, name, v, lack, want[0], want[1])
		}
	}
}

// holdOpen holds that a mix without the deciding fact leaves the rule unknown, and
// that the report shows the fact as missing, with how it is measured.
func (c outsideCase) holdOpen(t *testing.T, by *compat.Checker, r compat.Report) {
	open, listed := openCases[c.id]
	if !listed {
		t.Fatalf("%s: openCases does not say which fact would decide", c.pos)
	}
	if _, ok := by.Rules().Vocabulary().Find(open.fact); !ok {
		t.Errorf("%s: %s is no fact of the vocabulary", c.pos, open.fact)
	}
	if got, names := saidOf(r, open.rule); got != "unknown" || !slices.Contains(names, open.fact) {
		t.Errorf("%s: %s gives %s and names %v, not %s", c.pos, open.rule, got, names, open.fact)
	}
	if !slices.ContainsFunc(r.Missing(), func(m compat.Missing) bool {
		return m.Name == open.fact && m.Doc != "" && slices.Contains(m.Rules, open.rule)
	}) {
		t.Errorf("%s: the report does not show %s as missing: %+v", c.pos, open.fact, r.Missing())
	}
}

func TestPendingRulesArePending(t *testing.T) {
	asked := map[string]bool{}
	for _, c := range readCases(t) {
		asked[c.rule] = true
	}
	for _, r := range outsideRows(t) {
		asked[r.rule] = true
	}
	for _, id := range pendingRules {
		if _, there := checker(t).Rules().Rule(id); there {
			t.Errorf("%s is there: take it off the pending rules, so that its cases are held", id)
		}
		if !asked[id] {
			t.Errorf("no case and no row asks for %s", id)
		}
	}
}

func TestCasesAreWhole(t *testing.T) {
	cases := readCases(t)
	if len(cases) < 70 {
		t.Errorf("%d cases only", len(cases))
	}
	seen := map[string]bool{}
	verdicts := []string{"pass", "warn", "fail", "unknown", "not_applied"}
	for _, c := range cases {
		if seen[c.id] {
			t.Errorf("%s: %s stands twice", c.pos, c.id)
		}
		seen[c.id] = true
		for _, w := range c.want {
			if !slices.Contains(verdicts, w) {
				t.Errorf("%s: %q is nothing that a rule gives", c.pos, w)
			}
		}
		if _, open := openCases[c.id]; open != (len(c.want) == 0) {
			t.Errorf("%s: %s is open: %v, listed: %v", c.pos, c.id, len(c.want) == 0, open)
		}
	}
	for id := range openCases {
		if !seen[id] {
			t.Errorf("openCases lists %s, which is no case", id)
		}
	}
}

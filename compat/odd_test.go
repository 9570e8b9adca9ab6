package compat_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// oddWanted is how many odd bicycles the table holds.
const oddWanted = 12

// Odd bicycles get the verdict of their row and no other finding, what is not judged
// is named, and what is said first stands in odd.txt.
func TestOddMixes(t *testing.T) {
	c := checker(t)
	rows := readMixes(t, "odd.yaml", "odd", "verdict", "complete", "fails", "warns", "open")
	if len(rows) < oddWanted {
		t.Errorf("%d odd bicycles, at least %d are wanted", len(rows), oddWanted)
	}
	waits := shrinking(t, "odd_wrong.txt")
	var said strings.Builder
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			r := c.Check(row.mix(t))
			row.holdNotJudged(t, r)
			wrong := row.differs(t, r)
			for _, line := range wrong {
				if !waits.has(row.name + ": " + line) {
					t.Errorf("%s: %s", row.pos, line)
				}
			}
			fmt.Fprintf(&said, "%s\n  %s\n", row.name, firstSaid(r))
			for _, n := range r.NotJudged() {
				fmt.Fprintf(&said, "  not judged: %s\n", n.What)
			}
		})
	}
	waits.hold(t)
	holdGolden(t, "testdata/odd.txt", said.String())
}

// differs lists how a report differs from what its row wants.
func (m tableMix) differs(t *testing.T, r compat.Report) []string {
	t.Helper()
	var ps source.Problems
	var out []string
	verdict, _ := m.row.Get("verdict").ReadText("verdict", &ps)
	complete, _ := m.row.Get("complete").ReadFlag("complete", &ps)
	for _, want := range []struct {
		key     string
		verdict rules.Verdict
	}{{"fails", rules.Fail}, {"warns", rules.Warn}, {"open", rules.Unknown}} {
		var wanted []string
		if at := m.row.Get(want.key); at != nil {
			wanted = at.ReadTexts(want.key, &ps)
		}
		got := said(r, want.verdict)
		for _, id := range got {
			if !slices.Contains(wanted, id) {
				out = append(out, fmt.Sprintf("%s gives %s", id, want.verdict))
			}
		}
		for _, id := range wanted {
			if !slices.Contains(got, id) {
				out = append(out, fmt.Sprintf("%s does not give %s", id, want.verdict))
			}
		}
	}
	if err := ps.Err(); err != nil {
		t.Fatal(err)
	}
	if r.Verdict.String() != verdict || r.Complete != complete {
		out = append(out, fmt.Sprintf("the report is %s, complete %v, absent %v", r.Verdict, r.Complete, r.Absent()))
	}
	return out
}

// firstSaid is the verdict and the first finding that is no pass.
func firstSaid(r compat.Report) string {
	findings := r.Findings()
	if len(findings) == 0 || findings[0].Verdict == rules.Pass {
		return fmt.Sprintf("%s, complete %v", r.Verdict, r.Complete)
	}
	return fmt.Sprintf("%s, complete %v: %s: %s", r.Verdict, r.Complete, findings[0].Rule, findings[0].Text)
}

// holdGolden holds a text against a file of testdata, or writes it anew.
func holdGolden(t *testing.T, file, got string) {
	t.Helper()
	if updating() {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; .ci/update writes it anew\n%s", file, got)
	}
}

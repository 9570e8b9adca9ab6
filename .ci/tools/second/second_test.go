package second

import (
	"strings"
	"testing"

	"example.org/cogcourt/compat"
)

// Pairs of a rule and a mix that each run compares; ./long takes any number.
const (
	shippedPairs = 140_000
	drawnPairs   = 60_000
)

// hold compares and wants nothing to differ, and each of these outcomes to have been seen.
func hold(t *testing.T, c *compat.Checker, adjusted map[string]Adjustment, pairs int, outcomes string) {
	t.Helper()
	j, err := New(c.Rules(), Day, adjusted)
	if err != nil {
		t.Fatal(err)
	}
	count, differ, err := Run(j, c, NewMixes(1), pairs, 3)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range differ {
		t.Error(d)
	}
	if count.Pairs < pairs && !t.Failed() {
		t.Errorf("only %d pairs were compared", count.Pairs)
	}
	for _, word := range strings.Split(outcomes, "; ") {
		if count.Seen[word] == 0 && !t.Failed() {
			t.Errorf("%s was never seen, so nothing of it was compared:\n%s", word, count.Text())
		}
	}
}

// TestShippedRules holds that both evaluators say the same of the shipped rules, of which
// some are adjusted.
func TestShippedRules(t *testing.T) {
	c, adjusted, err := Shipped(1)
	if err != nil {
		t.Fatal(err)
	}
	if len(adjusted) < 10 {
		t.Errorf("only %d rules are adjusted", len(adjusted))
	}
	hold(t, c, adjusted, shippedPairs, "error; fail; not applied, absent; not applied, figure; not applied, unstated; not applied, when; pass; unknown; "+
		"unknown by what is usual; unknown of two kinds; warn; warn by tolerances; warn by what is assumed; warn by what is usual")
}

// TestRandomRules holds the same of rules that a grammar writes.
func TestRandomRules(t *testing.T) {
	c, adjusted, err := Rules(1000, 150)
	if err != nil {
		t.Fatal(err)
	}
	hold(t, c, adjusted, drawnPairs, "error; fail; not applied, absent; not applied, figure; not applied, unstated; not applied, when; pass; unknown; "+
		"unknown by what is usual; warn; warn by tolerances; warn by what is assumed; warn by what is usual")
}

// TestRulesUseTheLanguage holds that the grammar leaves nothing of the language out.
func TestRulesUseTheLanguage(t *testing.T) {
	c, _, err := Rules(1000, 150)
	if err != nil {
		t.Fatal(err)
	}
	all := ""
	for _, r := range c.Rules().Rules() {
		all += r.WhenText + "\n" + r.FailIf + "\n" + r.WarnIf + "\n"
		for _, l := range r.Lets() {
			all += l.Text + "\n"
		}
	}
	for _, word := range strings.Fields("abs( min( max( sum( first( last( count( size( near( known( stated( .all( .exists( .startsWith( in ? [ && || ! + - * / % == !=") {
		if !strings.Contains(all, word) {
			t.Errorf("no rule of the grammar uses %s", word)
		}
	}
	if strings.Contains(all, "has(") {
		t.Error("has() is no part of the language")
	}
}

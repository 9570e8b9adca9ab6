package second

import (
	"regexp"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
)

// Pairs of a rule and a mix that each run compares; ./long takes any number.
const (
	shippedPairs = 140_000
	drawnPairs   = 60_000
	aimedPairs   = 30_000
	loopPairs    = 6_000
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
	if count.Narrow > 1 {
		t.Errorf("%d pairs lean in a band too narrow to be seen", count.Narrow)
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

// TestAimedRules holds the same of rules whose limits lie among the numbers of mixes.
func TestAimedRules(t *testing.T) {
	c, adjusted, err := Aimed(1000, 150)
	if err != nil {
		t.Fatal(err)
	}
	hold(t, c, adjusted, aimedPairs, "error; fail; not applied, absent; not applied, figure; not applied, unstated; not applied, when; pass; unknown; "+
		"unknown by what is usual; warn; warn by tolerances; warn by what is assumed; warn by what is usual")
}

// TestRulesOfLoops holds the same of rules that hang on the entries of loops.
func TestRulesOfLoops(t *testing.T) {
	c, adjusted, err := Loops(1000, 25)
	if err != nil {
		t.Fatal(err)
	}
	hold(t, c, adjusted, loopPairs, "error; fail; not applied, absent; not applied, figure; not applied, unstated; not applied, when; pass; unknown; warn")
}

// TestRulesUseTheLanguage holds that the grammar leaves nothing of the language out.
func TestRulesUseTheLanguage(t *testing.T) {
	c, _, err := Rules(1000, 150)
	if err != nil {
		t.Fatal(err)
	}
	all, _ := texts(c)
	for _, word := range strings.Fields("abs( min( max( sum( first( last( count( size( near( known( stated( .all( .exists( .startsWith( in ? [ && || ! + - * / % == !=") {
		if !strings.Contains(all, word) {
			t.Errorf("no rule of the grammar uses %s", word)
		}
	}
	if strings.Contains(all, "has(") {
		t.Error("has() is no part of the language")
	}
}

// TestLoopsAskForLoops holds that loops ask for let-names that have loops of their own,
// in each place that can hold one.
func TestLoopsAskForLoops(t *testing.T) {
	c, _, err := Loops(1000, 25)
	if err != nil {
		t.Fatal(err)
	}
	all, lets := texts(c)
	within := regexp.MustCompile(`\.(all|exists)\([xy], .*given_`)
	for what, text := range map[string]string{"a condition": all, "a let-name": lets} {
		if n := len(within.FindAllString(text, -1)); n < 10 {
			t.Errorf("%d times a loop of %s asks for a let-name", n, what)
		}
	}
	remedies := 0
	for _, r := range c.Rules().Rules() {
		if within.MatchString(r.Remedy) {
			remedies++
		}
	}
	if remedies < 5 {
		t.Errorf("%d texts have a loop that asks for a let-name", remedies)
	}
}

// texts gives all that decides, and the let-names alone.
func texts(c *compat.Checker) (all, lets string) {
	for _, r := range c.Rules().Rules() {
		all += r.WhenText + "\n" + r.FailIf + "\n" + r.WarnIf + "\n"
		for _, l := range r.Lets() {
			lets += l.Text + "\n"
		}
	}
	return all + lets, lets
}

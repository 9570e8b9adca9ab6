package rules_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/cogcourt/rules"
)

// heavy is a condition that costs a few thousand steps, and is admitted.
const heavy = "sail.panels_m2.all(p, p > sum(sail.panels_m2) + sum(sail.panels_m2) + sum(sail.panels_m2) + sum(sail.panels_m2))"

// TestCostOfOneRule holds that an expression over the limit is refused on load,
// wherever in a rule it stands.
func TestCostOfOneRule(t *testing.T) {
	long := "sail.panels_m2.all(p, p > 0" + strings.Repeat(" + sum(sail.panels_m2)", 36) + ")"
	chain := strings.Repeat("sail.wet || ", 200) + "sail.wet"
	for name, lines := range map[string][]string{
		"a loop in a loop":     {"fail_if: sail.panels_m2.all(p, sail.panels_m2.exists(q, q > p))"},
		"a long chain":         {"fail_if: " + chain},
		"a long chain in when": {"fail_if: true", "when: " + chain},
		"a long let":           {"fail_if: true", "let: {x: " + quoted(chain) + "}"},
		"a long text":          {"fail_if: true", "say: " + quoted("{"+chain+"}")},
		"a deep sum":           {"fail_if: " + quoted(strings.Replace(long, "sum", strings.Repeat("(", 30)+"sum", 1))},
	} {
		start := time.Now()
		_, err := load(t, pack(lines...))
		if err == nil {
			t.Errorf("%s is admitted", name)
			continue
		}
		for _, word := range []string{"too long", "cannot stand within a loop", "could take", "cannot be read"} {
			if strings.Contains(err.Error(), word) {
				err = nil
				break
			}
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%s is refused after %s", name, took)
		}
	}
}

// TestCostOfASet holds that many rules, each within its limit, are refused
// together, and that what is admitted is quick even at its worst.
func TestCostOfASet(t *testing.T) {
	set := func(n int) (*rules.Set, error) {
		var b strings.Builder
		b.WriteString("pack: boats\nrules:\n")
		for i := range n {
			fmt.Fprintf(&b, "  - {id: boats/rule-%d, title: T, why: W, fail_if: %q, say: S, remedy: R, basis: {practice: P}}\n", i, heavy)
		}
		return load(t, b.String())
	}
	if _, err := set(2000); err == nil || !strings.Contains(err.Error(), "the rules together could take") {
		t.Errorf("two thousand heavy rules: %v", err)
	}
	few, err := set(100)
	if err != nil {
		t.Fatal(err)
	}
	full := records(facts{"sail.panels_m2": []float64{9, 9, 9, 9, 9, 9, 9, 9}})
	start := time.Now()
	few.Evaluate(full)
	if took := time.Since(start); took > time.Second { // a few milliseconds; much slower under the race detector
		t.Errorf("a hundred heavy rules take %s", took)
	}
}

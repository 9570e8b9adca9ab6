package rules_test

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
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
	if _, err := set(2000); err == nil || !strings.HasPrefix(err.Error(), "boats.yaml:") ||
		!strings.Contains(err.Error(), "the rules together could take") || !strings.Contains(err.Error(), "with boats/rule-") {
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

// TestManyLets holds that a file with more let-names or rules than it may have is
// refused before any of them is compiled, at its place, and in little memory. What
// is admitted takes memory by the number of names, not by its square.
func TestManyLets(t *testing.T) {
	lets := func(n int) string {
		var b strings.Builder
		b.WriteString("let:")
		for i := range n {
			fmt.Fprintf(&b, "\n  a%d: sail.area_m2 + %d", i, i)
		}
		return b.String()
	}
	var many, packed strings.Builder
	many.WriteString("pack: boats\nrules:\n")
	packed.WriteString("pack: boats\nrules:\n")
	for i := range 2001 {
		fmt.Fprintf(&many, "  - {id: boats/rule-%d, title: T, why: W, fail_if: sail.wet, say: S, remedy: R, basis: {practice: P}}\n", i)
		if i < 201 {
			packed.WriteString(strings.Replace(strings.SplitN(pack(lets(50), "fail_if: sail.wet"), "rules:\n", 2)[1], "boats/rule", fmt.Sprintf("boats/rule-%d", i), 1))
		}
	}
	for name, c := range map[string]struct {
		text, want string
		most       uint64 // megabytes
	}{
		"ten thousand in one rule": {pack(lets(10_000), "fail_if: sail.wet"), "boats.yaml:55:7: rules[0].let: has 10000 names (at most 50 a rule)", 64},
		"fifty in each of many":    {packed.String(), "rules[100].let: the rules of this file have more than 5000 let-names together", 64},
		"too many rules":           {many.String(), "boats.yaml:2003:5: rules: has 2001 entries (at most 2000 a file)", 64},
		"one too many":             {pack(lets(51), "fail_if: sail.wet"), "has 51 names", 8},
		"fifty":                    {pack(lets(50), "fail_if: a1 + a49 > 5"), "", 16},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := load(t, c.text)
		runtime.ReadMemStats(&after)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
		if took := (after.TotalAlloc - before.TotalAlloc) >> 20; took > c.most {
			t.Errorf("%s: takes %d MB, at most %d are allowed", name, took, c.most)
		}
	}
}

// TestManyTexts holds that a text, and all texts of a file, have no more expressions than
// they may have, and that the place of the first one too many is told.
func TestManyTexts(t *testing.T) {
	say := func(n int) string { return "say: " + quoted(strings.Repeat("{1}", n)) }
	crowd := func(n int) string {
		var b strings.Builder
		b.WriteString("pack: boats\nrules:\n")
		for i := range n {
			b.WriteString(strings.Replace(strings.SplitN(pack("fail_if: sail.wet", say(50)), "rules:\n", 2)[1], "boats/rule", fmt.Sprintf("boats/rule-%d", i), 1))
		}
		return b.String()
	}
	for name, c := range map[string]struct{ text, want string }{
		"fifty":             {pack("fail_if: sail.wet", say(50)), ""},
		"fifty-one":         {pack("fail_if: sail.wet", say(51)), "rules[0].say: has more than 50 expressions (say less, or put what belongs together into one)"},
		"fifty in each":     {crowd(200), ""},
		"one text too many": {crowd(202), "rules[200].say: the texts of this file have more than 10000 expressions together (put some of the rules in another file)"},
	} {
		_, err := load(t, c.text)
		if got := fmt.Sprint(err); (err == nil) != (c.want == "") || !strings.Contains(got, c.want) || strings.Count(got, "\n") > 0 {
			t.Errorf("%s: %.300s, want %s", name, got, c.want)
		}
	}
	_, err := load(t, pack("fail_if: sail.wet", say(51)))
	if want := fmt.Sprintf(":%d: ", len(`    say: "`)+3*50+2); !strings.Contains(fmt.Sprint(err), want) {
		t.Errorf("%v, want the place of the text's expression 51, %s", err, want)
	}
}

// TestFaultsEndTheCompiling holds that a file of nothing but faults is not compiled to its
// end, which would take thousands of times its text, and says so.
func TestFaultsEndTheCompiling(t *testing.T) {
	var b strings.Builder
	b.WriteString("pack: boats\nrules:\n")
	for i := range 1500 {
		fmt.Fprintf(&b, "  - {id: boats/rule-%d, title: T, why: W, fail_if: sail.wte, say: '{sail.wte}', remedy: R, basis: {practice: P}}\n", i)
	}
	_, err := load(t, b.String())
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) != source.MaxProblems+1 || !strings.Contains(ps[len(ps)-1].Text, "not all of the rest was looked at") {
		t.Fatalf("%d problems, the last is %.200v", len(ps), ps[len(ps)-1])
	}
	if count := ps.Count(); count > 3*source.MaxProblems {
		t.Errorf("%d faults were looked for", count)
	}
}

// TestHonestRuleFiles holds that as many rules as a file may have get in by its limits.
func TestHonestRuleFiles(t *testing.T) {
	var short, long strings.Builder
	for i := range 2000 {
		fmt.Fprintf(&short, "  - {id: boats/rule-%d, title: T, why: W, fail_if: sail.wet, say: S, remedy: R, basis: {practice: P}}\n", i)
		if i%2 == 0 {
			long.WriteString(strings.Replace(strings.SplitN(pack("when: stated(sail.wet)", "let:\n  a: sail.area_m2 * 2", "fail_if: a > 30",
				"say: "+quoted("The sail has {sail.area_m2} square metres, and {a} are too many for a mast of this length."),
				"examples:\n  - {name: wet, given: {sail: {wet: true, area_m2: 20}}, want: fail}"), "rules:\n", 2)[1], "boats/rule", fmt.Sprintf("boats/rule-%d", i), 1))
		}
	}
	for name, text := range map[string]string{"2000 rules of a line each": short.String(), "1000 rules of a dozen lines": long.String()} {
		text = "pack: boats\nrules:\n" + text
		if _, err := rules.FileLimits().Parse("boats.yaml", []byte(text)); err != nil {
			t.Errorf("%s, %d bytes: %v", name, len(text), err)
		}
	}
}

package compat

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// clumsy is what no text of a rule or step may come to, whatever the mix: a gap
// in a sentence, a number that no ruler shows, a sign where a side is meant.
var clumsy = map[string]*regexp.Regexp{
	"a fact that is not there": regexp.MustCompile(`\(not stated\)`),
	"no number":                regexp.MustCompile(`NaN|Inf`),
	"two blanks":               regexp.MustCompile(`  `),
	"a negative number":        regexp.MustCompile(`(^|[^0-9A-Za-z.])-[0-9]`),
	"one of many":              regexp.MustCompile(`(^|[^0-9.])1 (cogs|steps|links|clicks)\b`),
	"too many decimals":        regexp.MustCompile(`[0-9]\.[0-9]{4,}`),
	"a brace":                  regexp.MustCompile(`[{}]`),
	"two full stops":           regexp.MustCompile(`\.\.`),
	"a blank before a stop":    regexp.MustCompile(` [,.;:]`),
}

// TestTextsReadWell fills the texts of the shipped rules and steps in for many
// mixes and looks for what reads badly.
func TestTextsReadWell(t *testing.T) {
	c, rng := standardChecker(t), random.Seeded(77)
	looked, told := map[string]int{}, map[string]bool{}
	for range fewer(1500) {
		m := mixOf(random.New(rng))
		texts := map[string][]string{}
		for _, f := range c.Check(m).Findings() {
			if f.Verdict == rules.Unknown {
				continue // which says what is not stated
			}
			texts[f.Rule] = []string{f.Text, f.Remedy, f.Caution}
		}
		for _, s := range c.Sheet(m).Steps {
			texts["step "+s.ID] = []string{s.Do, s.Value, s.Check, s.Because, s.Caution}
		}
		for name, list := range texts {
			looked[name]++
			for fault, pattern := range clumsy {
				if name == "charger/temperature" && fault == "a negative number" {
					continue // degrees below zero
				}
				if i := slices.IndexFunc(list, pattern.MatchString); i >= 0 && !told[name+fault] {
					told[name+fault] = true
					t.Errorf("%s: %s: %q", name, fault, list[i])
				}
			}
		}
	}
	steps := 0
	for name := range looked {
		if strings.HasPrefix(name, "step ") {
			steps++
		}
	}
	if steps < 40 || len(looked)-steps < 70 {
		t.Errorf("only %d rules and %d steps spoke", len(looked)-steps, steps)
	}
}

package expr

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// TestRefusedForCost holds that what could take long never becomes a program,
// and that the refusal itself is quick.
func TestRefusedForCost(t *testing.T) {
	hull := NewObject("hull", "", fact.NewTable(fact.Field{Name: "planks", Type: fact.Wholes, Cap: 64},
		fact.Field{Name: "name", Type: fact.Name}, fact.Field{Name: "wet", Type: fact.Flag}))
	l, err := NewLanguage(hull)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		text, want string
		code       source.Code
	}{
		"a loop over sums": {"hull.planks.all(p, p > sum(hull.planks) + max(hull.planks) + min(hull.planks))", "could take", source.Cost},
		"loops in loops":   {"hull.planks.all(a, hull.planks.all(b, a > b))", "within a loop", source.Expression},
		"a long chain":     {strings.Repeat("hull.wet || ", 150) + "hull.wet", "too long", source.TooLarge},
		"many nodes":       {strings.Repeat("1>0||", 250) + "true", "too long", source.TooLarge},
		"deep parentheses": {strings.Repeat("(", 60) + "1" + strings.Repeat(")", 60) + " > 0", "too long", source.TooLarge},
		"deep lists":       {strings.Repeat("[", 60) + "1" + strings.Repeat("]", 60) + " == 1", "too long", source.TooLarge},
		"one megabyte":     {strings.Repeat("x", 1<<20), "too long", source.TooLarge},
		"long texts in a loop": {"hull.planks.all(p, (" + strings.Repeat("hull.name + ", 12) + "'x').startsWith(" +
			strings.Repeat("hull.name + ", 12) + "'x'))", "could take", source.Cost},
	} {
		start := time.Now()
		p, issues := l.NewScope().Compile(c.text, Condition)
		took := time.Since(start)
		if p != nil || len(issues) == 0 {
			t.Errorf("%s: compiled at a cost of %d", name, p.Cost())
			continue
		}
		if is := issues[0]; !strings.Contains(is.Text, c.want) || is.Code != c.code || is.End <= is.At || is.End > len(c.text) {
			t.Errorf("%s: %v does not say %q, %s", name, is, c.want, c.code)
		}
		if took > 2*time.Second { // some 10 ms; much slower under the race detector
			t.Errorf("%s: refused after %s", name, took)
		}
	}
}

// TestTextsCannotDouble holds that let-names which each join the one before are
// refused: forty of them would fill the memory.
func TestTextsCannotDouble(t *testing.T) {
	s := boatLanguage(t).NewScope()
	last := "sail.cloth"
	for i := range 40 {
		name := fmt.Sprintf("t%d", i)
		p, issues := s.Compile(last+" + "+last, Value)
		if p == nil {
			if i < 3 || !strings.Contains(issues[0].Text, "could grow") {
				t.Errorf("after %d names: %v", i, issues)
			}
			return
		}
		s.Let(name, i, p)
		last = name
	}
	t.Error("a text of 64 x 2^40 characters was admitted")
}

// TestSizes holds the bounds of texts and lists that the cost rests on.
func TestSizes(t *testing.T) {
	s := boatLanguage(t).NewScope()
	for i, line := range [][2]string{{"twice", "sail.cloth + sail.maker"}, {"few", "[1, 2, 3]"}} {
		s.Let(line[0], i, must(t, s, line[1], Value))
	}
	for text, want := range map[string]int{
		"sail.cloth":                           maxText,
		"twice":                                2 * maxText,
		"twice + 'abc'":                        2*maxText + 3,
		"sail.wet ? 'é' : 'abc'":               3,
		"sail.knots":                           8,
		"few":                                  3,
		"sail.wet ? sail.knots : few":          8,
		"[1, 2]":                               2,
		"['a', 'bcd'][0]":                      4,
		"sail.area_m2":                         1,
		"[twice + twice][0] + sail.cloth":      5*maxText + maxText,
		"sail.cloth in ['nylon'] ? 'ab' : 'a'": 2,
	} {
		if got := must(t, s, text, Value).size; got != want {
			t.Errorf("%s: bounded by %d, not %d", text, got, want)
		}
	}
}

// TestCostGrowsWithCaps holds that the bound counts the entries of lists.
func TestCostGrowsWithCaps(t *testing.T) {
	cost := func(limit int, text string) uint64 {
		hull := NewObject("hull", "", fact.NewTable(fact.Field{Name: "planks", Type: fact.Wholes, Cap: limit}))
		l, err := NewLanguage(hull)
		if err != nil {
			t.Fatal(err)
		}
		return must(t, l.NewScope(), text, Condition).Cost()
	}
	for _, text := range []string{"sum(hull.planks) > 1", "hull.planks.all(p, p > 1)", "1 in hull.planks", "max(hull.planks) > min(hull.planks)"} {
		if few, many := cost(4, text), cost(64, text); many < few+60 {
			t.Errorf("%s: 4 planks cost %d, 64 cost %d", text, few, many)
		}
	}
}

package expr

import (
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules/fact"
)

// FuzzCompile holds that no text makes the compiler panic or report a place
// outside of the text, and that what compiles can be evaluated: over random records with
// facts missing the closures and the engine agree.
func FuzzCompile(f *testing.F) {
	seeds := []string{
		"stated(sail.wet) && sail.reefs > 1", "sail.panels_m2.all(p, sail.knots.exists(k, k < p)) || mast.makers.size() > 2", "sail.area_m2 / (sail.reefs - mast.stays) < 2.5",
		"first(sail.panels_m2) + sail.knots[1] % 3 >= min(mast.height_m, 2)", "sail.cloth in ['canvas', sail.maker] ? over : !over", "sum(sail.knots) * 2 - count(sail.panels_m2)", "sail.maker.startsWith('a') || known(sail.makers)", "known(sail.maker)", "!known(sail.makers)", "sail.panels_m2.exists(p, p > 1.5)", "near(1, 2.5, 3)", "over ? 'a' : sail.cloth", "\x00", "\xff", "''''''",
		"r'a' == \"\"\"x\"\"\"", "a.b.c(d)[e]{f:g}", "-9223372036854775808", "\u2028", "1.e", "b'\\xff'",
	}
	for _, c := range conditionIssues {
		seeds = append(seeds, strings.ReplaceAll(c.text, "¦", ""))
	}
	l := boatLanguage(f)
	empty := NewFrames(l, 1)
	blind.Fuzz(f, seeds, func(t testing.TB, raw []byte, role byte) bool {
		text := string(raw)
		s := l.NewScope()
		s.Let("over", 0, must(t, s, "sail.area_m2 > 1", Value))
		p, issues := s.Compile(text, Role(role%3))
		if (p == nil) != (len(issues) > 0) {
			t.Fatalf("%q: %v and %v", text, p, issues)
		}
		for _, is := range issues {
			if is.At < 0 || is.At > is.End || is.End > len([]rune(text)) || is.Code == "" || is.Text == "" || strings.Contains(is.Text, "cannot be compiled") {
				t.Errorf("%q: %+v", text, is)
			}
		}
		if p == nil {
			return false
		}
		fr := empty.Open()
		defer fr.Close()
		for _, r := range []*Record{nil, set(l.objects[0], map[string]fact.Value{"reefs": fact.Num(2), "wet": fact.Truth(true)})} {
			fr.Put(0, r)
			fr.Renew()
			if out := p.Decide(fr); strings.Contains(out.Err, "internal error") {
				t.Errorf("%q: %s", text, out.Err)
			}
			p.Render(fr, Shortest)
		}
		var n tally
		c := comparison{t, &writer{Rand: rand.New(rand.NewPCG(uint64(role), uint64(len(text))))}, p, text, &n}
		for range 4 {
			c.once(empty)
		}
		return true
	})
}

package view

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Values prints a line for each range of a fact: from, to, unit, the verdict of the
// rules that hang on it, and these; behind it the verdict of the mix where it is
// another one.
func Values(w io.Writer, v compat.Valued, words *rules.Vocabulary) {
	wrap(w, "", 0, Capital(words.Words(v.Fact))+", "+v.Fact+", in "+nameOf(v.Mix)+":")
	ref, _ := words.Find(v.Fact)
	ranges, widest := make([]string, len(v.Spans)), 0
	for i, s := range v.Spans {
		ranges[i] = spanOf(s, ref.Field())
		widest = max(widest, len(ranges[i]))
	}
	for i, s := range v.Spans {
		said := strings.Join(s.Rules, ", ")
		if len(s.Rules) == 0 {
			said = "no rule applies"
		}
		if s.Verdict != s.Alone {
			said += " (the mix: " + s.Verdict.String() + ")"
		}
		first := fmt.Sprintf("  %-*s  %-7s ", widest, ranges[i], strings.ToUpper(s.Alone.String()))
		wrap(w, first, len(first), said)
		if s.Refused != "" {
			wrap(w, "    ", 4, "Values beside it are left out: "+full(s.Refused))
		}
	}
}

// spanOf is a range with its unit, or a word.
func spanOf(s compat.Span, f fact.Field) string {
	if s.Word != "" {
		return s.Word
	}
	text := exact(s.From)
	if s.To != s.From {
		text += " to " + exact(s.To)
	}
	return strings.TrimSpace(text + " " + unitText(f.Unit))
}

// exact prints a number as it is.
func exact(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

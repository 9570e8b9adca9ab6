package view

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

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
	var lines strings.Builder
	t := tabwriter.NewWriter(&lines, 0, 0, 2, ' ', 0)
	for _, s := range v.Spans {
		said := strings.Join(s.Rules, ", ")
		if len(s.Rules) == 0 {
			said = "no rule applies"
		}
		if s.Verdict != s.Alone {
			said += " (the mix: " + s.Verdict.String() + ")"
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\n", spanOf(s, ref.Field()), strings.ToUpper(s.Alone.String()), said)
		if s.Refused != "" {
			fmt.Fprintf(t, "  left out\t\t%s\n", Clean(s.Refused))
		}
	}
	t.Flush()
	for line := range strings.Lines(lines.String()) {
		fmt.Fprintln(w, strings.TrimRight(line, " \n"))
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

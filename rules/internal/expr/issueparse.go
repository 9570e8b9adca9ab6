package expr

import (
	"slices"
	"strings"

	"github.com/google/cel-go/cel"

	"example.org/cogcourt/rules/source"
)

// parseIssues translates what the parser says. It says the same fault many
// times; the first is the one that an author can use.
func (s *Scope) parseIssues(text string, iss *cel.Issues) []Issue {
	e := iss.Errors()[0]
	runes := []rune(text)
	out := Issue{At: runeOffset(runes, e.Location.Line(), e.Location.Column()), Text: unreadable}
	msg := e.Message
	limited := func() bool {
		says := func(s string) bool { return strings.Contains(msg, s) }
		return !strings.HasPrefix(msg, "Syntax error") && slices.ContainsFunc([]string{"recursion", "nesting", "limit", "size"}, says)
	}
	switch {
	case strings.TrimSpace(text) == "":
		out.Text, out.Code = "the expression is empty", source.Empty
	case strings.Contains(msg, "invalid int literal"), strings.Contains(msg, "invalid double literal"):
		out.Text = "this number is too large"
	case strings.Contains(msg, "simple name"):
		out.Text, out.Hint = "a loop needs a name for its entries", "write "+usage["exists"]
	case limited():
		out = positions{text: runes}.tooLong()
	default:
		if is, ok := s.phrase(text); ok {
			return []Issue{is}
		}
		out.At, out.Hint = syntaxHint(runes, out.At)
	}
	return []Issue{out}
}

func (p positions) tooLong() Issue {
	is := p.entire("the expression is too long or too deeply nested", "split it with let:")
	is.Code = source.TooLarge
	return is
}

// habits are what people write who know other languages, and what to write.
var habits = []struct{ wrong, hint string }{
	{"=>", "write >="}, {"=<", "write <="}, {"<>", "write !="}, {"≥", "write >="}, {"≤", "write <="}, {"≠", "write !="},
	{"=", "write == to compare"}, {"and", "write &&"}, {"or", "write ||"}, {"not", "write !"}, {"is", "write =="},
	{"&", "write &&"}, {"|", "write ||"}, {"×", "write *"}, {"÷", "write /"},
	{"–", "write - with the hyphen"}, {"−", "write - with the hyphen"},
	{".?", "an unstated fact makes a rule unknown by itself; leave the ? out"},
	{"“", "write plain quotes"}, {"‘", "write plain quotes"}, {"'", "a quote is not closed"}, {"\"", "a quote is not closed"},
}

// syntaxHint looks for a habit of another language where the parser stopped, or
// one word before, and gives the better place with the hint.
func syntaxHint(runes []rune, at int) (int, string) {
	p := positions{text: runes}
	before := p.wordBefore(at)
	candidates := []int{at, before}
	if at > 0 {
		candidates = append(candidates, at-1)
	}
	for _, from := range candidates {
		for _, h := range habits {
			if p.reads(from, h.wrong) {
				return from, h.hint
			}
		}
	}
	switch rest := strings.TrimSpace(string(runes[at:])); {
	case rest == "":
		return at, "something is missing at the end"
	case strings.HasPrefix(rest, ",") && at > 0 && '0' <= runes[at-1] && runes[at-1] <= '9':
		return at, "write a decimal point"
	case rest[0] == ':' && !strings.ContainsRune(string(runes[:at]), '?'):
		return at, "for the decimals of a number in a text write :.0 to :.6"
	case strings.ContainsRune("<>=!*/%&|+", runes[at]) && at == p.whole():
		return at, "something must stand before it"
	}
	return at, ""
}

// reads says whether a word or sign stands at a place by itself.
func (p positions) reads(at int, what string) bool {
	w := []rune(what)
	if at+len(w) > len(p.text) || !strings.EqualFold(string(p.text[at:at+len(w)]), what) {
		return false
	}
	end := at + len(w)
	if isWord(w[0]) {
		return end == len(p.text) || !isWord(p.text[end])
	}
	return what != "=" && what != "&" && what != "|" || p.lone(at)
}

// lone says whether a sign is not doubled or part of a comparison.
func (p positions) lone(at int) bool {
	beside := func(i int) bool {
		return i >= 0 && i < len(p.text) && strings.ContainsRune("=!<>&|", p.text[i])
	}
	return !beside(at-1) && !beside(at+1)
}

// remark finds a comment in an expression. The engine would skip it to the end
// of the line, and a folded text is one line: the rest would be lost without a
// word.
func remark(text string) (Issue, bool) {
	var quote rune
	runes := []rune(text)
	for i := 0; i < len(runes); i++ {
		switch c := runes[i]; {
		case quote != 0 && c == '\\':
			i++
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '\'' || c == '"':
			quote = c
		case c == '/' && i+1 < len(runes) && runes[i+1] == '/':
			is := Issue{At: i, End: len(runes), Text: "a comment cannot stand in an expression",
				Hint: "write it as a # comment on a line of its own"}
			if line := slices.Index(runes[i:], '\n'); line >= 0 {
				is.End = i + line
			}
			return is, true
		}
	}
	return Issue{}, false
}

package expr

import (
	"cmp"

	"github.com/google/cel-go/common/ast"

	"example.org/cogcourt/rules/source"
)

// Issue is one fault of an expression. It goes from the first character of the
// name, operator or value that is at fault to just behind its last, in code points
// from the start of the text.
type Issue struct {
	At   int
	End  int
	Code source.Code
	Text string
	Hint string
}

// located completes issues that say no more than where they begin: they end with
// the word or sign that stands there, and their code is the general one.
func located(text string, issues []Issue) []Issue {
	p := positions{text: []rune(text)}
	for i := range issues {
		is := &issues[i]
		is.Code = cmp.Or(is.Code, source.Expression)
		if is.End <= is.At {
			is.End = p.tokenEnd(is.At)
		}
	}
	return issues
}

// entire is an issue of the expression as such, from its first visible character
// to its last.
func (p positions) entire(text, hint string) Issue {
	end := len(p.text)
	for end > 0 && isBlank(p.text[end-1]) {
		end--
	}
	return Issue{At: p.whole(), End: end, Text: text, Hint: hint}
}

// over is an issue of a node with all its parts.
func (p positions) over(e ast.Expr, text string) Issue {
	return Issue{At: p.start(e), End: p.stop(e), Text: text}
}

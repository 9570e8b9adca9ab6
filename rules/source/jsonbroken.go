package source

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// broken makes the problem of a token that the decoder refuses, which begins at
// an offset. The decoder's own offsets count differently from error to error, so
// it is asked once more about what stands here.
func (t *jsonTree) broken(at int, err error) Problem {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return t.unfinished(at)
	}
	for _, mark := range []byte(",:") {
		if i := strings.LastIndexByte(t.l.text[:min(at+1, len(t.l.text))], mark); i >= 0 && strings.Contains(err.Error(), "'"+string(rune(mark))+"'") {
			return Problem{Pos: t.l.pos(i), Text: fmt.Sprintf("nothing stands in front of this %c", mark), Hint: "take it out"}
		}
	}
	fresh := json.NewDecoder(strings.NewReader(t.l.text[at:]))
	fresh.UseNumber()
	var syntax *json.SyntaxError
	inside := at
	if _, err := fresh.Token(); errors.As(err, &syntax) {
		inside += max(0, int(syntax.Offset)-1)
	}
	inside = min(inside, len(t.l.text)-1)
	p := Problem{Pos: t.l.pos(inside)}
	p.Text, p.Hint = t.explain(at, inside, err.Error())
	return p
}

// unfinished is a file that ends too early.
func (t *jsonTree) unfinished(at int) Problem {
	switch {
	case at < len(t.l.text) && t.l.text[at] == '"':
		return Problem{Pos: t.l.pos(at), Text: "the quote that opens here is not closed", Hint: `close it; a quote within a text is written \"`}
	case len(t.open) > 0:
		n := t.open[len(t.open)-1]
		return Problem{Pos: n.Pos, Text: fmt.Sprintf("the %c that opens here is not closed", t.l.text[n.at])}
	case at < len(t.l.text):
		return Problem{Pos: t.l.pos(at), Text: "the file ends within a value"}
	}
	return Problem{Pos: t.l.pos(0), Text: "the file is empty"}
}

// explain says what is wrong with the character at inside, in a token that
// begins at an offset, and how to mend it.
func (t *jsonTree) explain(at, inside int, says string) (text, hint string) {
	c := t.l.text[inside]
	word := t.word(at)
	fault, plainly := odd(word)
	between := strings.Contains(says, "after object key:value pair") || strings.Contains(says, "after array element")
	switch {
	case strings.Contains(says, "in string literal"):
		return "a line break or tab within a text", `write \n or \t`
	case strings.Contains(says, "escape") || strings.Contains(says, `\u`):
		return "no such escape", `write \\ for a backslash; \u is followed by four digits`
	case c == '/' || c == '#':
		return "JSON has no comments", "take it out, or write the file as .yaml"
	case c == '\'':
		return "texts are in double quotes in JSON", `write "..."`
	case fault != "":
		return word + " " + fault, plainly
	case (c == '}' || c == ']') && t.before(at) == ',':
		return "a comma in front of a closing bracket", "take the comma out"
	case (c == '}' || c == ']') && between && len(t.open) > 0:
		open := t.open[len(t.open)-1]
		return fmt.Sprintf("%c does not close the %c at %s", c, t.l.text[open.at], open.Pos), "close that first"
	case between:
		return "a comma is missing in front of this", "put commas between the entries"
	case strings.Contains(says, "after object key"):
		return "a colon is missing in front of this", `write "name": value`
	case len(t.open) == 0 && strings.IndexByte("{[", c) < 0 && at > 0 && t.before(at) != 0:
		return moreText, oneValue
	case word != "" && !strings.Contains(says, "of value") && !strings.Contains(says, "literal"):
		return clip(word) + " is no name", "put names in double quotes"
	case word != "":
		return clip(word) + " is no value that JSON knows", "put texts and names in double quotes; write true, false and null in small letters"
	}
	return fmt.Sprintf("%q cannot stand here", c), "a value or name is missing in front of it"
}

// word gives the number or bare word around an offset.
func (t *jsonTree) word(at int) string {
	const ends = " \t\r\n,:[]{}\"'/#"
	end := at
	for end < len(t.l.text) && strings.IndexByte(ends, t.l.text[end]) < 0 {
		end++
	}
	for at > 0 && strings.IndexByte(ends, t.l.text[at-1]) < 0 {
		at--
	}
	return t.l.text[at:end]
}

// before gives the last character in front of an offset that is no blank, or 0.
func (t *jsonTree) before(at int) byte {
	s := strings.TrimRight(t.l.text[:at], " \t\r\n")
	if s == "" {
		return 0
	}
	return s[len(s)-1]
}

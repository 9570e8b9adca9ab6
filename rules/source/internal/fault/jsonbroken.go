package fault

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// JSON is a text that the decoder of JSON refuses.
type JSON struct {
	Text  string
	Whole string // what the text is: file or line
	Open  []int  // the offsets of the lists and maps around, the outermost first

	Place  func(at int) string                    // names the place of an offset
	Number func(word string) (fault, hint string) // what is wrong with a number that is not written as JSON does, or ""
}

// Explain says what is wrong with a token that begins at an offset and that the
// decoder refuses. The decoder's own offsets count differently from error to
// error, so it is asked once more about what stands here.
func (j JSON) Explain(at int, err error) Fault {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return j.unfinished(at)
	}
	for _, mark := range []byte(",:") {
		i := strings.LastIndexByte(j.Text[:min(at+1, len(j.Text))], mark)
		if i >= 0 && strings.Contains(err.Error(), "'"+string(rune(mark))+"'") {
			return Fault{i, fmt.Sprintf("nothing stands in front of this %c", mark), "take it out"}
		}
	}
	fresh := json.NewDecoder(strings.NewReader(j.Text[at:]))
	fresh.UseNumber()
	var syntax *json.SyntaxError
	inside := at
	if _, err := fresh.Token(); errors.As(err, &syntax) {
		inside += max(0, int(syntax.Offset)-1)
	}
	inside = min(inside, len(j.Text)-1)
	switch says := err.Error(); whereOf(says) {
	case behindEntry, behindName: // the token is sound, and stands where it must not
		return j.explain(at, at, says)
	case inEscape:
		return j.explain(at, max(at, strings.LastIndexByte(j.Text[:inside+1], '\\')), says)
	default:
		return j.explain(at, inside, says)
	}
}

// More says that text stands behind the end of the value.
func (j JSON) More(at int) Fault {
	return Fault{at, "more text behind the end of the value", "one " + j.Whole + " holds one value"}
}

// unfinished is a text that ends too early.
func (j JSON) unfinished(at int) Fault {
	switch {
	case at < len(j.Text) && j.Text[at] == '"':
		return Fault{at, "the quote that opens here is not closed", `close it; a quote within a text is written \"`}
	case len(j.Open) > 0:
		open := j.Open[len(j.Open)-1]
		return Fault{At: open, Text: fmt.Sprintf("the %c that opens here is not closed", j.Text[open])}
	case at < len(j.Text):
		return Fault{At: at, Text: "the " + j.Whole + " ends within a value"}
	}
	return Fault{At: 0, Text: "the " + j.Whole + " is empty"}
}

// explain says what is wrong with the character at inside, in a token that
// begins at an offset, and how to mend it. What is wrong with a word is wrong from its
// begin on.
func (j JSON) explain(at, inside int, says string) Fault {
	c := j.Text[inside]
	word, begin := j.word(at)
	here := func(text, hint string) Fault { return Fault{inside, text, hint} }
	fault, plainly := j.Number(word)
	where := whereOf(says)
	switch {
	case where == unknownPlace:
		return here(Raw+"JSON: "+says, "")
	case where == inText:
		return here("a line break or tab within a text", `write \n or \t`)
	case where == inEscape:
		return here("no such escape", `write \\ for a backslash; \u is followed by four digits`)
	case c == '/' || c == '#':
		return here("JSON has no comments", j.noComment())
	case c == '\'':
		return here("texts are in double quotes in JSON", `write "..."`)
	case fault != "":
		return Fault{begin, word + " " + fault, plainly}
	case (c == '}' || c == ']') && j.before(at) == ',':
		return here("a comma in front of a closing bracket", "take the comma out")
	case (c == '}' || c == ']') && where == behindEntry && len(j.Open) > 0:
		open := j.Open[len(j.Open)-1]
		return here(fmt.Sprintf("%c does not close the %c at %s", c, j.Text[open], j.Place(open)), "close that first")
	case where == behindEntry:
		return here("a comma is missing in front of this", "put commas between the entries")
	case where == behindName:
		return here("a colon is missing in front of this", `write "name": value`)
	case len(j.Open) == 0 && strings.IndexByte("{[", c) < 0 && at > 0 && j.before(at) != 0:
		return j.More(inside)
	case word != "" && where == atName:
		return Fault{begin, Clip(word) + " is no name", "put names in double quotes"}
	case word != "":
		return Fault{begin, Clip(word) + " is no value that JSON knows",
			"put texts and names in double quotes; write true, false and null in small letters"}
	}
	return here(fmt.Sprintf("%q cannot stand here", c), "a value or name is missing in front of it")
}

func (j JSON) noComment() string {
	if j.Whole == "file" {
		return "take it out, or write the file as .yaml"
	}
	return "take it out"
}

// word gives the number or bare word around an offset, and where it begins.
func (j JSON) word(at int) (word string, begin int) {
	const ends = " \t\r\n,:[]{}\"'/#"
	end := at
	for end < len(j.Text) && strings.IndexByte(ends, j.Text[end]) < 0 {
		end++
	}
	for at > 0 && strings.IndexByte(ends, j.Text[at-1]) < 0 {
		at--
	}
	return j.Text[at:end], at
}

// before gives the last character in front of an offset that is no blank, or 0.
func (j JSON) before(at int) byte {
	s := strings.TrimRight(j.Text[:at], " \t\r\n")
	if s == "" {
		return 0
	}
	return s[len(s)-1]
}

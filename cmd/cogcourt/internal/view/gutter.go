package view

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/rules"
)

// gutter is how many columns of a report stand before every text. In them stands one
// word that says what the text is, so that an eye finds it without reading; what
// belongs to the block above is set in by two.
const gutter = 9

// block prints a text behind a word of at most eight letters, which stands alone
// where there is no text.
func block(w io.Writer, word, text string) {
	wrap(w, fmt.Sprintf("%-*s", gutter, word), gutter, text)
}

// under prints a text that belongs to the block above it; nothing where there is none.
func under(w io.Writer, word, text string) {
	if strings.TrimSpace(text) != "" {
		block(w, "  "+word, text)
	}
}

// items prints texts below one another, the first behind the word. Where one of them
// goes on, its lines are set in.
func items(w io.Writer, word string, texts []string) {
	for _, text := range texts {
		wrap(w, fmt.Sprintf("%-*s", gutter, word), gutter+2, text)
		word = ""
	}
}

var colours = map[rules.Verdict]string{rules.Fail: "31", rules.Unknown: "35", rules.Warn: "33", rules.Pass: "32"}

// marked prints a text behind a verdict, which is coloured where colours are
// wanted. The word itself says it all.
func (p *printer) marked(v rules.Verdict, text string) {
	word := strings.ToUpper(v.String())
	var b strings.Builder
	block(&b, word, text)
	line := b.String()
	if p.style.Colour {
		line = "\x1b[1;" + colours[v] + "m" + word + "\x1b[0m" + line[len(word):]
	}
	fmt.Fprint(p.w, line)
}

// page counts the rows that a screen needs for what is printed.
type page struct {
	io.Writer
	screen Size
	rows   int
	line   strings.Builder // what is printed of the row that has not ended
}

// Write prints and counts. Colours take no column and are counted all the same: a
// page that is taken for too long has its verdict twice, and no harm is done.
func (p *page) Write(b []byte) (int, error) {
	across := cmp.Or(p.screen.Columns, width)
	for part := range strings.SplitAfterSeq(string(b), "\n") {
		p.line.WriteString(strings.TrimSuffix(part, "\n"))
		if strings.HasSuffix(part, "\n") {
			p.rows += max(1, (columns(p.line.String())+across-1)/across)
			p.line.Reset()
		}
	}
	return p.Writer.Write(b)
}

// over says whether the first row has left the screen once the shell asks for the
// next command. Where nobody knows the screen it has not.
func (p *page) over() bool { return p.screen.Rows > 0 && p.rows >= p.screen.Rows }

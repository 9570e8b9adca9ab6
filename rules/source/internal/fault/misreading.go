package fault

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// YAML is a text that the YAML parser refuses.
type YAML struct {
	Text  string
	Depth int // how deep lists and maps may lie within each other

	// Refuse gives what the parser says of a text, or "", and how many bytes it
	// had read by then: exactly where that is more than slow.
	Refuse func(text string, slow int) (says string, at int)
}

// misreading is a text that the parser refuses, and how. The parser tells a line at
// most, and it is often the one at which the list or map began. Better is known
// from how far it had read when it gave up.
type misreading struct {
	*lines
	YAML
	says  string // the parser's words
	begin int    // the line at which what it was reading began
	at    int    // how many bytes it had read
}

// raw is how many bytes the parser takes at a time, and fine how many of the
// last ones it is given one by one to see where it stops.
const (
	raw  = 512
	fine = 4 * raw
)

// Explain says what is wrong with the text.
func (y YAML) Explain() Fault {
	m := misreading{lines: newLines(y.Text), YAML: y}
	_, rough := y.Refuse(y.Text, len(y.Text))
	m.says, m.at = y.Refuse("#\n"+y.Text, max(0, rough-fine))
	m.at = max(0, min(m.at-2, len(y.Text)))
	m.words()
	return m.fault()
}

// words takes the parser's sentence apart. With the comment line in front the
// line that it tells is never the first, for which it tells another one.
func (m *misreading) words() {
	m.says = strings.TrimPrefix(m.says, "yaml: ")
	m.begin = m.lineOf(m.at - 1)
	rest, ok := strings.CutPrefix(m.says, "line ")
	if !ok {
		return
	}
	number, says, _ := strings.Cut(rest, ": ")
	line, _ := strconv.Atoi(number)
	m.says, m.begin = says, line
	if !m.parsed() {
		m.begin-- // the scanner counts one further
	}
	m.begin = max(1, min(m.begin, len(m.begins)))
}

// parsed reports whether the parser gave up, not the scanner below it. It stops
// at the right token, but has the scanner read two tokens ahead.
func (m *misreading) parsed() bool {
	for _, s := range []string{"expected key", "expected '-'", "expected ','", "node content", "document start", "tag handle"} {
		if strings.Contains(m.says, s) {
			return true
		}
	}
	return false
}

// token gives the line of the token at which the parser gave up: the first of
// the last lines read which make it say the same of the text up to there.
func (m *misreading) token() int {
	const back, most = 8, 256 << 10
	last := m.lineOf(m.at - 1)
	if m.at > most {
		return last
	}
	whole, _ := m.Refuse(m.text, len(m.text))
	for n := max(1, m.begin, last-back); n < last; n++ {
		text, at := m.line(n)
		if says, _ := m.Refuse(m.text[:at+len(text)], at+len(text)); says == whole {
			return n
		}
	}
	return last
}

// back gives the offset of the first of some characters in the last few code
// points that were read, or -1.
func (m *misreading) back(count int, chars string) int {
	from := m.at
	for ; count > 0 && from > 0; count-- {
		_, size := utf8.DecodeLastRuneInString(m.text[:from])
		from -= size
	}
	if i := strings.IndexAny(m.text[from:m.at], chars); i >= 0 {
		return from + i
	}
	return -1
}

// indent gives the offset of the first character of a line that is no blank.
func (m *misreading) indent(line int) int {
	text, at := m.line(line)
	return at + blanks(text)
}

// value gives the offset at which the value of a line begins: behind its
// dashes, its name and their colon.
func (m *misreading) value(line int) int {
	text, at := m.line(line)
	end := at + len(text)
	i := m.indent(line)
	for i+1 < end && m.text[i] == '-' && m.text[i+1] == ' ' {
		i += 2
		i += blanks(m.text[i:end])
	}
	if c := colon(m.text[i:end]); c >= 0 {
		i += c + 1
		i += blanks(m.text[i:end])
	}
	return i
}

// blanks counts the spaces and tabs that a text begins with.
func blanks(s string) int { return len(s) - len(strings.TrimLeft(s, " \t")) }

// colon finds the first colon of a line that ends a name, or -1. Comments do
// not count.
func colon(text string) int {
	text = uncommented(text)
	for i := range len(text) {
		if text[i] == ':' && (i+1 == len(text) || text[i+1] == ' ' || text[i+1] == '\t') {
			return i
		}
	}
	return -1
}

// uncommented cuts a line where a comment seems to begin.
func uncommented(line string) string {
	if i := strings.Index(line, " #"); i >= 0 {
		return line[:i]
	}
	return line
}

// above gives the line above that is neither empty nor a comment, or 0.
func (m *misreading) above(line int) int {
	for line--; line > 0; line-- {
		text, _ := m.line(line)
		if rest := strings.TrimSpace(text); rest != "" && rest[0] != '#' {
			return line
		}
	}
	return 0
}

// char gives the character at an offset, or 0.
func (m *misreading) char(at int) byte {
	if at >= 0 && at < len(m.text) {
		return m.text[at]
	}
	return 0
}

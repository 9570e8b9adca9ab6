package fault

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// openQuote is a quote or bracket that is never closed.
func (m *misreading) openQuote() (int, string, string) {
	return m.first(m.begin, `"'`), "the quote that opens here is not closed",
		`close it; a quote within a text is written twice in '...' and as \" in "..."`
}

// badEscape is a backslash in double quotes.
func (m *misreading) badEscape() (int, string, string) {
	at := m.first(m.begin, `"`)
	for i := at; i < m.at; {
		if m.text[i] != '\\' {
			i++
			continue
		}
		e := m.char(i + 1)
		switch digits := hexDigits(e); {
		case digits > 0:
			r := hex(m.text[:m.at], i+2, digits)
			if 0xd800 <= r && r < 0xe000 {
				return i, "half of a surrogate pair", "write the character itself; pairs are read in .json files alone"
			}
			if r < 0 {
				return i, fmt.Sprintf(`\%c is not followed by the %d digits of a character`, e, digits), "digits are 0 to 9 and a to f"
			}
			i += 2 + digits
		case strings.IndexByte("0abt\tnvfre \"'\\N_LP\r\n", e) < 0:
			return i, fmt.Sprintf(`\%c is no escape`, e), `write \\ for a backslash, or use single quotes`
		default:
			i += 2
		}
	}
	return at, "a text with an escape that cannot be read", `write \\ for a backslash, or use single quotes`
}

// hexDigits counts the hexadecimal digits that follow \ and this letter.
func hexDigits(letter byte) int {
	switch letter {
	case 'x':
		return 2
	case 'u':
		return 4
	case 'U':
		return 8
	}
	return 0
}

// hex reads count hexadecimal digits at an offset; -1 where there are none.
func hex(text string, at, count int) rune {
	if at+count > len(text) {
		return -1
	}
	x, err := strconv.ParseUint(text[at:at+count], 16, 32)
	if err != nil || x > unicode.MaxRune {
		return -1
	}
	return rune(x)
}

// openBracket is a list or map in brackets that is not closed, or not made of
// entries and commas.
func (m *misreading) openBracket() (int, string, string) {
	at := m.first(m.begin, "[{")
	if end := m.close(at); end < 0 || end > m.at {
		return at, fmt.Sprintf("the %c that opens here is not closed", m.char(at)),
			"close it, or put a text that begins with { or [ in quotes"
	}
	return at, "a list or map in brackets that cannot be read",
		"put commas between the entries; put texts that hold , [ ] { } or : in quotes"
}

// close gives the offset just behind what closes the quote or bracket at an
// offset, or -1.
func (m *misreading) close(at int) int {
	depth := 0
	for i := at; i < len(m.text); i++ {
		switch c := m.text[i]; c {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '"', '\'':
			i = m.unquote(i) - 1
			if i < 0 {
				return -1
			}
		}
		if depth == 0 {
			return i + 1
		}
	}
	return -1
}

// unquote gives the offset just behind the quote that closes the one at an
// offset, or -1.
func (m *misreading) unquote(at int) int {
	quote := m.text[at]
	for i := at + 1; i < len(m.text); i++ {
		switch {
		case m.text[i] == '\\' && quote == '"':
			i++
		case m.text[i] == quote && quote == '\'' && m.char(i+1) == quote:
			i++
		case m.text[i] == quote:
			return i + 1
		}
	}
	return -1
}

// noContent is a comma or a closing bracket where a value is wanted.
func (m *misreading) noContent() (int, string, string) {
	if v := m.value(m.begin); strings.IndexByte(",]}", m.char(v)) >= 0 {
		return v, fmt.Sprintf("a text cannot begin with %c", m.char(v)), quoteIt
	}
	if at := m.first(m.begin, "[{"); strings.IndexByte("[{", m.char(at)) >= 0 && m.close(at) < 0 {
		return m.openBracket()
	}
	if at := m.unclosedAbove(); at >= 0 {
		m.begin = m.lineOf(at)
		return m.openBracket()
	}
	text, at := m.line(m.begin)
	last := byte(0)
	for i := range len(text) {
		c := text[i]
		if c == ',' && strings.IndexByte(",[{", last) >= 0 {
			return at + i, "nothing stands in front of this comma", "take the comma out"
		}
		if c != ' ' {
			last = c
		}
	}
	return m.indent(m.begin), "a value is missing", quoteIt
}

// unclosedAbove gives the offset of a bracket that the text ends within, or -1 where
// something stands at or behind the line of the fault. The last lines are looked at.
func (m *misreading) unclosedAbove() int {
	const back = 100
	if strings.TrimSpace(m.text[m.start(m.begin):]) != "" {
		return -1
	}
	for line, n := m.above(m.begin), 0; line > 0 && n < back; line, n = m.above(line), n+1 {
		if at := m.first(line, "[{"); strings.IndexByte("[{", m.char(at)) >= 0 {
			if m.close(at) >= 0 {
				return -1
			}
			return at
		}
	}
	return -1
}

// stray is a line that does not belong to the list or map around it.
func (m *misreading) stray() (int, string, string) {
	line := m.token()
	text, begin := m.line(line)
	at, v := m.indent(line), m.value(line)
	switch {
	case strings.Contains(m.text[begin:at], "\t"):
		return m.tab()
	case strings.IndexByte("\"'[{", m.char(v)) >= 0 && m.rest(v) >= 0:
		return m.rest(v), fmt.Sprintf("more text behind the closing %c", m.char(m.close(v)-1)),
			quoteIt + ", of the other kind where it holds some"
	case m.char(at) == '}' || m.char(at) == ']':
		return at, fmt.Sprintf("%c closes nothing", m.char(at)), "take it out"
	case m.char(at) == ':':
		return at, "an entry has no name", "write its name in front of the colon"
	case strings.HasPrefix(m.text[at:], "- ") && m.under(line):
		return at, ListUnder, ListUnderHint
	case strings.HasPrefix(m.text[at:], "- ") && strings.Contains(m.says, "key"):
		return at, "an entry of a list among the entries of a map", "give the list a name, and indent its entries under it"
	case strings.Contains(m.says, "'-'"):
		return at, "a line without a - in a list",
			"each entry of the list begins with - in the same column, and its lines line up behind the -"
	}
	return m.misfit(line, text)
}

// misfit is a line of a map that does not go with the one above.
func (m *misreading) misfit(line int, text string) (int, string, string) {
	at, above := m.indent(line), m.above(line)
	before, begin := m.line(max(above, 1))
	switch {
	case above > 0 && colon(text) < 0 && len(uncommented(before)) < len(before):
		return begin + len(uncommented(before)) + 1, "a comment ends the text here", "put a text that holds a # in quotes"
	case colon(text) < 0:
		return m.noColon(line)
	case m.under(line):
		return at, indented, lineUp
	case above > 0 && colon(before) < 0 && !strings.HasPrefix(m.text[m.indent(above):], "- "):
		return m.noColon(above)
	}
	return at, "does not line up with the entries above", "entries of one map begin in the same column"
}

// rest gives the offset of what follows the quote or bracket that closes on the
// same line, or -1 where nothing or a comment does.
func (m *misreading) rest(at int) int {
	end := m.close(at)
	if end < 0 {
		return -1
	}
	end += blanks(m.text[end:])
	if c := m.char(end); c == 0 || c == '\n' || c == '\r' || c == '#' {
		return -1
	}
	return end
}

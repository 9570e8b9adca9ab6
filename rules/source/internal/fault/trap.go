package fault

import (
	"fmt"
	"strings"
)

// trap explains one kind of mishap: where in the text the mistake is, what it
// is, and what would mend it.
type trap struct {
	says    string // a part of the parser's sentence
	explain func(m *mishap) (at int, text, hint string)
}

// longest is how far from its begin the colon behind a YAML name may stand.
const longest = 1024

// What is said as well of a text that the parser takes, or before it is asked.
const (
	Directive     = "directives are not allowed"
	DirectiveHint = "take out the lines that begin with %"
	ListUnder     = "a list under a text"
	ListUnderHint = "take the text above out, or put the whole text in quotes"
)

// Raw is what begins the text of a fault whose sentence no trap knows.
const Raw = "cannot be read as "

const (
	quoteIt  = "put the whole text in quotes"
	indented = "is indented under a line that has a value"
	lineUp   = "line it up with the entries around it"
)

// traps are what authors run into. The first that fits is told.
func traps() []trap {
	return []trap{
		{"mapping values are not allowed", (*mishap).secondColon},
		{"cannot start any token", (*mishap).badStart},
		{"a tab character", (*mishap).tab},
		{"expected comment or line break", (*mishap).blockMark},
		{"indentation indicator", (*mishap).blockMark},
		{"unexpected end of stream", (*mishap).openQuote},
		{"unexpected document indicator", (*mishap).openQuote},
		{"escape character", (*mishap).badEscape},
		{"escape code", (*mishap).badEscape},
		{"hexdecimal", (*mishap).badEscape},
		{"could not find expected ':'", (*mishap).noColonThere},
		{"block sequence entries", (*mishap).listInLine},
		{"mapping keys are not allowed", (*mishap).mark},
		{"alphabetic or numeric", (*mishap).mark},
		{"unknown anchor", (*mishap).unknownAlias},
		{"expected ',' or", (*mishap).openBracket},
		{"node content", (*mishap).noContent},
		{"expected '-'", (*mishap).stray},
		{"expected key", (*mishap).stray},
		{"document start", (*mishap).stray},
		{"exceeded max depth", (*mishap).deep},
		{"directive", (*mishap).directive}, // this and the next are directives behind a first document
		{"version number", (*mishap).directive},
		{"digit or '.'", (*mishap).directive},
		{"non-alphabetical", (*mishap).directive},
		{"incompatible YAML", (*mishap).directive},
		{"tag", (*mishap).mark}, // this and the next are tags that are wrong in themselves
		{"'!'", (*mishap).mark},
		{"'>'", (*mishap).mark},
		{"octet", (*mishap).mark},
		{"expected whitespace", (*mishap).mark},
	}
}

// fault finds the trap that the author ran into. A blank that is none comes before
// all: what the parser says then is of the lines around it.
func (m *mishap) fault() Fault {
	f := m.trapped()
	if space := m.space(m.lineOf(f.At)); space.Text != "" {
		return space
	}
	return f
}

func (m *mishap) trapped() Fault {
	for _, t := range traps() {
		if strings.Contains(m.says, t.says) {
			at, text, hint := t.explain(m)
			return Fault{at, text, hint}
		}
	}
	return Fault{At: m.at - 1, Text: Raw + "YAML: " + m.says}
}

// secondColon is name: text: more, or an entry that is indented under a value.
func (m *mishap) secondColon() (int, string, string) {
	at := m.back(4, ":")
	if at < 0 {
		at = m.at - 1
	}
	line := m.lineOf(at)
	if m.value(line) <= at {
		return at, "a colon and a blank within a text", quoteIt
	}
	switch name := m.indent(line); {
	case m.column(at)-m.column(name) > longest:
		return name, fmt.Sprintf("a name of more than %d characters", longest), "shorten it"
	case m.under(line):
		return name, indented, lineUp
	}
	return m.noColon(max(m.above(line), 1))
}

// under reports whether a line is indented more than the one above.
func (m *mishap) under(line int) bool {
	above := m.above(line)
	return above > 0 && m.column(m.indent(line)) > m.column(m.indent(above))
}

// noColon is a line that is no entry.
func (m *mishap) noColon(line int) (int, string, string) {
	text, _ := m.line(line)
	hint := "write name: value"
	if strings.Contains(uncommented(text), ":") {
		hint = "write a blank behind the colon"
	}
	return m.indent(line), "a line without a name and a colon", hint
}

func (m *mishap) noColonThere() (int, string, string) { return m.noColon(m.begin) }

// badStart is a text that begins with a character that none may begin with.
func (m *mishap) badStart() (int, string, string) {
	line := m.lineOf(m.at - 1)
	if at := m.indent(line); strings.Contains(m.text[m.start(line):at], "\t") {
		return m.tab()
	}
	at := m.back(4, "\t@`%|>-")
	switch {
	case at < 0:
		return m.at - 1, "a character that no text can begin with", quoteIt
	case m.text[at] == '\t':
		return m.tab()
	}
	return at, fmt.Sprintf("a text cannot begin with %c", m.text[at]), quoteIt
}

// tab is a tab among the blanks that a line begins with.
func (m *mishap) tab() (int, string, string) {
	line := m.lineOf(m.at - 1)
	begin := m.start(line)
	at := begin + strings.IndexByte(m.text[begin:m.indent(line)], '\t')
	if at < begin {
		at = m.back(5, "\t")
	}
	return at, "a tab in the indentation", "indent with spaces"
}

// blockMark is a text or condition that begins with > or |.
func (m *mishap) blockMark() (int, string, string) {
	at := m.first(m.begin, ">|")
	return at, fmt.Sprintf("%c begins a text on the lines below", m.char(at)),
		"put a text or condition that begins with > or | in quotes"
}

// first gives the offset of the line's value where it begins with one of these
// characters, else of the first of them on the line, else of the line itself.
func (m *mishap) first(line int, chars string) int {
	if at := m.value(line); strings.IndexByte(chars, m.char(at)) >= 0 {
		return at
	}
	text, at := m.line(line)
	if i := strings.IndexAny(text, chars); i >= 0 {
		return at + i
	}
	return m.indent(line)
}

// mark is a text that begins with what YAML has another use for.
func (m *mishap) mark() (int, string, string) {
	if m.char(m.indent(m.begin)) == '%' {
		return m.directive()
	}
	at := m.value(m.begin)
	if strings.IndexByte("*&?!", m.char(at)) < 0 {
		at = m.back(5, "*&?")
	}
	if at < 0 {
		at = m.first(m.begin, "!")
	}
	return at, fmt.Sprintf("a text cannot begin with %c", m.char(at)), quoteIt
}

// directive is a line for the parser itself, the last that was read.
func (m *mishap) directive() (int, string, string) {
	line := m.lineOf(m.at - 1)
	for line > m.begin-1 && m.char(m.indent(line)) != '%' {
		line--
	}
	return m.indent(line), Directive, DirectiveHint
}

func (m *mishap) listInLine() (int, string, string) {
	return max(0, m.back(4, "-")), "a list cannot begin here",
		"begin it on the next line, or put a text that begins with - in quotes"
}

func (m *mishap) unknownAlias() (int, string, string) {
	_, rest, _ := strings.Cut(m.says, "'")
	name, _, _ := strings.Cut(rest, "'")
	return max(0, strings.LastIndex(m.text[:m.at], "*"+name)), "aliases are not allowed: *" + name,
		"write the value out, or put a text that begins with * in quotes"
}

func (m *mishap) deep() (int, string, string) {
	return m.at - 1, fmt.Sprintf("lies more than %d deep", m.Depth), ""
}

// YAMLSentences gives the parts of the parser's sentences that traps look for, for
// the test that holds them against what it says today.
func YAMLSentences() []string {
	var out []string
	for _, t := range traps() {
		out = append(out, t.says)
	}
	return out
}

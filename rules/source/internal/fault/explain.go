package fault

import (
	"fmt"
	"strings"
)

// sentence is one that the parser says, with what finds where in the text the
// mistake is, what it is, and what would mend it.
type sentence struct {
	says    string // a part of the parser's sentence
	explain func(m *misreading) (at int, text, hint string)
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

// Raw is what begins the text of a fault whose sentence nothing here knows.
const Raw = "cannot be read as "

const (
	quoteIt  = "put the whole text in quotes"
	indented = "is indented under a line that has a value"
	lineUp   = "line it up with the entries around it"
)

// sentences are what the parser says of the mistakes that authors make. The first
// that fits is told.
func sentences() []sentence {
	return []sentence{
		{"mapping values are not allowed", (*misreading).secondColon},
		{"cannot start any token", (*misreading).badStart},
		{"a tab character", (*misreading).tab},
		{"expected comment or line break", (*misreading).blockMark},
		{"indentation indicator", (*misreading).blockMark},
		{"unexpected end of stream", (*misreading).openQuote},
		{"unexpected document indicator", (*misreading).openQuote},
		{"escape character", (*misreading).badEscape},
		{"escape code", (*misreading).badEscape},
		{"hexdecimal", (*misreading).badEscape},
		{"could not find expected ':'", (*misreading).noColonThere},
		{"block sequence entries", (*misreading).listInLine},
		{"mapping keys are not allowed", (*misreading).mark},
		{"alphabetic or numeric", (*misreading).mark},
		{"unknown anchor", (*misreading).unknownAlias},
		{"expected ',' or", (*misreading).openBracket},
		{"node content", (*misreading).noContent},
		{"expected '-'", (*misreading).stray},
		{"expected key", (*misreading).stray},
		{"document start", (*misreading).stray},
		{"exceeded max depth", (*misreading).deep},
		{"directive", (*misreading).directive}, // this and the next are directives behind a first document
		{"version number", (*misreading).directive},
		{"digit or '.'", (*misreading).directive},
		{"non-alphabetical", (*misreading).directive},
		{"incompatible YAML", (*misreading).directive},
		{"tag", (*misreading).mark}, // this and the next are tags that are wrong in themselves
		{"'!'", (*misreading).mark},
		{"'>'", (*misreading).mark},
		{"octet", (*misreading).mark},
		{"expected whitespace", (*misreading).mark},
	}
}

// fault finds the mistake. A blank that is none comes before all: what the parser
// says then is of the lines around it.
func (m *misreading) fault() Fault {
	f := m.explained()
	if space := m.space(m.lineOf(f.At)); space.Text != "" {
		return space
	}
	return f
}

func (m *misreading) explained() Fault {
	for _, s := range sentences() {
		if strings.Contains(m.says, s.says) {
			at, text, hint := s.explain(m)
			return Fault{at, text, hint}
		}
	}
	return Fault{At: m.at - 1, Text: Raw + "YAML: " + m.says}
}

// secondColon is name: text: more, or an entry that is indented under a value.
func (m *misreading) secondColon() (int, string, string) {
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
func (m *misreading) under(line int) bool {
	above := m.above(line)
	return above > 0 && m.column(m.indent(line)) > m.column(m.indent(above))
}

// noColon is a line that is no entry.
func (m *misreading) noColon(line int) (int, string, string) {
	text, _ := m.line(line)
	hint := "write name: value"
	if strings.Contains(uncommented(text), ":") {
		hint = "write a blank behind the colon"
	}
	return m.indent(line), "a line without a name and a colon", hint
}

func (m *misreading) noColonThere() (int, string, string) { return m.noColon(m.begin) }

// badStart is a text that begins with a character that none may begin with.
func (m *misreading) badStart() (int, string, string) {
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
func (m *misreading) tab() (int, string, string) {
	line := m.lineOf(m.at - 1)
	begin := m.start(line)
	at := begin + strings.IndexByte(m.text[begin:m.indent(line)], '\t')
	if at < begin {
		at = m.back(5, "\t")
	}
	return at, "a tab in the indentation", "indent with spaces"
}

// blockMark is a text or condition that begins with > or |.
func (m *misreading) blockMark() (int, string, string) {
	at := m.first(m.begin, ">|")
	return at, fmt.Sprintf("%c begins a text on the lines below", m.char(at)),
		"put a text or condition that begins with > or | in quotes"
}

// first gives the offset of the line's value where it begins with one of these
// characters, else of the first of them on the line, else of the line itself.
func (m *misreading) first(line int, chars string) int {
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
func (m *misreading) mark() (int, string, string) {
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
func (m *misreading) directive() (int, string, string) {
	line := m.lineOf(m.at - 1)
	for line > m.begin-1 && m.char(m.indent(line)) != '%' {
		line--
	}
	return m.indent(line), Directive, DirectiveHint
}

func (m *misreading) listInLine() (int, string, string) {
	return max(0, m.back(4, "-")), "a list cannot begin here",
		"begin it on the next line, or put a text that begins with - in quotes"
}

func (m *misreading) unknownAlias() (int, string, string) {
	_, rest, _ := strings.Cut(m.says, "'")
	name, _, _ := strings.Cut(rest, "'")
	return max(0, strings.LastIndex(m.text[:m.at], "*"+name)), "aliases are not allowed: *" + name,
		"write the value out, or put a text that begins with * in quotes"
}

func (m *misreading) deep() (int, string, string) {
	return m.at - 1, fmt.Sprintf("lies more than %d deep", m.Depth), ""
}

// YAMLSentences gives the parts of the parser's sentences that are looked for, for
// the test that holds them against what it says today.
func YAMLSentences() []string {
	var out []string
	for _, s := range sentences() {
		out = append(out, s.says)
	}
	return out
}

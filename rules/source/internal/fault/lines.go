package fault

import (
	"sort"
	"unicode/utf8"
)

// lines is a text with an index of its lines, which count from 1 and end with
// LF, CR LF or CR.
type lines struct {
	text   string
	begins []int // the byte offset of each line
}

func newLines(text string) *lines {
	l := &lines{text: text, begins: []int{0}}
	for i := range len(text) {
		if text[i] == '\n' || text[i] == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			l.begins = append(l.begins, i+1)
		}
	}
	return l
}

// lineOf gives the line of an offset.
func (l *lines) lineOf(at int) int {
	at = max(0, min(at, len(l.text)))
	return sort.Search(len(l.begins), func(i int) bool { return l.begins[i] > at })
}

// column counts the code points of a line in front of an offset.
func (l *lines) column(at int) int {
	return utf8.RuneCountInString(l.text[l.start(l.lineOf(at)):at])
}

// start gives the offset at which a line begins.
func (l *lines) start(n int) int {
	if n > len(l.begins) {
		return len(l.text)
	}
	return l.begins[max(n, 1)-1]
}

// line gives a line's text without its break, and its byte offset.
func (l *lines) line(n int) (text string, at int) {
	at = l.start(n)
	end := at
	for end < len(l.text) && l.text[end] != '\n' && l.text[end] != '\r' {
		end++
	}
	return l.text[at:end], at
}

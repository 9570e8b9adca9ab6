package source

import (
	"sort"
	"sync"
	"unicode/utf8"
)

// stride is how many code points lie between two entries of layout.every.
const stride = 256

// layout is the text of a file with an index from lines and columns, which
// count code points, to byte offsets and back. Both ways cost a binary search
// and a walk of at most stride code points, however long a line is. The index is made
// when a place is first asked for, which of sound JSON nobody does. The text is valid
// UTF-8; lines end with LF, CR LF or CR, but for a text that is one line of a file.
type layout struct {
	name string
	text string
	json bool    // not YAML
	only int     // the line of the file that the text is alone; 0 for a whole file
	lent *Memory // for the nodes of JSON; nil where they are kept

	limits Limits // with none left open

	indexed sync.Once
	lines   []int32 // for each line the number of code points before it
	every   []int32 // the byte offset of each stride-th code point
}

// index makes the index, once.
func (l *layout) index() { l.indexed.Do(l.makeIndex) }

func (l *layout) makeIndex() {
	count := 0
	l.lines = []int32{0}
	for i, r := range l.text {
		if count%stride == 0 {
			l.every = append(l.every, int32(i))
		}
		count++
		if r == '\n' || r == '\r' && (i+1 == len(l.text) || l.text[i+1] != '\n') {
			l.lines = append(l.lines, int32(count))
		}
	}
	if count%stride == 0 {
		l.every = append(l.every, int32(len(l.text)))
	}
	if l.only > 0 {
		l.lines = l.lines[:1]
	}
}

// what names the text in problems: a file, or a line of one.
func (l *layout) what() string {
	if l.only > 0 {
		return "line"
	}
	return "file"
}

// pos gives the place of a byte offset.
func (l *layout) pos(at int) Pos {
	l.index()
	at = max(0, min(at, len(l.text)))
	k := sort.Search(len(l.every), func(i int) bool { return int(l.every[i]) > at }) - 1
	count := k*stride + utf8.RuneCountInString(l.text[l.every[k]:at])
	line := sort.Search(len(l.lines), func(i int) bool { return int(l.lines[i]) > count })
	return Pos{File: l.name, Line: max(l.only-1, 0) + line, Col: count - int(l.lines[line-1]) + 1}
}

// offset gives the byte offset of a line and column, both from 1. What lies
// outside of the text gives its nearest end.
func (l *layout) offset(line, col int) int {
	l.index()
	if line -= max(l.only-1, 0); line < 1 {
		return 0
	}
	if line > len(l.lines) {
		return len(l.text)
	}
	count := int(l.lines[line-1]) + max(col, 1) - 1
	if count/stride >= len(l.every) {
		return len(l.text)
	}
	at := int(l.every[count/stride])
	for range count % stride {
		if at >= len(l.text) {
			break
		}
		_, w := utf8.DecodeRuneInString(l.text[at:])
		at += w
	}
	return at
}

package view

import (
	"unicode"
)

// wide are the characters that take two columns of a terminal: those that Unicode
// Standard Annex 11, East Asian Width, calls wide or fullwidth, in whole blocks. A
// block may hold narrow ones too; a line that counts them as wide ends early, and
// none goes over the edge.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{0x1100, 0x115f, 1}, {0x231a, 0x23ff, 1}, {0x25fd, 0x27bf, 1}, {0x2b00, 0x2bff, 1}, {0x2e80, 0xa4cf, 1},
		{0xa960, 0xa97f, 1}, {0xac00, 0xd7a3, 1}, {0xf900, 0xfaff, 1}, {0xfe10, 0xfe6f, 1}, {0xff01, 0xff60, 1}, {0xffe0, 0xffe6, 1},
	},
	R32: []unicode.Range32{{0x16fe0, 0x18dff, 1}, {0x1aff0, 0x1b2ff, 1}, {0x1d300, 0x1d37f, 1}, {0x1f000, 0x1faff, 1}, {0x20000, 0x3fffd, 1}},
}

// columns is how many columns of a terminal a text takes.
func columns(s string) int {
	n := 0
	for _, r := range s {
		n += columnsOf(r)
	}
	return n
}

// columnsOf is how many a character takes: none for one that is drawn over the last.
func columnsOf(r rune) int {
	switch {
	case r < 0x300:
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}

// pieces cuts a word that does not go into so many columns into pieces that do, and
// leaves any other whole.
func pieces(word string, room int) []string {
	var out []string
	start, n := 0, 0
	for i, r := range word {
		c := columnsOf(r)
		if n+c > room && i > start {
			out = append(out, word[start:i])
			start, n = i, 0
		}
		n += c
	}
	return append(out, word[start:])
}

// cut shortens a text to so many columns, and shows that it did.
func cut(s string, room int) string {
	if columns(s) <= room {
		return s
	}
	const more = "..."
	return pieces(s, max(1, room-len(more)))[0] + more
}

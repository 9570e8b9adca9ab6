package fact

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean makes control characters, direction marks and other unseen characters
// of a name visible as \u{hex}, so that a name cannot change what stands around it.
func Clean(s string) string {
	if strings.IndexFunc(s, unseen) < 0 && utf8.ValidString(s) {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		r, size := utf8.DecodeRuneInString(s)
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, s[0])
		case unseen(r):
			fmt.Fprintf(&b, `\u{%x}`, r)
		default:
			b.WriteRune(r)
		}
		s = s[size:]
	}
	return b.String()
}

// unseen tells the characters that do not show as themselves: control and format
// characters, which direction marks and blanks without width are of, line
// separators, what fonts are asked to leave out, and what has no meaning that
// all share.
func unseen(r rune) bool {
	if r < 0x80 { // nearly all that is printed, and a page is printed whole
		return r < ' ' || r == 0x7f
	}
	return unicode.IsControl(r) ||
		unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Other_Default_Ignorable_Code_Point)
}

package compat

import (
	"bytes"
	"fmt"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// EscapeJSON writes the characters of JSON that draw, turn round or hide text
// where it is shown as \u escapes: DEL and the C1 controls, marks of direction,
// blanks without width, tags. Whoever decodes it gets the same strings. Such
// characters can stand within strings only, so what lies around is not looked at.
func EscapeJSON(text []byte) []byte {
	if bytes.IndexFunc(text, unseen) < 0 {
		return text
	}
	out := make([]byte, 0, len(text)+64)
	for len(text) > 0 {
		r, size := utf8.DecodeRune(text)
		switch {
		case !unseen(r):
			out = append(out, text[:size]...)
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			out = fmt.Appendf(out, `\u%04x\u%04x`, high, low)
		default:
			out = fmt.Appendf(out, `\u%04x`, r)
		}
		text = text[size:]
	}
	return out
}

// unseen tells the format characters and the controls behind the blank. Those
// before it are escaped by the encoder, and stand between values as they are.
func unseen(r rune) bool {
	return r >= 0x7f && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r))
}

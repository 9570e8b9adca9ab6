package wire

import (
	"fmt"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// Escape writes the characters of JSON that draw, turn round or hide text
// where it is shown as \u escapes: DEL and the C1 controls, marks of direction,
// blanks without width, tags. Whoever decodes it gets the same strings. Such
// characters can stand within strings only, so what lies around is not looked at.
func Escape(text []byte) []byte {
	var out []byte
	copied := 0
	for i := 0; i < len(text); {
		if text[i] < firstUnseen { // nearly all of it
			i++
			continue
		}
		r, size := utf8.DecodeRune(text[i:])
		if unseen(r) {
			out = append(out, text[copied:i]...)
			for _, unit := range utf16.AppendRune(nil, r) {
				out = fmt.Appendf(out, `\u%04x`, unit)
			}
			copied = i + size
		}
		i += size
	}
	if copied == 0 {
		return text
	}
	return append(out, text[copied:]...)
}

// firstUnseen is DEL. The controls before the blank are escaped by every encoder
// where they stand in a string, and stand between values as they are.
const firstUnseen = 0x7f

// unseen tells the control and format characters from firstUnseen on.
func unseen(r rune) bool {
	return r >= firstUnseen && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r))
}

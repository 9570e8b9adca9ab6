package source

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// mostBad is how many characters of one file are refused one by one. A file
// with more is in another encoding or of another kind.
const mostBad = 20

// admit checks what no reader may see: a file too large, text that is not
// UTF-8, and characters that a person does not see in an editor or that break
// lines for one reader and not for another. They could hide entries or show
// others than are read. A byte order mark is dropped where a file begins. The
// place is that of the whole: a file's, or a line's where the text is one.
func (m Limits) admit(whole Pos, text []byte) (*layout, Problems) {
	m = m.whole()
	if len(text) > m.Bytes {
		return nil, Problems{m.tooLong(whole)}
	}
	s := string(text)
	if strings.HasPrefix(s, "\xff\xfe") || strings.HasPrefix(s, "\xfe\xff") {
		return nil, Problems{{Pos: whole, Code: Character, Text: "is UTF-16", Hint: "save it as UTF-8"}}
	}
	if whole.Line <= 1 {
		s = strings.TrimPrefix(s, "\ufeff")
	}
	l := &layout{name: whole.File, text: s, only: whole.Line, limits: m}
	var ps Problems
	for i, size := 0, 0; i < len(s) && len(ps) < mostBad; i += size {
		if size = 1; ' ' <= s[i] && s[i] < 0x7f { // nearly all of it
			continue
		}
		var r rune
		r, size = utf8.DecodeRuneInString(s[i:])
		text, hint := hidden(r, size)
		switch {
		case text == "":
			continue
		case size == 1 && r == utf8.RuneError:
			text = fmt.Sprintf("byte 0x%02X is not UTF-8", s[i])
		case i == 0 && r == '\ufeff':
			text = "a byte order mark stands in front of the value"
			hint = "delete it; only a file may begin with one, not each of its lines"
		}
		p := ps.Add(l.pos(i), "", text, hint)
		p.End, p.Code = l.pos(i+size), Character
	}
	return l, ps
}

// hidden says what is wrong with a character, or "".
func hidden(r rune, size int) (text, hint string) {
	switch {
	case ' ' <= r && r < 0x7f || r == '\n' || r == '\r' || r == '\t':
		return "", ""
	case r == utf8.RuneError && size == 1:
		return "not UTF-8", "save the file as UTF-8"
	case r == '\u0085' || r == '\u2028' || r == '\u2029':
		return fmt.Sprintf("line separator U+%04X", r), escaped(r)
	case r < 0xa0 || r == '\ufffe' || r == '\uffff':
		return fmt.Sprintf("control character U+%04X", r), "delete it"
	case unicode.Is(unicode.Cf, r) && r > 0xffff:
		return fmt.Sprintf("invisible character U+%04X", r), "delete it"
	case unicode.Is(unicode.Cf, r):
		return fmt.Sprintf("invisible character U+%04X", r), escaped(r)
	}
	return "", ""
}

func escaped(r rune) string {
	return fmt.Sprintf(`delete it, or write it as \u%04x in double quotes`, r)
}

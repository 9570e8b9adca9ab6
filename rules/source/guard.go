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
// others than are read. A byte order mark in front is dropped.
func admit(file string, text []byte) (*layout, Problems) {
	if len(text) > MaxBytes {
		return nil, Problems{{Pos: Pos{File: file}, Text: fmt.Sprintf("is %d bytes long", len(text)),
			Hint: fmt.Sprintf("at most %d MiB; split it into several files", MaxBytes>>20)}}
	}
	s := string(text)
	if strings.HasPrefix(s, "\xff\xfe") || strings.HasPrefix(s, "\xfe\xff") {
		return nil, Problems{{Pos: Pos{File: file}, Text: "is UTF-16", Hint: "save it as UTF-8"}}
	}
	s = strings.TrimPrefix(s, "\ufeff")
	l := newLayout(file, s)
	var ps Problems
	for i := 0; i < len(s) && len(ps) < mostBad; {
		if c := s[i]; c < utf8.RuneSelf {
			if c < ' ' && c != '\n' && c != '\r' && c != '\t' || c == 0x7f {
				ps.Add(l.pos(i), "", fmt.Sprintf("control character U+%04X", c), "delete it")
			}
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		if fault, hint := hidden(r, size); fault == "" {
		} else if size == 1 {
			ps.Add(l.pos(i), "", fmt.Sprintf("byte 0x%02X is not UTF-8", s[i]), hint)
		} else {
			ps.Add(l.pos(i), "", fault, hint)
		}
		i += size
	}
	return l, ps
}

// hidden says what is wrong with a character outside of ASCII, or "".
func hidden(r rune, size int) (fault, hint string) {
	switch {
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

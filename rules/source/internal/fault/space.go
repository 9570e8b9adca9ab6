package fault

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// Space explains a blank at the begin of a line, or of a name, that looks like an
// indentation and is a letter to YAML: a no-break space, or one of its like, which
// web pages and word processors bring along. The place is its offset in the text;
// the text of the fault is empty where there is none.
func Space(line string) Fault {
	at := blanks(line)
	switch r, _ := utf8.DecodeRuneInString(line[at:]); {
	case r == '\u00a0':
		return Fault{at, "a no-break space (U+00A0) in the indentation", "indent with plain spaces"}
	case unicode.Is(unicode.Zs, r):
		return Fault{at, fmt.Sprintf("a space of another kind (U+%04X) in the indentation", r), "indent with plain spaces"}
	}
	return Fault{}
}

// space looks for such a blank where the parser gave up: on that line, and up to
// the one above that says something, under which it does not fit.
func (m *misreading) space(line int) Fault {
	for n := line; n >= max(1, m.above(line)); n-- {
		text, at := m.line(n)
		if f := Space(text); f.Text != "" {
			f.At += at
			return f
		}
	}
	return Fault{}
}

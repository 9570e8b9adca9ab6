package view

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"
)

// width is the columns of a line.
const width = 80

// Clean makes control characters, direction marks and other unseen characters
// of a name visible as \u{hex}, so that a name cannot change what stands around it.
func Clean(s string) string {
	if strings.IndexFunc(s, unseen) < 0 && utf8.ValidString(s) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if unseen(r) || r == utf8.RuneError {
			fmt.Fprintf(&b, `\u{%x}`, r)
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}

func unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co)
}

// Colours says whether to colour what goes to w: a terminal, where neither the
// user nor the environment says no.
func Colours(w io.Writer, plain bool) bool {
	f, ok := w.(*os.File)
	if plain || !ok || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// wrap prints a text in lines of the width, the first behind first and the rest
// behind as many spaces as rest.
func wrap(w io.Writer, first string, rest int, text string) {
	line := first
	room := width
	empty := true // nothing but the margin stands on the line
	for _, word := range strings.Fields(Clean(text)) {
		need := utf8.RuneCountInString(line) + 1 + utf8.RuneCountInString(word)
		if !empty && need > room {
			fmt.Fprintln(w, line)
			line, empty = strings.Repeat(" ", rest), true
		}
		if !empty {
			line += " "
		}
		line += word
		empty = false
	}
	if !empty || first != "" {
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
}

// counted gives 1 part, 2 parts.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

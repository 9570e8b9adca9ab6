package view

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// width is the columns of a line.
const width = 80

// Clean makes control characters, direction marks and other unseen characters
// of a name visible as \u{hex}, so that a name cannot change what stands around it.
func Clean(s string) string { return fact.Clean(s) }

// Terminal says whether a file is one that a person looks at.
func Terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// Colours says whether to colour what a person looks at, where neither the
// command line nor the environment says no.
func Colours(plain bool) bool {
	return !plain && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

// wrap prints a text in lines of the width, the first behind first and the rest
// behind as many blanks as rest. A word that no line can hold is cut.
func wrap(w io.Writer, first string, rest int, text string) {
	fold(w, first, strings.Repeat(" ", rest), text)
}

// Listed prints words in lines of the width, with commas between and a full stop.
func Listed(w io.Writer, words []string) { wrap(w, "", 0, strings.Join(words, ", ")+".") }

// fold is wrap with any margin, such as that of a comment.
func fold(w io.Writer, first, rest, text string) {
	line := Clean(first)
	bare := line == rest || strings.TrimSpace(line) == "" // nothing but the margin stands on the line
	for _, word := range strings.Fields(text) {
		for _, piece := range pieces(Clean(word), max(1, width-columns(rest))) { // a full line takes no second piece
			if line != "" && !strings.HasSuffix(line, " ") {
				line += " "
			}
			if !bare && columns(line)+columns(piece) > width {
				fmt.Fprintln(w, strings.TrimRight(line, " "))
				line = rest
			}
			line += piece
			bare = false
		}
	}
	if line != "" {
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
}

// nameOf is what a mix is called within a sentence.
func nameOf(m compat.Mix) string {
	return cmp.Or(m.Name(), "a mix without a name")
}

// counted gives 1 part, 2 parts.
func counted(n int, one, many string) string { return fmt.Sprintf("%d %s", n, verb(n, one, many)) }

// verb gives the word that goes with a number.
func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// lower makes a title the rest of a sentence, unless it begins with a word in
// capitals.
func lower(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if second, _ := utf8.DecodeRuneInString(s[size:]); unicode.IsUpper(second) || first == utf8.RuneError {
		return s
	}
	return string(unicode.ToLower(first)) + s[size:]
}

// Capital makes the first letter of a sentence a capital.
func Capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if size == 0 || first == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(first)) + s[size:]
}

// full ends a sentence with a full stop where it has no end of its own.
func full(s string) string {
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}

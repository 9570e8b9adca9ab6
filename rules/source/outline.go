package source

import (
	"fmt"
	"strings"

	"example.org/cogcourt/rules/source/internal/fault"
)

// widest is how far a YAML line may be indented, its dashes included. The parser
// walks all comments of a run for each block that ends behind it, so that a few
// thousand blocks in one another and many comments cost minutes. With this
// bound on the depth its cost is linear in the text.
const widest = 256

// outline looks at a YAML text before the parser does, and refuses what would
// cost it too much, and directives.
func outline(l *layout) Problems {
	if weight(l.text) > l.limits.Values {
		return Problems{l.limits.tooMany(Pos{File: l.name})}
	}
	begun := false // something but comments and directives was seen
	for at := 0; at < len(l.text); {
		line := l.text[at:]
		if end := strings.IndexAny(line, "\r\n"); end >= 0 {
			line = line[:end]
		}
		first := lead(line)
		switch {
		case first > widest && strings.TrimSpace(line) != "":
			return Problems{{Pos: l.pos(at), Code: TooMany, Text: fmt.Sprintf("a line is indented by more than %d columns", widest)}}
		case !begun && strings.HasPrefix(line, "%"):
			return Problems{{Pos: l.pos(at), Code: Syntax, Text: fault.Directive, Hint: fault.DirectiveHint}}
		case first < len(line) && line[first] != '#':
			begun = true
		}
		at += len(line) + 1
	}
	return nil
}

// lead counts the blanks and marks of entries that a line begins with.
func lead(line string) int {
	i := 0
	for i < len(line) {
		switch {
		case line[i] == ' ' || line[i] == '\t':
			i++
		case strings.IndexByte("-?:", line[i]) >= 0 && i+1 < len(line) && (line[i+1] == ' ' || line[i+1] == '\t'):
			i += 2
		default:
			return i
		}
	}
	return i
}

// weight counts what separates values in a YAML text, and comments. Whatever the
// parser makes of a text, it has at most three times as many values, so that a
// text that weighs too much is refused before the parser spends memory on it.
// Entries weigh about as much as the values that they hold; the commas and
// colons within texts come on top and are few.
func weight(text string) int {
	n := 0
	for i := range len(text) {
		switch text[i] {
		case ',', '[', '{', '#':
			n++
		case ':':
			n += 2
		case '-', '?':
			if i+1 == len(text) || strings.IndexByte(" \t\r\n", text[i+1]) >= 0 {
				n++
			}
		}
	}
	return n
}

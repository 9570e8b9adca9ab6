package rules

import (
	"bytes"
	"sync"

	"example.org/cogcourt/rules/source"
)

// examplesKey is how a shipped rule file, written in block style, begins the
// examples of a rule.
const examplesKey = "    examples:"

// withoutExamples blanks the examples of a sound file, line by line, so that all
// else keeps its place. They are more than half of the shipped files, and nobody
// needs them to judge a mix. A file in another style is left whole, which costs
// time and nothing else.
func withoutExamples(text []byte) []byte {
	out := make([]byte, 0, len(text))
	inside := false
	for line := range bytes.Lines(text) {
		body := bytes.TrimRight(line, "\r\n")
		switch {
		case string(body) == examplesKey:
			inside = true
		case inside && (len(body) == 0 || bytes.HasPrefix(body, []byte("      "))):
		default:
			inside = false
		}
		if inside {
			line = line[len(body):]
		}
		out = append(out, line...)
	}
	return out
}

// examplesOf reads the examples of the i-th rule of a file: at once, or in a
// sound file when they are first asked for.
func (l *loader) examplesOf(i int, path string, n *source.Node) func() []Example {
	if !l.sound {
		examples := l.examples(path, n)
		return func() []Example { return examples }
	}
	own, whole := l.aside(), l.whole
	return sync.OnceValue(func() []Example {
		items := whole().Get("rules").ReadList("rules", own.ps)
		if i >= len(items) {
			return nil
		}
		return own.examples(path, items[i])
	})
}

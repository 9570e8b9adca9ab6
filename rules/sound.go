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
	own, withExamples := l.detached(), l.withExamples
	return sync.OnceValue(func() []Example {
		items := withExamples().Get("rules").ReadList("rules", own.ps)
		if i >= len(items) {
			return nil
		}
		return own.examples(path, items[i])
	})
}

// later builds a part of a rule: at once, or, in a file that is known to be sound,
// when it is first asked for. Its faults are reported in the first case, and kept
// by the compiler that build is given in the second.
func later[T any](c *compiler, build func(*compiler) T) func() T {
	if !c.sound {
		built := build(c)
		return func() T { return built }
	}
	own := *c
	own.loader = c.detached()
	return sync.OnceValue(func() T {
		if own.logic != nil {
			own.logic() // what is built may read let-names
		}
		return build(&own)
	})
}

// detached is the loader of what is read later: its faults are its own, for
// the load is over by then. Files that may have faults are read at once.
func (l *loader) detached() *loader {
	if !l.sound {
		return l
	}
	own := *l
	own.ps, own.misspelt = &source.Problems{}, map[*source.Node]bool{}
	return &own
}

package source

import (
	"io"

	"gopkg.in/yaml.v3"

	"example.org/cogcourt/rules/source/internal/fault"
)

// misread makes the problem of a text that the YAML parser refuses.
func misread(l *layout) Problem {
	f := fault.YAML{Text: l.text, Depth: maxDepth, Refuse: refusal}.Explain()
	return Problem{Pos: l.pos(f.At), Code: Syntax, Text: f.Text, Hint: f.Hint}
}

// refusal gives what the parser says of a text, or "", and how many bytes it
// had read by then: exactly where that is more than slow.
func refusal(text string, slow int) (says string, at int) {
	r := &counter{text: text, slow: slow}
	dec := yaml.NewDecoder(r)
	for {
		var doc yaml.Node
		if err := dec.Decode(&doc); err == io.EOF {
			return "", r.at
		} else if err != nil {
			return err.Error(), r.at
		}
	}
}

// counter reads a text and counts, byte by byte from slow on.
type counter struct {
	text string
	slow int
	at   int
}

func (c *counter) Read(p []byte) (int, error) {
	if c.at == len(c.text) {
		return 0, io.EOF
	}
	n := min(copy(p, c.text[c.at:]), max(1, c.slow-c.at))
	c.at += n
	return n, nil
}

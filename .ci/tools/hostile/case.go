package hostile

import (
	"cmp"
	"fmt"
	"iter"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"
)

// Case is one input.
type Case struct {
	Family string
	Name   string
	Args   []string          // of the command, which runs in a folder of the case's own
	Files  map[string]string // what lies there, by path
	Build  func(dir string) error
	Stdin  string
	input  string // what the command calls it

	Want   []int  // the statuses that are right
	At     string // the fault that was planted, as file:line:col; nothing where there is none, or not one alone
	Within string // in place of At: the fault is told on this line, here or behind
	Says   string // what the fault must say; nothing for anything
	Form   Form   // of the output

	Bytes  int  // of honest work that is asked for, which costs what it costs: see Bounds
	Terms  int  // of expressions of rules that are compiled: the same
	Nobody bool // run as a user who owns nothing
}

// Form is what the output must be.
type Form int

// The forms of output.
const (
	Text  Form = iota // nothing but visible characters and ends of lines
	JSON              // one value
	Lines             // one value a line, also for what does not load
	Page              // HTML without a script
)

// mark stands in a text where its fault is planted.
const mark = '¤'

// planted takes the mark out of a text and gives its place in a file, in code points as
// the command counts them.
func planted(file, text string) (clean, at string) {
	before, after, found := strings.Cut(text, string(mark))
	if !found {
		return text, ""
	}
	lines := strings.Split(strings.ReplaceAll(before, "\r\n", "\n"), "\n")
	last := lines[len(lines)-1]
	return before + after, fmt.Sprintf("%s:%d:%d", file, len(lines), utf8.RuneCountInString(last)+1)
}

// write puts the case's files into a folder.
func (c Case) write(dir string) error {
	for name, text := range c.Files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			return err
		}
	}
	if c.Build != nil {
		return c.Build(dir)
	}
	return nil
}

// All gives every case of a seed.
func All(seed uint64) []Case {
	g := &generator{Rand: rand.New(rand.NewPCG(seed, 0x40571e))}
	for _, family := range []func(){
		g.structures, g.floods, g.numbers, g.encodings, g.escapes, g.ids, g.expressions, g.rules, g.carts, g.lines, g.arguments, g.files,
		g.broken,
	} {
		family()
	}
	return g.cases
}

// generator collects cases. What it draws comes from its seed.
type generator struct {
	*rand.Rand
	cases []Case
}

// Status words of the command, as its README gives them.
const (
	fine    = 0
	fails   = 1
	misused = 2
	refused = 3
	open    = 4
)

// add takes a case, whose texts may hold the mark.
func (g *generator) add(c Case) {
	for name, text := range c.Files {
		if clean, at := planted(name, text); at != "" {
			c.Files[name], c.At = clean, at
		}
	}
	if clean, at := planted(cmp.Or(c.input, "stdin"), c.Stdin); at != "" {
		c.Stdin, c.At = clean, at
	}
	g.cases = append(g.cases, c)
}

// inOrder gives what a map holds by its names in order: what is drawn on the way is then
// the same for the same seed.
func inOrder[T any](m map[string]T) iter.Seq2[string, T] {
	return func(yield func(string, T) bool) {
		for _, name := range slices.Sorted(maps.Keys(m)) {
			if !yield(name, m[name]) {
				return
			}
		}
	}
}

// pick draws one of some.
func pick[T any](g *generator, from []T) T { return from[g.IntN(len(from))] }

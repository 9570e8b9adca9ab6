// Package fault explains texts that a parser of YAML or JSON refuses. The parsers
// tell a line at best and say it in the words of their makers; a [Fault] tells the
// very place, what is wrong there and what would mend it, for the slips that
// authors make.
//
//	broken := fault.YAML{Text: text, Depth: 32, Refuse: ask}
//	f := broken.Explain()
//	fmt.Println(f.At, f.Text, f.Hint) // a byte offset and two sentences
//
// The package reads no format itself: it is told what the parser says, or how to
// ask it. What it looks for are parts of the parsers' sentences; a sentence
// that it does not know is told as it is.
package fault

import "strconv"

// Fault is one thing that is wrong with a text.
type Fault struct {
	At   int // the byte offset of what is wrong
	Text string
	Hint string // what would mend it
}

// Clip quotes a text of a file for a problem, cut where it is long.
func Clip(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}

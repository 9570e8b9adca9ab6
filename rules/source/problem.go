package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Pos is a place in a file. Line and Col count from 1, Col in code points.
// Line 0 stands for the file as a whole.
type Pos struct {
	File      string
	Line, Col int
}

// String gives file:line:col, or the file alone where the place is all of it.
func (p Pos) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Problem is one fault of a file: where it is, which entry holds it (a path
// such as rules[2].fail_if, or empty), what is wrong, and what would mend it.
type Problem struct {
	Pos  Pos
	Path string
	Text string
	Hint string
}

// String gives the problem on one line, as a compiler would print it.
func (p Problem) String() string {
	s := p.Text
	if p.Path != "" {
		s = p.Path + ": " + s
	}
	if place := p.Pos.String(); place != "" {
		s = place + ": " + s
	}
	if p.Hint != "" {
		s += " (" + p.Hint + ")"
	}
	return s
}

// Problems collects faults; it is the error that every reader of files returns.
type Problems []Problem

// Add appends one problem.
func (ps *Problems) Add(pos Pos, path, text, hint string) {
	*ps = append(*ps, Problem{Pos: pos, Path: path, Text: text, Hint: hint})
}

// Error gives all problems, one a line, in the order of their places.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// Err returns the problems in the order of their places, without repetitions,
// or nil where there are none. Returning Problems itself as an error would give
// a non-nil error for an empty list.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	sorted := slices.Clone(ps)
	slices.SortStableFunc(sorted, func(a, b Problem) int {
		return cmp.Or(
			cmp.Compare(a.Pos.File, b.Pos.File),
			cmp.Compare(a.Pos.Line, b.Pos.Line),
			cmp.Compare(a.Pos.Col, b.Pos.Col),
		)
	})
	return slices.Compact(sorted)
}

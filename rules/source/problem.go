package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// Pos is a place in a file. Line and Col count from 1, Col in code points.
// Line 0 stands for the file as a whole, Col 0 for the whole line. What is in no file
// has a place as well: the name of a table and the number of a row.
type Pos struct {
	File string `json:"file"`
	Line int    `json:"line"`
	Col  int    `json:"col"`
}

// String gives file:line:col, or less where the place is a whole line or file.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Compare orders places by file, line and column.
func (p Pos) Compare(q Pos) int {
	return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// Problem is one fault of a file: where it is, which entry holds it (a path
// such as rules[2].fail_if, or empty), what is wrong, and what would mend it.
type Problem struct {
	Pos  Pos    `json:"pos"`
	End  Pos    `json:"end,omitzero"` // just behind the last character of what is wrong; zero where that is not known
	Code Code   `json:"code"`
	Path string `json:"path"`
	Text string `json:"text"`
	Hint string `json:"hint"`

	left   int  // of the last one, with the code More: how many were left out,
	unread bool // and whether something was not looked at then
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

// MaxProblems is how many problems are kept: nobody reads more, and a hostile
// file could make one for every few bytes. Behind them stands one more, which
// says how many were left out.
const MaxProblems = 200

// Problems collects faults; it is the error that every reader of files returns.
type Problems []Problem

// Add appends one problem and gives it, for a code and an end to be set before
// the next one is added. Where there are too many already it only counts.
func (ps *Problems) Add(pos Pos, path, text, hint string) *Problem {
	p := Problem{Pos: pos, Code: Invalid, Path: path, Text: text, Hint: hint}
	if ps.Full() {
		ps.leave(p.Pos, 1)
		return &p
	}
	*ps = append(*ps, p)
	return &(*ps)[len(*ps)-1]
}

// Join appends problems that were collected elsewhere.
func (ps *Problems) Join(others Problems) {
	for _, p := range others {
		p.Code = cmp.Or(p.Code, Invalid)
		switch {
		case p.rest():
			if p.unread {
				ps.Unread(p.Pos)
			}
			ps.leave(p.Pos, p.left)
		case ps.Full():
			ps.leave(p.Pos, 1)
		default:
			*ps = append(*ps, p)
		}
	}
}

// leave counts problems that are left out, the first of them at a place.
func (ps *Problems) leave(pos Pos, count int) {
	last := len(*ps) - 1
	if last < 0 || !(*ps)[last].rest() {
		*ps = append(*ps, Problem{Pos: pos, Code: More, Hint: "mend the ones above first"})
		last++
	}
	p := &(*ps)[last]
	p.left += count
	switch {
	case !p.unread:
		p.Text = fmt.Sprintf("and %d more", p.left)
	case p.left > 0:
		p.Text = fmt.Sprintf("and %d more; not all of the rest was looked at", p.left)
	default:
		p.Text = "not all of the rest was looked at"
	}
}

// rest says whether a problem stands for those that were left out.
func (p *Problem) rest() bool { return p.left > 0 || p.unread }

// Unread notes that what stands at a place and costs something to look at was passed
// over, for there are too many problems already: see Full.
func (ps *Problems) Unread(pos Pos) {
	if n := len(*ps); n == 0 || !(*ps)[n-1].rest() {
		*ps = append(*ps, Problem{Pos: pos, Code: More, Hint: "mend the ones above first"})
	}
	(*ps)[len(*ps)-1].unread = true
	ps.leave(pos, 0)
}

// Full reports whether there are so many that no more are kept. What costs
// something to find out for a problem need not be found out then, nor what costs much
// be looked at for more of them.
func (ps Problems) Full() bool {
	return len(ps) >= MaxProblems || len(ps) > 0 && ps[len(ps)-1].rest()
}

// Count gives how many there are, with those that were left out. It rises with
// each fault that is found, which the length does not.
func (ps Problems) Count() int {
	if n := len(ps); n > 0 && ps[n-1].rest() {
		return n - 1 + ps[n-1].left
	}
	return len(ps)
}

// Since gives those that were added when there were count of them; of those that
// were left out since, how many.
func (ps Problems) Since(count int) Problems {
	if count >= ps.Count() {
		return nil
	}
	return ps[min(count, len(ps)-1):]
}

// Suggest gives the hint for a name that nothing goes by, as fact.Suggest does,
// or none where no more problems are kept.
func (ps Problems) Suggest(name string, known []string) string {
	if ps.Full() {
		return ""
	}
	return fact.Suggest(name, known)
}

// Error gives all problems, one a line, in the order of their places.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// Err returns the problems in the order of their places, without repetitions, or
// nil where there are none; how many were left out comes last. Returning Problems
// itself as an error would give a non-nil error for an empty list.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	sorted := slices.Clone(ps)
	slices.SortStableFunc(sorted, func(a, b Problem) int {
		switch {
		case a.rest() == b.rest():
			return a.Pos.Compare(b.Pos)
		case a.rest():
			return 1
		}
		return -1
	})
	var whole Problems
	whole.Join(slices.Compact(sorted))
	return whole
}

package rules

import (
	"slices"
	"time"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Rule is one check of a rule file. It is immutable.
type Rule struct {
	Pack    string
	ID      string
	Title   string // says the good state
	Why     string
	Remedy  string // as written, with its {expressions}
	Caution string
	Safety  bool
	Basis   []Basis
	Needs   []Need
	Pos     source.Pos

	WhenText, FailIf, WarnIf string // as written; empty where the rule has none

	logic    func() *logic
	facts    func() []Ref // see Set.Facts
	say      *template
	passing  *template // what a pass says, nil for the title
	remedy   *template
	caution  *template // nil for none
	examples func() []Example
	waivers  []Waiver
	adjust   *Adjust
}

// Basis says what a rule rests on: a source of the pack's list, practice,
// geometry, or memory, and a sentence or a source's id.
type Basis struct {
	Kind BasisKind
	Text string
}

// BasisKind is what sort of thing a rule rests on.
type BasisKind string

// The kinds of a basis.
const (
	BasisSource   BasisKind = "source"   // a source of the pack's list, by its id
	BasisPractice BasisKind = "practice" // what mechanics do
	BasisGeometry BasisKind = "geometry" // a formula
	BasisMemory   BasisKind = "memory"   // what is remembered and was not checked
)

// Need is a thing to order when the rule warns or fails, or whenever its own
// condition holds.
type Need struct {
	What string
	Unit string

	what  *template
	value func() *expr.Program // nil for a thing without a measure
	when  func() *expr.Program // nil: with every warn and fail
}

// Source is one entry of a pack's list of sources.
type Source struct {
	ID     string
	What   string // author, title, year, as far as known
	Status string // read, read second-hand, from memory, computed
	Pos    source.Pos
}

// Adjust changes what one rule's warnings and fails are given as, by decision of
// a named person until a day.
type Adjust struct {
	Rule   string
	To     Verdict
	Reason string
	By     string
	Until  time.Time // the last day, UTC
	Pos    source.Pos
}

// Reads gives the facts that the rule's conditions read, through let-names, in
// the order of the text.
func (s *Set) Reads(r *Rule) []Ref {
	reads := r.logic().reads
	out := make([]Ref, len(reads))
	for i, read := range reads {
		out[i] = s.vocabulary.ref(read)
	}
	return out
}

// Facts gives the stated facts that a rule hangs on: those that its conditions
// read, and those behind the computed ones that they read, each once. The list is
// the rule's own: read only.
func (s *Set) Facts(r *Rule) []Ref { return r.facts() }

// factsOf finds the facts that a rule hangs on.
func (s *Set) factsOf(r *Rule) []Ref {
	var out []Ref
	for _, ref := range s.Reads(r) {
		for _, b := range s.behind(ref) {
			if !slices.Contains(out, b) {
				out = append(out, b)
			}
		}
	}
	return out
}

// Asks gives the facts of the rule's stated() terms: where one of them is not
// stated, the rule is not applied.
func (s *Set) Asks(r *Rule) []Ref {
	when := r.logic().when
	if when == nil {
		return nil
	}
	var out []Ref
	for _, read := range when.Stated() {
		out = append(out, s.vocabulary.ref(read))
	}
	return out
}

// Let is one name of a rule's let: with its expression, as written.
type Let struct{ Name, Text string }

// Lets gives the rule's let-names in order.
func (r *Rule) Lets() []Let {
	lets := r.logic().lets
	out := make([]Let, len(lets))
	for i, l := range lets {
		out[i] = Let{l.name, l.text}
	}
	return out
}

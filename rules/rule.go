package rules

import (
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

	place    int // in its set
	when     *expr.Program
	conds    []condition
	lets     []letLine
	say      *template
	passing  *template // what a pass says, nil for the title
	remedy   *template
	caution  *template   // nil for none
	reads    []expr.Read // of the conditions, in the order of the text
	exprs    []ruleExpr
	examples func() []Example
	waivers  []Waiver
	adjust   *Adjust
}

// condition is fail_if or warn_if with the verdict that it gives when true.
type condition struct {
	prog    *expr.Program
	verdict Verdict
}

type letLine struct {
	name string
	text string
	slot int // in a frame
	prog *expr.Program
}

// ruleExpr is one expression that the verdict depends on, in the order in which
// they are compiled: the let-names, when, fail_if, warn_if.
type ruleExpr struct {
	key  string
	text string
	role expr.Role
	prog *expr.Program
	node *source.Node
}

// Basis says what a rule rests on: a source of the pack's list, practice,
// geometry, or memory, and a sentence or a source's id.
type Basis struct {
	Kind string // source, practice, geometry or memory
	Text string
}

// Need is a thing to order when the rule warns or fails, or whenever its own
// condition holds.
type Need struct {
	What string
	Unit string

	what  *template
	value *expr.Program // nil for a thing without a measure
	when  *expr.Program // nil: with every warn and fail
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
	out := make([]Ref, len(r.reads))
	for i, read := range r.reads {
		out[i] = s.vocabulary.ref(read)
	}
	return out
}

// Asks gives the facts of the rule's stated() terms: where one of them is not
// stated, the rule is not applied.
func (s *Set) Asks(r *Rule) []Ref {
	if r.when == nil {
		return nil
	}
	var out []Ref
	for _, read := range r.when.Stated() {
		out = append(out, s.vocabulary.ref(read))
	}
	return out
}

// Let is one name of a rule's let: with its expression, as written.
type Let struct{ Name, Text string }

// Lets gives the rule's let-names in order.
func (r *Rule) Lets() []Let {
	out := make([]Let, len(r.lets))
	for i, l := range r.lets {
		out[i] = Let{l.name, l.text}
	}
	return out
}

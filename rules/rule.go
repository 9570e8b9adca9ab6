package rules

import (
	"slices"
	"sync/atomic"

	"example.org/cogcourt/rules/source"
)

// Rule is one check of a rule file. It is immutable.
type Rule struct {
	Pack    string
	ID      string
	Place   int    // among the rules that were loaded together, from 0
	Title   string // says the good state
	Why     string
	Remedy  string // as written, with its {expressions}
	Caution string
	Safety  bool

	// OpenWarns says that the rule warns, and is not open, where usual values decide
	// it only here and there.
	OpenWarns bool

	Basis []Basis
	Needs []Need
	Draw  Draw // where the rule is seen
	Pos   source.Pos

	WhenText, FailIf, WarnIf string // as written; empty where the rule has none

	compiled func() *logic
	ready    *atomic.Pointer[logic] // what compiled gave
	reads    func() []Ref           // see Set.Reads
	facts    func() []Ref           // see Set.Facts
	marks    func() ruleMarks
	say      *template
	passing  *template // what a pass says, nil for the title
	remedy   *template
	caution  *template // nil for none
	examples func() []Example
	waivers  []Waiver
	adjust   *Adjust
}

// logic gives what the verdict depends on. It is asked for by everything, and mostly there.
func (r *Rule) logic() *logic {
	if g := r.ready.Load(); g != nil {
		return g
	}
	g := r.compiled()
	r.ready.Store(g)
	return g
}

// CanFail says whether the rule can give a fail, by itself or because it is adjusted to.
func (r *Rule) CanFail() bool { return r.FailIf != "" || r.adjust != nil && r.adjust.To == Fail }

// Reads gives the facts that the rule's conditions read, through let-names, in
// the order of the text. The list is the rule's own: read only.
func (s *Set) Reads(r *Rule) []Ref { return r.reads() }

// readsOf finds them.
func (s *Set) readsOf(r *Rule) []Ref {
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

// Expression is one expression that a rule's verdict depends on.
type Expression struct {
	Key  string // when, fail_if, warn_if, or let.NAME
	Text string // as written

	node *source.Node
}

// At gives the place of a character of the expression, counted in code points.
func (e Expression) At(offset int) source.Pos { return e.node.At(offset) }

// Expressions gives what the rule's verdict depends on in the order in which one
// reads the other: the let-names, when, fail_if, warn_if.
func (r *Rule) Expressions() []Expression {
	var out []Expression
	for _, e := range r.logic().exprs {
		out = append(out, Expression{e.key, e.text, e.node})
	}
	return out
}

// Deciding gives the Expressions without the let-names that only texts read.
func (r *Rule) Deciding() []Expression { return deciding(r.Expressions()) }

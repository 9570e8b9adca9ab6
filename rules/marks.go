package rules

import (
	"iter"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// What a computed fact was really worked out with, for the facts of one mix, is mostly
// less than all that it can hang on: what has not read a fact is the same wherever that
// lies, and a rule that reads nothing else need not be tried there.

// noMarks is read, never written.
var noMarks fact.Marks

// readBy gives the marks of the stated facts that a fact was worked out with.
func readBy(records []*Record, read expr.Read) *fact.Marks {
	switch rec := records[read.Object]; {
	case rec == nil:
		return &noMarks
	case rec.reads != nil:
		return &rec.reads[read.Field]
	}
	return &fact.EveryMark
}

// marksOf gives, for each of the facts that a rule's conditions read, the marks of those
// that it can hang on.
func (s *Set) marksOf(r *Rule) ruleMarks {
	refs := s.Reads(r)
	out := ruleMarks{each: make([]fact.Marks, len(refs))}
	for i, ref := range refs {
		for _, b := range s.behind(ref) {
			out.each[i].Join(s.mark(b))
		}
		out.all.Join(out.each[i])
	}
	return out
}

// ruleMarks is marksOf, and all of them together.
type ruleMarks struct {
	each []fact.Marks
	all  fact.Marks
}

// canRead gives the marks of the facts that each rule can hang on, by their places: in one
// piece, for nearly all rules are passed over by them.
func (s *Set) canRead() []fact.Marks {
	out := make([]fact.Marks, len(s.rules))
	for i, r := range s.rules {
		out[i] = r.marks().all
	}
	return out
}

// haveRead gives those of some rules whose conditions have read one of these facts.
func (res *Result) haveRead(of fact.Marks, rules []*Rule) iter.Seq[*Rule] {
	can := res.set.can()
	whole := len(rules) > 0 && len(rules) == len(can) && len(rules) == len(res.set.rules) && &rules[0] == &res.set.rules[0]
	return func(yield func(*Rule) bool) {
		for at, r := range rules {
			if !whole {
				at = r.Place
			}
			if of.Meets(can[at]) && r.hasReadAny(of, res.records) && !yield(r) {
				return
			}
		}
	}
}

// hasReadAny says whether a rule's conditions have read one of these facts.
func (r *Rule) hasReadAny(of fact.Marks, records []*Record) bool {
	can := r.marks()
	for i, read := range r.logic().reads {
		if of.Both(can.each[i]).Meets(*readBy(records, read)) {
			return true
		}
	}
	return false
}

// readings gives with what each of the facts was worked out that a rule's conditions read.
func (r *Rule) readings(to []fact.Marks, records []*Record) []fact.Marks {
	all := r.marks().each
	for i, read := range r.logic().reads {
		to = append(to, all[i].Both(*readBy(records, read)))
	}
	return to
}

// readMore adds to readings what was read for these records, of some facts; it is false
// where nothing is new.
func (r *Rule) readMore(to []fact.Marks, of fact.Marks, records []*Record) (more bool) {
	all := r.marks().each
	for i, read := range r.logic().reads {
		now := of.Both(all[i]).Both(*readBy(records, read))
		if now.Both(to[i]) != now {
			to[i].Join(now)
			more = true
		}
	}
	return more
}

// reading gives the marks of the facts that a rule's conditions have read, themselves or
// through computed ones.
func (r *Rule) reading(records []*Record) (marks fact.Marks) {
	all := r.marks().each
	for i, read := range r.logic().reads {
		marks.Join(all[i].Both(*readBy(records, read)))
	}
	return marks
}

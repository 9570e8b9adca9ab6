package rules

import (
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// What a computed fact was really worked out with, for the facts of one mix, is mostly
// less than all that it can hang on: what has not read a fact is the same wherever that
// lies, and a rule that reads nothing else need not be tried there.

// hasRead says whether a fact was worked out with another, for the usual values or on the
// way: what has not read a fact is the same wherever that lies.
func (c *leaning) hasRead(read expr.Read, of Ref) bool {
	mark := c.res.set.mark(of)
	return mark.Meets(c.beyond) || mark.Meets(*readBy(c.res.records, read))
}

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
func (s *Set) marksOf(r *Rule) []fact.Marks {
	refs := s.Reads(r)
	out := make([]fact.Marks, len(refs))
	for i, ref := range refs {
		for _, b := range s.behind(ref) {
			out[i].Join(s.mark(b))
		}
	}
	return out
}

// hasReadAny says whether a rule's conditions have read one of these facts.
func (r *Rule) hasReadAny(of fact.Marks, records []*Record) bool {
	all := r.marks()
	for i, read := range r.logic().reads {
		if of.Meets(all[i]) && of.Both(all[i]).Meets(*readBy(records, read)) {
			return true
		}
	}
	return false
}

// reading gives the marks of the facts that a rule's conditions have read, themselves or
// through computed ones.
func (r *Rule) reading(records []*Record) (marks fact.Marks) {
	all := r.marks()
	for i, read := range r.logic().reads {
		by := readBy(records, read)
		for k := range marks {
			marks[k] |= all[i][k] & by[k]
		}
	}
	return marks
}

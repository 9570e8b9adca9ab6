package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// hangsOnAssumed tells which assumed facts a Fail needs: its conditions are
// decided again as if these were not stated. Where they still hold, none.
func (s *Set) hangsOnAssumed(r *Rule, f *expr.Frame) []string {
	conds := []*expr.Program{r.logic().conds[0].prog}
	if when := r.logic().when; when != nil {
		conds = append(conds, when)
	}
	hidden := hideAssumed(conds, f)
	if len(hidden) == 0 {
		return nil
	}
	strict := s.frames.Open()
	defer strict.Close()
	for i := range s.vocabulary.objects {
		strict.Put(i, f.Record(i))
		if h := hidden[i]; h != nil {
			strict.Put(i, h)
		}
	}
	var names []string
	for _, c := range conds {
		o := c.Decide(strict)
		if o.State == expr.True {
			continue
		}
		if o.State != expr.Undecided { // stated() of a hidden fact, which is never undecided
			o.Lacks = c.Reads()
		}
		for _, read := range o.Lacks {
			if rec := f.Record(read.Object); rec != nil && rec.Values[read.Field].Assumed {
				names = addNew(names, []string{s.vocabulary.lang.Name(read)})
			}
		}
	}
	return names
}

// hideAssumed gives copies of the records in which the assumed facts that the
// conditions read are not stated.
func hideAssumed(conds []*expr.Program, f *expr.Frame) map[int]*expr.Record {
	var hidden map[int]*expr.Record
	for _, c := range conds {
		for _, read := range c.Reads() {
			rec := f.Record(read.Object)
			if rec == nil || !rec.Values[read.Field].Assumed {
				continue
			}
			if hidden == nil {
				hidden = map[int]*expr.Record{}
			}
			if hidden[read.Object] == nil {
				hidden[read.Object] = &expr.Record{Values: slices.Clone(rec.Values)}
			}
			hidden[read.Object].Values[read.Field] = fact.Value{}
		}
	}
	return hidden
}

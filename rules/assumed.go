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

// unstated says in words what nobody stated of the facts that a fail hangs on: of a
// computed one the assumed facts behind it, and where all of these are stated what it
// takes for granted.
func (res *Result) unstated(f Finding) string {
	v, records := res.set.vocabulary, res.About(f)
	var words []string
	for _, name := range f.Assumed {
		ref, ok := v.Find(name)
		if !ok || ref.Field().Supposes == "" {
			words = addNew(words, []string{v.Words(name)})
			continue
		}
		var assumed []string
		for _, b := range res.set.behind(ref) {
			if i, _ := v.Index(b.Object.Name()); b.In(records[i]).Assumed {
				assumed = append(assumed, v.Words(b.String()))
			}
		}
		if assumed == nil {
			assumed = []string{ref.Field().Supposes}
		}
		words = addNew(words, assumed)
	}
	return join(words)
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

package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// hangsOnAssumed tells which assumed facts a Fail needs: its conditions are
// decided again as if these were not stated. Where they still hold, none.
func (s *Set) hangsOnAssumed(r *Rule, f *expr.Frame) []string {
	two := [2]*expr.Program{r.logic().conds[0].prog, r.logic().when}
	conds := two[:]
	if conds[1] == nil {
		conds = conds[:1]
	}
	h := s.hidings.Get().(*hiding)
	defer h.release(s)
	if !h.hide(conds, f) {
		return nil
	}
	strict := s.frames.Open()
	defer strict.Close()
	for i := range s.vocabulary.objects {
		strict.Put(i, f.Record(i))
	}
	for _, i := range h.objects {
		strict.Put(i, &h.records[i])
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

// hiding is records in which the assumed facts that conditions read are not stated. They
// hold what is read and nothing else; their memory serves again.
type hiding struct {
	records []expr.Record // by the places of the objects
	objects []int         // that something is hidden of
	used    []expr.Read
}

func (s *Set) newHiding() any {
	return &hiding{records: make([]expr.Record, len(s.vocabulary.objects))}
}

// hide takes over what the conditions read and is not assumed. It is false where nothing
// is assumed.
func (h *hiding) hide(conds []*expr.Program, f *expr.Frame) bool {
	for _, c := range conds {
		for _, read := range c.Reads() {
			if rec := f.Record(read.Object); rec != nil && rec.Values[read.Field].Assumed && !slices.Contains(h.objects, read.Object) {
				h.objects = append(h.objects, read.Object)
			}
		}
	}
	for _, c := range conds {
		for _, read := range c.Stated() {
			h.take(read, f)
		}
	}
	for _, c := range conds {
		for _, read := range c.Reads() {
			h.take(read, f)
			if slices.Contains(h.objects, read.Object) && f.Record(read.Object).Values[read.Field].Assumed {
				h.records[read.Object].Values[read.Field] = fact.Value{}
			}
		}
	}
	return len(h.objects) > 0
}

// take copies one value.
func (h *hiding) take(read expr.Read, f *expr.Frame) {
	if !slices.Contains(h.objects, read.Object) || read.Field < 0 {
		return
	}
	from, mine := f.Record(read.Object), &h.records[read.Object]
	if mine.Values == nil {
		mine.Values = make([]fact.Value, len(from.Values))
	}
	mine.Values[read.Field] = from.Values[read.Field]
	h.used = append(h.used, read)
}

// release gives the memory back, empty.
func (h *hiding) release(s *Set) {
	for _, read := range h.used {
		h.records[read.Object].Values[read.Field] = fact.Value{}
	}
	h.used, h.objects = h.used[:0], h.objects[:0]
	s.hidings.Put(h)
}

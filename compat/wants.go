package compat

import (
	"bytes"

	"example.org/cogcourt/rules"
)

// Needs gives what to order because of the findings, each thing once. Of equal wants
// of one thing the largest counts: a chain that suits the thickest tooth suits all.
func (r Report) Needs() (out []rules.FilledNeed) {
	if r.result == nil {
		return nil
	}
	s := r.result.Speak()
	defer s.Close()
	var all wants
	all.gather(&r, s)
	for i := range all.list {
		n := all.list[i].need
		n.What = string(all.what(i))
		out = append(out, n)
	}
	return out
}

// wants is what is to be ordered, its texts in one piece of memory.
type wants struct {
	text []byte
	list []want
}

// want is one thing, what it is standing in the text.
type want struct {
	from, to int
	need     rules.FilledNeed // without its What
}

// what tells of one what it is.
func (w *wants) what(i int) []byte { return w.text[w.list[i].from:w.list[i].to] }

// gather notes what a report's findings want, and forgets what stood there before.
func (w *wants) gather(r *Report, s *rules.Speaker) {
	clear(w.list)
	w.text, w.list = w.text[:0], w.list[:0]
	for k := range r.findings {
		f := &r.findings[k]
		before := len(w.list) // a finding's own are of several things
		for i := range f.Rule.Needs {
			from := len(w.text)
			text, need, ok := s.Need(w.text, f, i)
			if !ok {
				continue
			}
			w.text = text
			w.add(before, want{from, len(text), need})
		}
	}
}

// add notes a want, unless it is among those before.
func (w *wants) add(before int, t want) {
	for i := range before {
		o := &w.list[i].need
		if o.Unit != t.need.Unit || o.Thing != t.need.Thing || !bytes.Equal(w.what(i), w.text[t.from:t.to]) {
			continue
		}
		if o.Thing != "" || o.Value == t.need.Value {
			o.Value = max(o.Value, t.need.Value)
			w.text = w.text[:t.from]
			return
		}
	}
	w.list = append(w.list, t)
}

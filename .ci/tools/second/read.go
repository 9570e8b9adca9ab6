package second

import (
	"slices"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
)

// hasRead says whether a rule has read a stated fact, itself or through figures: of the
// facts behind a figure those count that it was worked out with for these facts.
func (f *facts) hasRead(r *rule, name string) bool {
	return slices.ContainsFunc(r.reads, func(read string) bool { return f.readBy(read, name) })
}

// readBy is hasRead of one fact that a rule reads.
func (f *facts) readBy(read, name string) bool {
	j := f.judge
	ref := j.ref(read)
	if !slices.ContainsFunc(figures.Behind(ref), func(b rules.Ref) bool {
		return b.String() == name || slices.Contains(told[b.String()], name)
	}) {
		return false
	}
	worked := f.records[j.figures].Reads()
	return j.places[read].object != j.figures || worked == nil || worked[ref.Index].Meets(figures.Mark(j.ref(name)))
}

// readAnywhere says whether a rule has read a fact as it is stated or where others are moved.
func (m *mix) readAnywhere(r *rule, name string) bool {
	return slices.ContainsFunc(r.reads, func(read string) bool { return m.readByAnywhere(read, name) })
}

// readByAnywhere is readAnywhere of one fact that a rule reads.
func (m *mix) readByAnywhere(read, name string) bool {
	return m.nominal.readBy(read, name) ||
		slices.ContainsFunc(m.thrown(false), func(f *facts) bool { return f.readBy(read, name) })
}

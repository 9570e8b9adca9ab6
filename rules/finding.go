package rules

import "example.org/cogcourt/rules/fact"

// Fact is one stated fact that a finding rests on.
type Fact struct {
	Name  string
	Value fact.Value
	Field *fact.Field // shared: read only
}

// Used gives the stated facts that the rule's conditions read.
func (res *Result) Used(f Finding) []Fact {
	reads := f.Rule.logic().reads
	if len(reads) == 0 {
		return nil
	}
	out := make([]Fact, 0, len(reads))
	about, objects := res.About(f), res.set.vocabulary.objects
	for _, read := range reads {
		rec := about[read.Object]
		if rec == nil || !rec.inner.Values[read.Field].Known {
			continue
		}
		out = append(out, Fact{
			Name:  res.set.vocabulary.lang.Name(read),
			Value: rec.inner.Values[read.Field],
			Field: &objects[read.Object].Table().Fields()[read.Field],
		})
	}
	return out
}

// Finding is what one applied rule says. Most findings are definite and have no
// more to say, so the rest of it is kept apart and shared: a report of sixty
// rules stays small.
type Finding struct {
	Rule    *Rule
	Verdict Verdict
	Ruled   Verdict // before an adjustment; equal to Verdict without one
	*Detail
}

// Detail is what a finding says beyond its verdict. It is never nil in a finding
// of a Result, and read only.
type Detail struct {
	Missing []string // facts that would decide an Unknown, such as cassette.pitch_mm
	Assumed []string // assumed facts that a Fail hangs on, which is given as Warn
	Err     string   // what went wrong in an Unknown that is an error
	Margin  *Margin  // that the finding hangs on tolerances; nil for most
	Lean    *Lean    // that it hangs on usual values; nil for most

	other []*Record // facts of another kind with that count, which it is about; nil for most
}

// noDetail is shared by all findings without one; it is never written.
var noDetail = &Detail{}

// NotApplied is a rule that had nothing to say, and why: the names are kinds for
// absent, facts for unstated; for figure, the one name is the sentence.
type NotApplied struct {
	Rule   *Rule
	Reason Reason
	Names  []string
	Quiet  bool // of ReasonFigure: the sentence is how things should be, and no news
}

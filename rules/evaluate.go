package rules

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Result is what a set of rules says of one set of facts. It keeps the records,
// so that texts are made only when asked for. It is immutable.
type Result struct {
	Findings   []Finding // in file order
	NotApplied []NotApplied

	set     *Set
	records []*Record
	room    *room // nil where every rule passes
}

// room holds what a Result has many of, so that each is no piece of its own.
type room struct {
	names   []string
	details []Detail
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
}

// noDetail is shared by all findings without one; it is never written.
var noDetail = &Detail{}

// NotApplied is a rule that had nothing to say, and why: the names are kinds for
// absent, facts for unstated; for figure, the one name is the sentence.
type NotApplied struct {
	Rule   *Rule
	Reason Reason
	Names  []string
}

// Evaluate applies every rule to the facts: one record for each object of the
// vocabulary in its order, nil for an object that is not there. It never fails;
// what cannot be decided is Unknown and says why.
func (s *Set) Evaluate(records []*Record) *Result {
	res := &Result{set: s, records: records, Findings: make([]Finding, 0, len(s.rules))}
	f := s.open(records)
	defer f.Close()
	res.applyAll(s.rules, f)
	return res
}

// open gives a frame over records.
func (s *Set) open(records []*Record) *expr.Frame {
	f := s.frames.Open()
	for i, r := range records {
		if r != nil {
			f.Put(i, &r.inner)
		}
	}
	return f
}

// applyAll adds what the rules say. A panic in a function of the language becomes
// the error of its rule, and the next is applied.
func (res *Result) applyAll(rules []*Rule, f *expr.Frame) {
	for done := 0; done < len(rules); {
		done += res.applySome(rules[done:], f)
	}
}

// applySome applies rules up to the last, or to one that panics, and counts them.
func (res *Result) applySome(rules []*Rule, f *expr.Frame) (done int) {
	defer func() {
		if p := recover(); p != nil {
			res.Findings = append(res.Findings, Finding{Rule: rules[done], Detail: &Detail{Err: fmt.Sprintf("internal error: %v", p)}})
			done++
		}
	}()
	for ; done < len(rules); done++ {
		res.apply(rules[done], f)
	}
	return done
}

// apply adds what one rule says.
func (res *Result) apply(r *Rule, f *expr.Frame) {
	verdict, definite := r.logic().quickly(f)
	detail := noDetail
	if !definite {
		o := res.judge(r, f)
		if o.reason != "" {
			res.notApplied(NotApplied{Rule: r, Reason: o.reason, Names: o.names})
			return
		}
		if verdict = o.verdict; verdict == Unknown {
			detail = res.detail(Detail{Missing: o.names, Err: o.err})
		}
	}
	if verdict == Fail {
		if assumed := res.set.hangsOnAssumed(r, f); len(assumed) > 0 {
			verdict, detail = Warn, res.detail(Detail{Assumed: assumed})
		}
	}
	finding := Finding{Rule: r, Verdict: verdict, Ruled: verdict, Detail: detail}
	if r.adjust != nil && (verdict == Warn || verdict == Fail) && res.set.inForce(r.adjust) {
		finding.Verdict = r.adjust.To
	}
	res.Findings = append(res.Findings, finding)
}

// notApplied keeps a rule that has nothing to say.
func (res *Result) notApplied(n NotApplied) {
	if res.NotApplied == nil {
		res.NotApplied = make([]NotApplied, 0, len(res.set.rules)-n.Rule.place)
	}
	res.NotApplied = append(res.NotApplied, n)
}

// more gives the room of a result.
func (res *Result) more() *room {
	if res.room == nil {
		res.room = &room{}
	}
	return res.room
}

// detail keeps what a finding says beyond its verdict.
func (res *Result) detail(d Detail) *Detail {
	m := res.more()
	if len(m.details) == cap(m.details) {
		m.details = make([]Detail, 0, 8)
	}
	m.details = append(m.details, d)
	return &m.details[len(m.details)-1]
}

// list keeps a list of names.
func (res *Result) list(names ...string) []string {
	m := res.more()
	if cap(m.names)-len(m.names) < len(names) {
		m.names = make([]string, 0, max(64, len(names)))
	}
	start := len(m.names)
	m.names = append(m.names, names...)
	return slices.Clip(m.names[start:])
}

// outcome is what a rule comes to: a verdict, or a reason for not applying.
type outcome struct {
	verdict Verdict
	reason  Reason
	names   []string
	err     string
}

// judge is the whole of what a rule can give; the first line that matches wins.
func (res *Result) judge(r *Rule, f *expr.Frame) outcome {
	g := r.logic()
	if g.fault != "" {
		return outcome{err: g.fault}
	}
	if g.when != nil {
		switch o := g.when.Decide(f); o.State {
		case expr.False:
			return res.excused(r, f)
		case expr.Undecided:
			return res.undecided(o.Lacks, f)
		case expr.Faulty:
			return outcome{err: o.Err}
		}
	}
	for _, c := range g.conds {
		switch o := c.prog.Decide(f); o.State {
		case expr.True:
			return outcome{verdict: c.verdict}
		case expr.Undecided:
			return res.undecided(o.Lacks, f)
		case expr.Faulty:
			return outcome{err: o.Err}
		}
	}
	return outcome{verdict: Pass}
}

// undecided says what the lack of these facts means: an absent part or a figure
// without meaning takes the rule away, a figure that went wrong or a fact that
// nobody stated leaves it open.
func (res *Result) undecided(lacks []expr.Read, f *expr.Frame) outcome {
	var few [2][8]string // most lists are short: they are gathered without memory of their own
	absent, missing := few[0][:0], few[1][:0]
	var sentence, fault string
	for _, r := range lacks {
		lack := res.set.lack(r, f)
		absent = addNew(absent, lack.Absent)
		missing = addNew(missing, lack.Missing)
		sentence, fault = cmp.Or(sentence, lack.Reason), cmp.Or(fault, lack.Fault)
	}
	switch {
	case len(absent) > 0:
		return outcome{reason: ReasonAbsent, names: res.list(absent...)}
	case sentence != "":
		return outcome{reason: ReasonFigure, names: res.list(sentence)}
	case fault != "":
		return outcome{err: fault}
	}
	return outcome{verdict: Unknown, names: res.list(missing...)}
}

// lack says why a fact cannot be read.
func (s *Set) lack(r expr.Read, f *expr.Frame) Lack {
	rec := f.Record(r.Object)
	if rec == nil {
		return s.vocabulary.objects[r.Object].inner.Lacking(-1)
	}
	if r.Field >= 0 && rec.Lacks != nil {
		if l := rec.Lacks[r.Field]; len(l.Absent)+len(l.Missing) > 0 || l.Reason+l.Fault != "" {
			return l
		}
	}
	return s.vocabulary.objects[r.Object].inner.Lacking(r.Field)
}

// excused says why a false when is false: what it asks to be stated comes first.
func (res *Result) excused(r *Rule, f *expr.Frame) outcome {
	var few [8]expr.Read
	open := few[:0]
	for _, read := range r.logic().when.Stated() {
		if rec := f.Record(read.Object); rec == nil || !rec.Values[read.Field].Known {
			open = append(open, read)
		}
	}
	if len(open) == 0 {
		return outcome{reason: ReasonWhen}
	}
	o := res.undecided(open, f)
	switch {
	case o.err != "": // it is for the rules that do not keep quiet to say so
		return outcome{reason: ReasonFigure, names: res.list(o.err)}
	case o.reason == "":
		o.reason = ReasonUnstated
	}
	return o
}

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
			hidden[read.Object].Values[read.Field] = source.Value{}
		}
	}
	return hidden
}

// addNew appends the names that are not there yet.
func addNew(to, names []string) []string {
	for _, n := range names {
		if !slices.Contains(to, n) {
			to = append(to, n)
		}
	}
	return to
}

// Judge decides one rule for facts, without adjustments. A rule that is not
// applied passes: it has nothing against the facts.
func (s *Set) Judge(r *Rule, records []*Record) Verdict {
	res := s.one(r, records)
	if len(res.Findings) == 0 {
		return Pass
	}
	return res.Findings[0].Ruled
}

// one applies one rule alone.
func (s *Set) one(r *Rule, records []*Record) *Result {
	res := &Result{set: s, records: records}
	f := s.open(records)
	defer f.Close()
	res.applyAll([]*Rule{r}, f)
	return res
}

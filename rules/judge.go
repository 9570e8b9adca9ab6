package rules

import (
	"cmp"
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// judgement is what a rule comes to: a verdict, or a reason for not applying.
type judgement struct {
	verdict Verdict
	reason  Reason
	names   []string
	quiet   bool // of ReasonFigure: see fact.Lack
	err     string
}

// judge is the whole of what a rule can give; the first line that matches wins. What
// stands before the one that closures left open they have decided: when is true, and the
// conditions before it are false.
func (res *Result) judge(g *logic, f *expr.Frame, open int) judgement {
	if g.fault != "" {
		return judgement{err: g.fault}
	}
	if open == openWhen {
		switch o := g.when.DecideOpen(f); o.State {
		case expr.False:
			return res.whenFalse(g, f)
		case expr.Undecided:
			return res.undecided(o.Lacks, f)
		case expr.Faulty:
			return judgement{err: o.Err}
		}
	}
	for i, c := range res.conds(g) {
		if i < open {
			continue
		}
		var o expr.Outcome
		if i == open {
			o = c.prog.DecideOpen(f)
		} else {
			o = c.prog.Decide(f)
		}
		switch o.State {
		case expr.True:
			return judgement{verdict: c.verdict}
		case expr.Undecided:
			return res.undecided(o.Lacks, f)
		case expr.Faulty:
			return judgement{err: o.Err}
		}
	}
	return judgement{verdict: Pass}
}

// conds gives the conditions that a rule is asked: all of them, or whether it fails.
func (res *Result) conds(g *logic) []condition {
	if res.onlyFail && len(g.conds) > 1 {
		return g.conds[:1]
	}
	return g.conds
}

// undecided says what the lack of these facts means: an absent part or a figure
// without meaning takes the rule away, a figure that went wrong or a fact that
// nobody stated leaves it open.
func (res *Result) undecided(lacks []expr.Read, f *expr.Frame) judgement {
	var absent, missing []string // of one lack they are its own lists, for most there is no more
	var sentence, fault string
	quiet := false
	for _, r := range lacks {
		lack := res.set.lack(r, f)
		absent = res.joined(absent, lack.Absent)
		missing = res.joined(missing, lack.Missing)
		if sentence == "" {
			sentence, quiet = lack.Reason, lack.Quiet
		}
		fault = cmp.Or(fault, lack.Fault)
	}
	switch {
	case len(absent) > 0:
		return judgement{reason: ReasonAbsent, names: absent}
	case sentence != "":
		return judgement{reason: ReasonFigure, names: res.list(sentence), quiet: quiet}
	case fault != "":
		return judgement{err: fault}
	}
	return judgement{verdict: Unknown, names: missing}
}

// joined gives a list of names with those of another that it has not. Neither is written
// to, nor what is given appended to without being copied.
func (res *Result) joined(to, names []string) []string {
	if len(to) == 0 {
		return slices.Clip(names)
	}
	for _, n := range names {
		if !slices.Contains(to, n) {
			to = res.longer(to, n)
		}
	}
	return to
}

// lack says why a fact cannot be read: what a computed field says of itself, else
// that the field or the whole object is not stated. It is shared: read only.
func (s *Set) lack(r expr.Read, f *expr.Frame) *fact.Lack {
	rec := f.Record(r.Object)
	if rec == nil {
		return s.vocabulary.objects[r.Object].inner.Lacking(-1)
	}
	if r.Field >= 0 && rec.Lacks != nil {
		if l := rec.Lacks[r.Field]; l != nil && (len(l.Absent)+len(l.Missing) > 0 || l.Reason != "" || l.Fault != "") {
			return l
		}
	}
	return s.vocabulary.objects[r.Object].inner.Lacking(r.Field)
}

// whenFalse gives the reason of a rule whose when is false. A fact that it asks to be
// stated and nobody did goes before the condition itself: it tells what to measure.
func (res *Result) whenFalse(g *logic, f *expr.Frame) judgement {
	var few [8]expr.Read
	open := few[:0]
	for _, read := range g.when.Stated() {
		if rec := f.Record(read.Object); rec == nil || !rec.Values[read.Field].Known {
			open = append(open, read)
		}
	}
	if len(open) == 0 {
		return judgement{reason: ReasonWhen}
	}
	o := res.undecided(open, f)
	switch {
	case o.err != "": // it is for the rules that do not keep quiet to say so
		return judgement{reason: ReasonFigure, names: res.list(o.err)}
	case o.reason == "":
		o.reason = ReasonUnstated
	}
	return o
}

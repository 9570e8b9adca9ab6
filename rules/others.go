package rules

import "slices"

// Other is another kind of parts with the same count: facts that nobody stated and
// that are taken by a number of cogs may be these as well.
type Other struct {
	Records []*Record // complete; they are kept
	Moved   []Ref     // the facts that differ
	Ask     Ref       // tells which kind it is
}

// among holds what rules say of facts known by a count against the other kinds of
// parts with that count. Where they agree not to fail, the worse verdict stands; where
// one fails somewhere and the other nowhere, the question is which it is.
func (res *Result) among(rules []*Rule) {
	if res.set.others == nil {
		return
	}
	for _, o := range res.set.others(res.records) {
		for _, r := range rules {
			if !slices.ContainsFunc(o.Moved, func(ref Ref) bool { return slices.Contains(res.set.Facts(r), ref) }) {
				continue
			}
			alt := &Result{set: res.set, records: o.Records}
			f := res.set.open(o.Records)
			alt.applyAll([]*Rule{r}, f)
			f.Close()
			alt.margins([]*Rule{r}, res.set.again)
			alt.lean([]*Rule{r}, res.set.again)
			res.join(r, alt, o, rules)
		}
	}
}

// join takes the verdict of a rule on another kind of parts into its finding.
func (res *Result) join(r *Rule, alt *Result, o Other, rules []*Rule) {
	mine, theirs := res.findingOf(r), alt.findingOf(r)
	switch {
	case mine.Lean != nil && mine.Lean.Ask != "": // open by a kind before this one, and stays it
	case failing(mine) && failing(theirs): // whichever it is, it may fail
		if mine.Ruled != Unknown && theirs.Ruled == Unknown || mine.Ruled == Fail && theirs.Ruled == Warn {
			res.adopt(r, theirs, o, rules)
		}
	case !failing(mine) && !failing(theirs):
		if mine.Ruled == Pass && theirs.Ruled == Warn {
			res.adopt(r, theirs, o, rules)
		}
	default:
		l := &Lean{Nominal: mine.Ruled, By: []string{}, Ask: o.Ask.String()}
		for _, ref := range o.Moved {
			l.By = append(l.By, ref.String())
		}
		here, there := res.kindAt(o, res.records), res.kindAt(o, o.Records)
		if failing(mine) {
			l.FailsAt, l.HoldsAt = failsAt(mine, here), there
		} else {
			l.FailsAt, l.HoldsAt = failsAt(theirs, there), here
		}
		res.leave(r, l, rules)
	}
}

// findingOf is what a result says of a rule; one that is not applied has nothing against
// the facts, and passes.
func (res *Result) findingOf(r *Rule) Finding {
	if i := slices.IndexFunc(res.Findings, func(f Finding) bool { return f.Rule == r }); i >= 0 {
		return res.Findings[i]
	}
	return Finding{Rule: r, Verdict: Pass, Ruled: Pass, Detail: noDetail}
}

// failing says whether a finding fails somewhere: also where it only warns because of
// what is assumed beside, or because not knowing does no harm.
func failing(f Finding) bool {
	return f.Ruled == Fail || f.Ruled == Unknown || len(f.Assumed) > 0 || f.Lean != nil
}

// kindAt gives the facts that tell one kind from another.
func (res *Result) kindAt(o Other, records []*Record) []Point {
	var out []Point
	for _, ref := range o.Moved {
		i, _ := res.set.vocabulary.Index(ref.Object.Name())
		out = append(out, Point{ref.String(), ref.In(records[i]).Num})
	}
	return out
}

// failsAt gives where a finding on a kind fails: where its own spread says so, else as
// the kind is.
func failsAt(f Finding, kind []Point) []Point {
	if f.Lean == nil {
		return kind
	}
	return ofKind(f.Lean.FailsAt, kind)
}

// ofKind gives points beside the other facts of a kind.
func ofKind(points, kind []Point) []Point {
	out := slices.Clone(points)
	for _, p := range kind {
		if !slices.ContainsFunc(out, func(q Point) bool { return q.Name == p.Name }) {
			out = append(out, p)
		}
	}
	return out
}

// adopt makes the finding on another kind of parts that of the rule.
func (res *Result) adopt(r *Rule, theirs Finding, o Other, rules []*Rule) {
	f := res.finding(r, rules)
	detail := *theirs.Detail
	detail.other = o.Records
	if l := detail.Lean; l != nil {
		kind := res.kindAt(o, o.Records)
		at := *l
		at.FailsAt, at.HoldsAt = ofKind(l.FailsAt, kind), ofKind(l.HoldsAt, kind)
		detail.Lean = &at
	}
	f.Detail = res.detail(detail)
	res.give(f, theirs.Ruled)
}

// About gives the facts that a finding is about, in the order of the vocabulary: those
// of the Result, or another kind of parts with the same count. Read only.
func (res *Result) About(f Finding) []*Record {
	if f.other != nil {
		return f.other
	}
	return res.records
}

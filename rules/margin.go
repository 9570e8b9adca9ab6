package rules

import (
	"math/bits"
	"slices"
)

// Margin says that a finding hangs on the tolerances of stated facts: it holds for
// the numbers as stated, and not all over their tolerances. Such a finding warns.
type Margin struct {
	Nominal Verdict  // the verdict by the numbers as stated; pass for a rule that they do not concern
	By      []string // the toleranced facts that decide
	Open    bool     // they are too many: the worst case was not worked out, and a pass is none

	apart bool // as stated, the rule is not applied
}

// sentence says what the tolerances do to a finding.
func (m *Margin) sentence(v *Vocabulary) string {
	names := v.inWords(m.By)
	switch {
	case m.Open:
		return "The worst case was not worked out: too many values carry a tolerance (" + names + ")."
	case m.apart:
		return "As stated this is not asked, but over all of the tolerance of " + names +
			" it is, and it does not hold; measure that more exactly to settle it."
	}
	return "Only just: as stated it would be a " + m.Nominal.String() + ", but not over all of the tolerance of " + names +
		"; measure that more exactly to settle it."
}

// again works records out anew in which facts have moved, as Config.Again says.
type again func(records []*Record, moved, wanted []Ref, use func([]*Record))

// margins holds what rules say against the corners of the toleranced facts that
// they hang on: a pass must hold at all of them, and so must a fail. A rule whose
// when is false for the numbers as stated is tried as well.
func (res *Result) margins(rules []*Rule, again again) {
	if !slices.ContainsFunc(res.records, func(r *Record) bool { return r != nil && r.toleranced }) {
		return
	}
	memory := res.set.leans.Get().(*leaning)
	defer memory.release()
	memory.use(res, again)
	t := tried{res: res, facts: memory.tols, mover: &memory.mover}
	for _, f := range t.facts {
		t.marks = append(t.marks, res.set.mark(res.set.vocabulary.ref(f)))
		t.all.Join(t.marks[len(t.marks)-1])
	}
	for r := range res.haveRead(t.all, rules) {
		t.add(r)
	}
	t.run()
	for _, c := range t.cases {
		if m := t.margin(c); m != nil {
			res.settle(c.rule, m, rules)
		}
	}
}

// margin says what the corners make of a rule; nil where its verdict holds at all.
func (t *tried) margin(c *tryCase) *Margin {
	m := &Margin{Nominal: c.nominal, By: []string{}, apart: c.apart}
	switch {
	case c.group == nil && c.apart:
		return nil // it has nothing to say, and nothing says that it would
	case c.group == nil:
		m.Open = true
		for _, i := range c.facts {
			m.By = append(m.By, t.res.set.vocabulary.lang.Name(t.facts[i]))
		}
		return m
	case !slices.ContainsFunc(c.verdicts, func(v Verdict) bool { return v != c.nominal }):
		return nil
	}
	// Which of them decides: one whose own ends change the verdict, with the
	// others at either of theirs.
	var decides uint64
	for corner, v := range c.verdicts {
		for i := range c.facts {
			if v != c.verdicts[corner^1<<i] {
				decides |= 1 << i
			}
		}
	}
	if decides == 0 { // all corners agree, and not with what lies between
		decides = 1<<len(c.facts) - 1
	}
	for ; decides != 0; decides &= decides - 1 {
		m.By = append(m.By, t.res.set.vocabulary.lang.Name(t.facts[c.facts[bits.TrailingZeros64(decides)]]))
	}
	return m
}

// settle puts a margin into the finding of its rule, or makes one of a rule that
// is not applied to the numbers as stated. It warns, but for a fail whose worst
// case was not worked out. The rules are those that were applied, in their order.
func (res *Result) settle(r *Rule, m *Margin, rules []*Rule) {
	f := res.finding(r, rules)
	ruled := Warn
	if m.Open && m.Nominal == Fail {
		ruled = Fail
	}
	detail := *f.Detail
	detail.Margin = m
	f.Detail = res.detail(detail)
	res.give(f, ruled)
}

// finding is what the result says of a rule; where the rule was not applied, an empty
// finding in its place among the rules that were asked.
func (res *Result) finding(r *Rule, rules []*Rule) *Finding {
	at := slices.IndexFunc(res.Findings, func(f Finding) bool { return f.Rule == r })
	if at < 0 {
		res.NotApplied = slices.DeleteFunc(res.NotApplied, func(n NotApplied) bool { return n.Rule == r })
		at = 0
		for _, before := range rules[:slices.Index(rules, r)] {
			if at < len(res.Findings) && res.Findings[at].Rule == before {
				at++
			}
		}
		res.Findings = slices.Insert(res.Findings, at, Finding{Rule: r, Detail: noDetail})
	}
	return &res.Findings[at]
}

package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// mostCorners is how many toleranced facts a rule is tried at the corners of: 16
// corners. With more it is left open.
const mostCorners = 4

// toleranced adds the facts that carry a tolerance.
func toleranced(out []expr.Read, records []*Record) []expr.Read {
	for i, rec := range records {
		if rec == nil {
			continue
		}
		for _, j := range rec.Toleranced() {
			out = append(out, expr.Read{Object: i, Field: j})
		}
	}
	return out
}

// tried holds the rules of one result at the corners of the toleranced facts. Rules that hang on the same facts,
// or on some of those that another hangs on, share their corners.
type tried struct {
	res    *Result
	facts  []expr.Read
	marks  []fact.Marks // of each
	all    fact.Marks   // and of all
	mover  *mover
	cases  []*tryCase
	groups []*tryGroup

	// Of the corner in work, in memory that serves the next one:
	mine []*tryCase
	at   []int
	to   []placed
}

// tryCase is one rule: the toleranced facts that it hangs on, by their indexes
// among all, and its verdict at each corner of these.
type tryCase struct {
	rule     *Rule
	nominal  Verdict
	apart    bool // not applied to the numbers as stated
	facts    []int
	group    *tryGroup
	verdicts []Verdict

	beyond fact.Marks // marks of facts that were read at a corner and not for the numbers as stated
	left   fact.Marks // marks of those that are left out, since nothing has read them,
	more   fact.Marks // and of those that were read at a corner after all
}

// tryGroup is facts that are moved together, and the rules that are tried then.
type tryGroup struct {
	facts  []int
	cases  []*tryCase
	wanted []Ref // what the rules read
}

// add keeps a rule that has read a toleranced fact, where its verdict could change at a
// corner: it came to one for the numbers as stated.
func (t *tried) add(r *Rule) {
	c := tryCase{rule: r}
	if i := slices.IndexFunc(t.res.Findings, func(f Finding) bool { return f.Rule == r }); i >= 0 {
		c.nominal = t.res.Findings[i].Ruled
	} else {
		i := slices.IndexFunc(t.res.NotApplied, func(n NotApplied) bool { return n.Rule == r })
		if i < 0 || t.res.NotApplied[i].Reason != ReasonWhen {
			return
		}
		c.nominal, c.apart = Pass, true
	}
	if c.nominal == Unknown {
		return
	}
	if t.gather(&c); len(c.facts) > 0 {
		kept := c
		t.cases = append(t.cases, &kept)
	}
}

// gather finds the facts that a case hangs on, of those that its rule has read.
func (t *tried) gather(c *tryCase) {
	c.left = fact.Marks{}
	read := c.rule.reading(t.res.records)
	read.Join(c.beyond)
	var few [2 * mostCorners]int
	facts := few[:0]
	for i, f := range t.facts {
		switch {
		case read.Meets(t.marks[i]):
			facts = append(facts, i)
		case slices.Contains(t.res.set.Facts(c.rule), t.res.set.vocabulary.ref(f)):
			c.left.Join(t.marks[i])
		}
	}
	c.facts = slices.Clone(facts)
}

// run tries every case at its corners, and again those at which more was read than for
// the numbers as stated, with that.
func (t *tried) run() {
	for cases := t.cases; len(cases) > 0; {
		t.groups = nil
		t.try(cases)
		var wider []*tryCase
		for _, c := range cases {
			if !c.more.None() {
				c.beyond.Join(c.more)
				c.more, c.group = fact.Marks{}, nil
				t.gather(c)
				wider = append(wider, c)
			}
		}
		cases = wider
	}
}

// try tries cases, those of the most facts first, so that the others find a group to go
// with.
func (t *tried) try(cases []*tryCase) {
	order := slices.Clone(cases)
	slices.SortStableFunc(order, func(a, b *tryCase) int { return len(b.facts) - len(a.facts) })
	for _, c := range order {
		if len(c.facts) > mostCorners {
			continue
		}
		i := slices.IndexFunc(t.groups, func(g *tryGroup) bool { return subset(c.facts, g.facts) })
		if i < 0 {
			i = len(t.groups)
			t.groups = append(t.groups, &tryGroup{facts: c.facts})
		}
		c.group, c.verdicts = t.groups[i], make([]Verdict, 1<<len(c.facts))
		c.group.cases = append(c.group.cases, c)
		c.group.wanted = append(c.group.wanted, t.res.set.Reads(c.rule)...)
	}
	for _, g := range t.groups {
		for corner := range 1 << len(g.facts) {
			t.corner(g, corner)
		}
	}
}

// subset says whether all of one rising list stand in another.
func subset(few, many []int) bool {
	for _, i := range few {
		if _, ok := slices.BinarySearch(many, i); !ok {
			return false
		}
	}
	return true
}

// corner tries the rules of a group at one corner: bit i says that fact i of the
// group stands at its upper end. A rule that does not hang on all of the facts is
// tried only where the others stand at their lower ends.
func (t *tried) corner(g *tryGroup, corner int) {
	mine, at := t.mine[:0], t.at[:0]
	for _, c := range g.cases {
		own, others := 0, corner
		for i, f := range c.facts {
			place, _ := slices.BinarySearch(g.facts, f)
			own |= corner >> place & 1 << i
			others &^= 1 << place
		}
		if others == 0 {
			mine, at = append(mine, c), append(at, own)
		}
	}
	t.mine, t.at = mine, at
	if len(mine) == 0 {
		return
	}
	t.to = t.to[:0]
	for i, f := range g.facts {
		t.to = append(t.to, placed{t.facts[f], float64(corner>>i&1)*2 - 1})
	}
	t.mover.at(t.to, g.wanted, func(records []*Record) {
		sub := &Result{set: t.res.set, records: records}
		f := sub.set.open(records)
		defer f.Close()
		for i, c := range mine {
			sub.Findings = sub.Findings[:0]
			sub.applyAll([]*Rule{c.rule}, f)
			c.verdicts[at[i]] = Pass // a rule that is not applied has nothing against the facts
			if len(sub.Findings) > 0 {
				c.verdicts[at[i]] = sub.Findings[0].Ruled
			}
			if !c.left.None() {
				c.more.Join(c.left.Both(c.rule.reading(records)))
			}
		}
	})
}

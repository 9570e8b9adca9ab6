package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// Lean says that a finding hangs on usual values: it does not hold over all that is
// usual of them. Such a finding is open, or warns where not knowing does no harm.
type Lean struct {
	Nominal Verdict  `json:"nominal" doc:"The verdict by the usual values."`
	By      []string `json:"by" doc:"The usual facts that decide, each of itself where one does."`
	Open    bool     `json:"open" doc:"They are too many to be tried over their spread."`
	Ask     string   `json:"ask" doc:"The fact that tells which of two kinds of parts with that count it is; empty where they agree."`
}

// Ways tells how a computed fact goes as a stated one rises and all others stay: 1
// where it never falls, -1 where it never rises, 0 where nobody declares that. It
// turns where it hangs on its facts through one quantity alone that goes these ways,
// and may itself turn round between.
type Ways func(of, with Ref) (way int8, turns bool)

// Still is the way of what does not move with a fact.
const Still int8 = 2

// How closely the spread is looked at.
const (
	mostGrid = 3  // facts that nobody declares are tried on a grid, at most so many,
	gridEach = 9  // at so many points each
	lineEach = 17 // points of a line on which something may turn
	hunts    = 16 // steps towards an extreme or a root between two of them
)

// spreads finds the usual facts that have a spread.
func spreads(records []*Record) []expr.Read {
	var out []expr.Read
	for i, rec := range records {
		if rec == nil {
			continue
		}
		for _, j := range rec.Spreads() {
			out = append(out, expr.Read{Object: i, Field: j})
		}
	}
	return out
}

// lean holds the rules that can fail against the spread of the usual facts that they
// hang on: what fails nowhere keeps the verdict of the usual values, what fails
// everywhere fails, and all else is open.
func (res *Result) lean(rules []*Rule, again again) {
	facts := spreads(res.records)
	if len(facts) == 0 {
		return
	}
	m := mover{set: res.set, from: res.records, again: again}
	for _, r := range rules {
		if r.FailIf == "" {
			continue
		}
		c := leaning{res: res, rule: r, mover: &m}
		if !c.begin(facts) {
			continue
		}
		c.run()
		if l := c.outcome(); l != nil {
			res.leave(r, l, rules)
		}
	}
}

// leaning is one rule that is tried over the spread of usual facts.
type leaning struct {
	res   *Result
	rule  *Rule
	mover *mover

	facts   []expr.Read // usual ones that it hangs on
	also    []expr.Read // toleranced ones, which are tried at their corners with them
	lines   [][]int8    // ways to move the facts together, from one end to the other
	turns   []Ref       // computed facts that may turn on the way
	signed  []Ref       // numbers that may pass through nothing on the way
	wild    bool        // nobody declares how it goes
	wanted  []Ref
	nominal Verdict
	apart   bool // not applied by the usual values

	failed, clear, open bool // seen somewhere
	tooMany             bool
}

// begin gathers what the rule hangs on; it is false where there is nothing to try.
func (c *leaning) begin(facts []expr.Read) bool {
	res, v := c.res, c.res.set.vocabulary
	hangs := res.set.Facts(c.rule)
	for _, f := range facts {
		if slices.Contains(hangs, v.ref(f)) {
			c.facts = append(c.facts, f)
		}
	}
	if len(c.facts) == 0 {
		return false
	}
	switch i := slices.IndexFunc(res.Findings, func(f Finding) bool { return f.Rule == c.rule }); {
	case i >= 0:
		f := res.Findings[i]
		if f.Ruled == Unknown {
			return false
		}
		c.nominal = f.Ruled
		c.count(f)
		if f.Margin == nil {
			c.tolerances(hangs)
		}
	default:
		i := slices.IndexFunc(res.NotApplied, func(n NotApplied) bool { return n.Rule == c.rule })
		if i < 0 || res.NotApplied[i].Reason != ReasonWhen && res.NotApplied[i].Reason != ReasonFigure {
			return false
		}
		c.nominal, c.apart, c.clear = Pass, true, true
	}
	c.plan()
	return true
}

// tolerances takes the toleranced facts along, whose corners are tried with every
// place of the usual ones.
func (c *leaning) tolerances(hangs []Ref) {
	for _, f := range toleranced(c.res.records) {
		if slices.Contains(hangs, c.res.set.vocabulary.ref(f)) {
			c.also = append(c.also, f)
		}
	}
	if len(c.also) > mostCorners {
		c.also, c.tooMany = nil, true
	}
}

// plan finds the lines along which the facts are moved: for each fact that when and
// fail_if read, the one that raises it.
func (c *leaning) plan() {
	g, v := c.rule.logic(), c.res.set.vocabulary
	reads := slices.Clone(g.conds[0].prog.Reads())
	if g.when != nil {
		reads = append(reads, g.when.Reads()...)
	}
	for _, read := range reads {
		ref := v.ref(read)
		line, hangs := c.lineOf(ref)
		if !hangs {
			continue
		}
		c.wanted = append(c.wanted, ref)
		if f := ref.Field(); f.Type == fact.Fraction || f.Type == fact.Whole {
			c.signed = append(c.signed, ref)
		}
		if !slices.ContainsFunc(c.lines, func(l []int8) bool { return sameLine(l, line) }) {
			c.lines = append(c.lines, line)
		}
	}
}

// lineOf says how the facts go that raise what a ref points at.
func (c *leaning) lineOf(ref Ref) (line []int8, hangs bool) {
	behind := c.res.set.behind(ref)
	line = make([]int8, len(c.facts))
	for i, f := range c.facts {
		of := c.res.set.vocabulary.ref(f)
		if !slices.Contains(behind, of) {
			continue
		}
		way, turns := int8(1), false
		if of != ref {
			way, turns = c.res.set.ways(ref, of)
		}
		if way == Still {
			continue
		}
		hangs = true
		line[i], c.wild = way, c.wild || way == 0
		if turns && !slices.Contains(c.turns, ref) {
			c.turns = append(c.turns, ref)
		}
	}
	return line, hangs
}

// sameLine says whether two lines are one, in whichever direction.
func sameLine(a, b []int8) bool {
	same, turned := true, true
	for i := range a {
		same, turned = same && a[i] == b[i], turned && a[i] == -b[i]
	}
	return same || turned
}

// run tries the rule over the spread, until it is seen both to fail and not to.
func (c *leaning) run() {
	switch {
	case c.tooMany || c.wild && len(c.facts) > mostGrid:
		c.tooMany = true
		return
	case c.wild:
		c.grid(make([]placed, len(c.facts)), 0, gridEach)
		return
	case len(c.lines) > 1 && len(c.facts) <= mostCorners:
		c.grid(make([]placed, len(c.facts)), 0, 2)
	}
	for _, line := range c.lines {
		c.along(line)
	}
}

// settled says whether the answer is known before all was tried.
func (c *leaning) settled() bool { return c.open || c.failed && c.clear }

// grid tries every combination of so many places a fact.
func (c *leaning) grid(to []placed, i, each int) {
	if c.settled() {
		return
	}
	if i == len(to) {
		c.try(to)
		return
	}
	for k := range each {
		to[i] = placed{c.facts[i], -1 + 2*float64(k)/float64(each-1)}
		c.grid(to, i+1, each)
	}
}

// along tries the facts on their way from one end to the other, and looks closer
// where something turns or passes through nothing.
func (c *leaning) along(line []int8) {
	p := path{c: c, line: line}
	if len(c.turns) == 0 && !(c.failed && !c.clear) {
		p.walk(2)
		if c.settled() || !c.failed || c.clear {
			return
		}
	}
	p.walk(lineEach)
	if c.settled() {
		return
	}
	for _, ref := range c.turns {
		p.climb(ref, !c.failed)
	}
	if c.failed {
		for _, ref := range c.signed {
			p.cross(ref)
		}
	}
}

// try notes what the rule says with the facts in these places, and gives the records
// to whoever wants to look at them.
func (c *leaning) try(to []placed, look ...func([]*Record)) {
	all := slices.Clone(to)
	for corner := range 1 << len(c.also) {
		all = all[:len(to)]
		for i, f := range c.also {
			all = append(all, placed{f, float64(corner>>i&1)*2 - 1})
		}
		c.mover.at(all, c.res.set.Reads(c.rule), func(records []*Record) {
			c.judge(records)
			for _, l := range look {
				l(records)
			}
		})
	}
}

// judge notes what the rule says of these records.
func (c *leaning) judge(records []*Record) {
	sub := &Result{set: c.res.set, records: records}
	f := sub.set.open(records)
	defer f.Close()
	sub.applyAll([]*Rule{c.rule}, f)
	if len(sub.Findings) == 0 {
		c.clear = true // a rule that is not applied has nothing against the facts
		return
	}
	c.count(sub.Findings[0])
}

// count notes one verdict. A fail that hangs on an assumption is none, and no
// clearance either.
func (c *leaning) count(f Finding) {
	switch {
	case f.Ruled == Unknown:
		c.open = true
	case f.Ruled == Fail || len(f.Assumed) > 0:
		c.failed = true
	default:
		c.clear = true
	}
}

// outcome says what the spread makes of the rule; nil where the verdict by the usual
// values holds.
func (c *leaning) outcome() *Lean {
	if !c.tooMany && !c.open && !(c.failed && c.clear) {
		return nil
	}
	l := &Lean{Nominal: c.nominal, By: []string{}, Open: c.tooMany}
	name := c.res.set.vocabulary.lang.Name
	for _, f := range c.facts {
		if !c.tooMany && c.turnsOn(f) {
			l.By = append(l.By, name(f))
		}
	}
	if len(l.By) == 0 {
		for _, f := range c.facts {
			l.By = append(l.By, name(f))
		}
	}
	return l
}

// turnsOn says whether one fact changes the answer while the others are as usual.
func (c *leaning) turnsOn(f expr.Read) bool {
	alone := leaning{res: c.res, rule: c.rule, mover: c.mover, facts: []expr.Read{f}}
	for k := range gridEach {
		alone.try([]placed{{f, -1 + 2*float64(k)/(gridEach-1)}})
	}
	return alone.open || alone.failed && alone.clear
}

// leave puts what the spread makes of a rule into its finding.
func (res *Result) leave(r *Rule, l *Lean, rules []*Rule) {
	f := res.finding(r, rules)
	detail := *f.Detail
	detail.Lean = l
	ruled := Unknown
	if r.warnsWhereOpen() {
		ruled = Warn
	} else {
		detail.Missing, detail.Assumed, detail.Margin = l.By, nil, nil
		if l.Ask != "" {
			detail.Missing = []string{l.Ask}
		}
	}
	f.Detail = res.detail(detail)
	res.give(f, ruled)
}

// warnsWhereOpen says whether not knowing does no harm: the rule itself asks that
// facts be stated, or says so.
func (r *Rule) warnsWhereOpen() bool {
	when := r.logic().when
	return r.OpenWarns || when != nil && len(when.Stated()) > 0
}

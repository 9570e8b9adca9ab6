package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// Lean says that a finding hangs on usual values: it does not hold over all that is
// usual of them. Such a finding is open, or warns where not knowing does no harm.
type Lean struct {
	Nominal Verdict  // the verdict by the usual values
	By      []string // the usual facts that decide, each of itself where one does
	Open    bool     // they are too many to be tried over their spread
	Ask     string   // the fact that tells which of two kinds of parts with that count it is; empty where they agree
	FailsAt []Point  // values at which it fails, of usual facts that are elsewhere than usual
	HoldsAt []Point  // values at which it does not
	OpenAt  []Point  // values at which nothing can be decided, where such were met before it was seen to fail and not to
}

// Point is a value of one fact.
type Point struct {
	Name  string  // the fact
	Value float64 // its value; of a list, which moves as one, the first entry that carries a tolerance
}

// Ways tells how a computed fact goes as a stated one rises and all others stay: 1
// where it never falls, -1 where it never rises, 0 where nobody declares that. It
// turns where it hangs on its facts through one quantity alone that goes these ways,
// and may itself turn round between. Still says that only knowing the fact matters.
type Ways func(of, with Ref) (way int8, turns bool)

// Still is the way of what does not move with a fact.
const Still int8 = 2

// How closely the spread is looked at.
const (
	gridEach = 9                              // facts that nobody declares are tried on a grid, at so many points each,
	mostGrid = gridEach * gridEach * gridEach // and all of them at no more
	lineEach = 17                             // points of a line on which something may turn
	hunts    = 16                             // steps towards an extreme or a root between two of them
)

// spreads adds the usual facts that have a spread.
func spreads(out []expr.Read, records []*Record) []expr.Read {
	for i, rec := range records {
		if rec == nil || !rec.usual {
			continue
		}
		for j := range rec.inner.Values {
			if v := &rec.inner.Values[j]; v.Known && v.Spread() != nil {
				out = append(out, expr.Read{Object: i, Field: j})
			}
		}
	}
	return out
}

// lean holds the rules that can fail against the spread of the usual facts that they
// hang on: what fails nowhere keeps the verdict of the usual values, what fails
// everywhere fails, and all else is open.
func (res *Result) lean(rules []*Rule, again again) {
	if !slices.ContainsFunc(res.records, func(r *Record) bool { return r != nil && r.usual }) {
		return
	}
	c := res.set.leans.Get().(*leaning)
	defer c.release()
	c.use(res, again)
	for r := range res.haveRead(c.marks, rules) {
		if r.FailIf == "" || !c.spread(r) {
			continue
		}
		if l := c.outcome(); l != nil {
			res.leave(r, l, rules)
		}
	}
}

// leaning tries one rule after another over the spread of usual facts. Its memory
// serves again: a check tries a dozen rules at a few places each.
type leaning struct {
	res   *Result
	rule  *Rule
	mover mover
	all   []expr.Read // usual facts of the mix
	tols  []expr.Read // toleranced ones
	marks fact.Marks  // of the usual ones,
	loose fact.Marks  // and of both

	read []fact.Marks // with what each fact that the rule reads was worked out, wherever it was tried
	more bool         // that has grown on the way

	facts   []expr.Read // those that the rule hangs on
	also    []expr.Read // toleranced ones, which are tried at their corners with them
	lines   [][]int8    // ways to move the facts together, from one end to the other
	turns   []Ref       // computed facts that may turn on the way
	signed  []Ref       // numbers that may pass through nothing on the way
	going   []going     // how what fail_if and when read goes with the facts
	arena   []int8      // for these
	wild    []int       // facts of which nobody declares how something goes with them
	tooMany bool
	nominal Verdict

	seen
	failedAt, clearAt []placed
	openAt            []placed

	sub    Result
	one    [1]*Rule
	reads  []Ref
	to     []placed
	base   []placed  // of the facts in the wild
	watch  []float64 // the numbers of turns and signed at the last place
	path   path
	judged func([]*Record) // judge, as a value that is made once
}

// seen is what a rule was seen to do somewhere: to fail, not to, to lack something; to be
// about the facts, and not to be.
type seen struct{ failed, clear, open, applied, away bool }

func newLeaning() any {
	c := &leaning{}
	c.judged = c.judge
	c.path.c = c
	return c
}

// use begins with the facts of a result.
func (c *leaning) use(res *Result, again again) {
	c.res = res
	c.mover.set, c.mover.from, c.mover.again = res.set, res.records, again
	c.all, c.marks = spreads(c.all[:0], res.records), fact.Marks{}
	for _, f := range c.all {
		c.marks.Join(res.set.mark(res.set.vocabulary.ref(f)))
	}
	c.tols, c.loose = toleranced(c.tols[:0], res.records), c.marks
	for _, f := range c.tols {
		c.loose.Join(res.set.mark(res.set.vocabulary.ref(f)))
	}
	c.sub.set, c.sub.onlyFail = res.set, true // what only warn_if says, or leaves open, fails nowhere
}

// release gives the memory back without holding on to anybody's facts.
func (c *leaning) release() {
	set := c.res.set
	clear(c.mover.records)
	c.res, c.rule, c.mover.from, c.mover.again, c.sub.records, c.one[0] = nil, nil, nil, nil, nil, nil
	set.leans.Put(c)
}

// spread tries a rule over the spread of what it hangs on; it is false where there is
// nothing to try. Where something is read on the way that was not read before, all is
// tried anew with that.
func (c *leaning) spread(r *Rule) bool {
	c.rule, c.one[0] = r, r
	c.read = r.readings(c.read[:0], c.res.records)
	for {
		c.more = false
		if !c.begin(r) {
			return false
		}
		if c.run(); !c.more {
			return true
		}
	}
}

// begin gathers what the rule hangs on; it is false where there is nothing to try.
func (c *leaning) begin(r *Rule) bool {
	res, v := c.res, c.res.set.vocabulary
	hangs := res.set.Facts(r)
	c.facts, c.also = c.facts[:0], c.also[:0]
	for _, f := range c.all {
		if slices.Contains(hangs, v.ref(f)) && c.moves(v.ref(f)) {
			c.facts = append(c.facts, f)
		}
	}
	if len(c.facts) == 0 {
		return false
	}
	c.seen, c.tooMany, c.wild = seen{}, false, c.wild[:0]
	c.to, c.failedAt, c.clearAt, c.openAt = c.to[:0], c.failedAt[:0], c.clearAt[:0], c.openAt[:0]
	if i := slices.IndexFunc(res.Findings, func(f Finding) bool { return f.Rule == r }); i >= 0 {
		f := &res.Findings[i]
		if f.Ruled == Unknown {
			return false
		}
		c.nominal, c.applied = f.Ruled, true
		if f.Margin == nil {
			c.count(f)
			c.tolerances()
		} else { // what tolerances say of it stands beside; here they are left as they are
			c.count(&Finding{Ruled: f.Margin.Nominal, Detail: f.Detail})
		}
	} else {
		i := slices.IndexFunc(res.NotApplied, func(n NotApplied) bool { return n.Rule == r })
		if i < 0 || res.NotApplied[i].Reason != ReasonWhen && res.NotApplied[i].Reason != ReasonFigure {
			return false
		}
		c.nominal, c.clear, c.away = Pass, true, true
		c.plan()
		return !c.tooMany // else it has nothing to say, and nothing says that it would
	}
	c.plan()
	return true
}

// moves says whether anything that can make the rule fail goes with a fact.
func (c *leaning) moves(of Ref) bool {
	g := c.rule.logic()
	for i, read := range g.reads {
		if g.warns != nil && g.warns[i] {
			continue
		}
		ref := c.res.set.vocabulary.ref(read)
		if ref == of {
			return true
		}
		if !c.read[i].Meets(c.res.set.mark(of)) {
			continue
		}
		if way, _ := c.res.set.ways(ref, of); way != Still && slices.Contains(c.res.set.behind(ref), of) {
			return true
		}
	}
	return false
}

// tolerances takes the toleranced facts along, whose corners are tried with every
// place of the usual ones. With more than mostCorners the rule is left open.
func (c *leaning) tolerances() {
	for _, f := range c.tols {
		mark := c.res.set.mark(c.res.set.vocabulary.ref(f))
		if slices.ContainsFunc(c.read, mark.Meets) {
			c.also = append(c.also, f)
		}
	}
	c.tooMany = len(c.also) > mostCorners
}

// run tries the rule over the spread, until it is seen both to fail and not to.
func (c *leaning) run() {
	c.to, c.base = c.to[:0], c.base[:0]
	switch {
	case c.tooMany:
		return
	case len(c.wild) > 0:
		c.inTheWild(0)
		return
	case len(c.lines) > 1 && len(c.facts) <= mostCorners:
		for _, f := range c.facts {
			c.to = append(c.to, placed{read: f})
		}
		c.corners(0)
	default:
		c.together()
	}
	for _, line := range c.lines {
		c.path.along(line)
	}
}

// inTheWild goes over a grid of the facts that nobody declares, and at each of its places
// along every line of the others.
func (c *leaning) inTheWild(i int) {
	if i < len(c.wild) {
		at, f := len(c.base), c.facts[c.wild[i]]
		each := c.each(f)
		for k := range each {
			c.base = append(c.base[:at], placed{f, -1 + 2*float64(k)/float64(each-1)})
			if c.inTheWild(i + 1); c.settled() {
				return
			}
		}
		c.base = c.base[:at]
		return
	}
	c.to = append(c.to[:0], c.base...)
	if c.try(); len(c.wild) == len(c.facts) {
		return
	}
	c.together()
	for _, line := range c.lines {
		c.path.line = line
		points := 2
		if len(c.turns) > 0 || c.between(line) || c.failed && !c.clear && c.apart(line) {
			points = lineEach
		}
		c.path.walk(points)
	}
}

// settled says whether the answer is known before all was tried.
func (c *leaning) settled() bool { return c.open || c.failed && c.clear }

// corners tries every combination of the ends of the facts.
func (c *leaning) corners(i int) {
	if c.settled() {
		return
	}
	if i == len(c.facts) {
		c.try()
		return
	}
	for _, end := range [2]float64{-1, 1} {
		c.to[i].to = end
		c.corners(i + 1)
	}
}

// together tries the ends of the lines together, where the facts are too many to be tried at
// all of theirs or stand beside a grid: one line may be what makes the rule speak of them,
// and another what it then says. A fact that several lines move goes with the first of these.
func (c *leaning) together() {
	lines := c.lines[:min(len(c.lines), mostCorners)]
	for corner := range 1 << len(lines) {
		if len(lines) < 2 || c.settled() {
			return
		}
		c.to = append(c.to[:0], c.base...)
		for i, f := range c.facts {
			if slices.Contains(c.wild, i) {
				continue
			}
			if k := slices.IndexFunc(lines, func(line []int8) bool { return line[i] != 0 }); k >= 0 {
				c.to = append(c.to, placed{f, float64(lines[k][i]) * (float64(corner>>k&1)*2 - 1)})
			}
		}
		c.try()
	}
}

// try notes what the rule says with the facts in their places: with the toleranced ones
// as they are stated, and at all their corners.
func (c *leaning) try() {
	n := len(c.to)
	if len(c.also) > 0 {
		c.mover.at(c.to, c.reads, c.judged)
	}
	for corner := range 1 << len(c.also) {
		c.to = c.to[:n]
		for i, f := range c.also {
			c.to = append(c.to, placed{f, float64(corner>>i&1)*2 - 1})
		}
		c.mover.at(c.to, c.reads, c.judged)
	}
	c.to = c.to[:n]
}

// judge notes what the rule says of these records, and the numbers that are watched.
func (c *leaning) judge(records []*Record) {
	if f := c.alone(records); f != nil {
		c.applied = true
		c.count(f)
	} else {
		c.away = true
		c.cleared() // a rule that is not applied has nothing against the facts
	}
	c.more = c.rule.readMore(c.read, c.loose, records) || c.more
	c.watch = c.watch[:0]
	for _, refs := range [2][]Ref{c.turns, c.signed} {
		for _, ref := range refs {
			i, _ := c.sub.set.vocabulary.Index(ref.Object.Name())
			c.watch = append(c.watch, records[i].At(ref.Index).Num)
		}
	}
}

// alone applies the rule alone to these records; nil where it is not applied. What it
// gives is written over by the next call.
func (c *leaning) alone(records []*Record) *Finding {
	c.sub.records, c.sub.Findings, c.sub.NotApplied = records, c.sub.Findings[:0], c.sub.NotApplied[:0]
	m := c.sub.arena()
	m.names, m.details = m.names[:0], m.details[:0]
	f := c.sub.set.open(records)
	c.sub.applyAll(c.one[:], f)
	f.Close()
	if len(c.sub.Findings) == 0 {
		return nil
	}
	return &c.sub.Findings[0]
}

// count notes one verdict. A fail that hangs on an assumption counts as one.
func (c *leaning) count(f *Finding) {
	switch {
	case f.Ruled == Unknown:
		if !c.open {
			c.open, c.openAt = true, append(c.openAt[:0], c.to...)
		}
	case f.Ruled == Fail || len(f.Assumed) > 0:
		if !c.failed {
			c.failed, c.failedAt = true, append(c.failedAt[:0], c.to...)
		}
	default:
		c.cleared()
	}
}

// cleared notes that the rule does not fail where the facts are now.
func (c *leaning) cleared() {
	if !c.clear {
		c.clear, c.clearAt = true, append(c.clearAt[:0], c.to...)
	}
}

// points gives the values of facts at places where they are not usual.
func (c *leaning) points(at []placed) []Point {
	out := []Point{}
	for _, p := range at {
		if p.to != 0 {
			v := c.res.records[p.read.Object].Moved(p.read.Field, p.to).At(p.read.Field)
			x := v.Num
			if i := slices.IndexFunc(v.Tols(), func(tol float64) bool { return tol > 0 }); i >= 0 {
				x = v.List[i]
			}
			out = append(out, Point{c.res.set.vocabulary.lang.Name(p.read), x})
		}
	}
	return out
}

// outcome says what the spread makes of the rule; nil where the verdict by the usual
// values holds.
func (c *leaning) outcome() *Lean {
	if !c.tooMany && !c.open && !(c.failed && c.clear) {
		return nil
	}
	l := &Lean{Nominal: c.nominal, By: []string{}, Open: c.tooMany, FailsAt: c.points(c.failedAt), HoldsAt: c.points(c.clearAt),
		OpenAt: c.points(c.openAt)}
	name := c.res.set.vocabulary.lang.Name
	facts := slices.Clone(c.facts)
	for _, f := range facts {
		if !c.tooMany && len(facts) > 1 && c.turnsOn(f) {
			l.By = append(l.By, name(f))
		}
	}
	if len(l.By) == 0 {
		for _, f := range facts {
			l.By = append(l.By, name(f))
		}
	}
	return l
}

// turnsOn says whether one fact changes the answer while the others are as usual. Most do
// so between their ends, which are tried first.
func (c *leaning) turnsOn(f expr.Read) bool {
	c.seen = seen{}
	for k := range gridEach {
		at := 1.0
		if k > 0 {
			at = -1 + 2*float64(k-1)/(gridEach-1)
		}
		c.to = append(c.to[:0], placed{f, at})
		if c.try(); c.settled() {
			return true
		}
	}
	return false
}

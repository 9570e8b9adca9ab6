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
			if v := &rec.inner.Values[j]; v.Known && v.Spread != nil {
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
	for _, r := range rules {
		if r.FailIf == "" || !c.begin(r) {
			continue
		}
		c.run()
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

	facts   []expr.Read // those that the rule hangs on
	also    []expr.Read // toleranced ones, which are tried at their corners with them
	lines   [][]int8    // ways to move the facts together, from one end to the other
	turns   []Ref       // computed facts that may turn on the way
	signed  []Ref       // numbers that may pass through nothing on the way
	between bool        // it may fail between two places of a line, and at neither end
	wild    []int       // facts of which nobody declares how something goes with them
	tooMany bool
	nominal Verdict

	failed, clear, open bool // seen somewhere
	failedAt, clearAt   []placed
	openAt              []placed

	sub    Result
	one    [1]*Rule
	reads  []Ref
	to     []placed
	base   []placed  // of the facts in the wild
	watch  []float64 // the numbers of turns and signed at the last place
	path   path
	judged func([]*Record) // judge, as a value that is made once
}

func newLeaning() any {
	c := &leaning{sub: Result{onlyFail: true}} // what only warn_if says, or leaves open, fails nowhere
	c.judged = c.judge
	c.path.c = c
	return c
}

// use begins with the facts of a result.
func (c *leaning) use(res *Result, again again) {
	c.res = res
	c.mover.set, c.mover.from, c.mover.again = res.set, res.records, again
	c.all = spreads(c.all[:0], res.records)
	c.sub.set = res.set
}

// release gives the memory back without holding on to anybody's facts.
func (c *leaning) release() {
	set := c.res.set
	clear(c.mover.records)
	c.res, c.rule, c.mover.from, c.mover.again, c.sub.records, c.one[0] = nil, nil, nil, nil, nil, nil
	set.leans.Put(c)
}

// begin gathers what the rule hangs on; it is false where there is nothing to try.
func (c *leaning) begin(r *Rule) bool {
	res, v := c.res, c.res.set.vocabulary
	c.rule, c.one[0] = r, r
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
	c.failed, c.clear, c.open, c.tooMany, c.wild = false, false, false, false, c.wild[:0]
	c.to, c.failedAt, c.clearAt, c.openAt = c.to[:0], c.failedAt[:0], c.clearAt[:0], c.openAt[:0]
	if i := slices.IndexFunc(res.Findings, func(f Finding) bool { return f.Rule == r }); i >= 0 {
		f := &res.Findings[i]
		if f.Ruled == Unknown {
			return false
		}
		c.nominal = f.Ruled
		if f.Margin == nil {
			c.count(f)
			c.tolerances(hangs)
		} else { // what tolerances say of it stands beside; here they are left as they are
			c.count(&Finding{Ruled: f.Margin.Nominal, Detail: f.Detail})
		}
	} else {
		i := slices.IndexFunc(res.NotApplied, func(n NotApplied) bool { return n.Rule == r })
		if i < 0 || res.NotApplied[i].Reason != ReasonWhen && res.NotApplied[i].Reason != ReasonFigure {
			return false
		}
		c.nominal, c.clear = Pass, true
		c.plan()
		return !c.tooMany // else it has nothing to say, and nothing says that it would
	}
	c.plan()
	return true
}

// moves says whether anything that can make the rule fail goes with a fact.
func (c *leaning) moves(of Ref) bool {
	for _, read := range c.rule.logic().reads {
		ref := c.res.set.vocabulary.ref(read)
		if ref == of {
			return true
		}
		if way, _ := c.res.set.ways(ref, of); way != Still && slices.Contains(c.res.set.behind(ref), of) {
			return true
		}
	}
	return false
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
		c.also, c.tooMany = c.also[:0], true
	}
}

// plan finds the lines along which the facts are moved: for each fact that when and
// fail_if read, the one that raises it, and so for what when asks to be stated, which
// may mean something at one end of its line alone.
func (c *leaning) plan() {
	g, v := c.rule.logic(), c.res.set.vocabulary
	c.reads, c.lines, c.turns, c.signed, c.between = c.reads[:0], c.lines[:0], c.turns[:0], c.signed[:0], false
	for _, read := range g.reads {
		c.reads = append(c.reads, v.ref(read))
	}
	var when, asked []expr.Read
	if g.when != nil {
		when, asked = g.when.Reads(), g.when.Stated()
	}
	for _, reads := range [2][]expr.Read{g.conds[0].prog.Reads(), when} {
		for _, read := range reads {
			if c.line(v.ref(read), false) && g.eitherWay(read) {
				c.between = true
			}
		}
	}
	for _, read := range asked {
		c.line(v.ref(read), true)
	}
	grid := 1
	for _, i := range c.wild {
		if grid *= c.each(c.facts[i]); grid > mostGrid {
			c.tooMany = true
			return
		}
	}
}

// line adds the line that raises what a ref points at, and what to watch on it. What is
// only asked for moves nothing but by its meaning: that goes the ways that are declared,
// and hangs on no number where none are. It is false where the facts do not move it.
func (c *leaning) line(ref Ref, asked bool) bool {
	behind := c.res.set.behind(ref)
	line := c.nextLine()
	hangs := false
	for i, f := range c.facts {
		of := c.res.set.vocabulary.ref(f)
		if !slices.Contains(behind, of) {
			continue
		}
		way, turns := int8(1), false
		if of != ref {
			way, turns = c.res.set.ways(ref, of)
		}
		if way == Still || asked && (way == 0 || turns || of == ref) {
			continue
		}
		hangs = true
		if of == ref && c.counted(f) {
			way = 0 // it may be odd or even between two ends that are neither
		}
		if line[i] = way; way == 0 && !slices.Contains(c.wild, i) {
			c.wild = append(c.wild, i)
		}
		if turns && !slices.Contains(c.turns, ref) {
			c.turns = append(c.turns, ref)
		}
	}
	if !hangs {
		return false
	}
	if f := ref.Object.Table().Fields()[ref.Index].Type; f == fact.Fraction || f == fact.Whole {
		c.signed = append(c.signed, ref)
	}
	for _, l := range c.lines {
		if sameLine(l, line) {
			return true
		}
	}
	c.lines = append(c.lines, line)
	return true
}

// counted says whether a fact is a count with others between its least and its most: a
// condition may tell them apart in any way.
func (c *leaning) counted(f expr.Read) bool {
	s := c.res.records[f.Object].At(f.Field).Spread
	return c.res.set.vocabulary.lang.Field(f).Type == fact.Whole && s.Most-s.Least > 1
}

// each is at how many points between its ends a fact is tried on the grid: of a count so
// many that they meet each whole number there, however far apart the two sides of the
// usual one lie.
func (c *leaning) each(f expr.Read) int {
	if !c.counted(f) {
		return gridEach
	}
	v := c.res.records[f.Object].At(f.Field)
	return 1 + 2*int(max(1, v.Spread.Most-v.Num, v.Num-v.Spread.Least))
}

// nextLine gives a line of noughts, in memory that was a line before where there is.
func (c *leaning) nextLine() []int8 {
	var line []int8
	if n := len(c.lines); n < cap(c.lines) {
		line = c.lines[:n+1][n][:0]
	}
	for range c.facts {
		line = append(line, 0)
	}
	return line
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
	for _, line := range c.lines {
		c.path.line = line
		points := 2
		if len(c.turns) > 0 || c.between {
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

// try notes what the rule says with the facts in their places.
func (c *leaning) try() {
	n := len(c.to)
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
	c.sub.records, c.sub.Findings, c.sub.NotApplied = records, c.sub.Findings[:0], c.sub.NotApplied[:0]
	if c.sub.memory != nil {
		c.sub.memory.names, c.sub.memory.details = c.sub.memory.names[:0], c.sub.memory.details[:0]
	}
	f := c.sub.set.open(records)
	c.sub.applyAll(c.one[:], f)
	f.Close()
	if len(c.sub.Findings) == 0 {
		c.cleared() // a rule that is not applied has nothing against the facts
	} else {
		c.count(&c.sub.Findings[0])
	}
	c.watch = c.watch[:0]
	for _, refs := range [2][]Ref{c.turns, c.signed} {
		for _, ref := range refs {
			i, _ := c.sub.set.vocabulary.Index(ref.Object.Name())
			c.watch = append(c.watch, records[i].At(ref.Index).Num)
		}
	}
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
			if i := slices.IndexFunc(v.Tols, func(tol float64) bool { return tol > 0 }); i >= 0 {
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
		if !c.tooMany && c.turnsOn(f) {
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

// turnsOn says whether one fact changes the answer while the others are as usual.
func (c *leaning) turnsOn(f expr.Read) bool {
	c.failed, c.clear, c.open = false, false, false
	for k := range gridEach {
		c.to = append(c.to[:0], placed{f, -1 + 2*float64(k)/(gridEach-1)})
		if c.try(); c.settled() {
			return true
		}
	}
	return false
}

package second

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"

	"example.org/cogcourt/rules"
)

// Count is what was compared.
type Count struct {
	Pairs  int
	Seen   map[string]int // by what the rule came to
	Narrow int            // pairs that lean in a band narrower than what the library tries
	Differ int            // pairs on which the two differ,
	Mixes  int            // and the mixes of these
}

// Add adds what was compared elsewhere.
func (c *Count) Add(other Count) {
	c.Pairs, c.Narrow, c.Differ, c.Mixes = c.Pairs+other.Pairs, c.Narrow+other.Narrow, c.Differ+other.Differ, c.Mixes+other.Mixes
	for word, n := range other.Seen {
		c.Seen[word] += n
	}
}

// Compare judges records by both and gives what they do not agree on, a line each. The
// records are complete: those of a report's figures.
func (j *Judge) Compare(ours *rules.Result, records []*rules.Record, random *rand.Rand, count *Count) []string {
	m := j.mix(records, random)
	out := m.goes()
	count.Differ += len(out)
	said := read(ours)
	others := j.others(records)
	kinds := make([]*mix, len(others))
	for i, o := range others {
		kinds[i] = j.mix(o.records, random)
	}
	for _, r := range j.rules {
		their := said[r.id]
		c := &comparing{judge: j, rule: r, their: their, spread: m.spread(r)}
		hangs := j.behind(r)
		for i, o := range others {
			if slices.ContainsFunc(o.moved, func(name string) bool { return slices.Contains(hangs, name) }) {
				c.kinds, c.others = append(c.kinds, kinds[i].spread(r)), append(c.others, o)
			}
		}
		c.compare()
		count.Pairs++
		if c.narrow {
			count.Narrow++
		}
		count.Seen[their.word()]++
		for _, what := range c.out {
			out = append(out, fmt.Sprintf("%s: %s; the library says %s, the second evaluator %s", r.id, what, their.text(), c.mine.text()))
		}
		if len(c.out) > 0 {
			count.Differ++
			out = append(out, "the rule "+r.id+": "+r.text)
		}
	}
	return out
}

// comparing is one rule on one mix.
type comparing struct {
	judge  *Judge
	rule   *rule
	their  theirs
	spread *spread
	kinds  []*spread
	others []other
	mine   Said
	narrow bool
	out    []string
}

func (c *comparing) differ(format string, args ...any) {
	c.out = append(c.out, fmt.Sprintf(format, args...))
}

func (c *comparing) compare() {
	all := append([]*spread{c.spread}, c.kinds...)
	if l := c.their.lean; l != nil {
		for _, s := range all {
			s.tryAt(l.FailsAt)
			s.tryAt(l.HoldsAt)
			s.tryAt(l.OpenAt)
		}
		for _, s := range all {
			if !s.seen.leans() && l.Ask == "" && !s.tooMany && len(c.kinds) == 0 {
				s.closer()
			}
		}
	}
	c.mine = c.spread.said
	leans := c.spread.tooMany || c.spread.seen.leans()
	if leans && !c.spread.tooMany && c.their.lean == nil && len(c.kinds) == 0 && c.spread.narrow() {
		leans, c.narrow = false, true
	}
	if leans {
		c.mine = Said{Ruled: c.rule.whereOpen()}
	}
	if len(c.kinds) > 0 {
		c.join()
		return
	}
	c.texts()
	c.rule.adjust(&c.mine)
	if c.mine.Ruled != c.their.Ruled || c.mine.Verdict != c.their.Verdict || c.mine.Reason != c.their.Reason {
		c.differ("another verdict or reason")
	}
	if leans != (c.their.lean != nil) {
		c.differ("only one of the two says that it hangs on what is usual")
		return
	}
	if leans {
		c.leaning()
		return
	}
	if c.mine.Err != c.their.Err {
		c.differ("only one of the two has an error")
	}
	if c.mine.Reason == rules.ReasonFigure { // several sentences, of which one is said
		if len(c.their.Names) != 1 || !slices.Contains(c.mine.Names, c.their.Names[0]) && len(c.mine.Names) > 0 {
			c.differ("another sentence of a figure")
		}
	} else if !c.mine.Err && !same(c.mine.Names, c.their.Names) {
		c.differ("other names")
	}
	if !same(c.mine.Assumed, c.their.Assumed) {
		c.differ("other assumed facts: %v and %v", c.their.Assumed, c.mine.Assumed)
	}
	if a, b := c.mine.Margin, c.their.Margin; (a == nil) != (b == nil) ||
		a != nil && (a.Nominal != b.Nominal || a.Open != b.Open || !same(a.By, b.By)) {
		c.differ("another margin: %+v and %+v", b, a)
	}
	c.rests()
}

// leaning holds what the library says of a finding that hangs on what is usual.
func (c *comparing) leaning() {
	l := c.their.lean
	if l.Open != c.spread.tooMany {
		c.differ("only one of the two finds too many facts to be tried")
	}
	if len(l.By) == 0 || slices.ContainsFunc(l.By, func(name string) bool { return !slices.Contains(c.spread.facts, name) }) {
		c.differ("it hangs on %v, and of these on what is usual only on %v", l.By, c.spread.facts)
	}
	if c.their.Ruled == rules.Unknown && !same(c.their.Names, l.By) {
		c.differ("missing are %v, and it hangs on %v", c.their.Names, l.By)
	}
	nominal := c.spread.said.against()
	if l.Nominal != nominal {
		c.differ("by the usual values it is a %s, not a %s", nominal, l.Nominal)
	}
}

// join holds a rule that was decided for several kinds with one count. What the library
// found over the spread of one kind it does not tell where both are named: where the two
// differ more places are looked at, for the points that were thrown may have met none at
// which nothing can be decided.
func (c *comparing) join() {
	if c.joined(); len(c.out) == 0 {
		return
	}
	c.out = nil
	for _, s := range append([]*spread{c.spread}, c.kinds...) {
		s.everywhere()
		s.closer()
	}
	c.joined()
}

// joined compares by the places that were looked at so far.
func (c *comparing) joined() {
	if len(c.kinds) == 1 && c.spread.failing() != c.kinds[0].failing() {
		c.spread.everywhere()
		c.kinds[0].everywhere()
	}
	mine := rules.Unknown
	switch failing := c.spread.failing(); {
	case len(c.kinds) > 1:
		c.differ("%d kinds are more than this evaluator knows of", len(c.kinds)+1)
		return
	case failing != c.kinds[0].failing():
		mine = c.rule.whereOpen()
		if l := c.their.lean; l == nil || l.Ask != c.others[0].ask || !same(l.By, c.others[0].moved) {
			c.differ("it should ask %s", c.others[0].ask)
		}
	default:
		worse := []rules.Verdict{rules.Unknown, rules.Warn, rules.Fail, rules.Pass}
		a, b := c.spread.verdict(), c.kinds[0].verdict()
		mine = a
		if slices.Index(worse, b) < slices.Index(worse, a) {
			mine = b
		}
	}
	applied := c.spread.said.Reason == "" || c.spread.seen.leans() || c.spread.tooMany || mine != rules.Pass
	if applied != (c.their.Reason == "") {
		c.differ("only one of the two applies it, to kinds with one count")
		return
	}
	if !applied {
		return
	}
	c.mine = Said{Ruled: mine}
	c.rule.adjust(&c.mine)
	if c.mine.Ruled != c.their.Ruled || c.mine.Verdict != c.their.Verdict {
		c.differ("another verdict for two kinds with one count")
	}
}

// rests holds what a finding rests on that nobody stated.
func (c *comparing) rests() {
	if c.mine.Reason != "" {
		return
	}
	var assumed, usual []string
	for _, name := range c.rule.reads {
		switch v := c.spread.mix.nominal.value(name); {
		case !v.Known:
		case v.Usual != 0:
			usual = append(usual, name)
			fallthrough
		case v.Assumed:
			if v.Assumed {
				assumed = append(assumed, name)
			}
		}
	}
	if !same(assumed, c.their.restsAssumed) || !same(usual, c.their.restsUsual) {
		c.differ("it rests on other assumed or usual facts: %v %v and %v %v", c.their.restsAssumed, c.their.restsUsual, assumed, usual)
	}
}

// theirs is what the library says of a rule.
type theirs struct {
	Said
	lean                     *rules.Lean
	restsAssumed, restsUsual []string
	remedy                   string
}

func read(res *rules.Result) map[string]theirs {
	out := map[string]theirs{}
	speaker := res.Speak()
	defer speaker.Close()
	for _, f := range res.Findings {
		t := theirs{Said: Said{Ruled: f.Ruled, Verdict: f.Verdict, Names: f.Missing, Assumed: f.Assumed, Err: f.Err != ""}, lean: f.Lean}
		if f.Margin != nil {
			t.Margin = &Margin{f.Margin.Nominal, f.Margin.By, f.Margin.Open}
		}
		for _, used := range res.Used(f) {
			if used.Value.Assumed {
				t.restsAssumed = append(t.restsAssumed, used.Name)
			}
			if used.Value.Usual != 0 {
				t.restsUsual = append(t.restsUsual, used.Name)
			}
		}
		t.remedy = string(speaker.AppendRemedy(nil, f))
		out[f.Rule.ID] = t
	}
	for _, n := range res.NotApplied {
		out[n.Rule.ID] = theirs{Said: Said{Reason: n.Reason, Names: n.Names, Quiet: n.Quiet}}
	}
	return out
}

func same(a, b []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b)))
}

// word is what a rule came to, in a word or two.
func (t theirs) word() string {
	switch {
	case t.Reason != "":
		return "not applied, " + string(t.Reason)
	case t.Err:
		return "error"
	case t.lean != nil && t.lean.Ask != "":
		return t.Ruled.String() + " of two kinds"
	case t.lean != nil:
		return t.Ruled.String() + " by what is usual"
	case t.Margin != nil:
		return t.Ruled.String() + " by tolerances"
	case len(t.Assumed) > 0:
		return "warn by what is assumed"
	}
	return t.Ruled.String()
}

func (t theirs) text() string {
	s := t.Said.text()
	if t.lean != nil {
		s += fmt.Sprintf(" leaning %+v", *t.lean)
	}
	return s
}

func (s Said) text() string {
	if s.Reason != "" {
		return fmt.Sprintf("not applied, %s %q", s.Reason, s.Names)
	}
	return fmt.Sprintf("%s (%s) missing %q error %v", s.Ruled, s.Verdict, s.Names, s.Err)
}

// Text says what was seen, a line each.
func (c *Count) Text() string {
	out := fmt.Sprintf("%d pairs of a rule and a mix, %d of them with a band too narrow to be seen\n", c.Pairs, c.Narrow)
	for _, word := range slices.Sorted(maps.Keys(c.Seen)) {
		out += fmt.Sprintf("%9d %s\n", c.Seen[word], word)
	}
	return out
}

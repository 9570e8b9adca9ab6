package compat

import (
	"cmp"
	"math/bits"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Difference is something that two mixes do not share and that can be left out:
// the part of a kind, a line of a cart, which may bring several parts, or facts
// that were measured anew on the same parts.
type Difference struct {
	Name  string   // as causes name it
	Line  int      // of a cart, from 1; 0 for none
	Kinds []string // of the parts that it brings or takes away
	Bench bool     // it is about what was measured on parts that both mixes share
}

// kinds gives the kinds as a set, by their places.
func (d Difference) kinds() uint64 {
	var out uint64
	for _, kind := range d.Kinds {
		if i, ok := catalog.KindIndex(kind); ok {
			out |= 1 << i
		}
	}
	return out
}

// differences finds what two mixes do not share. A part of another reading that
// states the same is no difference.
func differences(before, after Mix) []Difference {
	var out []Difference
	var kinds uint64
	for i, kind := range catalog.KindNames() {
		if !sameRecord(before.facts.Part(i), after.facts.Part(i)) {
			kinds |= 1 << i
			out = append(out, Difference{Name: kind, Kinds: []string{kind}})
		}
	}
	a, b := before.facts.Bench(), after.facts.Bench()
	for i := range figures.Bench.Table().Fields() {
		if figures.MeasuredOn(i)&kinds == 0 && !sameValue(a.At(i), b.At(i)) {
			return append(out, Difference{Name: "bench", Bench: true})
		}
	}
	return out
}

// sameRecord says whether two records state the same.
func sameRecord(a, b *rules.Record) bool {
	if a == nil || b == nil || a == b {
		return a == b
	}
	for i := range a.Object().Table().Fields() {
		if !sameValue(a.At(i), b.At(i)) {
			return false
		}
	}
	return true
}

func sameValue(a, b *fact.Value) bool {
	if a.Spread() != b.Spread() && (a.Spread() == nil || b.Spread() == nil || *a.Spread() != *b.Spread()) {
		return false
	}
	return a.Known == b.Known && a.Assumed == b.Assumed && a.Own == b.Own && a.Usual == b.Usual &&
		a.Num == b.Num && a.Tol == b.Tol && a.Text == b.Text &&
		slices.Equal(a.List, b.List) && slices.Equal(a.Tols(), b.Tols()) && slices.Equal(a.Words(), b.Words())
}

// blame finds what brings changes about, by judging mixes that lie between the two:
// the first mix with some of the differences taken over. Each is judged by the rules
// that changed and that can see these differences, for their verdicts alone.
type blame struct {
	before, after Mix
	checker       *Checker     // nil where nothing can be told
	stopped       func() error // nil while somebody waits for the answer
	parts         []Difference
	kinds         uint64 // all kinds that differ
	changed       []swayed
	tried         map[uint64][]Standing // of the changed rules, by the differences taken over
}

// swayed is a rule that changed, and the differences that it can see.
type swayed struct {
	rule *rules.Rule
	by   uint64
}

// newBlame prepares for the causes. Two reports of different rules may differ
// because of these, which leaving parts out does not show: then there are none.
func newBlame(before, after Report, parts []Difference) *blame {
	b := &blame{before: before.Mix, after: after.Mix, parts: parts, tried: map[uint64][]Standing{}}
	if before.set != nil && after.set != nil && before.set.Hash() == after.set.Hash() && len(parts) <= 64 {
		b.checker = after.checker
	}
	for _, d := range parts {
		b.kinds |= d.kinds()
	}
	return b
}

// of keeps the rules that changed, whose causes will be asked for.
func (b *blame) of(was, now standings) {
	if b.checker == nil {
		return
	}
	for _, rule := range b.checker.set.Rules() {
		if was.of(rule).rank() != now.of(rule).rank() {
			b.changed = append(b.changed, swayed{rule, b.sway(rule)})
		}
	}
}

// mostTogether is how many differences are tried in all their combinations: 256
// checks. With more, one set is found by leaving them out one by one.
const mostTogether = 8

// causes finds the least sets of differences that bring a rule from one level to
// the other, or past it.
func (b *blame) causes(f *ChangedFinding) {
	at := slices.IndexFunc(b.changed, func(c swayed) bool { return c.rule.ID == f.Rule })
	if at < 0 {
		return
	}
	from, to := f.Was.rank(), f.Now.rank()
	reached := func(set uint64) bool {
		if b.stopped() != nil {
			return false
		}
		l := b.standings(set)[at].rank()
		return to < from && l <= to || to > from && l >= to
	}
	seen := b.changed[at].by
	var sets []uint64
	if bits.OnesCount64(seen) <= mostTogether {
		sets = leastSets(seen, reached)
	} else {
		sets = []uint64{leaveOut(seen, reached)}
	}
	for _, set := range sets {
		names, lines := make([]string, 0, bits.OnesCount64(set)), make([]int, 0, bits.OnesCount64(set))
		for i, d := range b.parts {
			if set&(1<<i) != 0 {
				names, lines = append(names, d.Name), append(lines, d.Line)
			}
		}
		f.Causes = append(f.Causes, names)
		if lines[0] > 0 {
			f.Lines = append(f.Lines, lines)
		}
	}
}

// leastSets finds every set of which all is needed, the smallest first.
func leastSets(from uint64, reached func(uint64) bool) []uint64 {
	var out []uint64
	for size := 1; size <= bits.OnesCount64(from); size++ {
		for set := from; set > 0; set = (set - 1) & from { // every subset but none
			if bits.OnesCount64(set) != size || slices.ContainsFunc(out, func(s uint64) bool { return set&s == s }) {
				continue
			}
			if reached(set) {
				out = append(out, set)
			}
		}
	}
	slices.SortFunc(out, func(a, b uint64) int {
		return cmp.Or(
			cmp.Compare(bits.OnesCount64(a), bits.OnesCount64(b)),
			cmp.Compare(bits.TrailingZeros64(a&^b), bits.TrailingZeros64(b&^a)), // of two, the one with the first
		)
	})
	return out
}

// leaveOut leaves differences out as long as the rest does it without them.
func leaveOut(set uint64, reached func(uint64) bool) uint64 {
	for again := true; again; {
		again = false
		for rest := set; rest > 0; rest &= rest - 1 {
			one := rest & -rest
			if less := set &^ one; less > 0 && reached(less) {
				set, again = less, true
			}
		}
	}
	return set
}

// standings judges the mix in which these differences are taken over, by the changed
// rules that can see all of them: nobody asks the others.
func (b *blame) standings(set uint64) []Standing {
	if got, ok := b.tried[set]; ok {
		return got
	}
	var some []*rules.Rule
	var reads []rules.Ref
	for _, c := range b.changed {
		if set&^c.by == 0 {
			some = append(some, c.rule)
			reads = append(reads, b.checker.set.Reads(c.rule)...)
		}
	}
	got := make([]Standing, len(b.changed))
	b.between(set).MeasureFor(reads, b.checker.filling(), func(records []*rules.Record) {
		b.checker.set.SomeOnce(some, records, func(res *rules.Result) {
			for i := range res.Findings {
				f := &res.Findings[i]
				at := slices.IndexFunc(b.changed, func(c swayed) bool { return c.rule == f.Rule })
				got[at] = Standing{Applied: true, Verdict: f.Verdict}
			}
		})
	})
	b.tried[set] = got
	return got
}

// between gives the facts of the mix in which these differences are taken over.
func (b *blame) between(set uint64) figures.Facts {
	var kinds uint64
	anew := false
	for i, d := range b.parts {
		if set&(1<<i) != 0 {
			anew = anew || d.Bench
			kinds |= d.kinds()
		}
	}
	taken := []*rules.Record{b.bench(kinds, anew)}
	for rest := kinds; rest != 0; rest &= rest - 1 {
		taken = append(taken, b.after.facts.Part(bits.TrailingZeros64(rest))) // nil for what is not there any more
	}
	facts := b.before.facts.With(taken...)
	for rest := kinds; rest != 0; rest &= rest - 1 {
		if i := bits.TrailingZeros64(rest); b.after.facts.Part(i) == nil {
			facts = facts.Without(i)
		}
	}
	return facts
}

// bench takes each measured fact from the mix whose parts it was measured on,
// and from neither where it belongs to parts of both.
func (b *blame) bench(kinds uint64, anew bool) *rules.Record {
	before, after := b.before.facts.Bench(), b.after.facts.Bench()
	if before == after {
		return before
	}
	values := make([]fact.Value, len(figures.Bench.Table().Fields()))
	for i := range values {
		on := figures.MeasuredOn(i) & b.kinds
		switch {
		case on == 0 && anew || on != 0 && on&^kinds == 0:
			values[i] = *after.At(i)
		case on&kinds == 0:
			values[i] = *before.At(i)
		}
	}
	return figures.Bench.NewRecord(values, nil)
}

// sway gives the differences that a rule can see: through the facts that it hangs
// on, and through what was measured on the parts.
func (b *blame) sway(rule *rules.Rule) uint64 {
	p := b.checker.printed.rule(rule)
	var out uint64
	for i, d := range b.parts {
		if d.kinds()&p.touched != 0 || d.Bench && p.bench {
			out |= 1 << i
		}
	}
	return out
}

package compat

import (
	"cmp"
	"math/bits"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// difference is something that two mixes do not share and that can be left out:
// the part of a kind, a line of a cart, which may bring several, or facts that
// were measured anew on the same parts.
type difference struct {
	name  string
	line  int   // of a cart, from 1; 0 for none
	kinds []int // the places of the parts that it brings
	bench bool
}

// differences finds what two mixes do not share. A part of another reading that
// states the same is no difference.
func differences(before, after Mix) []difference {
	before, after = before.clone(), after.clone()
	var out []difference
	var kinds uint64
	for i := range kindCount {
		if !sameRecord(before.records[i], after.records[i]) {
			kinds |= 1 << i
			out = append(out, difference{name: catalog.KindNames()[i], kinds: []int{i}})
		}
	}
	a, b := before.records[benchPlace], after.records[benchPlace]
	for i := range bench.Table().Fields() {
		if measuredOnKinds[i]&kinds == 0 && !sameValue(a.At(i), b.At(i)) {
			return append(out, difference{name: "bench", bench: true})
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
	return a.Known == b.Known && a.Assumed == b.Assumed && a.Num == b.Num && a.Tol == b.Tol && a.Text == b.Text &&
		slices.Equal(a.List, b.List) && slices.Equal(a.Tols, b.Tols)
}

// blame finds what brings a change about, by checking mixes that lie between the
// two: the first mix with some of the differences taken over.
type blame struct {
	before, after Mix
	checker       *Checker // nil where nothing can be told
	parts         []difference
	kinds         uint64                    // all kinds that differ
	tried         map[uint64]map[string]int // levels by the differences taken over
}

// newBlame prepares for the causes. Two reports of different rules may differ
// because of these, which leaving parts out does not show: then there are none.
func newBlame(before, after Report, parts []difference) *blame {
	b := &blame{before: before.Mix.clone(), after: after.Mix.clone(), parts: parts, tried: map[uint64]map[string]int{}}
	if after.checker.set.Hash() == before.checker.set.Hash() {
		b.checker = after.checker
	}
	for _, d := range parts {
		b.kinds |= d.kindSet()
	}
	return b
}

func (d difference) kindSet() uint64 {
	var out uint64
	for _, k := range d.kinds {
		out |= 1 << k
	}
	return out
}

// mostTogether is how many differences are tried in all their combinations: 256
// checks. With more, one set is found by leaving them out one by one.
const mostTogether = 8

// causes finds the least sets of differences that bring a rule from one level to
// the other, or past it.
func (b *blame) causes(f *ChangedFinding, rule *rules.Rule, from, to int) {
	if b.checker == nil || from == to {
		return
	}
	reached := func(set uint64) bool {
		l := level(b.levels(set), rule.ID)
		return to < from && l <= to || to > from && l >= to
	}
	seen := b.sway(rule)
	var sets []uint64
	if bits.OnesCount64(seen) <= mostTogether {
		sets = leastSets(seen, reached)
	} else {
		sets = []uint64{leaveOut(seen, reached)}
	}
	for _, set := range sets {
		var names []string
		var lines []int
		for i, d := range b.parts {
			if set&(1<<i) != 0 {
				names, lines = append(names, d.name), append(lines, d.line)
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

// levels checks the mix in which these differences are taken over.
func (b *blame) levels(set uint64) map[string]int {
	if got, ok := b.tried[set]; ok {
		return got
	}
	got := b.checker.Check(b.between(set)).levels()
	b.tried[set] = got
	return got
}

// between makes the mix in which these differences are taken over.
func (b *blame) between(set uint64) Mix {
	m := b.before.clone()
	var kinds uint64
	anew := false
	for i, d := range b.parts {
		if set&(1<<i) == 0 {
			continue
		}
		anew = anew || d.bench
		kinds |= d.kindSet()
		for _, k := range d.kinds {
			m.parts[k], m.records[k] = b.after.parts[k], b.after.records[k]
		}
	}
	m.records[benchPlace] = b.bench(kinds, anew)
	m.loose = looseFacts(m.records)
	return m
}

// bench takes each measured fact from the mix whose parts it was measured on,
// and from neither where it belongs to parts of both.
func (b *blame) bench(kinds uint64, anew bool) *rules.Record {
	before, after := b.before.records[benchPlace], b.after.records[benchPlace]
	if before == after {
		return before
	}
	values := make([]fact.Value, len(bench.Table().Fields()))
	for i := range values {
		on := measuredOnKinds[i] & b.kinds
		switch {
		case on == 0 && anew || on != 0 && on&^kinds == 0:
			values[i] = *after.At(i)
		case on&kinds == 0:
			values[i] = *before.At(i)
		}
	}
	return bench.NewRecord(values, nil)
}

// sway gives the differences that a rule can see: through its facts, through
// figures, and through what was measured on the parts.
func (b *blame) sway(rule *rules.Rule) uint64 {
	var kinds uint64
	anew := false
	see := func(place, field int) {
		if place == benchPlace {
			anew = true
			kinds |= measuredOnKinds[field]
			return
		}
		kinds |= 1 << place
	}
	set := b.checker.set
	for _, ref := range set.Reads(rule) {
		if ref.Object == figureObject {
			seeFigure(ref.Index, see)
			continue
		}
		place, _ := set.Vocabulary().Index(ref.Object.Name())
		see(place, ref.Index)
	}
	var out uint64
	for i, d := range b.parts {
		if d.kindSet()&kinds != 0 || d.bench && anew {
			out |= 1 << i
		}
	}
	return out
}

// seeFigure names every fact that a figure is worked out from.
func seeFigure(i int, see func(place, field int)) {
	for _, in := range figureTable[i].reads {
		see(in.place, in.field)
	}
	for _, j := range figureTable[i].figures {
		seeFigure(j, see)
	}
}

package cart

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
)

// mostWays bounds the ways in which lines are tried on bicycles, and so the time
// that a cart can take: a few tenths of a second.
const mostWays = 4096

// batch is lines of a cart that bring the same and do not say for which bicycle.
type batch struct {
	lines []int
	parts []catalog.Part
	count int // on how many bicycles they go
}

// pairFree pairs the lines that say no bicycle, where there are several: it
// counts the faults in all ways that the bicycles have room for.
func (p *pairing) pairFree(ctx context.Context, free []int) error {
	batches := p.withRoom(p.batches(free))
	if len(batches) == 0 {
		return nil
	}
	s := search{p: p, batches: batches, faults: map[[2]uint64]int{}, best: -1, seen: make([][]uint64, len(batches))}
	s.touched = p.checker.Touched(kindsOf(batches)...)
	if !s.feasible() {
		p.giveUp(batches, "there are too many ways to pair the lines with the bicycles; say for which one this is")
		return nil
	}
	if err := s.try(ctx, make([]uint64, 0, len(batches))); err != nil {
		return err
	}
	if s.best < 0 {
		p.giveUp(batches, "the lines bring more parts of one kind than there are bicycles; say for which one this is")
		return nil
	}
	s.decide()
	return nil
}

// kindsOf lists the kinds of all that batches bring.
func kindsOf(batches []batch) []string {
	var out []string
	for _, b := range batches {
		for _, part := range b.parts {
			out = append(out, part.Kind())
		}
	}
	return out
}

// decide fits the batches that all the best ways put in one place, if they bring
// no fault there. One that brings a fault everywhere belongs nowhere for sure: a
// hub may fail on the right bicycle for its freehub, and on the wrong one for its
// width.
func (s *search) decide() {
	brings := make([]bool, len(s.batches)) // before any is fitted, which the counts rest on
	for i := range s.batches {
		without := slices.Clone(s.way)
		without[i] = 0
		brings[i] = s.faultsOfAll(without) < s.best
	}
	for i, b := range s.batches {
		switch sets := s.seen[i]; {
		case len(sets) > 1:
			s.p.giveUp(s.batches[i:i+1], "it goes as well with "+s.p.bikeNames(sets)+"; say for which one it is")
		case brings[i] && b.count < len(s.p.bikes):
			s.p.giveUp(s.batches[i:i+1], "it brings a fault on every bicycle; say for which one it is")
		default:
			s.p.fitBatch(b, sets[0])
		}
	}
}

// batches puts lines together that bring the same.
func (p *pairing) batches(free []int) []batch {
	var out []batch
	for _, i := range free {
		at := slices.IndexFunc(out, func(b batch) bool { return slices.Equal(b.parts, p.parts[i]) })
		if at < 0 {
			at = len(out)
			out = append(out, batch{parts: p.parts[i]})
		}
		out[at].lines = append(out[at].lines, i)
		out[at].count = min(out[at].count+p.lines[i].Quantity, len(p.bikes))
	}
	return out
}

// withRoom keeps the batches that the bicycles have room for. Those of a kind of
// which there is more are ambiguous.
func (p *pairing) withRoom(batches []batch) []batch {
	wanted, room := map[string]int{}, map[string]int{}
	for _, b := range batches {
		for _, part := range b.parts {
			wanted[part.Kind()] += b.count
		}
	}
	for kind := range wanted {
		for bike := range p.bikes {
			if p.free(bike, kind) {
				room[kind]++
			}
		}
	}
	return slices.DeleteFunc(batches, func(b batch) bool {
		for _, part := range b.parts {
			kind := part.Kind()
			if wanted[kind] > room[kind] {
				kind = strings.ReplaceAll(kind, "_", " ")
				p.giveUp([]batch{b}, fmt.Sprintf("%d of the kind %s for %d bicycles without one yet; say for which one this is",
					wanted[part.Kind()], kind, room[part.Kind()]))
				return true
			}
		}
		return false
	})
}

// free says whether no line for a bicycle brings a part of the kind.
func (p *pairing) free(bike int, kind string) bool {
	for _, i := range p.fitted[bike] {
		if slices.ContainsFunc(p.parts[i], func(part catalog.Part) bool { return part.Kind() == kind }) {
			return false
		}
	}
	return true
}

// giveUp names all lines of batches as ambiguous.
func (p *pairing) giveUp(batches []batch, note string) {
	for _, b := range batches {
		for _, i := range b.lines {
			p.ambiguous(i, note)
		}
	}
}

// fitBatch fits lines to the bicycles of a set, one after the other.
func (p *pairing) fitBatch(b batch, set uint64) {
	left := 0
	at := -1
	for bike := range p.bikes {
		if set&(1<<bike) == 0 {
			continue
		}
		for left == 0 {
			at++
			left = p.lines[b.lines[at]].Quantity
		}
		p.fit(bike, b.lines[at])
		left--
	}
	if b.count < len(p.bikes) {
		for _, i := range b.lines {
			p.lines[i].Note = "paired by trying: elsewhere it brings a fault"
		}
	}
}

// bikeNames names all bicycles of sets.
func (p *pairing) bikeNames(sets []uint64) string {
	var all uint64
	for _, set := range sets {
		all |= set
	}
	var names []string
	for bike := range p.bikes {
		if all&(1<<bike) != 0 {
			names = append(names, p.bikeName(bike))
		}
	}
	return strings.Join(names, " as with ")
}

// search tries batches on bicycles.
type search struct {
	p       *pairing
	batches []batch
	touched compat.Touched    // counts them, but for what fails whichever way the batches go
	faults  map[[2]uint64]int // of a bicycle with a set of batches
	best    int               // the fewest faults of all bicycles; -1 before any way was found
	way     []uint64          // one of the best: where it puts each batch
	seen    [][]uint64        // the bicycles that each batch goes to in the best ways
}

// feasible says whether the ways are few enough, and the bicycles and batches fit
// into sets.
func (s *search) feasible() bool {
	if len(s.p.bikes) > 64 || len(s.batches) > 64 {
		return false
	}
	ways := 1
	for _, b := range s.batches {
		chosen := 1
		for k := range min(b.count, len(s.p.bikes)-b.count) { // exact: a product of k+1 numbers in a row holds (k+1)!
			if chosen = chosen * (len(s.p.bikes) - k) / (k + 1); chosen > mostWays {
				return false
			}
		}
		if ways *= chosen; ways > mostWays {
			return false
		}
	}
	return true
}

// try puts the next batch on each set of bicycles that has room for it.
func (s *search) try(ctx context.Context, chosen []uint64) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	at := len(chosen)
	if at == len(s.batches) {
		s.judge(chosen)
		return nil
	}
	n := len(s.p.bikes)
	return subsets(n, s.batches[at].count, func(set uint64) error {
		if !s.room(chosen, set) {
			return nil
		}
		return s.try(ctx, append(chosen, set))
	})
}

// subsets gives every set of so many of n bicycles.
func subsets(n, size int, each func(uint64) error) error {
	var choose func(from, left int, set uint64) error
	choose = func(from, left int, set uint64) error {
		if left == 0 {
			return each(set)
		}
		for i := from; i <= n-left; i++ {
			if err := choose(i+1, left-1, set|1<<i); err != nil {
				return err
			}
		}
		return nil
	}
	return choose(0, size, 0)
}

// room says whether the next batch can go on all bicycles of a set.
func (s *search) room(chosen []uint64, set uint64) bool {
	next := s.batches[len(chosen)]
	for i, other := range chosen {
		if other&set != 0 && clash(s.batches[i].parts, next.parts) != "" {
			return false
		}
	}
	for bike := range s.p.bikes {
		if set&(1<<bike) == 0 {
			continue
		}
		for _, part := range next.parts {
			if !s.p.free(bike, part.Kind()) {
				return false
			}
		}
	}
	return true
}

// judge counts the faults of all bicycles in one way, and keeps the best ways.
func (s *search) judge(chosen []uint64) {
	sum := s.faultsOfAll(chosen)
	if s.best >= 0 && sum > s.best {
		return
	}
	if s.best < 0 || sum < s.best {
		s.best, s.way = sum, slices.Clone(chosen)
		for i := range s.seen {
			s.seen[i] = nil
		}
	}
	for i, set := range chosen {
		if !slices.Contains(s.seen[i], set) {
			s.seen[i] = append(s.seen[i], set)
		}
	}
}

// faultsOfAll counts what fails on all bicycles.
func (s *search) faultsOfAll(chosen []uint64) int {
	sum := 0
	for bike := range s.p.bikes {
		sum += s.faultsOf(bike, chosen)
	}
	return sum
}

// faultsOf counts what fails on a bicycle with the batches that are for it.
func (s *search) faultsOf(bike int, chosen []uint64) int {
	var on uint64
	for i, set := range chosen {
		if set&(1<<bike) != 0 {
			on |= 1 << i
		}
	}
	key := [2]uint64{uint64(bike), on}
	if n, ok := s.faults[key]; ok {
		return n
	}
	parts := s.p.partsFor(bike)
	for i := range chosen {
		if on&(1<<i) != 0 {
			parts = append(parts, s.batches[i].parts...)
		}
	}
	n := s.touched.Faults(s.p.bikes[bike].Refit(parts...))
	s.faults[key] = n
	return n
}

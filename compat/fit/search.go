package fit

import (
	"context"
	"slices"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// search looks for the cheapest choices that a set of rules allows. It is for one
// question.
type search struct {
	ix     *Index
	ctx    context.Context
	query  *Query
	base   compat.Mix
	judge  *compat.Judge
	bench  map[uint64]compat.Mix // by the kinds that keep their part: see measured
	vars   []variable
	tables []table
	every  []int // the tables over several kinds, those with few shapes first
	allow  allowance
	any    bool // it is enough to know whether there is a choice

	limit, nodes int
	until        int           // the steps at which this round ends
	last         rules.Finding // what was decided last
	cut          bool
	err          error

	chosen []int   // by the kinds: the candidate; -1 where none is chosen yet
	dead   []set   // by the kinds: candidates that go with nothing
	best   []found // within this allowance
	found  []found // within those before
}

// found is a choice: a candidate of each kind.
type found struct {
	parts []int   // by their places among all
	alike [][]int // and others that do as well
	cost  cost
	warns []int // the tables that warn
	open  []int // and that are open

	passes int // how many pass
}

// searching makes a search over kinds. Where fitted, the parts of the mix are candidates
// too.
func (ix *Index) searching(ctx context.Context, q *Query, fitted bool) *search {
	s := &search{ix: ix, ctx: ctx, query: q, base: q.Mix, bench: map[uint64]compat.Mix{}}
	for _, kind := range q.Kinds {
		v := ix.variable(q, kind, fitted)
		v.number = len(s.vars)
		s.vars = append(s.vars, v)
	}
	s.chosen = make([]int, len(s.vars))
	s.judge = ix.checker.Judge(q.Mix)
	for i := range s.vars { // each kind is there in every choice, whatever becomes of it
		if all := s.vars[i].all; len(all) > 0 {
			s.judge.Put(all[0].part)
		}
	}
	s.tabled()
	return s
}

// close gives memory back.
func (s *search) close() { s.judge.Close() }

// run looks for choices within an allowance, beside those that were found. Each run
// has the whole budget.
func (s *search) run(allow allowance) {
	s.allow, s.nodes, s.best, s.limit = allow, 0, s.best[:0], s.query.Limit-len(s.found)
	if s.any {
		s.limit, s.found, s.cut = 1, nil, false
	}
	if s.prepare() {
		at := state{make([]set, len(s.vars)), make([]uint64, len(s.vars))}
		s.dead = make([]set, len(s.vars))
		for v := range s.vars {
			n := len(s.vars[v].cands)
			at.domains[v], s.dead[v], s.chosen[v] = full(n), full(n).none(), -1
		}
		if next, empty := s.narrowed(at, s.every); empty < 0 {
			s.restarting(next)
		}
	}
	s.found = append(s.found, s.best...)
}

// firstRound is how many steps a search takes before it begins anew, with what it has
// learned of which rules are hard; each round is twice as long.
const firstRound = 64

// restarting descends until a round comes to its end.
func (s *search) restarting(at state) {
	for round := firstRound; ; round *= 2 {
		s.until = s.nodes + round
		if s.descend(at, cost{}, len(s.vars)); s.nodes < s.until || s.cut || s.err != nil {
			return
		}
	}
}

// stopped says whether the search is to end, or to begin anew, and notes why.
func (s *search) stopped() bool {
	switch {
	case s.err != nil || s.any && len(s.best) > 0:
		return true
	case s.nodes >= s.query.Budget:
		s.cut = true
		return true
	case s.nodes >= s.until:
		return true
	}
	if s.nodes%64 == 0 {
		s.err = s.ctx.Err()
	}
	return s.err != nil
}

// state is what is left of every kind, and why no more is: the kinds whose choice took
// something away, as a set.
type state struct {
	domains []set
	because []uint64
}

// unknown is the reason of what is not for the rules alone to say: that there is a
// choice already, that it is too dear, or that the search ends.
const unknown = ^uint64(0)

// descend chooses a candidate of one more kind, the cheapest first, and goes on with
// what is left of the others. It gives the kinds whose choice is why nothing came of
// it: where the last chosen is none of these, another candidate of it is no help.
func (s *search) descend(at state, spent cost, left int) (because uint64) {
	v := s.hardest(at.domains)
	rest := spent // what is spent at least with a candidate of v, without its own price
	for u, d := range at.domains {
		if s.chosen[u] < 0 && u != v {
			rest = rest.plus(s.vars[u].cands[d.next(0)].cost)
		}
	}
	because = at.because[v]
	cands := s.vars[v].cands
	for c := at.domains[v].next(0); c >= 0; c = at.domains[v].next(c + 1) {
		total := rest.plus(cands[c].cost)
		if s.hopeless(total) || s.stopped() {
			return unknown
		}
		if s.dead[v].has(c) {
			continue
		}
		s.nodes++
		why := unknown
		if after := spent.plus(cands[c].cost); !s.dear(after) {
			s.chosen[v] = c
			switch refused := s.late(v); {
			case refused != 0:
				why = refused
			case left == 1:
				s.take(total)
			default:
				why = s.further(at, v, after, left-1)
			}
			s.chosen[v] = -1
		}
		switch {
		case why&(1<<v) == 0:
			return why
		case why == 1<<v:
			s.dead[v].add(c)
		}
		because |= why &^ (1 << v)
	}
	return because
}

// late asks the rules that are left until all of their kinds are chosen, v last: those
// over many kinds that have refused nothing yet, which most never do. It gives the kinds
// of one that refuses, and asks that one early from then on.
func (s *search) late(v int) (because uint64) {
	for _, i := range s.vars[v].tables {
		t := &s.tables[i]
		if t.wide && !t.without && s.asked(t) == 0 && !s.allows(t, s.says(t)) {
			t.early = true
			t.weight++
			return s.chosenOf(t)
		}
	}
	return 0
}

// further goes on beside the chosen candidate of v.
func (s *search) further(at state, v int, spent cost, left int) (because uint64) {
	next, empty := s.narrowed(at, s.vars[v].tables)
	if empty >= 0 {
		return next.because[empty]
	}
	return s.descend(next, spent, left)
}

// hopeless says whether choices of this price come too late.
func (s *search) hopeless(c cost) bool {
	return len(s.best) == s.limit && c.compare(s.best[len(s.best)-1].cost) >= 0
}

// dear says whether more is spent than may be.
func (s *search) dear(c cost) bool { return s.query.Spend > 0 && c.cents > s.query.Spend }

// hardest gives the kind with the fewest candidates for the rules that are still to be
// asked of it, each of which counts as often as it left nothing before; the first of
// equals.
func (s *search) hardest(domains []set) int {
	var best float64
	at := -1
	for v, d := range domains {
		if s.chosen[v] >= 0 {
			continue
		}
		weight := 1.0
		for _, i := range s.vars[v].tables {
			if t := &s.tables[i]; !t.without && s.asked(t) > 1 {
				weight += t.weight
			}
		}
		if size := float64(d.size()) / weight; at < 0 || size < best {
			best, at = size, v
		}
	}
	return at
}

// asked counts the kinds of a rule that are not chosen yet.
func (s *search) asked(t *table) int {
	n := 0
	for _, v := range t.vars {
		if s.chosen[v] < 0 {
			n++
		}
	}
	return n
}

// narrowed gives what some rules leave of the kinds that are not chosen yet beside those
// that are, and of which kind nothing is left, -1 for none.
func (s *search) narrowed(at state, tables []int) (next state, empty int) {
	next = state{slices.Clone(at.domains), slices.Clone(at.because)}
	var copied uint64
	for _, i := range tables {
		t := &s.tables[i]
		if t.without || t.wide && !t.early {
			continue
		}
		for _, u := range t.vars {
			if s.chosen[u] >= 0 || !s.few(t, u) {
				continue
			}
			if copied&(1<<u) == 0 {
				next.domains[u] = slices.Clone(next.domains[u])
				copied |= 1 << u
			}
			if s.sift(t, u, next.domains[u]) {
				next.because[u] |= s.chosenOf(t)
			}
			if next.domains[u].empty() {
				t.weight++
				return next, u
			}
		}
	}
	return next, -1
}

// chosenOf gives the kinds of a rule that are chosen.
func (s *search) chosenOf(t *table) uint64 {
	var out uint64
	for _, v := range t.vars {
		if s.chosen[v] >= 0 {
			out |= 1 << v
		}
	}
	return out
}

// fewShapes is how many shapes of kinds that are not chosen yet are tried beside those
// that are.
const fewShapes = 4

// few says whether u is the only kind of a rule that is not chosen yet, or the others
// look so much alike to it that all of their shapes can be tried.
func (s *search) few(t *table, u int) bool {
	n := 1
	for i, v := range t.vars {
		if v == u || s.chosen[v] >= 0 {
			continue
		}
		if n *= len(t.samples[i]); n == 0 || n > fewShapes {
			return false
		}
	}
	return true
}

// sift takes out the candidates of a kind that a rule refuses beside those that are
// chosen, whichever shape the kinds have that are not, and says whether there are any. It
// asks once for each shape.
func (s *search) sift(t *table, u int, domain set) (some bool) {
	v := &s.vars[u]
	seen := make([]verdict, s.shapes(t, v))
	for c := domain.next(0); c >= 0; c = domain.next(c + 1) {
		s.chosen[u] = c
		at := &seen[s.shape(t, v, &v.cands[c])]
		if *at == unasked {
			if *at = fails; s.some(t, 0) {
				*at = fine
			}
		}
		if *at == fails {
			domain.drop(c)
			some = true
		}
	}
	s.chosen[u] = -1
	return some
}

// some says whether a rule allows what is chosen with some shape of each of its kinds,
// from the i-th on, that is not.
func (s *search) some(t *table, i int) bool {
	for ; i < len(t.vars); i++ {
		v := t.vars[i]
		if s.chosen[v] >= 0 {
			continue
		}
		for _, c := range t.samples[i] {
			s.chosen[v] = c
			ok := s.some(t, i+1)
			s.chosen[v] = -1
			if ok {
				return true
			}
		}
		return false
	}
	return s.allows(t, s.says(t))
}

// take keeps the choice that is made, if it is among the best.
func (s *search) take(total cost) {
	f := found{cost: total}
	for v, c := range s.chosen {
		cand := &s.vars[v].cands[c]
		f.parts, f.alike = append(f.parts, cand.at), append(f.alike, cand.alike)
	}
	same := func(o found) bool { return slices.Equal(o.parts, f.parts) }
	if slices.ContainsFunc(s.found, same) || slices.ContainsFunc(s.best, same) {
		return
	}
	for i := range s.tables {
		if t := &s.tables[i]; !t.without {
			switch s.says(t) {
			case warns:
				f.warns = append(f.warns, i)
			case open:
				f.open = append(f.open, i)
			case fine:
				f.passes++
			}
		}
	}
	at, _ := slices.BinarySearchFunc(s.best, f, func(a, b found) int {
		if n := a.cost.compare(b.cost); n != 0 {
			return n
		}
		return -1 // behind its equals
	})
	if s.best = slices.Insert(s.best, at, f); len(s.best) > s.limit {
		s.best = s.best[:s.limit]
	}
}

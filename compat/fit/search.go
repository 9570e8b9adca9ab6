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
	allow  allowance
	any    bool // it is enough to know whether there is a choice

	limit, budget    int
	nodes, decisions int
	last             rules.Finding // what was decided last
	cut              bool
	err              error

	chosen []int   // by the kinds: the candidate; -1 where none is chosen yet
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
}

// searching makes a search over kinds. Where fitted, the parts of the mix are candidates
// too.
func (ix *Index) searching(ctx context.Context, q *Query, fitted bool) *search {
	s := &search{ix: ix, ctx: ctx, query: q, base: q.Mix, bench: map[uint64]compat.Mix{}}
	for _, kind := range q.Kinds {
		s.vars = append(s.vars, ix.variable(q, kind, fitted))
	}
	s.chosen = make([]int, len(s.vars))
	s.tabled()
	s.judge = ix.checker.Judge(q.Mix)
	for i := range s.vars { // each kind is there in every choice, whatever becomes of it
		if all := s.vars[i].all; len(all) > 0 {
			s.judge.Put(all[0].part)
		}
	}
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
		domains := make([]set, len(s.vars))
		for v := range s.vars {
			domains[v], s.chosen[v] = full(len(s.vars[v].cands)), -1
		}
		s.descend(domains, cost{}, len(s.vars))
	}
	s.found = append(s.found, s.best...)
}

// stopped says whether the search is to end, and notes why.
func (s *search) stopped() bool {
	switch {
	case s.err != nil || s.any && len(s.best) > 0:
		return true
	case s.nodes >= s.query.Budget:
		s.cut = true
		return true
	}
	if s.nodes%64 == 0 {
		s.err = s.ctx.Err()
	}
	return s.err != nil
}

// descend chooses a candidate of one more kind, the cheapest first, and goes on with
// what is left of the others.
func (s *search) descend(domains []set, spent cost, left int) {
	v := s.hardest(domains)
	rest := spent // what is spent at least with a candidate of v, without its own price
	for u, d := range domains {
		if s.chosen[u] < 0 && u != v {
			rest = rest.plus(s.vars[u].cands[d.next(0)].cost)
		}
	}
	cands := s.vars[v].cands
	for c := domains[v].next(0); c >= 0; c = domains[v].next(c + 1) {
		total := rest.plus(cands[c].cost)
		if s.hopeless(total) {
			return
		}
		if s.stopped() {
			return
		}
		s.nodes++
		if s.dear(spent.plus(cands[c].cost)) {
			continue
		}
		s.chosen[v] = c
		if left == 1 {
			s.take(total)
		} else if next, ok := s.narrowed(domains, v); ok {
			s.descend(next, spent.plus(cands[c].cost), left-1)
		}
		s.chosen[v] = -1
	}
}

// hopeless says whether choices of this price come too late.
func (s *search) hopeless(c cost) bool {
	return len(s.best) == s.limit && c.compare(s.best[len(s.best)-1].cost) >= 0
}

// dear says whether more is spent than may be.
func (s *search) dear(c cost) bool { return s.query.Spend > 0 && c.cents > s.query.Spend }

// hardest gives the kind with the fewest candidates for each of its rules.
func (s *search) hardest(domains []set) int {
	best, at := 0.0, -1
	for v, d := range domains {
		if s.chosen[v] >= 0 {
			continue
		}
		if size := float64(d.size()) / float64(1+len(s.vars[v].tables)); at < 0 || size < best {
			best, at = size, v
		}
	}
	return at
}

// narrowed gives what is left of the kinds that are not chosen yet beside the chosen
// candidate of v; false where nothing is left of one.
func (s *search) narrowed(domains []set, v int) ([]set, bool) {
	next := slices.Clone(domains)
	var copied uint64
	for _, i := range s.vars[v].tables {
		t := &s.tables[i]
		u := s.lastOf(t)
		if u < 0 || t.without {
			continue
		}
		if copied&(1<<u) == 0 {
			next[u] = slices.Clone(next[u])
			copied |= 1 << u
		}
		if s.sift(t, u, next[u]); next[u].empty() {
			return nil, false
		}
	}
	return next, true
}

// lastOf gives the only kind of a rule that is not chosen yet; -1 where there are more,
// or none.
func (s *search) lastOf(t *table) int {
	last := -1
	for _, v := range t.vars {
		if s.chosen[v] >= 0 {
			continue
		}
		if last >= 0 {
			return -1
		}
		last = v
	}
	return last
}

// sift takes out the candidates of a kind that a rule refuses beside those that are
// chosen. It asks once for each shape.
func (s *search) sift(t *table, u int, domain set) {
	var seen []verdict
	if len(t.vars) > 2 {
		seen = make([]verdict, s.shapes(t, &s.vars[u]))
	}
	for c := domain.next(0); c >= 0; c = domain.next(c + 1) {
		s.chosen[u] = c
		var says verdict
		if seen == nil {
			says = s.says(t)
		} else if at := &seen[s.shape(t, &s.vars[u], &s.vars[u].cands[c])]; *at != unasked {
			says = *at
		} else {
			says = s.says(t)
			*at = says
		}
		if !s.allows(t, says) {
			domain.drop(c)
		}
	}
	s.chosen[u] = -1
}

// take keeps the choice that is made, if it is among the best.
func (s *search) take(total cost) {
	f := found{cost: total}
	for v, c := range s.chosen {
		cand := &s.vars[v].cands[c]
		f.parts, f.alike = append(f.parts, cand.at), append(f.alike, cand.alike)
	}
	if slices.ContainsFunc(s.found, func(o found) bool { return slices.Equal(o.parts, f.parts) }) {
		return
	}
	for i := range s.tables {
		if t := &s.tables[i]; !t.without {
			switch s.says(t) {
			case warns:
				f.warns = append(f.warns, i)
			case open:
				f.open = append(f.open, i)
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

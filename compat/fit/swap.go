package fit

import (
	"context"
	"fmt"
	"iter"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Mending is what would mend a mix that fails.
type Mending struct {
	Mix    string
	Fails  []string // the rules that fail now; none where there is nothing to mend
	Swaps  []Choice // the parts to exchange, the cheapest first; each exchanges as many
	Parts  int      // how many that are; 0 where there is no swap
	Fixed  []string // kinds of the mix that were not for exchange: left out, or with no part in the catalog
	None   bool     // it is proven that no exchange mends it
	Most   int      // how many parts were exchanged at most, where that is why there is no swap
	Cut    bool     // the budget ended a search: there may be a swap that was not found, or a cheaper one
	Blocks []string // with None: rules that cannot hold together whatever is exchanged
}

// The exchange of more parts than usualMost is another bicycle.
const usualMost = 3

// Swap finds the smallest exchange that mends a mix: the fewest parts, and of these the
// cheapest, after which nothing fails and no finding is open that was not open before.
// The frame stays; most bounds how many parts are exchanged, 0 stands for three.
func (ix *Index) Swap(ctx context.Context, m compat.Mix, most int) (Mending, error) {
	return ix.SwapBy(ctx, Query{Mix: m}, most)
}

// SwapBy is Swap with the Limit, Price, Spend and Budget of a query. Its Kinds are those
// for exchange, all of the mix but the frame where it names none; a kind that the mix
// has not is an error. Undecided allows swaps that leave something open which was not.
// Warnings are allowed, whatever the query says of them.
func (ix *Index) SwapBy(ctx context.Context, q Query, most int) (Mending, error) {
	if most <= 0 {
		most = usualMost
	}
	if len(ix.rules) == 0 {
		return Mending{}, errNoRules
	}
	w := swapping{ix: ix, ctx: ctx, report: ix.checker.Check(q.Mix), most: most}
	if err := w.begin(q); err != nil {
		return Mending{}, err
	}
	if len(w.out.Fails) > 0 {
		w.run()
	}
	return w.out, w.err
}

// swapping is the work on one mix.
type swapping struct {
	ix     *Index
	ctx    context.Context
	query  Query
	report compat.Report
	kinds  []string        // for exchange
	masks  []uint64        // of each fail the kinds for exchange that can change it, by their places among those
	open   map[string]bool // rules that are open now
	most   int
	out    Mending
	err    error
}

// begin finds out what fails, and what is for exchange.
func (w *swapping) begin(q Query) error {
	if err := q.fault(); err != nil {
		return err
	}
	for _, kind := range q.Kinds {
		if _, ok := q.Mix.Part(kind); !ok {
			return fmt.Errorf("fit: the mix has no %s to exchange", kind)
		}
	}
	q.Warnings = Allowed
	w.query = q.bounded()
	w.out.Mix, w.open = q.Mix.Name(), map[string]bool{}
	for _, p := range q.Mix.Parts() {
		kind := p.Kind()
		wanted := kind != "frame"
		if len(q.Kinds) > 0 {
			wanted = slices.Contains(q.Kinds, kind)
		}
		if wanted && w.ix.has(&q, kind) {
			w.kinds = append(w.kinds, kind)
		} else {
			w.out.Fixed = append(w.out.Fixed, kind)
		}
	}
	for _, v := range w.report.Verdicts() {
		switch v.Verdict {
		case rules.Unknown:
			w.open[v.Rule] = true
		case rules.Fail:
			w.out.Fails = append(w.out.Fails, v.Rule)
			w.masks = append(w.masks, w.mask(v.Rule))
		}
	}
	return nil
}

// has says whether any part of a kind is to be had.
func (ix *Index) has(q *Query, kind string) bool {
	place, _ := catalog.KindIndex(kind)
	return slices.ContainsFunc(ix.kinds[place].parts, func(p catalog.Part) bool { _, ok := q.priced(p); return ok })
}

// mask gives the kinds for exchange that can change a rule.
func (w *swapping) mask(id string) uint64 {
	at := slices.IndexFunc(w.ix.rules, func(r ruleReads) bool { return r.id == id })
	var out uint64
	for i, kind := range w.kinds {
		if place, _ := catalog.KindIndex(kind); w.ix.rules[at].reach&(1<<place) != 0 {
			out |= 1 << i
		}
	}
	return out
}

// run tries to exchange one part, then more. Where no single part does, it asks first
// whether anything does.
func (w *swapping) run() {
	if w.sized(1); w.err != nil || len(w.out.Swaps) > 0 || w.hopeless() {
		return
	}
	for size := 2; size <= min(w.most, len(w.kinds)); size++ {
		if w.sized(size); w.err != nil || len(w.out.Swaps) > 0 {
			return
		}
	}
	w.out.Most = w.most
}

// sized looks for exchanges of so many parts.
func (w *swapping) sized(size int) {
	for kinds := range subsets(len(w.kinds), size) {
		if w.err == nil && w.hits(kinds) {
			w.exchange(kinds)
		}
	}
	slices.SortStableFunc(w.out.Swaps, func(a, b Choice) int {
		return cost{a.Unpriced, a.Cents}.compare(cost{b.Unpriced, b.Cents})
	})
	if len(w.out.Swaps) > w.query.Limit {
		w.out.Swaps = w.out.Swaps[:w.query.Limit]
	}
	if len(w.out.Swaps) > 0 {
		w.out.Parts = size
	}
}

// subsets gives every set of so many of the numbers below n.
func subsets(n, size int) iter.Seq[uint64] {
	return func(yield func(uint64) bool) {
		if size > n {
			return
		}
		for s := uint64(1)<<size - 1; s < 1<<n; {
			if !yield(s) {
				return
			}
			low := s & -s // the next number with as many bits
			up := s + low
			s = up | (s^up)/low>>2
		}
	}
}

// hits says whether some of the kinds can change every fail.
func (w *swapping) hits(kinds uint64) bool {
	return !slices.ContainsFunc(w.masks, func(m uint64) bool { return m&kinds == 0 })
}

// exchange looks for other parts of these kinds.
func (w *swapping) exchange(kinds uint64) {
	s := w.searching(kinds, false)
	defer s.close()
	s.all()
	w.err, w.out.Cut = s.err, w.out.Cut || s.cut
	for _, f := range s.found {
		w.out.Swaps = append(w.out.Swaps, s.choice(f))
	}
}

// searching makes a search that leaves open what is open.
func (w *swapping) searching(kinds uint64, fitted bool) *search {
	q := w.query
	q.Kinds = nil
	for i, kind := range w.kinds {
		if kinds&(1<<i) != 0 {
			q.Kinds = append(q.Kinds, kind)
		}
	}
	s := w.ix.searching(w.ctx, &q, fitted)
	for i := range s.tables {
		s.tables[i].tolerated = w.open[s.ix.rules[s.tables[i].rule].id]
	}
	return s
}

// hopeless says whether it is proven that nothing mends the mix, and by which rules.
func (w *swapping) hopeless() bool {
	if fixed := slices.Index(w.masks, 0); fixed >= 0 {
		w.out.None, w.out.Blocks = true, []string{w.out.Fails[fixed]}
		return true
	}
	s := w.searching(1<<len(w.kinds)-1, true)
	defer s.close()
	proven := s.impossible()
	w.err = s.err
	if w.err != nil || !proven {
		return false
	}
	w.out.None, w.out.Blocks = true, s.blocking()
	w.err = s.err
	return true
}

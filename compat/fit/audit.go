package fit

import (
	"cmp"
	"context"
	"encoding/binary"
	"slices"

	"example.org/cogcourt/catalog"
)

// Audit says what in a catalog goes with what: every part with every part of another
// kind, where some rule looks at both kinds. Each pair is judged as Check judges a mix
// of these two parts alone.
type Audit struct {
	Parts    int        // in the catalog
	Pairs    []Pairs    // by two kinds, in the order of the kinds
	Alone    []Alone    // parts that go with none of another kind
	Facts    []Stated   // what to state, to decide most of what is open, the most useful first
	Partners []Partners // of every part, in the order of the catalog
}

// Pairs counts pairs of parts of two kinds by the worst finding.
type Pairs struct {
	Kinds  [2]string `json:"kinds" doc:"The two kinds."`
	Pass   int       `json:"pass" doc:"Pairs of which every finding passes."`
	Warn   int       `json:"warn" doc:"Pairs that warn."`
	Open   int       `json:"unknown" doc:"Pairs of which a finding is open and none fails."`
	Fail   int       `json:"fail" doc:"Pairs that fail."`
	Silent int       `json:"silent" doc:"Pairs of which no rule has anything to say."`
}

// Alone is a part that fails with every part of a kind.
type Alone struct {
	Part  catalog.Part
	With  string // the kind
	Parts int    // how many of that there are
}

// Stated is a fact that is missing, and how many open pairs are decided once it is
// stated of every part, beside those in front of it.
type Stated struct {
	Fact  string `json:"fact" doc:"Its name." pattern:"\\S"`
	Pairs int    `json:"pairs" doc:"Open pairs that are decided once it is stated, beside those above."`
	Open  int    `json:"unknown" doc:"Pairs that are open still."`
}

// Partners counts for a part those of every other kind with which nothing fails.
type Partners struct {
	Part catalog.Part
	With []Partner
}

// Partner is how many parts of a kind go with a part.
type Partner struct {
	Kind string `json:"kind" doc:"The other kind." pattern:"\\S"`
	Goes int    `json:"goes" doc:"So many of its parts go with it, or nothing speaks against it."`
	Of   int    `json:"of" doc:"So many there are."`
}

// Audit judges all pairs. The two thousand million of eight kinds with ten thousand parts
// each take about as long as checking forty thousand mixes; it ends with ctx.
func (ix *Index) Audit(ctx context.Context) (Audit, error) {
	if len(ix.rules) == 0 {
		return Audit{}, errNoRules
	}
	a := auditing{ix: ix, ctx: ctx, with: map[catalog.Part][]Partner{}, facts: map[string]int{}, open: map[string]int{}}
	a.out.Parts = ix.catalog.Len()
	for one := range ix.kinds {
		for other := one + 1; other < len(ix.kinds); other++ {
			if ix.joined(one, other) {
				a.pair(one, other)
			}
			if err := ctx.Err(); err != nil {
				return Audit{}, err
			}
		}
	}
	for _, p := range ix.catalog.Parts() {
		if with := a.with[p]; with != nil {
			a.out.Partners = append(a.out.Partners, Partners{p, with})
		}
	}
	a.asked()
	return a.out, nil
}

// joined says whether there are parts of both kinds, and a rule looks at both.
func (ix *Index) joined(one, other int) bool {
	return len(ix.kinds[one].parts) > 0 && len(ix.kinds[other].parts) > 0 && slices.ContainsFunc(ix.rules, func(r ruleReads) bool {
		return len(r.fields[one]) > 0 && len(r.fields[other]) > 0
	})
}

// auditing gathers an Audit.
type auditing struct {
	ix  *Index
	ctx context.Context
	out Audit

	with  map[catalog.Part][]Partner
	facts map[string]int // the numbers of missing facts
	names []string       // and their names
	open  map[string]int // how many pairs are open for want of each set of facts
}

// pair judges all parts of one kind with all of another.
func (a *auditing) pair(one, other int) {
	names := catalog.KindNames()
	q := Query{Kinds: []string{names[one], names[other]}}
	s := a.ix.searching(a.ctx, &q, false)
	defer s.close()
	p := newPairing(a, s)
	p.count.Kinds = [2]string{q.Kinds[0], q.Kinds[1]}
	first, second := p.groups(0), p.groups(1)
	for i := range first {
		if a.ctx.Err() != nil {
			return
		}
		for k := range second {
			p.meet(&first[i], &second[k])
		}
	}
	a.out.Pairs = append(a.out.Pairs, p.count)
	a.partners(s, 0, first)
	a.partners(s, 1, second)
}

// partners notes how many of the other kind go with each part.
func (a *auditing) partners(s *search, v int, groups []group) {
	with, of := s.vars[1-v].kind, s.vars[1-v].parts()
	kind := &a.ix.kinds[s.vars[v].place]
	for _, g := range groups {
		for _, c := range g.cands {
			for _, m := range kind.classes[c.class].members {
				p := kind.parts[m]
				a.with[p] = append(a.with[p], Partner{with, g.goes, of})
				if g.goes == 0 {
					a.out.Alone = append(a.out.Alone, Alone{p, with, of})
				}
			}
		}
	}
}

// setKey names a set of facts.
func setKey(facts []int) string {
	facts = slices.Sorted(slices.Values(facts))
	var key []byte
	for _, n := range facts {
		key = binary.AppendVarint(key, int64(n))
	}
	return string(key)
}

// ofKey gives the set that a key names.
func ofKey(key string) []int {
	var out []int
	for rest := []byte(key); len(rest) > 0; {
		n, size := binary.Varint(rest)
		out, rest = append(out, int(n)), rest[size:]
	}
	return out
}

// mostStated is how many facts are named.
const mostStated = 10

// asked finds the facts that decide the most: one after the other that which decides
// most together with those before it; where several do as well, that which is missing
// most often.
func (a *auditing) asked() {
	sets, left := map[string][]int{}, 0
	for key, n := range a.open {
		sets[key] = ofKey(key)
		left += n
	}
	for len(a.out.Facts) < mostStated {
		decides, missing := make([]int, len(a.names)), make([]int, len(a.names))
		for key, set := range sets {
			for _, n := range set {
				if n < 0 {
					continue
				}
				if missing[n] += a.open[key]; len(set) == 1 {
					decides[n] += a.open[key]
				}
			}
		}
		best := -1
		for n := range a.names {
			if missing[n] > 0 && (best < 0 || cmp.Or(decides[n]-decides[best], missing[n]-missing[best]) > 0) {
				best = n
			}
		}
		if best < 0 {
			return
		}
		left -= decides[best]
		a.out.Facts = append(a.out.Facts, Stated{a.names[best], decides[best], left})
		for key, set := range sets {
			sets[key] = slices.DeleteFunc(set, func(n int) bool { return n == best })
		}
	}
}

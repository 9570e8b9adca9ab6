package fit

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// verdict is what a rule says of parts together.
type verdict uint8

const (
	unasked verdict = iota
	quiet           // it is not applied
	fine
	warns
	open
	fails
)

// table is one rule over the kinds that are open, with what it was found to say.
type table struct {
	rule      int   // its place among the rules
	vars      []int // the kinds that can change it, by their places in the search
	tolerated bool  // it may be left open, for it is open already
	without   bool  // it is left out, to see what remains without it
	refused   bool  // it refused something

	one  []verdict   // of one kind: by the shapes
	rows [][]verdict // of two: by the shapes of the first, then of the second
}

// candidate is parts of one kind that the search takes as one.
type candidate struct {
	part   catalog.Part // the cheapest
	cost   cost
	at     int  // its place among all
	class  int  // of the index; -1 for the part that the mix has
	fitted bool // it is the part that the mix has
	count  int  // how many parts it stands for

	alike []int // others that no rule tells from it here, by their places among all
}

// variable is a kind to choose.
type variable struct {
	place  int
	kind   string
	same   catalog.Part // the mix's own, which is no other candidate where nothing was measured on it
	all    []candidate  // the cheapest first
	cands  []candidate  // what is left of them: see prepare
	tables []int        // that it can change, those with few shapes first
}

// shape is what a rule sees of a candidate.
func (s *search) shape(t *table, v *variable, c *candidate) int {
	k := &s.ix.kinds[v.place]
	switch {
	case c.fitted && k.shapes == nil:
		return 1
	case c.fitted:
		return k.shapes[t.rule].count
	case k.shapes[t.rule].of == nil:
		return 0
	}
	return int(k.shapes[t.rule].of[c.class])
}

// shapes counts what a rule can see of a kind, the part that the mix has counted apart.
func (s *search) shapes(t *table, v *variable) int {
	if k := &s.ix.kinds[v.place]; k.shapes != nil {
		return k.shapes[t.rule].count + 1
	}
	return 2
}

// decide asks a rule of candidates, one for each of its kinds.
func (s *search) decide(t *table, cands ...*candidate) verdict {
	var kept uint64
	for i, c := range cands {
		s.judge.Put(c.part)
		if c.fitted {
			kept |= 1 << s.vars[t.vars[i]].place
		}
	}
	s.judge.Measure(s.measured(kept))
	s.decisions++
	f, applied := s.judge.Rule(t.rule)
	s.last = f
	switch {
	case !applied:
		return quiet
	case f.Verdict == rules.Fail:
		return fails
	case f.Verdict == rules.Unknown:
		return open
	case f.Verdict == rules.Warn:
		return warns
	}
	return fine
}

// measured is the mix with what is still true of its measurements where these of its
// open kinds keep their parts.
func (s *search) measured(kept uint64) compat.Mix {
	m, ok := s.bench[kept]
	if !ok {
		var gone []string
		for _, v := range s.vars {
			if kept&(1<<v.place) == 0 {
				gone = append(gone, v.kind)
			}
		}
		m = s.base.Forget(gone...)
		s.bench[kept] = m
	}
	return m
}

// alone is what a rule over one open kind says of a candidate.
func (s *search) alone(t *table, c *candidate) verdict {
	v := &s.vars[t.vars[0]]
	if t.one == nil {
		t.one = make([]verdict, s.shapes(t, v))
	}
	at := &t.one[s.shape(t, v, c)]
	if *at == unasked {
		*at = s.decide(t, c)
	}
	return *at
}

// together is what a rule over two open kinds says of two candidates.
func (s *search) together(t *table, a, b *candidate) verdict {
	first, second := &s.vars[t.vars[0]], &s.vars[t.vars[1]]
	if t.rows == nil {
		t.rows = make([][]verdict, s.shapes(t, first))
	}
	row := &t.rows[s.shape(t, first, a)]
	if *row == nil {
		*row = make([]verdict, s.shapes(t, second))
	}
	at := &(*row)[s.shape(t, second, b)]
	if *at == unasked {
		*at = s.decide(t, a, b)
	}
	return *at
}

// says is what a rule says of the candidates that are chosen, one of each kind.
func (s *search) says(t *table) verdict {
	var few [16]*candidate
	cands := few[:0]
	for _, v := range t.vars {
		cands = append(cands, &s.vars[v].cands[s.chosen[v]])
	}
	switch len(cands) {
	case 1:
		return s.alone(t, cands[0])
	case 2:
		return s.together(t, cands[0], cands[1])
	}
	return s.decide(t, cands...)
}

// allows says whether a choice may have this finding.
func (s *search) allows(t *table, v verdict) bool {
	ok := t.without || v <= fine || v == warns && s.allow.warns || v == open && (s.allow.open || t.tolerated)
	t.refused = t.refused || !ok
	return ok
}

// tabled makes the tables of the rules that the open kinds can change, and tells each
// kind of its own.
func (s *search) tabled() {
	for i, r := range s.ix.rules {
		t := table{rule: i}
		for v := range s.vars {
			if r.reach&(1<<s.vars[v].place) != 0 {
				t.vars = append(t.vars, v)
			}
		}
		if len(t.vars) > 0 {
			s.tables = append(s.tables, t)
		}
	}
	for v := range s.vars {
		of := &s.vars[v]
		for i, t := range s.tables {
			if slices.Contains(t.vars, v) {
				of.tables = append(of.tables, i)
			}
		}
		slices.SortStableFunc(of.tables, func(a, b int) int { return s.work(&s.tables[a]) - s.work(&s.tables[b]) })
	}
}

// mostWork is more than any table asks for that is put in front of another.
const mostWork = 1 << 30

// work is how much there may be to decide by a rule.
func (s *search) work(t *table) int {
	n := 1
	for _, v := range t.vars {
		if n *= s.shapes(t, &s.vars[v]); n > mostWork {
			return mostWork
		}
	}
	return n
}

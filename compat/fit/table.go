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
	wide      bool  // it is over three kinds or more of which it sees more than one shape
	early     bool  // wide, it is asked before all of them are chosen: see late

	own     []shaping // by the places in the search: the shapes of its candidates; nil where those of the index do
	samples [][]int   // by its kinds: a candidate of each shape, none where they are many

	one  []verdict          // of one kind: by the shapes
	rows [][]verdict        // of two: by the shapes of the first, then of the second
	more map[uint64]verdict // of more: by the shapes of all, as digits of one number

	weight float64 // how often it left nothing of a kind, which is how hard it is
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
	number int // its place in the search
	place  int
	kind   string
	same   catalog.Part // the mix's own, which is no other candidate where nothing was measured on it
	all    []candidate  // the cheapest first
	cands  []candidate  // what is left of them: see prepare
	tables []int        // that it can change, those with few shapes first
}

// shape is what a rule sees of a candidate.
func (s *search) shape(t *table, v *variable, c *candidate) int {
	if t.own != nil {
		return int(t.own[v.number].of[c.at])
	}
	return s.raw(t, v, c)
}

// shapes counts what a rule can see of a kind.
func (s *search) shapes(t *table, v *variable) int {
	switch {
	case t.own != nil:
		return t.own[v.number].count
	case s.ix.kinds[v.place].shapes == nil:
		return 2
	}
	return s.ix.kinds[v.place].shapes[t.rule].count + 1
}

// raw is the shape of a candidate by the facts that a rule reads, that of the part which
// the mix has apart from all others.
func (s *search) raw(t *table, v *variable, c *candidate) int {
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
	key, room := uint64(0), uint64(1)
	for i, c := range cands {
		v := &s.vars[t.vars[i]]
		n := uint64(s.shapes(t, v))
		if key = key*n + uint64(s.shape(t, v, c)); room > 1<<62/n { // more than a number can tell apart
			return s.decide(t, cands...)
		}
		room *= n
	}
	says, ok := t.more[key]
	if !ok {
		says = s.decide(t, cands...)
		if t.more == nil {
			t.more = map[uint64]verdict{}
		}
		t.more[key] = says
	}
	return says
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
		t := table{rule: i, weight: 1}
		for v := range s.vars {
			if r.reach&(1<<s.vars[v].place) != 0 {
				t.vars = append(t.vars, v)
			}
		}
		if len(t.vars) > 0 {
			s.tables = append(s.tables, t)
		}
	}
	s.refine()
	for v := range s.vars {
		of := &s.vars[v]
		for i, t := range s.tables {
			if slices.Contains(t.vars, v) {
				of.tables = append(of.tables, i)
			}
		}
		slices.SortStableFunc(of.tables, s.easier)
	}
	for i := range s.tables {
		if t := &s.tables[i]; len(t.vars) > 1 {
			s.every = append(s.every, i)
			t.wide = s.seen(t) > 2
		}
	}
	slices.SortStableFunc(s.every, s.easier)
}

// seen counts the kinds of which a rule sees more than one shape.
func (s *search) seen(t *table) int {
	n := 0
	for _, v := range t.vars {
		if s.shapes(t, &s.vars[v]) > 1 {
			n++
		}
	}
	return n
}

// easier puts tables with few shapes first.
func (s *search) easier(a, b int) int { return s.work(&s.tables[a]) - s.work(&s.tables[b]) }

// sampled finds a candidate of each shape for every table over several kinds.
func (s *search) sampled() {
	for _, i := range s.every {
		t := &s.tables[i]
		t.samples = make([][]int, len(t.vars))
		for k, v := range t.vars {
			t.samples[k] = s.sample(t, &s.vars[v])
		}
	}
}

// sample gives a candidate of each shape; none where they are many.
func (s *search) sample(t *table, v *variable) []int {
	var out, met []int
	for c := range v.cands {
		shape := s.shape(t, v, &v.cands[c])
		if slices.Contains(met, shape) {
			continue
		}
		if len(met) == fewShapes {
			return nil
		}
		met, out = append(met, shape), append(out, c)
	}
	return out
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

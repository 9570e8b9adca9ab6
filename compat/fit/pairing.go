package fit

import (
	"encoding/binary"
	"slices"
)

// finding is what rules say of a pair, the worst of them, and what is missing.
type finding struct {
	says    verdict
	missing []int // the facts, by their numbers, of what is open; -1 for what no fact decides
}

// worse takes another finding in.
func (f *finding) worse(o finding) {
	f.says = max(f.says, o.says)
	for _, n := range o.missing {
		if !slices.Contains(f.missing, n) {
			f.missing = append(f.missing, n)
		}
	}
}

// pairing is the work on two kinds.
type pairing struct {
	to     *auditing
	s      *search
	joint  []int     // the tables over both kinds
	rows   [][][]int // of each of them by the shapes of both: the number of what it says, from 1
	said   []finding
	always finding // what is said whichever parts they are
	count  Pairs
}

// group is candidates of one kind that no rule over the two kinds tells apart.
type group struct {
	cands []*candidate
	parts int
	alone finding // what the rules over this kind say
	goes  int     // parts of the other kind with which nothing fails
}

func newPairing(to *auditing, s *search) *pairing {
	p := &pairing{to: to, s: s}
	for i := range s.tables {
		if len(s.tables[i].vars) == 2 {
			p.joint = append(p.joint, i)
			p.rows = append(p.rows, make([][]int, s.shapes(&s.tables[i], &s.vars[0])))
		}
	}
	var both uint64
	for _, v := range s.vars {
		both |= 1 << v.place
	}
	for i := range s.ix.rules {
		if s.ix.rules[i].reach&both == 0 {
			p.always.worse(p.decided(&table{rule: i}))
		}
	}
	return p
}

// groups puts the candidates of a kind together.
func (p *pairing) groups(v int) []group {
	of := &p.s.vars[v]
	var out []group
	at := map[string]int{}
	var key []byte
	for i := range of.all {
		c := &of.all[i]
		alone := p.alone(of, c)
		key = append(key[:0], byte(alone.says))
		for _, joint := range p.joint {
			key = binary.AppendUvarint(key, uint64(p.s.shape(&p.s.tables[joint], of, c)))
		}
		key = append(key, setKey(alone.missing)...)
		g, ok := at[string(key)]
		if !ok {
			g = len(out)
			at[string(key)] = g
			out = append(out, group{alone: alone})
		}
		out[g].cands = append(out[g].cands, c)
		out[g].parts += c.count
	}
	return out
}

// alone is what the rules over one of the kinds say of a candidate.
func (p *pairing) alone(v *variable, c *candidate) finding {
	var f finding
	for _, i := range v.tables {
		if t := &p.s.tables[i]; len(t.vars) == 1 {
			f.worse(p.decided(t, c))
		}
	}
	return f
}

// meet judges two groups, and counts the pairs of parts that they stand for.
func (p *pairing) meet(x, y *group) {
	f := finding{says: p.always.says, missing: slices.Clone(p.always.missing)}
	f.worse(x.alone)
	f.worse(y.alone)
	for i := range p.joint {
		f.worse(p.together(i, x.cands[0], y.cands[0]))
	}
	n := x.parts * y.parts
	switch f.says {
	case fails:
		p.count.Fail += n
	case open:
		p.count.Open += n
		p.to.open[setKey(f.missing)] += n
	case warns:
		p.count.Warn += n
	case fine:
		p.count.Pass += n
	default:
		p.count.Silent += n
	}
	if f.says != fails {
		x.goes += y.parts
		y.goes += x.parts
	}
}

// together is what the i-th rule over both kinds says of two candidates.
func (p *pairing) together(i int, x, y *candidate) finding {
	t := &p.s.tables[p.joint[i]]
	row := &p.rows[i][p.s.shape(t, &p.s.vars[0], x)]
	if *row == nil {
		*row = make([]int, p.s.shapes(t, &p.s.vars[1]))
	}
	at := &(*row)[p.s.shape(t, &p.s.vars[1], y)]
	if *at == 0 {
		p.said = append(p.said, p.decided(t, x, y))
		*at = len(p.said)
	}
	return p.said[*at-1]
}

// decided asks a rule, and keeps what it misses.
func (p *pairing) decided(t *table, cands ...*candidate) finding {
	f := finding{says: p.s.decide(t, cands...)}
	if f.says != open {
		return f
	}
	for _, name := range p.s.last.Missing {
		f.missing = append(f.missing, p.to.number(name))
	}
	if len(f.missing) == 0 {
		f.missing = []int{-1}
	}
	return f
}

// number gives a missing fact its number.
func (a *auditing) number(name string) int {
	n, ok := a.facts[name]
	if !ok {
		n = len(a.names)
		a.facts[name], a.names = n, append(a.names, name)
	}
	return n
}

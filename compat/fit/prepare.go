package fit

import (
	"encoding/binary"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
)

// variable gathers the candidates of a kind: a class of the index each, and the part
// of the mix, if that is wanted.
func (ix *Index) variable(q *Query, kind string, fitted bool) variable {
	place, _ := catalog.KindIndex(kind)
	v := variable{place: place, kind: kind}
	own, has := q.Mix.Part(kind)
	has = has && fitted
	if has && !measuredOn(q, place) { // another of the same makes no difference, and costs more
		v.same = own
	}
	if has {
		v.all = append(v.all, candidate{part: own, class: -1, fitted: true, count: 1})
	}
	for i := range ix.kinds[place].classes {
		if c := ix.candidate(q, &v, i); c.count > 0 {
			v.all = append(v.all, c)
		}
	}
	slices.SortStableFunc(v.all, func(a, b candidate) int { return a.cost.compare(b.cost) })
	for i := range v.all {
		v.all[i].at = i
	}
	return v
}

// candidate makes one of the parts of a class that are to be had; it counts none where
// there are none.
func (ix *Index) candidate(q *Query, v *variable, i int) candidate {
	k := &ix.kinds[v.place]
	of := &k.classes[i]
	c := candidate{class: i}
	if q.Price == nil && k.parts[of.members[0]] != v.same { // they stand by their prices
		c.part, c.cost, c.count = k.parts[of.members[0]], of.cost, len(of.members)
		if of.own(k, v.same) {
			c.count--
		}
		return c
	}
	for _, m := range of.members {
		p := k.parts[m]
		if p == v.same {
			continue
		}
		price, ok := q.priced(p)
		if !ok {
			continue
		}
		if c.count == 0 || price.compare(c.cost) < 0 {
			c.part, c.cost = p, price
		}
		c.count++
	}
	return c
}

// own says whether a part is of the class.
func (c *class) own(k *kindIndex, p catalog.Part) bool {
	return p.Record() != nil && slices.ContainsFunc(c.members, func(m int32) bool { return k.parts[m] == p })
}

// measuredOn says whether the mix holds a measurement of its part of a kind.
func measuredOn(q *Query, place int) bool {
	bench := q.Mix.Facts().Bench()
	for i := range figures.Bench.Table().Fields() {
		if bench.At(i).Known && figures.MeasuredOn(i)&(1<<place) != 0 {
			return true
		}
	}
	return false
}

// prepare leaves of every kind the candidates that no rule refuses whatever else is
// chosen, and takes those as one that no other rule tells apart. It is false where
// none is left of a kind.
func (s *search) prepare() bool {
	some := true
	for i := range s.vars {
		v := &s.vars[i]
		v.cands = v.cands[:0]
		for k := range v.all {
			if s.goes(v, &v.all[k]) {
				v.cands = append(v.cands, v.all[k])
			}
		}
		if len(s.vars) > 1 {
			s.merge(v)
		}
		some = some && len(v.cands) > 0
	}
	s.sampled()
	return some
}

// goes says whether no rule refuses a candidate by itself.
func (s *search) goes(v *variable, c *candidate) bool {
	for _, i := range v.tables {
		if t := &s.tables[i]; len(t.vars) == 1 && !t.without && !s.allows(t, s.alone(t, c)) {
			return false
		}
	}
	return true
}

// merge takes candidates as one where every rule over more kinds sees one shape and
// every rule over this kind alone says the same of them.
func (s *search) merge(v *variable) {
	first := map[string]int{}
	var key []byte
	kept := v.cands[:0]
	for _, c := range v.cands {
		key = key[:0]
		for _, i := range v.tables {
			switch t := &s.tables[i]; {
			case t.without:
			case len(t.vars) > 1:
				key = binary.AppendUvarint(key, uint64(s.shape(t, v, &c)))
			case !s.any:
				key = append(key, byte(s.alone(t, &c)))
			}
		}
		if at, ok := first[string(key)]; ok {
			kept[at].alike = append(kept[at].alike, c.at)
			continue
		}
		first[string(key)] = len(kept)
		kept = append(kept, c)
	}
	v.cands = kept
}

package rules

// path is the way of usual facts from one end of their spreads to the other, along a
// line: 1 moves a fact from its least to its most, -1 the other way, 0 leaves it.
type path struct {
	c    *leaning
	line []int8
	at   []float64   // where it was walked, -1 to 1
	seen [][]float64 // at each of these, the numbers of turns and signed
}

// place gives the facts at a point of the way.
func (p *path) place(at float64) []placed {
	var to []placed
	for i, way := range p.line {
		if way != 0 {
			to = append(to, placed{p.c.facts[i], float64(way) * at})
		}
	}
	return to
}

// step tries the rule at a point and gives the numbers that are watched there.
func (p *path) step(at float64) []float64 {
	var out []float64
	p.c.try(p.place(at), func(records []*Record) {
		out = out[:0]
		for _, refs := range [][]Ref{p.c.turns, p.c.signed} {
			for _, ref := range refs {
				i, _ := p.c.res.set.vocabulary.Index(ref.Object.Name())
				out = append(out, ref.In(records[i]).Num)
			}
		}
	})
	return out
}

// walk tries the rule at so many points, both ends among them.
func (p *path) walk(points int) {
	p.at, p.seen = p.at[:0], p.seen[:0]
	for k := range points {
		at := -1 + 2*float64(k)/float64(points-1)
		p.at, p.seen = append(p.at, at), append(p.seen, p.step(at))
	}
}

// column finds a number that is watched.
func (p *path) column(ref Ref) int {
	for i, r := range p.c.turns {
		if r == ref {
			return i
		}
	}
	for i, r := range p.c.signed {
		if r == ref {
			return len(p.c.turns) + i
		}
	}
	return -1
}

// climb goes to the greatest value of a number between the points that were walked,
// or to the least; at an end there is nothing more to find.
func (p *path) climb(ref Ref, greatest bool) {
	col, best := p.column(ref), 0
	better := func(a, b float64) bool { return a < b }
	if greatest {
		better = func(a, b float64) bool { return a > b }
	}
	for k := range p.seen {
		if better(p.seen[k][col], p.seen[best][col]) {
			best = k
		}
	}
	if best == 0 || best == len(p.at)-1 {
		return
	}
	low, high := p.at[best-1], p.at[best+1]
	for range hunts {
		a, b := low+(high-low)/3, high-(high-low)/3
		if better(p.step(a)[col], p.step(b)[col]) {
			high = b
		} else {
			low = a
		}
	}
}

// cross goes to where a number passes through nothing.
func (p *path) cross(ref Ref) {
	col := p.column(ref)
	for k := 1; k < len(p.at); k++ {
		from := p.seen[k-1][col]
		if from*p.seen[k][col] >= 0 {
			continue
		}
		low, high := p.at[k-1], p.at[k]
		for range hunts {
			middle := (low + high) / 2
			if p.step(middle)[col]*from > 0 {
				low = middle
			} else {
				high = middle
			}
		}
	}
}

package rules

import "slices"

// path is the way of usual facts from one end of their spreads to the other, along a
// line: 1 moves a fact from its least to its most, -1 the other way, 0 leaves it.
type path struct {
	c    *leaning
	line []int8
	at   []float64 // where it was walked, -1 to 1
	seen []float64 // at each of these in turn, the numbers that are watched
}

// along tries the facts on their way from one end to the other, and looks closer where
// something turns or passes through nothing.
func (p *path) along(line []int8) {
	c := p.c
	p.line = line
	if len(c.turns) == 0 {
		p.walk(2)
		if c.settled() || c.failed && !c.clear && !c.apart(line) || !c.failed && !c.between(line) {
			return
		}
	}
	if c.settled() {
		return
	}
	p.walk(lineEach)
	for i := range c.turns {
		if !c.settled() {
			p.climb(i, !c.failed)
		}
	}
	for i := range c.signed {
		if !c.settled() && c.failed {
			p.cross(len(c.turns) + i)
		}
	}
}

// step tries the rule at a point and gives the numbers that are watched there, which
// the next step writes over.
func (p *path) step(at float64) []float64 {
	c := p.c
	c.to = append(c.to[:0], c.base...)
	for i, way := range p.line {
		if way != 0 && !slices.Contains(c.wild, i) {
			c.to = append(c.to, placed{c.facts[i], float64(way) * at})
		}
	}
	c.try()
	return c.watch
}

// walk tries the rule at so many points, both ends among them, until the answer is known.
func (p *path) walk(points int) {
	p.at, p.seen = p.at[:0], p.seen[:0]
	for k := range points {
		if p.c.settled() {
			return
		}
		at := -1 + 2*float64(k)/float64(points-1)
		p.at, p.seen = append(p.at, at), append(p.seen, p.step(at)...)
	}
}

// number is one of those watched, at one of the points that were walked.
func (p *path) number(point, column int) float64 {
	return p.seen[point*(len(p.c.turns)+len(p.c.signed))+column]
}

// climb goes to the greatest value of a number between the points that were walked, or
// to the least; at an end there is nothing more to find.
func (p *path) climb(column int, greatest bool) {
	better := func(a, b float64) bool { return a < b != greatest && a != b }
	best := 0
	for k := range p.at {
		if better(p.number(k, column), p.number(best, column)) {
			best = k
		}
	}
	if best == 0 || best == len(p.at)-1 {
		return
	}
	low, high := p.at[best-1], p.at[best+1]
	for range hunts {
		a, b := low+(high-low)/3, high-(high-low)/3
		x := p.step(a)[column]
		if better(x, p.step(b)[column]) {
			high = b
		} else {
			low = a
		}
		if p.c.settled() {
			return
		}
	}
}

// cross goes to where a number passes through nothing.
func (p *path) cross(column int) {
	points := slices.Clone(p.at)
	for k := 1; k < len(points); k++ {
		from := p.number(k-1, column)
		if from*p.number(k, column) >= 0 {
			continue
		}
		low, high := points[k-1], points[k]
		for range hunts {
			middle := (low + high) / 2
			if p.step(middle)[column]*from > 0 {
				low = middle
			} else {
				high = middle
			}
			if p.c.settled() {
				return
			}
		}
	}
}

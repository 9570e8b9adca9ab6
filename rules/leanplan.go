package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// plan finds the lines along which the facts are moved: for each fact that when and
// fail_if read, the one that raises it, and so for what when asks to be stated, which
// may mean something at one end of its line alone.
func (c *leaning) plan() {
	g, v := c.rule.logic(), c.res.set.vocabulary
	c.reads, c.lines, c.turns, c.signed = c.reads[:0], c.lines[:0], c.turns[:0], c.signed[:0]
	c.going, c.arena = c.going[:0], c.arena[:0]
	for _, read := range g.reads {
		c.reads = append(c.reads, v.ref(read))
	}
	for _, p := range [2]*expr.Program{g.conds[0].prog, g.when} {
		if p == nil {
			continue
		}
		for _, read := range p.Reads() {
			if line := c.line(read, false); line != nil {
				from := len(c.arena)
				c.arena = append(c.arena, line...)
				c.going = append(c.going, going{from: from, begins: p.Begins(read), ends: p.Ends(read), when: p == g.when})
			}
		}
	}
	if g.when != nil {
		for _, read := range g.when.Stated() {
			c.line(read, true)
		}
	}
	grid := 1
	for _, i := range c.wild {
		if grid *= c.each(c.facts[i]); grid > mostGrid {
			c.tooMany = true
			return
		}
	}
}

// line adds the line that raises what is read, and what to watch on it. What is
// only asked for moves nothing but by its meaning: that goes the ways that are declared,
// and hangs on no number where none are, but for facts that do not fit together as they
// are usual. It gives the line, nil where the facts do not move it.
func (c *leaning) line(read expr.Read, asked bool) []int8 {
	ref := c.res.set.vocabulary.ref(read)
	at := slices.Index(c.rule.logic().reads, read)
	behind := c.res.set.behind(ref)
	line := c.nextLine()
	hangs := false
	for i, f := range c.facts {
		of := c.res.set.vocabulary.ref(f)
		if !slices.Contains(behind, of) {
			continue
		}
		way, turns := int8(1), false
		if of != ref {
			way, turns = c.res.set.ways(ref, of)
		}
		if way == Still || of != ref && !c.read[at].Meets(c.res.set.mark(of)) {
			continue
		}
		if asked && !c.contradicted(ref) && (way == 0 || turns || of == ref) {
			continue
		}
		hangs = true
		if of == ref && c.counted(f) {
			way = 0 // it may be odd or even between two ends that are neither
		}
		if line[i] = way; way == 0 && !slices.Contains(c.wild, i) {
			c.wild = append(c.wild, i)
		}
		if turns && !slices.Contains(c.turns, ref) {
			c.turns = append(c.turns, ref)
		}
	}
	if !hangs {
		return nil
	}
	if f := ref.Object.Table().Fields()[ref.Index].Type; f == fact.Fraction || f == fact.Whole {
		c.signed = append(c.signed, ref)
	}
	for _, l := range c.lines {
		if sameLine(l, line) {
			return line
		}
	}
	c.lines = append(c.lines, line)
	return line
}

// contradicted says whether a computed fact went wrong for the usual values: what is stated
// does not fit together with them, and may with others.
func (c *leaning) contradicted(ref Ref) bool {
	i, _ := c.res.set.vocabulary.Index(ref.Object.Name())
	rec := c.res.records[i]
	return rec != nil && rec.Lack(ref.Index).Fault != ""
}

// counted says whether a fact is a count with others between its least and its most: a
// condition may tell them apart in any way.
func (c *leaning) counted(f expr.Read) bool {
	s := c.res.records[f.Object].At(f.Field).Spread()
	return c.res.set.vocabulary.lang.Field(f).Type == fact.Whole && s.Most-s.Least > 1
}

// each is at how many points between its ends a fact is tried on the grid: of a count so
// many that they meet each whole number there, however far apart the two sides of the
// usual one lie.
func (c *leaning) each(f expr.Read) int {
	if !c.counted(f) {
		return gridEach
	}
	v := c.res.records[f.Object].At(f.Field)
	return 1 + 2*int(max(1, v.Spread().Most-v.Num, v.Num-v.Spread().Least))
}

// nextLine gives a line of noughts, in memory that was a line before where there is.
func (c *leaning) nextLine() []int8 {
	var line []int8
	if n := len(c.lines); n < cap(c.lines) {
		line = c.lines[:n+1][n][:0]
	}
	line = slices.Grow(line, len(c.facts))[:len(c.facts)]
	clear(line)
	return line
}

// sameLine says whether two lines are one, in whichever direction.
func sameLine(a, b []int8) bool {
	same, turned := true, true
	for i := range a {
		same, turned = same && a[i] == b[i], turned && a[i] == -b[i]
	}
	return same || turned
}

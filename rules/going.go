package rules

import "example.org/cogcourt/rules/internal/expr"

// going is how one fact that when or fail_if reads goes with the usual facts, and the
// condition with it.
type going struct {
	from         int        // of its line, in the arena
	begins, ends expr.Sense // see expr.Program
	when         bool       // when reads it
}

// between says whether a rule that fails at neither end of a line may fail between them:
// where the condition may begin to hold both as one goes along the line and as one comes
// back, or where the rule is about the facts at some places alone.
func (c *leaning) between(line []int8) bool {
	if c.applied && c.away {
		return true
	}
	var s expr.Sense
	for i := range c.going {
		s |= c.along(i, line, c.going[i].begins)
	}
	return s == expr.Both
}

// apart says the same of a rule that fails at both ends, and may not between them.
func (c *leaning) apart(line []int8) bool {
	var s expr.Sense
	for i := range c.going {
		g := &c.going[i]
		along := c.along(i, line, g.ends)
		if g.when && along != 0 { // it may stop to be about the facts, in a way of its own
			return true
		}
		s |= along
	}
	return s == expr.Both
}

// along turns a sense with the way that a fact goes along a line; nothing where it stays.
func (c *leaning) along(i int, line []int8, s expr.Sense) expr.Sense {
	way := int8(0)
	own := c.arena[c.going[i].from:]
	for k := range line {
		switch step := own[k] * line[k]; {
		case step == 0:
		case way != 0 && way != step:
			return s.Mixed()
		default:
			way = step
		}
	}
	switch way {
	case 1:
		return s
	case -1:
		return s.Turned()
	}
	return 0
}

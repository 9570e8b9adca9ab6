package rules

import (
	"fmt"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// FilledNeed is something to order: one of a rule's needs with its values.
type FilledNeed struct {
	What  string
	Value float64 // 0 for a thing without a measure
	Unit  string
	Thing string // needs of one thing are one line of an order; empty for a line of its own
}

// Needs gives what to order because of a finding.
func (res *Result) Needs(f Finding) []FilledNeed {
	s := res.Speak()
	defer s.Close()
	return s.Needs(f)
}

// Need is a thing to order when the rule warns or fails, or whenever its own
// condition holds.
type Need struct {
	What  string
	Unit  string
	Thing string // of which one is ordered, whatever it must be for several rules

	what  *template
	value func() *expr.Program // nil for a thing without a measure
	when  func() *expr.Program // nil: with every warn and fail
}

// needs reads needs:, what to order with the rule's findings.
func (c *compiler) needs(n *source.Node) []Need {
	var out []Need
	for i, item := range n.ReadMaps(c.path+".needs", c.ps, "what", "value") {
		key := fmt.Sprintf("needs[%d]", i)
		if c.keys(item, c.path+"."+key, "what", "value", "unit", "thing", "when") {
			out = append(out, c.need(key, item))
		}
	}
	return out
}

func (c *compiler) need(key string, n *source.Node) Need {
	path := c.path + "." + key
	need := Need{What: c.text(n, path, "what")}
	if need.What != "" {
		need.what = c.templateOf(key+".what", n.Get("what"), need.What)
	}
	if v := n.Get("value"); v != nil {
		need.value = later(c, func(c *compiler) *expr.Program {
			prog := c.expression(key+".value", v, expr.Value)
			if prog != nil && !prog.IsNumber() {
				v.Refuse(c.ps, path+".value", "a number is wanted here, this gives "+prog.Type(), "").Code = source.Expression
			}
			return prog
		})
	}
	if n.Get("unit") != nil {
		need.Unit = c.text(n, path, "unit")
	}
	if n.Get("thing") != nil {
		need.Thing = c.text(n, path, "thing")
	}
	need.when = c.optionalExpr(key+".when", n.Get("when"), expr.Condition)
	return need
}

package rules

import (
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// logic is what a rule's verdict depends on, compiled.
type logic struct {
	when  *expr.Program
	gate  func(*expr.Frame) (holds, ok bool) // the closure of when, nil without one
	conds []condition
	lets  []letLine
	named []letLine   // the same, sorted by name
	reads []expr.Read // of the conditions, in the order of the text
	warns []bool      // of reads, those that warn_if alone reads; nil where nobody has told them apart
	exprs []ruleExpr
	fault string // why it could not be compiled, which only a sound file gets to say
}

// quickly decides the rule as far as closures do: True with the verdict, False
// where its when is false, Undecided where the engine must be asked. The conditions are
// those of the rule that are asked for; open is which of them the closures leave open.
func (g *logic) quickly(conds []condition, f *expr.Frame) (v Verdict, s expr.State, open int) {
	if g.fault != "" {
		return Unknown, expr.Undecided, openWhen
	}
	if g.gate != nil {
		switch holds, ok := g.gate(f); {
		case !ok:
			return Unknown, expr.Undecided, openWhen
		case !holds:
			return Unknown, expr.False, openWhen
		}
	}
	for i := range conds {
		switch holds, ok := conds[i].quick(f); {
		case !ok:
			return Unknown, expr.Undecided, i
		case holds:
			return conds[i].verdict, expr.True, 0
		}
	}
	return Pass, expr.True, 0
}

// openWhen is the when of a rule among what closures may leave open, beside the places of
// its conditions.
const openWhen = -1

// condition is fail_if or warn_if with the verdict that it gives when true.
type condition struct {
	prog    *expr.Program
	quick   func(*expr.Frame) (holds, ok bool) // its closure
	verdict Verdict
}

// asks adds a condition, where there is one.
func (g *logic) asks(prog *expr.Program, verdict Verdict) {
	if prog != nil {
		g.conds = append(g.conds, condition{prog, prog.Closure(), verdict})
	}
}

// opens has the rule applied where this holds, and always where there is none.
func (g *logic) opens(when *expr.Program) {
	if g.when = when; when != nil {
		g.gate = when.Closure()
	}
}

type letLine struct {
	name string
	text string
	slot int // in a frame
	prog *expr.Program
	let  *expr.Let
}

// ruleExpr is one expression that the verdict depends on, in the order in which
// they are compiled: the let-names, when, fail_if, warn_if.
type ruleExpr struct {
	key  string
	text string
	role expr.Role
	prog *expr.Program
	node *source.Node
}

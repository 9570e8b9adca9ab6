package rules

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// logic is what a rule's verdict depends on, compiled.
type logic struct {
	when  *expr.Program
	conds []condition
	lets  []letLine
	reads []expr.Read // of the conditions, in the order of the text
	exprs []ruleExpr
	fault string // why it could not be compiled, which only a sound file gets to say
}

// quickly decides the rule as far as closures do: True with the verdict, False
// where its when is false, Undecided where the engine must be asked.
func (g *logic) quickly(f *expr.Frame) (Verdict, expr.State) {
	if g.fault != "" {
		return Unknown, expr.Undecided
	}
	if g.when != nil {
		switch holds, ok := g.when.Quickly(f); {
		case !ok:
			return Unknown, expr.Undecided
		case !holds:
			return Unknown, expr.False
		}
	}
	for i := range g.conds {
		switch holds, ok := g.conds[i].prog.Quickly(f); {
		case !ok:
			return Unknown, expr.Undecided
		case holds:
			return g.conds[i].verdict, expr.True
		}
	}
	return Pass, expr.True
}

// condition is fail_if or warn_if with the verdict that it gives when true.
type condition struct {
	prog    *expr.Program
	verdict Verdict
}

type letLine struct {
	name string
	text string
	slot int // in a frame
	prog *expr.Program
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

// compiler compiles the expressions and texts of one rule or step.
type compiler struct {
	*loader
	scope *expr.Scope
	path  string
	logic func() *logic // of the rule, nil for a step: it declares the let-names
	slot  int           // of the rule's first let-name
}

// later builds a part of a rule: at once, or, in a file that is known to be sound,
// when it is first asked for. Its faults are reported in the first case, and kept
// by the compiler that build is given in the second.
func later[T any](c *compiler, build func(*compiler) T) func() T {
	if !c.sound {
		built := build(c)
		return func() T { return built }
	}
	own := *c
	own.loader = c.aside()
	return sync.OnceValue(func() T {
		if own.logic != nil {
			own.logic() // what is built may read let-names
		}
		return build(&own)
	})
}

// compile makes all that is compiled of a rule.
func (c *compiler) compile(r *Rule, n *source.Node) {
	if n.Get("fail_if") == nil && n.Get("warn_if") == nil {
		c.missing(n, c.path, "fail_if or warn_if", "a rule that can only pass checks nothing")
	}
	r.WhenText, r.FailIf, r.WarnIf = written(n, "when"), written(n, "fail_if"), written(n, "warn_if")
	c.slot = c.lets
	if lets := n.Get("let"); lets != nil {
		c.lets += len(lets.Pairs)
	}
	r.logic = later(c, func(c *compiler) *logic { return c.logicOf(n) })
	c.logic = r.logic
	r.say = c.template("say", n)
	r.remedy = c.template("remedy", n)
	r.Remedy = written(n, "remedy")
	r.passing = c.optional("pass", n)
	r.caution = c.optional("caution", n)
	r.Caution = written(n, "caution")
	r.Needs = c.needs(n.Get("needs"))
}

// written is an entry as it stands in the file, empty where there is none.
func written(n *source.Node, key string) string {
	if child := n.Get(key); child != nil {
		return child.Text
	}
	return ""
}

func (c *compiler) logicOf(n *source.Node) *logic {
	before := c.ps.Count()
	g := &logic{}
	c.letLines(g, n.Get("let"))
	g.when = c.decisive(g, "when", n, expr.When)
	for _, cond := range []condition{{c.decisive(g, "fail_if", n, expr.Condition), Fail}, {c.decisive(g, "warn_if", n, expr.Condition), Warn}} {
		if cond.prog != nil {
			g.conds = append(g.conds, cond)
		}
	}
	for _, e := range g.exprs {
		if e.role == expr.Value {
			continue
		}
		for _, read := range append(slices.Clone(e.prog.Stated()), e.prog.Reads()...) {
			if !slices.Contains(g.reads, read) {
				g.reads = append(g.reads, read)
			}
		}
	}
	if c.ps.Count() > before {
		g.fault = c.ps.Since(before).Error()
	}
	return g
}

// decisive compiles when, fail_if or warn_if.
func (c *compiler) decisive(g *logic, key string, n *source.Node, role expr.Role) *expr.Program {
	child := n.Get(key)
	if child == nil {
		return nil
	}
	prog := c.expression(key, child, role)
	if prog != nil {
		g.exprs = append(g.exprs, ruleExpr{key, child.Text, role, prog, child})
	}
	return prog
}

// letLines compiles let:, each line usable by those below it.
func (c *compiler) letLines(g *logic, n *source.Node) {
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		c.ps.Add(n.Pos, c.path+".let", "let: holds names with expressions", "write name: expression, one a line")
		return
	}
	names := make([]string, len(n.Pairs))
	for i, pair := range n.Pairs {
		names[i] = pair.Key.Text
	}
	for i, pair := range n.Pairs {
		name := pair.Key.Text
		c.scope.Coming(names[i+1:])
		if !letName.MatchString(name) || c.scope.Taken(name) {
			c.ps.Add(pair.Key.Pos, c.path+".let", fmt.Sprintf("%q cannot be a name here", name), "use a-z, 0-9 and _, and no word that already means something")
			continue
		}
		prog := c.expression("let."+name, pair.Value, expr.Value)
		if prog == nil {
			c.scope.LetBroken(name) // the lines that read it are not to blame
			continue
		}
		c.scope.Let(name, c.slot+i, prog)
		g.lets = append(g.lets, letLine{name, pair.Value.Text, c.slot + i, prog})
		g.exprs = append(g.exprs, ruleExpr{"let." + name, pair.Value.Text, expr.Value, prog, pair.Value})
	}
}

// expression compiles one scalar. Numbers and flags of the file format are read
// as the expressions that they are.
func (c *compiler) expression(key string, n *source.Node, role expr.Role) *expr.Program {
	path := c.path + "." + key
	if n.Kind == source.List || n.Kind == source.Map || n.Kind == source.Null {
		hint := "put the expression in quotes if it begins with { or ["
		switch {
		case n.Kind == source.Null:
			hint = ""
		case n.Kind == source.List && role != expr.Value:
			hint = "join the terms with && in one text"
		}
		c.ps.Add(n.Pos, path, "an expression is wanted here", hint)
		return nil
	}
	c.remark(n, path)
	prog, issues := c.scope.Compile(n.Text, role)
	for _, is := range issues {
		c.ps.Add(n.At(is.At), path, is.Text, is.Hint)
	}
	if prog != nil {
		c.cost += prog.Cost()
	}
	return prog
}

// template compiles a text with expressions in braces. say and remedy are
// wanted; other texts are asked for only where they stand.
func (c *compiler) template(key string, n *source.Node) *template {
	child := n.Get(key)
	if child == nil {
		c.missing(n, c.path, key, "")
		return nil
	}
	if !child.Cut { // which text refuses by itself
		c.remark(child, c.path+"."+key)
	}
	return c.pieces(key, child, c.text(n, c.path, key))
}

// optional compiles a text where there is one.
func (c *compiler) optional(key string, n *source.Node) *template {
	if n.Get(key) == nil {
		return nil
	}
	return c.template(key, n)
}

func (c *compiler) pieces(key string, n *source.Node, text string) *template {
	path := c.path + "." + key
	return &template{later(c, func(c *compiler) []part {
		pieces, at, err := cut(text)
		if err != nil {
			c.ps.Add(n.At(at), path, err.Error(), "")
		}
		var parts []part
		for _, p := range pieces {
			if !p.isExpr {
				for chunk := range strings.SplitAfterSeq(p.text, sentenceEnd) {
					parts = append(parts, part{text: chunk})
				}
				continue
			}
			prog, issues := c.scope.Compile(p.text, expr.Value)
			for _, is := range issues {
				c.ps.Add(n.At(p.at+is.At), path, is.Text, is.Hint)
			}
			parts = append(parts, part{prog: prog, decimals: p.decimals, whole: strings.Contains(p.text, ".'") || strings.Contains(p.text, `."`)})
		}
		return parts
	})}
}

// needs reads what to order with the rule's findings.
func (c *compiler) needs(n *source.Node) []Need {
	var out []Need
	for i, item := range n.ReadMaps(c.path+".needs", c.ps, "what", "value") {
		key := fmt.Sprintf("needs[%d]", i)
		if c.keys(item, c.path+"."+key, "what", "value", "unit", "when") {
			out = append(out, c.need(key, item))
		}
	}
	return out
}

func (c *compiler) need(key string, n *source.Node) Need {
	path := c.path + "." + key
	need := Need{What: c.text(n, path, "what")}
	if need.What != "" {
		need.what = c.pieces(key+".what", n.Get("what"), need.What)
	}
	if v := n.Get("value"); v != nil {
		need.value = later(c, func(c *compiler) *expr.Program {
			prog := c.expression(key+".value", v, expr.Value)
			if prog != nil && !prog.IsNumber() {
				c.ps.Add(v.Pos, path+".value", "a number is wanted here, this gives "+prog.Kind(), "")
			}
			return prog
		})
	}
	if n.Get("unit") != nil {
		need.Unit = c.text(n, path, "unit")
	}
	need.when = c.optionalExpr(key+".when", n.Get("when"), expr.Condition)
	return need
}

// optionalExpr compiles an expression that no verdict depends on, where there is
// one.
func (c *compiler) optionalExpr(key string, n *source.Node, role expr.Role) func() *expr.Program {
	if n == nil {
		return nil
	}
	return later(c, func(c *compiler) *expr.Program { return c.expression(key, n, role) })
}

package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// compiler compiles the expressions and texts of one rule or step.
type compiler struct {
	*loader
	scope *expr.Scope
	path  string
	logic func() *logic // of the rule, nil for a step: it declares the let-names
	slot  int           // of the rule's first let-name
}

// compile compiles the conditions and texts of a rule. The slots of its let-names
// are counted here, at once, for a frame has room for those of all rules.
func (c *compiler) compile(r *Rule, n *source.Node) {
	if n.Get("fail_if") == nil && n.Get("warn_if") == nil {
		c.missing(n, c.path, "fail_if or warn_if", "a rule that can only pass checks nothing")
	}
	r.WhenText, r.FailIf, r.WarnIf = written(n, "when"), written(n, "fail_if"), written(n, "warn_if")
	c.slot = c.lets
	if lets := n.Get("let"); lets != nil {
		c.lets += len(lets.Pairs)
	}
	r.compiled = later(c, func(c *compiler) *logic { return c.logicOf(n) })
	c.logic = r.compiled
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
	g.opens(c.decisive(g, "when", n, expr.When))
	g.asks(c.decisive(g, "fail_if", n, expr.Condition), Fail)
	g.asks(c.decisive(g, "warn_if", n, expr.Condition), Warn)
	for _, e := range g.exprs {
		if e.role == expr.Value {
			continue
		}
		for _, read := range append(slices.Clone(e.prog.Stated()), e.prog.Reads()...) {
			if !slices.Contains(g.reads, read) { // warn_if comes last
				g.reads, g.warns = append(g.reads, read), append(g.warns, e.key == "warn_if")
			}
		}
	}
	if c.ps.Count() > before {
		g.fault = c.ps.Since(before).Error()
	}
	return g
}

// decisive compiles when, fail_if or warn_if, and keeps it with the expressions that
// decide, which coverage and mutants are asked about later.
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
		n.Refuse(c.ps, c.path+".let", "let: holds names with expressions", "write name: expression, one a line").Code = source.WrongKind
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
			text := fmt.Sprintf("%q cannot be a name here", name)
			pair.Key.Refuse(c.ps, c.path+".let", text, "use a-z, 0-9 and _, and no word that already means something").Code = source.BadName
			continue
		}
		prog := c.expression("let."+name, pair.Value, expr.Value)
		if prog == nil {
			c.scope.LetBroken(name) // the lines that read it are not to blame
			continue
		}
		let := c.scope.Let(name, c.slot+i, prog)
		g.lets = append(g.lets, letLine{name, pair.Value.Text, c.slot + i, prog, let})
		g.exprs = append(g.exprs, ruleExpr{"let." + name, pair.Value.Text, expr.Value, prog, pair.Value})
	}
	g.named = slices.SortedFunc(slices.Values(g.lets), func(a, b letLine) int { return strings.Compare(a.name, b.name) })
}

// expression compiles one scalar. Numbers and flags of the file format are read
// as the expressions that they are.
func (c *compiler) expression(key string, n *source.Node, role expr.Role) *expr.Program {
	path := c.path + "." + key
	if n.Kind == source.List || n.Kind == source.Map || n.Kind == source.Null {
		hint, code := "put the expression in quotes if it begins with { or [", source.WrongKind
		switch {
		case n.Kind == source.Null:
			hint, code = "", source.Empty
		case n.Kind == source.List && role != expr.Value:
			hint = "join the terms with && in one text"
		}
		n.Refuse(c.ps, path, "an expression is wanted here", hint).Code = code
		return nil
	}
	c.remark(n, path)
	if c.ps.Full() {
		c.ps.Unread(n.Pos)
		return nil
	}
	if c.overspent() {
		return nil
	}
	prog, issues := c.scope.Compile(n.Text, role)
	c.issues(n, path, 0, issues)
	if prog != nil {
		c.cost += prog.Cost()
	}
	return prog
}

// overspent says whether the rules cost too much already, which is a fault of the whole:
// what stands behind is not compiled for more of it.
func (c *compiler) overspent() bool { return !c.sound && c.cost > maxSetCost }

// issues reports what is wrong in an expression that begins at a place within the
// text of a node.
func (c *compiler) issues(n *source.Node, path string, from int, issues []expr.Issue) {
	for _, is := range issues {
		p := n.Refuse(c.ps, path, is.Text, is.Hint)
		if p.Code = is.Code; c.ps.Full() {
			continue // a place costs time, and nobody reads this one
		}
		p.Pos = n.At(from + is.At)
		if p.End != (source.Pos{}) {
			p.End = n.At(from + is.End)
		}
	}
}

// optionalExpr compiles an expression that no verdict depends on, where there is
// one.
func (c *compiler) optionalExpr(key string, n *source.Node, role expr.Role) func() *expr.Program {
	if n == nil {
		return nil
	}
	return later(c, func(c *compiler) *expr.Program { return c.expression(key, n, role) })
}

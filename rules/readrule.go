package rules

import (
	"fmt"
	"slices"
	"sync"
	"unicode"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

var ruleKeys = []string{
	"id", "title", "why", "when", "let", "fail_if", "warn_if", "say", "pass", "remedy", "needs",
	"caution", "safety", "basis", "examples", "waive",
}

// rule reads and compiles one entry of rules:.
func (l *loader) rule(pack string, i int, n *source.Node) {
	path := fmt.Sprintf("rules[%d]", i)
	if !l.keys(n, path, ruleKeys...) {
		return
	}
	before := len(*l.ps)
	r := &Rule{Pack: pack, Pos: n.Pos}
	r.ID = l.text(n, path, "id")
	r.Title = l.text(n, path, "title")
	r.Why = l.text(n, path, "why")
	if s := n.Get("safety"); s != nil {
		r.Safety, _ = s.ReadFlag(path+".safety", l.ps)
	}
	l.identity(r, path, n)
	r.Basis = l.basis(path, n)
	c := compiler{loader: l, scope: l.set.vocabulary.lang.NewScope(), path: path}
	c.compile(r, n)
	if len(r.Basis) > 0 && r.onMemory() && r.FailIf != "" {
		l.ps.Add(n.Get("fail_if").Pos, path+".fail_if", "a rule that rests on memory alone may warn, never fail", "name a source, or write warn_if:")
	}
	r.examples = l.examplesOf(i, path, n)
	r.waivers = l.waivers(path+".waive", n.Get("waive"))
	if len(*l.ps) == before {
		r.place = len(l.set.rules)
		l.set.rules = append(l.set.rules, r)
	}
}

// identity checks the id and keeps it, so that the second of two is found even
// where the first has faults.
func (l *loader) identity(r *Rule, path string, n *source.Node) {
	if r.ID == "" {
		return
	}
	pos := n.Get("id").Pos
	if !ruleID.MatchString(r.ID) {
		l.ps.Add(pos, path+".id", fmt.Sprintf("%q is no id for a rule", r.ID), "write group/name, with a-z, 0-9 and -")
	}
	if other := l.rules[r.ID]; other != nil {
		l.ps.Add(pos, path+".id", fmt.Sprintf("the rule %s stands twice", r.ID), "the other one is at "+other.Pos.String())
		return
	}
	l.rules[r.ID] = r
}

// onMemory says whether nothing but memory backs the rule.
func (r *Rule) onMemory() bool {
	return !slices.ContainsFunc(r.Basis, func(b Basis) bool { return b.Kind != "memory" })
}

// basis reads what the rule rests on.
func (l *loader) basis(path string, n *source.Node) []Basis {
	b := n.Get("basis")
	if b == nil {
		l.missing(n, path, "basis", "say what the rule rests on: basis: {practice: ...}, or source, geometry or memory")
		return nil
	}
	path += ".basis"
	kinds := []string{"source", "practice", "geometry", "memory"}
	if !l.keys(b, path, kinds...) {
		return nil
	}
	var out []Basis
	for _, pair := range b.Pairs {
		kind := pair.Key.Text
		if !slices.Contains(kinds, kind) {
			continue
		}
		text := l.text(b, path, kind)
		if kind == "source" {
			out = append(out, l.sourceIDs(path+".source", pair.Value, text)...)
		} else {
			out = append(out, Basis{kind, text})
		}
	}
	if len(b.Pairs) == 0 {
		l.ps.Add(b.Pos, path, "this says nothing", "write {practice: ...}, or source, geometry or memory")
	}
	return out
}

// sourceIDs reads the ids of sources, with commas or spaces between them.
func (l *loader) sourceIDs(path string, n *source.Node, text string) []Basis {
	var out []Basis
	runes := []rune(text)
	for i := 0; i < len(runes); i++ {
		begin := i
		for i < len(runes) && runes[i] != ',' && !unicode.IsSpace(runes[i]) {
			i++
		}
		if i > begin {
			id := string(runes[begin:i])
			l.bases = append(l.bases, pendingBasis{n.At(begin), path, id})
			out = append(out, Basis{"source", id})
		}
	}
	return out
}

// compiler compiles the expressions and texts of one rule.
type compiler struct {
	*loader
	scope *expr.Scope
	path  string
}

func (c *compiler) compile(r *Rule, n *source.Node) {
	c.letLines(r, n.Get("let"))
	if w := n.Get("when"); w != nil {
		r.WhenText, r.when = c.expression("when", w, expr.When)
		r.exprs = append(r.exprs, ruleExpr{"when", r.WhenText, expr.When, r.when, w})
	}
	r.FailIf = c.condition(r, "fail_if", n, Fail)
	r.WarnIf = c.condition(r, "warn_if", n, Warn)
	if n.Get("fail_if") == nil && n.Get("warn_if") == nil {
		c.missing(n, c.path, "fail_if or warn_if", "a rule that can only pass checks nothing")
	}
	r.say = c.template("say", n)
	r.remedy = c.template("remedy", n)
	if n.Get("remedy") != nil {
		r.Remedy = n.Get("remedy").Text
	}
	if n.Get("pass") != nil {
		r.passing = c.template("pass", n)
	}
	if n.Get("caution") != nil {
		r.caution = c.template("caution", n)
		r.Caution = n.Get("caution").Text
	}
	r.Needs = c.needs(n.Get("needs"))
	c.collect(r)
}

// condition compiles fail_if or warn_if.
func (c *compiler) condition(r *Rule, key string, n *source.Node, v Verdict) string {
	child := n.Get(key)
	if child == nil {
		return ""
	}
	text, prog := c.expression(key, child, expr.Condition)
	if prog != nil {
		r.conds = append(r.conds, condition{prog, v})
		r.exprs = append(r.exprs, ruleExpr{key, text, expr.Condition, prog, child})
	}
	return text
}

// letLines compiles let:, each line usable by those below it.
func (c *compiler) letLines(r *Rule, n *source.Node) {
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		c.ps.Add(n.Pos, c.path+".let", "let: holds names with expressions", "write name: expression, one a line")
		return
	}
	for _, pair := range n.Pairs {
		name := pair.Key.Text
		if !letName.MatchString(name) || c.scope.Taken(name) {
			c.ps.Add(pair.Key.Pos, c.path+".let", fmt.Sprintf("%q cannot be a name here", name), "use a-z, 0-9 and _, and no word that already means something")
			continue
		}
		text, prog := c.expression("let."+name, pair.Value, expr.Value)
		if err := c.declare(name, prog); err != nil {
			c.ps.Add(pair.Key.Pos, c.path+".let", err.Error(), "")
		}
		if prog == nil {
			continue
		}
		r.lets = append(r.lets, letLine{name, text, c.lets, prog})
		r.exprs = append(r.exprs, ruleExpr{"let." + name, text, expr.Value, prog, pair.Value})
		c.lets++
	}
}

// declare adds a let-name, also one whose expression is at fault: the lines that
// read it are not to blame.
func (c *compiler) declare(name string, prog *expr.Program) error {
	if prog == nil {
		return c.scope.LetBroken(name)
	}
	return c.scope.Let(name, c.lets, prog)
}

// expression compiles one scalar. Numbers and flags of the file format are read
// as the expressions that they are.
func (c *compiler) expression(key string, n *source.Node, role expr.Role) (string, *expr.Program) {
	path := c.path + "." + key
	if n.Kind == source.List || n.Kind == source.Map || n.Kind == source.Null {
		hint := "put the expression in quotes if it begins with { or ["
		if n.Kind == source.Null {
			hint = ""
		}
		c.ps.Add(n.Pos, path, "an expression is wanted here", hint)
		return "", nil
	}
	c.remark(n, path)
	prog, issues := c.scope.Compile(n.Text, role)
	for _, is := range issues {
		c.ps.Add(n.At(is.At), path, is.Text, is.Hint)
	}
	if prog != nil {
		c.cost += prog.Cost()
	}
	return n.Text, prog
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

func (c *compiler) pieces(key string, n *source.Node, text string) *template {
	path := c.path + "." + key
	pieces, at, err := cut(text)
	if err != nil {
		c.ps.Add(n.At(at), path, err.Error(), "")
		return nil
	}
	t := &template{}
	for _, p := range pieces {
		if !p.isExpr {
			t.parts = append(t.parts, part{text: p.text})
			continue
		}
		prog := c.later(p.text, expr.Value, func(is expr.Issue) { c.ps.Add(n.At(p.at+is.At), path, is.Text, is.Hint) })
		t.parts = append(t.parts, part{prog: prog, decimals: p.decimals})
	}
	return t
}

// later compiles an expression that no verdict depends on: at once, or, in files
// that are known to be sound, when it is first asked for.
func (c *compiler) later(text string, role expr.Role, report func(expr.Issue)) func() *expr.Program {
	scope := c.scope
	if c.sound {
		return sync.OnceValue(func() *expr.Program {
			prog, _ := scope.Compile(text, role)
			return prog
		})
	}
	prog, issues := scope.Compile(text, role)
	for _, is := range issues {
		report(is)
	}
	return func() *expr.Program { return prog }
}

// needs reads what to order with the rule's findings.
func (c *compiler) needs(n *source.Node) []Need {
	var out []Need
	for i, item := range n.ReadList(c.path+".needs", c.ps) {
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
		_, need.value = c.expression(key+".value", v, expr.Value)
		if need.value != nil && !need.value.IsNumber() {
			c.ps.Add(v.Pos, path+".value", "a number is wanted here, this gives "+need.value.Kind(), "")
		}
	}
	if n.Get("unit") != nil {
		need.Unit = c.text(n, path, "unit")
	}
	if w := n.Get("when"); w != nil {
		_, need.when = c.expression(key+".when", w, expr.Condition)
	}
	return need
}

// collect gathers what the rule's conditions read.
func (c *compiler) collect(r *Rule) {
	var progs []*expr.Program
	if r.when != nil {
		progs = append(progs, r.when)
	}
	for _, cond := range r.conds {
		progs = append(progs, cond.prog)
	}
	for _, p := range progs {
		for _, read := range append(slices.Clone(p.Stated()), p.Reads()...) {
			if !slices.Contains(r.reads, read) {
				r.reads = append(r.reads, read)
			}
		}
	}
}

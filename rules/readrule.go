package rules

import (
	"fmt"
	"sync"
	"sync/atomic"

	"example.org/cogcourt/rules/source"
)

var ruleKeys = []string{
	"id", "title", "why", "when", "let", "fail_if", "warn_if", "say", "pass", "remedy", "needs",
	"caution", "safety", "open_warns", "draw", "basis", "examples", "waive",
}

// rule reads and compiles one entry of rules:.
func (l *loader) rule(pack string, i int, n *source.Node) {
	path := fmt.Sprintf("rules[%d]", i)
	if !l.keys(n, path, ruleKeys...) {
		return
	}
	before := l.ps.Count()
	r := &Rule{Pack: pack, Pos: n.Pos, ready: new(atomic.Pointer[logic])}
	r.ID = l.text(n, path, "id")
	r.Title = l.text(n, path, "title")
	r.Why = l.text(n, path, "why")
	if s := n.Get("safety"); s != nil {
		r.Safety, _ = s.ReadFlag(path+".safety", l.ps)
	}
	if s := n.Get("open_warns"); s != nil {
		r.OpenWarns, _ = s.ReadFlag(path+".open_warns", l.ps)
	}
	l.identity(r, path, n)
	r.Basis = l.basis(path, n)
	r.reads = sync.OnceValue(func() []Ref { return l.set.readsOf(r) })
	r.marks = sync.OnceValue(func() ruleMarks { return l.set.marksOf(r) })
	r.facts = sync.OnceValue(func() []Ref { return l.set.factsOf(r) })
	c := &compiler{loader: l, scope: l.scopeOf("rule", r.ID), path: path}
	conditions := l.ps.Count()
	c.compile(r, n)
	broken := l.ps.Count() > conditions
	if l.overBudget == nil && l.cost > maxSetCost {
		l.overBudget = r
	}
	if len(r.Basis) > 0 && r.onMemory() && r.FailIf != "" {
		text := "a rule that rests on memory alone may warn, never fail"
		n.Get("fail_if").Refuse(l.ps, path+".fail_if", text, "name a source, or write warn_if:").Code = source.Contradicts
	}
	r.Draw = l.draw(path, n, broken)
	r.examples = l.examplesOf(i, path, n)
	r.waivers = l.waivers(path+".waive", n.Get("waive"))
	if l.ps.Count() == before {
		r.Place = len(l.set.rules)
		l.set.rules = append(l.set.rules, r)
	}
}

// identity checks the id and keeps it, so that the second of two is found even
// where the first has faults.
func (l *loader) identity(r *Rule, path string, n *source.Node) {
	if r.ID == "" {
		return
	}
	id := n.Get("id")
	if !ValidID(r.ID) {
		text := fmt.Sprintf("%q is no id for a rule", r.ID)
		id.Refuse(l.ps, path+".id", text, "write group/name, with a-z, 0-9 and -").Code = source.BadName
	}
	if other := l.rules[r.ID]; other != nil {
		hint := "the other one is at " + other.Pos.String()
		if !l.sound && l.shipped[r.ID] {
			hint = "that one is shipped; change what it gives with adjust:, or take an id of your own group"
		}
		id.Refuse(l.ps, path+".id", fmt.Sprintf("the rule %s stands twice", r.ID), hint).Code = source.Twice
		return
	}
	l.rules[r.ID] = r
	l.shipped[r.ID] = l.sound
}

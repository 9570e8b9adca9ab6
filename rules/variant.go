package rules

import (
	"cmp"
	"sync/atomic"

	"example.org/cogcourt/rules/internal/expr"
)

// Variant gives a rule of the set with other expressions, by the keys of
// Expressions: an empty text takes a condition away. It is not ok where one of
// them does not compile. Only what is changed and what reads a changed let-name
// is compiled again.
func (s *Set) Variant(r *Rule, changes map[string]string) (*Rule, bool) {
	old := r.logic()
	v := variant{scope: s.vocabulary.lang.NewScope(), lets: old.lets, logic: &logic{reads: old.reads}}
	left := len(changes)
	for _, e := range old.exprs {
		text, changed := changes[e.key]
		if changed {
			left--
		}
		if !v.add(e, text, changed) {
			return nil, false
		}
	}
	for _, c := range []struct {
		key  string
		role expr.Role
	}{{"when", expr.When}, {"fail_if", expr.Condition}, {"warn_if", expr.Condition}} {
		text := changes[c.key]
		if left == 0 || text == "" || v.has(c.key) {
			continue
		}
		if !v.add(ruleExpr{key: c.key, role: c.role}, text, true) {
			return nil, false
		}
	}
	out := *r
	out.compiled, out.ready = func() *logic { return v.logic }, new(atomic.Pointer[logic])
	return &out, true
}

// variant is a rule on its way to have other expressions.
type variant struct {
	scope *expr.Scope
	lets  []letLine // of the rule as it is, from the next one on
	logic *logic
	stale bool // a let-name was changed, so what reads it must be compiled again
}

// has says whether an expression was added, so that one that the rule did not have
// is added once.
func (v *variant) has(key string) bool {
	for _, e := range v.logic.exprs {
		if e.key == key {
			return true
		}
	}
	return false
}

// add keeps one expression, compiled again where it must be.
func (v *variant) add(e ruleExpr, text string, changed bool) bool {
	if changed && text == "" && e.role != expr.Value {
		return true
	}
	if changed || v.stale {
		e.text = cmp.Or(text, e.text)
		var issues []expr.Issue
		if e.prog, issues = v.scope.Compile(e.text, e.role); e.prog == nil || len(issues) > 0 {
			return false
		}
	}
	g := v.logic
	g.exprs = append(g.exprs, e)
	switch e.key {
	case "when":
		g.opens(e.prog)
	case "fail_if":
		g.asks(e.prog, Fail)
	case "warn_if":
		g.asks(e.prog, Warn)
	default:
		l := v.lets[0]
		v.lets = v.lets[1:]
		v.stale = v.stale || changed
		l.prog = e.prog
		g.lets = append(g.lets, l)
		v.scope.Let(l.name, l.slot, l.prog)
	}
	return true
}

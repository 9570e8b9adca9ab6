package rules

import (
	"fmt"
	"slices"
	"sync"
	"unicode"

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
	before := l.ps.Count()
	r := &Rule{Pack: pack, Pos: n.Pos}
	r.ID = l.text(n, path, "id")
	r.Title = l.text(n, path, "title")
	r.Why = l.text(n, path, "why")
	if s := n.Get("safety"); s != nil {
		r.Safety, _ = s.ReadFlag(path+".safety", l.ps)
	}
	l.identity(r, path, n)
	r.Basis = l.basis(path, n)
	r.facts = sync.OnceValue(func() []Ref { return l.set.factsOf(r) })
	c := &compiler{loader: l, scope: l.set.vocabulary.lang.NewScope(), path: path}
	c.compile(r, n)
	if l.over == nil && l.cost > maxSetCost {
		l.over = r
	}
	if len(r.Basis) > 0 && r.onMemory() && r.FailIf != "" {
		text := "a rule that rests on memory alone may warn, never fail"
		n.Get("fail_if").Refuse(l.ps, path+".fail_if", text, "name a source, or write warn_if:").Code = source.Contradicts
	}
	r.examples = l.examplesOf(i, path, n)
	r.waivers = l.waivers(path+".waive", n.Get("waive"))
	if l.ps.Count() == before {
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

// onMemory says whether nothing but memory backs the rule.
func (r *Rule) onMemory() bool {
	return !slices.ContainsFunc(r.Basis, func(b Basis) bool { return b.Kind != BasisMemory })
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
	if b.Kind == source.Text {
		b.Refuse(l.ps, path, "must be a map, is a text", "write {practice: ...}, or source, geometry or memory").Code = source.WrongKind
		return nil
	}
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
			out = append(out, Basis{BasisKind(kind), text})
		}
	}
	if len(b.Pairs) == 0 {
		b.Refuse(l.ps, path, "this says nothing", "write {practice: ...}, or source, geometry or memory").Code = source.Empty
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
			l.bases = append(l.bases, reference{n.At(begin), n.At(i), path, id})
			out = append(out, Basis{BasisSource, id})
		}
	}
	return out
}

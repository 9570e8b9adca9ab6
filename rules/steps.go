package rules

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Step is one step of a setup sheet, from steps: of a rule file. Whether it has a
// place there hangs on what is in the mix; a value that nobody stated leaves it
// there and is said to be wanted.
type Step struct {
	ID       string
	Pack     string
	Section  string   // of the sheet: bench, ride or later
	Measured []string // facts that are measured in it, by their names
	Pos      source.Pos

	after     []string
	with      []int                // objects that it needs in the mix, by their places
	without   []int                // objects with which it has no place
	when      func() *expr.Program // nil, or it must be true
	unless    func() *expr.Program // nil, or it must not be true
	stoppedBy []string             // rules, and groups with /* behind them
	do        *template
	value     *template
	unstated  *template
	check     *template
	because   *template
	caution   *template
}

var sections = []string{"bench", "ride", "later"}

// Sections lists the sections of a setup sheet, in the order in which they are done.
func Sections() []string { return slices.Clone(sections) }

// step reads one entry of steps:.
func (l *loader) step(pack, path string, n *source.Node) {
	if !l.keys(n, path, "id", "part", "after", "with", "without", "when", "unless",
		"do", "value", "unstated", "check", "because", "caution", "measured", "stopped_by") {
		return
	}
	s := &Step{Pack: pack, Pos: n.Pos, Section: "bench", ID: l.text(n, path, "id")}
	if s.ID != "" && !slug.MatchString(s.ID) {
		text := fmt.Sprintf("%q is no id for a step", s.ID)
		n.Get("id").Refuse(l.ps, path+".id", text, "use a-z, 0-9 and -").Code = source.BadName
	}
	if p := n.Get("part"); p != nil {
		s.Section = l.text(n, path, "part")
		if s.Section != "" && !slices.Contains(sections, s.Section) {
			text := fmt.Sprintf("a sheet has no part %q", s.Section)
			p.Refuse(l.ps, path+".part", text, fact.Suggest(s.Section, sections)).Code = source.NoSuchChoice
		}
	}
	s.after = l.names(n, path, "after", func(r reference) { l.afters = append(l.afters, r) })
	s.stoppedBy = l.names(n, path, "stopped_by", func(r reference) { l.stops = append(l.stops, r) })
	s.with, s.without = l.objects(n, path, "with"), l.objects(n, path, "without")
	s.Measured = l.names(n, path, "measured", l.isFact)
	c := &compiler{loader: l, scope: l.scopeOf("step", s.ID), path: path}
	s.when = c.optionalExpr("when", n.Get("when"), expr.When)
	s.unless = c.optionalExpr("unless", n.Get("unless"), expr.Condition)
	s.do, s.check, s.because = c.template("do", n), c.template("check", n), c.template("because", n)
	s.value, s.unstated, s.caution = c.optional("value", n), c.optional("unstated", n), c.optional("caution", n)
	if s.unstated != nil && s.value == nil {
		text := "there is no value that could be unstated"
		n.Get("unstated").Refuse(l.ps, path+".unstated", text, "write value: as well, or take unstated: away").Code = source.Contradicts
	}
	for _, other := range l.set.steps {
		if s.ID != "" && other.ID == s.ID {
			text := fmt.Sprintf("the step %s stands twice", s.ID)
			n.Get("id").Refuse(l.ps, path+".id", text, "the other one is at "+other.Pos.String()).Code = source.Twice
		}
	}
	l.set.steps = append(l.set.steps, s)
}

// names reads a list of names. What each must be is looked at by check, now or when
// every file is read.
func (l *loader) names(n *source.Node, path, key string, check func(reference)) []string {
	var out []string
	for _, item := range n.Get(key).ReadList(path+"."+key, l.ps) {
		if word, ok := item.ReadText(path+"."+key, l.ps); ok {
			out = append(out, word)
			check(reference{item.Pos, item.End(), path + "." + key, word})
		}
	}
	return out
}

// objects reads a list of kinds of parts.
func (l *loader) objects(n *source.Node, path, key string) []int {
	var out []int
	l.names(n, path, key, func(r reference) {
		if i, ok := l.set.vocabulary.Index(r.id); ok {
			out = append(out, i)
			return
		}
		r.unknown(l.ps, fmt.Sprintf("nothing is called %q", r.id), l.set.vocabulary.suggest(r.id))
	})
	return out
}

// isFact wants the name of a fact.
func (l *loader) isFact(r reference) {
	if _, ok := l.set.vocabulary.Find(r.id); !ok {
		r.unknown(l.ps, fmt.Sprintf("no fact is called %q", r.id), "write kind.field")
	}
}

// knownStops wants every rule that a step names to be there; a group may have no
// rule.
func (l *loader) knownStops() {
	ids := slices.Sorted(maps.Keys(l.rules))
	for _, s := range l.stops {
		group, isGroup := strings.CutSuffix(s.id, "/*")
		if isGroup && slug.MatchString(group) || l.rules[s.id] != nil {
			continue
		}
		hint := cmp.Or(fact.Suggest(s.id, ids), "write group/name, or group/* for all of a group")
		s.unknown(l.ps, fmt.Sprintf("no rule is called %q", s.id), hint)
	}
}

// orderSteps puts every step behind those that it comes after, and else leaves
// the order of the files. A circle is a problem.
func (l *loader) orderSteps() {
	var ids []string
	for _, s := range l.set.steps {
		ids = append(ids, s.ID)
	}
	for _, a := range l.afters {
		if !slices.Contains(ids, a.id) {
			a.unknown(l.ps, fmt.Sprintf("no step is called %q", a.id), fact.Suggest(a.id, ids))
		}
	}
	var ordered []*Step
	placed := map[string]bool{}
	left := slices.Clone(l.set.steps)
	for len(left) > 0 {
		i := slices.IndexFunc(left, func(s *Step) bool {
			return !slices.ContainsFunc(s.after, func(id string) bool { return !placed[id] && slices.Contains(ids, id) })
		})
		if i < 0 {
			var circle []string
			for _, s := range left {
				circle = append(circle, s.ID)
			}
			text := "these steps wait for each other: " + strings.Join(circle, ", ")
			l.ps.Add(left[0].Pos, "steps", text, "take one of the after: away").Code = source.BadOrder
			return
		}
		placed[left[i].ID] = true
		ordered = append(ordered, left[i])
		left = slices.Delete(left, i, i+1)
	}
	l.set.steps = ordered
}

// Steps gives every step of the packs, in the order in which they are done.
func (s *Set) Steps() []*Step { return s.steps }

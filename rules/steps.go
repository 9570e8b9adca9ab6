package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Step is one step of a setup sheet, from steps: of a rule file.
type Step struct {
	ID      string
	Pack    string
	Section string // of the sheet: bench, ride or later
	Pos     source.Pos

	after   []string
	when    func() *expr.Program // nil for a step that always applies
	do      *template
	value   *template
	check   *template
	because *template
	caution *template
}

var sections = []string{"bench", "ride", "later"}

// Sections lists the sections of a setup sheet, in the order in which they are done.
func Sections() []string { return slices.Clone(sections) }

// step reads one entry of steps:.
func (l *loader) step(pack, path string, n *source.Node) {
	if !l.keys(n, path, "id", "part", "after", "when", "do", "value", "check", "because", "caution") {
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
	for _, item := range n.Get("after").ReadList(path+".after", l.ps) {
		if id, ok := item.ReadText(path+".after", l.ps); ok {
			s.after = append(s.after, id)
			l.afters = append(l.afters, reference{item.Pos, item.End(), path + ".after", id})
		}
	}
	c := &compiler{loader: l, scope: l.set.vocabulary.lang.NewScope(), path: path}
	s.when = c.optionalExpr("when", n.Get("when"), expr.When)
	s.do, s.check, s.because = c.template("do", n), c.template("check", n), c.template("because", n)
	s.value, s.caution = c.optional("value", n), c.optional("caution", n)
	for _, other := range l.set.steps {
		if s.ID != "" && other.ID == s.ID {
			text := fmt.Sprintf("the step %s stands twice", s.ID)
			n.Get("id").Refuse(l.ps, path+".id", text, "the other one is at "+other.Pos.String()).Code = source.Twice
		}
	}
	l.set.steps = append(l.set.steps, s)
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

package rules

import (
	"cmp"
	"fmt"
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
	Part     string   // of the sheet: bench, ride or later
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

// FilledStep is a step filled in for one set of facts.
type FilledStep struct {
	Step    *Step
	Do      string
	Value   string   // the value from the mix, or what is said where nobody stated it; empty for a step without one
	Check   string   // right when
	Because string   // one clause
	Caution string   // empty for most
	Missing []string // facts without which the value or another text cannot be said
}

var sheetParts = []string{"bench", "ride", "later"}

// StepParts lists the parts of a setup sheet, in the order in which they are done.
func StepParts() []string { return slices.Clone(sheetParts) }

// step reads one entry of steps:.
func (l *loader) step(pack, path string, n *source.Node) {
	if !l.keys(n, path, "id", "part", "after", "with", "without", "when", "unless", "do", "value", "unstated", "check", "because", "caution",
		"measured", "stopped_by") {
		return
	}
	s := &Step{Pack: pack, Pos: n.Pos, Part: "bench", ID: l.text(n, path, "id")}
	if s.ID != "" && !slug.MatchString(s.ID) {
		l.ps.Add(n.Get("id").Pos, path+".id", fmt.Sprintf("%q is no id for a step", s.ID), "use a-z, 0-9 and -")
	}
	if p := n.Get("part"); p != nil {
		s.Part = l.text(n, path, "part")
		if s.Part != "" && !slices.Contains(sheetParts, s.Part) {
			l.ps.Add(p.Pos, path+".part", fmt.Sprintf("a sheet has no part %q", s.Part), fact.Suggest(s.Part, sheetParts))
		}
	}
	s.after = l.words(n, path, "after", func(b pendingBasis) { l.afters = append(l.afters, b) })
	s.stoppedBy = l.words(n, path, "stopped_by", func(b pendingBasis) { l.stops = append(l.stops, b) })
	s.with, s.without = l.objects(n, path, "with"), l.objects(n, path, "without")
	s.Measured = l.words(n, path, "measured", l.isFact)
	c := &compiler{loader: l, scope: l.set.vocabulary.lang.NewScope(), path: path}
	s.when = c.optionalExpr("when", n.Get("when"), expr.When)
	s.unless = c.optionalExpr("unless", n.Get("unless"), expr.Condition)
	s.do, s.check, s.because = c.template("do", n), c.template("check", n), c.template("because", n)
	s.value, s.unstated, s.caution = c.optional("value", n), c.optional("unstated", n), c.optional("caution", n)
	if s.unstated != nil && s.value == nil {
		l.ps.Add(n.Get("unstated").Pos, path+".unstated", "there is no value that could be unstated", "write value: as well, or take unstated: away")
	}
	for _, other := range l.set.steps {
		if s.ID != "" && other.ID == s.ID {
			l.ps.Add(n.Get("id").Pos, path+".id", fmt.Sprintf("the step %s stands twice", s.ID), "the other one is at "+other.Pos.String())
		}
	}
	l.set.steps = append(l.set.steps, s)
}

// words reads a list of names. What each must be is looked at by check, now or
// when every file is read.
func (l *loader) words(n *source.Node, path, key string, check func(pendingBasis)) []string {
	var out []string
	for _, item := range n.Get(key).ReadList(path+"."+key, l.ps) {
		if word, ok := item.ReadText(path+"."+key, l.ps); ok {
			out = append(out, word)
			check(pendingBasis{item.Pos, path + "." + key, word})
		}
	}
	return out
}

// objects reads a list of kinds of parts.
func (l *loader) objects(n *source.Node, path, key string) []int {
	var out []int
	l.words(n, path, key, func(b pendingBasis) {
		i, ok := l.set.vocabulary.Index(b.id)
		if !ok {
			var names []string
			for _, o := range l.set.vocabulary.Objects() {
				names = append(names, o.Name())
			}
			l.ps.Add(b.pos, b.path, fmt.Sprintf("nothing is called %q", b.id), fact.Suggest(b.id, names))
			return
		}
		out = append(out, i)
	})
	return out
}

// isFact wants the name of a fact.
func (l *loader) isFact(b pendingBasis) {
	if _, ok := l.set.vocabulary.Find(b.id); !ok {
		l.ps.Add(b.pos, b.path, fmt.Sprintf("no fact is called %q", b.id), "write kind.field")
	}
}

// knownStops wants every rule that a step names to be there; a group may have no
// rule.
func (l *loader) knownStops() {
	var ids []string
	for _, r := range l.set.rules {
		ids = append(ids, r.ID)
	}
	for _, s := range l.stops {
		if group, isGroup := strings.CutSuffix(s.id, "/*"); isGroup && slug.MatchString(group) || slices.Contains(ids, s.id) || l.rules[s.id] != nil {
			continue
		}
		l.ps.Add(s.pos, s.path, fmt.Sprintf("no rule is called %q", s.id), cmp.Or(fact.Suggest(s.id, ids), "write group/name, or group/* for all of a group"))
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
			l.ps.Add(a.pos, a.path, fmt.Sprintf("no step is called %q", a.id), fact.Suggest(a.id, ids))
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
			l.ps.Add(left[0].Pos, "steps", "these steps wait for each other: "+strings.Join(circle, ", "), "take one of the after: away")
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

// Sheet fills in the steps that apply to the facts, in order.
func (s *Set) Sheet(records []*Record) []FilledStep {
	f := s.open(records)
	defer f.Close()
	var out []FilledStep
	for _, step := range s.steps {
		if step.applies(f) {
			out = append(out, s.done(step, f))
		}
	}
	return out
}

// Stop gives the step at which the work ends where a rule fails: of the steps that
// name the rule the first of the sheet, else of those that name its group, else the
// first step of all, for nobody knows what a fault of the shop's own stops. It is
// nil where there are no steps.
func (s *Set) Stop(rule string, sheet []FilledStep) *Step {
	group, _, _ := strings.Cut(rule, "/")
	for _, name := range []string{rule, group + "/*"} {
		names := func(step *Step) bool { return slices.Contains(step.stoppedBy, name) }
		if i := slices.IndexFunc(sheet, func(f FilledStep) bool { return names(f.Step) }); i >= 0 {
			return sheet[i].Step
		}
		if i := slices.IndexFunc(s.steps, names); i >= 0 {
			return s.steps[i]
		}
	}
	if len(s.steps) == 0 {
		return nil
	}
	return s.steps[0]
}

// Names says whether a step says of a rule, or of its group, that a fail of it
// stops the work there.
func (s *Step) Names(rule string) bool {
	group, _, _ := strings.Cut(rule, "/")
	return slices.Contains(s.stoppedBy, rule) || slices.Contains(s.stoppedBy, group+"/*")
}

// applies says whether a step has a place on the sheet.
func (s *Step) applies(f *expr.Frame) bool {
	here := func(i int) bool { return f.Record(i) != nil }
	if slices.ContainsFunc(s.with, func(i int) bool { return !here(i) }) || slices.ContainsFunc(s.without, here) {
		return false
	}
	return (s.when == nil || s.when().Holds(f)) && (s.unless == nil || !s.unless().Holds(f))
}

func (s *Set) done(step *Step, f *expr.Frame) FilledStep {
	d := FilledStep{Step: step, Do: step.do.render(f), Check: step.check.render(f), Because: step.because.render(f)}
	for _, t := range []*template{step.do, step.value, step.check, step.because} {
		if _, ok := t.said(f); !ok {
			d.Missing = addNew(d.Missing, s.gaps(t, f).missing)
		}
	}
	d.Value = s.value(step, f)
	// A caution that hangs on facts which are not there would only confuse.
	if text, ok := step.caution.said(f); ok {
		d.Caution = strings.TrimSpace(text)
	}
	return d
}

// value is the value of a step; where it means nothing here, why; and where nobody
// stated it, what to say instead.
func (s *Set) value(step *Step, f *expr.Frame) string {
	if text, ok := step.value.said(f); ok {
		return strings.TrimSpace(text)
	}
	if why := s.gaps(step.value, f).sentence; why != "" {
		return "Not worked out: " + why + "."
	}
	if text, ok := step.unstated.said(f); ok {
		return strings.TrimSpace(text)
	}
	return ""
}

// gap is what keeps a text from being filled in: facts and parts that are not
// there, or why a figure means nothing here.
type gap struct {
	missing  []string
	sentence string
}

func (s *Set) gaps(t *template, f *expr.Frame) gap {
	var g gap
	if t == nil {
		return g
	}
	for _, p := range t.parts() {
		if p.prog == nil {
			continue
		}
		for _, r := range p.prog.Lacks(f) {
			l := s.lack(r, f)
			g.missing = addNew(addNew(g.missing, l.Missing), l.Absent)
			g.sentence = cmp.Or(g.sentence, l.Reason, l.Fault)
		}
	}
	return g
}

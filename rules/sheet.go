package rules

import (
	"cmp"
	"strings"

	"example.org/cogcourt/rules/internal/expr"
)

// FilledStep is a step filled in for one set of facts.
type FilledStep struct {
	Step    *Step
	Do      string
	Value   string   // the value from the mix; empty for a step without one, and where every sentence of it lacks facts
	Check   string   // right when
	Because string   // one clause
	Caution string   // empty for most
	Missing []string // facts without which the value cannot be said
}

// Sheet fills in the steps that apply to the facts, in order.
func (s *Set) Sheet(records []*Record) []FilledStep {
	f := s.open(records)
	defer f.Close()
	var out []FilledStep
	for _, step := range s.steps {
		if step.applies(f) {
			out = append(out, s.filled(step, f))
		}
	}
	return out
}

// applies says whether a step has a place on the sheet.
func (s *Step) applies(f *expr.Frame) bool { return s.when == nil || s.when().Holds(f) }

func (s *Set) filled(step *Step, f *expr.Frame) FilledStep {
	d := FilledStep{Step: step, Do: step.do.render(f), Check: step.check.render(f), Because: step.because.render(f)}
	value := s.gaps(step.value, f)
	d.Missing = addNew(s.gaps(step.do, f).missing, value.missing)
	for _, t := range []*template{step.check, step.because} {
		d.Missing = addNew(d.Missing, s.gaps(t, f).missing)
	}
	if text, ok := step.value.said(f); ok {
		d.Value = text
	} else if value.sentence != "" {
		d.Value = "Not worked out: " + value.sentence + "."
	}
	// A caution that hangs on facts which are not there would only confuse.
	if text, ok := step.caution.said(f); ok {
		d.Caution = strings.TrimSpace(text)
	}
	return d
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
	for _, p := range t.pieces() {
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

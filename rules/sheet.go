package rules

import (
	"cmp"
	"slices"
	"strings"

	"example.org/cogcourt/rules/internal/expr"
)

// FilledStep is a step filled in for one set of facts.
type FilledStep struct {
	Step    *Step
	Do      string
	Value   string   // from the mix, or what is said where nobody stated it; empty for a step without one
	Check   string   // right when
	Because string   // one clause
	Caution string   // empty for most
	Missing []string // facts without which the value or another text cannot be said
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

func (s *Set) filled(step *Step, f *expr.Frame) FilledStep {
	d := FilledStep{Step: step, Do: step.do.render(f), Check: step.check.render(f), Because: step.because.render(f)}
	for _, t := range []*template{step.do, step.value, step.check, step.because} {
		if _, ok := t.said(f); !ok {
			d.Missing = addNew(d.Missing, s.gaps(t, f).missing)
		}
	}
	d.Value = s.valueOf(step, f)
	// A caution that hangs on facts which are not there would only confuse.
	if text, ok := step.caution.said(f); ok {
		d.Caution = strings.TrimSpace(text)
	}
	return d
}

// valueOf is the value of a step; where it means nothing here, why; and where nobody
// stated it, what to say instead.
func (s *Set) valueOf(step *Step, f *expr.Frame) string {
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

// StepReads gives the facts that the texts of a step print, each once.
func (s *Set) StepReads(step *Step) []Ref {
	var out []Ref
	for _, t := range []*template{step.do, step.value, step.check, step.because} {
		if t == nil {
			continue
		}
		for _, p := range t.pieces() {
			if p.prog == nil {
				continue
			}
			for _, read := range p.prog.Reads() {
				if ref := s.vocabulary.ref(read); !slices.Contains(out, ref) {
					out = append(out, ref)
				}
			}
		}
	}
	return out
}

// gap is what keeps a text from being filled in: facts and parts that are not
// there, or why a figure means nothing here.
type gap struct {
	missing  []string
	sentence string
}

func (s *Set) gaps(t *template, f *expr.Frame) gap {
	var g gap
	var absent []string
	if t == nil {
		return g
	}
	for _, p := range t.pieces() {
		if p.prog == nil {
			continue
		}
		for _, r := range p.prog.Lacks(f) {
			l := s.lack(r, f)
			g.missing, absent = addNew(g.missing, l.Missing), addNew(absent, l.Absent)
			g.sentence = cmp.Or(g.sentence, l.Reason, l.Fault)
		}
	}
	if len(g.missing) == 0 { // else they are not what it hangs on
		g.missing = absent
	}
	return g
}

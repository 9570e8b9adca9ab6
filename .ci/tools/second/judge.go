package second

import (
	"fmt"
	"slices"
	"time"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"

	"example.org/cogcourt/rules"
)

// Judge judges by the texts of a set of rules.
type Judge struct {
	objects []*rules.Object
	figures int // where they stand among the objects
	places  map[string]place
	read    []string // every fact that a rule reads
	asked   []string // and those that one asks to be stated
	rules   []*rule
	counts  []countLine
	day     time.Time
}

// rule is one rule, compiled anew from its texts.
type rule struct {
	id, text         string // and its conditions as written
	lets             []let
	when, fail, warn *expression // nil for none
	remedy           *expression // what it prints, where it is all that the remedy says
	reads            []string    // of the conditions, and what they ask to be stated
	openWarns        bool
	to               rules.Verdict // an adjustment in force; Unknown for none
}

type let struct {
	name string
	expr *expression
}

// Adjustment is one entry of adjust: of a rule file.
type Adjustment struct {
	To    rules.Verdict
	Until time.Time // the last day, UTC
}

// New makes a judge of the rules of a set: it takes their texts alone. The adjustments
// are by the ids of rules, and are held against the day.
func New(set *rules.Set, day time.Time, adjusted map[string]Adjustment) (*Judge, error) {
	j := bare(set.Vocabulary())
	j.day = day
	var err error
	if j.counts, err = readCounts(); err != nil {
		return nil, err
	}
	e, err := environment(j.objects)
	if err != nil {
		return nil, err
	}
	for _, r := range set.Rules() {
		own, err := newRule(e, r)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r.ID, err)
		}
		if a, ok := adjusted[r.ID]; ok && !day.UTC().After(a.Until.Add(24*time.Hour-time.Nanosecond)) {
			own.to = a.To
		}
		j.rules = append(j.rules, own)
		for _, x := range []*expression{own.when, own.fail, own.warn} {
			if x != nil {
				j.asked = addOnce(j.asked, x.asks...)
			}
		}
		for _, l := range own.lets {
			j.read = addOnce(j.read, l.expr.reads...)
		}
		if own.remedy != nil {
			j.read = addOnce(j.read, own.remedy.reads...)
		}
		j.read = addOnce(j.read, own.reads...)
	}
	return j, nil
}

// bare makes a judge without rules: it knows the facts.
func bare(v *rules.Vocabulary) *Judge {
	j := &Judge{objects: v.Objects(), places: map[string]place{}}
	for i, o := range j.objects {
		if o.Name() == "figures" {
			j.figures = i
		}
		for k, f := range o.Table().Fields() {
			j.places[o.Name()+"."+f.Name] = place{i, k, o.Name(), f.Type}
		}
	}
	return j
}

func newRule(e *cel.Env, r *rules.Rule) (*rule, error) {
	out := &rule{id: r.ID, text: fmt.Sprintf("when %q, fail_if %q, warn_if %q", r.WhenText, r.FailIf, r.WarnIf), openWarns: r.OpenWarns}
	lets := map[string]*expression{}
	for _, l := range r.Lets() {
		x, err := compile(e, l.Text, lets)
		if err != nil {
			return nil, err
		}
		lets[l.Name] = x
		out.lets = append(out.lets, let{l.Name, x})
	}
	for _, c := range []struct {
		text string
		to   **expression
	}{{r.WhenText, &out.when}, {r.FailIf, &out.fail}, {r.WarnIf, &out.warn}} {
		if c.text == "" {
			continue
		}
		x, err := compile(e, c.text, lets)
		if err != nil {
			return nil, err
		}
		*c.to = x
		out.reads = addOnce(addOnce(out.reads, x.asks...), x.reads...)
	}
	if text, ok := chooses(r.Remedy); ok {
		x, err := compile(e, text, lets)
		if err != nil {
			return nil, err
		}
		out.remedy = x
	}
	out.openWarns = out.openWarns || out.when != nil && len(out.when.asks) > 0
	return out, nil
}

// Said is what a rule says.
type Said struct {
	Ruled   rules.Verdict
	Verdict rules.Verdict // as adjusted
	Reason  rules.Reason  // why it is not applied; empty where it is
	Names   []string      // that are missing; with a reason those of the reason
	Quiet   bool
	Assumed []string // what a fail hangs on that nobody stated
	Err     bool
	Margin  *Margin
}

// Margin is what the tolerances make of a verdict.
type Margin struct {
	Nominal rules.Verdict
	By      []string
	Open    bool
}

// answer is what an expression comes to: true or false, the names that it lacks, or an
// error.
type answer struct {
	known, holds, wrong bool
	lacks               []string
}

// evaluate evaluates an expression.
func (f *facts) evaluate(x *expression) ref.Val {
	partial, err := cel.PartialVars(f, f.gaps...)
	if err != nil {
		return types.WrapErr(err)
	}
	v, _, err := x.program.Eval(partial)
	if err != nil {
		return types.WrapErr(err)
	}
	return v
}

// answer evaluates a condition.
func (f *facts) answer(x *expression) answer {
	switch v := f.evaluate(x).(type) {
	case types.Bool:
		return answer{known: true, holds: bool(v)}
	case *types.Unknown:
		return answer{lacks: f.trails(v)}
	}
	return answer{wrong: true}
}

// trails names what an Unknown stands for by the trails of its attributes: a kind that is
// absent, or kind.field.
func (f *facts) trails(u *types.Unknown) []string {
	var out []string
	for _, id := range u.IDs() {
		trails, _ := u.GetAttributeTrails(id)
		for _, t := range trails {
			name := t.Variable()
			if !f.absent[name] && len(t.QualifierPath()) > 0 {
				name += "." + fmt.Sprint(t.QualifierPath()[0])
			}
			out = addOnce(out, name)
		}
	}
	slices.Sort(out)
	return out
}

// settle works out the let-names, in their order.
func (f *facts) settle(r *rule) {
	f.lets = map[string]ref.Val{}
	for _, l := range r.lets {
		f.lets[l.name] = f.evaluate(l.expr)
	}
}

// apply gives what a rule says of facts as they stand, by the table of outcomes, and
// without what tolerances and usual values make of it.
func (f *facts) apply(r *rule) Said {
	s := f.fails(r)
	if r.warn == nil || s.Ruled != rules.Pass {
		return s
	}
	switch a := f.answer(r.warn); {
	case a.wrong:
		return Said{Err: true}
	case !a.known:
		return f.open(a.lacks)
	case a.holds:
		return Said{Ruled: rules.Warn}
	}
	return s
}

// fails is apply of a rule that does not warn.
func (f *facts) fails(r *rule) Said {
	f.settle(r)
	if r.when != nil {
		switch a := f.answer(r.when); {
		case a.wrong:
			return Said{Err: true}
		case !a.known:
			return f.open(a.lacks)
		case !a.holds:
			return f.apart(r)
		}
	}
	if r.fail != nil {
		switch a := f.answer(r.fail); {
		case a.wrong:
			return Said{Err: true}
		case !a.known:
			return f.open(a.lacks)
		case a.holds:
			if names := f.assumed(r); len(names) > 0 {
				return Said{Ruled: rules.Warn, Assumed: names}
			}
			return Said{Ruled: rules.Fail}
		}
	}
	return Said{Ruled: rules.Pass}
}

// apart is a rule whose when is false: what it asks to be stated goes before the
// condition.
func (f *facts) apart(r *rule) Said {
	var unstated []string
	for _, name := range r.when.asks {
		v := f.value(name)
		if f.absent[f.judge.places[name].kind] || !v.Known || slices.Contains(f.hidden, name) {
			unstated = append(unstated, name)
		}
	}
	if len(unstated) == 0 {
		return Said{Reason: rules.ReasonWhen}
	}
	s := f.open(unstated)
	if s.Err {
		return Said{Reason: rules.ReasonFigure, Names: s.Names}
	}
	if s.Reason == "" {
		s.Reason = rules.ReasonUnstated
	}
	return s
}

// open is what the lack of facts means.
func (f *facts) open(lacks []string) Said {
	var absent, missing, sentences, faults []string
	quiet := false
	for _, name := range lacks {
		l := f.lack(name)
		absent, missing = addOnce(absent, l.Absent...), addOnce(missing, l.Missing...)
		if l.Reason != "" {
			if len(sentences) == 0 {
				quiet = l.Quiet
			}
			sentences = append(sentences, l.Reason)
		}
		if l.Fault != "" {
			faults = append(faults, l.Fault)
		}
	}
	switch {
	case len(absent) > 0:
		return Said{Reason: rules.ReasonAbsent, Names: absent}
	case len(sentences) > 0:
		return Said{Reason: rules.ReasonFigure, Names: sentences, Quiet: quiet}
	case len(faults) > 0:
		return Said{Err: true, Names: faults}
	}
	return Said{Names: missing}
}

// assumed names the assumed facts without which a fail would not hold.
func (f *facts) assumed(r *rule) []string {
	reads := slices.Clone(r.fail.reads)
	if r.when != nil {
		reads = addOnce(reads, r.when.reads...)
	}
	var hidden []string
	for _, name := range reads {
		if v := f.value(name); v.Known && v.Assumed {
			hidden = append(hidden, name)
		}
	}
	if len(hidden) == 0 {
		return nil
	}
	strict := f.judge.factsOf(f.records, f.held, hidden...)
	strict.settle(r)
	var names []string
	for _, x := range []*expression{r.fail, r.when} {
		if x == nil {
			continue
		}
		a := strict.answer(x)
		switch {
		case a.known && a.holds:
		case a.known || a.wrong:
			names = addOnce(names, x.reads...)
		default:
			names = addOnce(names, a.lacks...)
		}
	}
	return slices.DeleteFunc(names, func(name string) bool { return !slices.Contains(hidden, name) })
}

// adjust gives a verdict as it is adjusted.
func (r *rule) adjust(s *Said) {
	s.Verdict = s.Ruled
	if s.Reason == "" && r.to != rules.Unknown && (s.Ruled == rules.Warn || s.Ruled == rules.Fail) {
		s.Verdict = r.to
	}
}

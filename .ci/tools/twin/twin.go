// Package twin is a set of rules twice: as a rule file, and by hand in Go. Both
// say the same of any mix, with the same facts missing and the same reasons, and
// the engine costs little more than the hand. It is what a program would do
// without rule files.
package twin

import (
	"embed"
	"io/fs"
	"log"
	"slices"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

//go:embed rules.yaml
var files embed.FS

// Files gives the rules as files.
func Files() fs.FS { return files }

// Finding is what one rule says: a verdict, or the reason why it is not applied.
type Finding struct {
	Verdict rules.Verdict
	Reason  rules.Reason
	Names   []string // missing facts; with a reason, what is absent, unstated, or the sentence of a figure
	Assumed []string // what a fail hangs on that nobody stated, so that it only warns
	Err     string   // why facts do not fit together
}

// Twin judges by hand.
type Twin struct {
	at      [factCount]place
	kinds   []string // of the records, in the order of the vocabulary
	figures int      // the place of the figures
}

// place is where a fact stands among the records.
type place struct{ object, field int }

// New finds where the facts stand.
func New() *Twin {
	v, err := compat.Vocabulary()
	if err != nil {
		log.Fatal(err)
	}
	t := &Twin{}
	for _, o := range v.Objects() {
		t.kinds = append(t.kinds, o.Name())
	}
	t.figures = slices.Index(t.kinds, "figures")
	for i, name := range names {
		ref, ok := v.Find(name)
		if !ok {
			log.Fatalf("the vocabulary has no %s", name)
		}
		object, _ := v.Index(ref.Object.Name())
		t.at[i] = place{object, ref.Index}
	}
	return t
}

// Records gives the facts of a mix in the order of the vocabulary, with an empty
// place for the figures.
func (t *Twin) Records(m compat.Mix) []*rules.Record {
	out := make([]*rules.Record, len(t.kinds))
	for i, kind := range t.kinds {
		if p, ok := m.Part(kind); ok {
			out[i] = p.Record()
		}
	}
	return out
}

// Put puts the figures of a mix in their place.
func (t *Twin) Put(records []*rules.Record, figs figures.Figures) {
	records[t.figures] = figs.Record()
}

// Rules gives the ids in their order.
func (t *Twin) Rules() []string {
	var out []string
	for _, r := range byHand {
		out = append(out, r.id)
	}
	return out
}

// Judge says what each rule says, in their order.
func (t *Twin) Judge(records []*rules.Record) []Finding {
	out := make([]Finding, len(byHand))
	v := view{twin: t, records: records}
	for i := range byHand {
		out[i] = v.judge(&byHand[i])
	}
	return out
}

// view reads facts; with hidden, those that nobody stated are not there.
type view struct {
	twin    *Twin
	records []*rules.Record
	hidden  bool
}

// value gives a fact that is there.
func (v *view) value(i int) (*fact.Value, lacks) {
	p := v.twin.at[i]
	if rec := v.records[p.object]; rec != nil {
		if x := rec.At(p.field); x.Known && !(v.hidden && x.Assumed) {
			return x, 0
		}
	}
	return &nothing, 1 << i
}

// nothing is read, never written.
var nothing fact.Value

func (v *view) num(i int) number {
	x, l := v.value(i)
	return number{x.Num, l}
}

func (v *view) nums(i int) list {
	x, l := v.value(i)
	return list{x.List, l}
}

func (v *view) word(i int) word {
	x, l := v.value(i)
	return word{x.Text, l}
}

func (v *view) words(i int) wordList {
	x, l := v.value(i)
	return wordList{x.Words(), l}
}

func (v *view) flag(i int) truth {
	x, l := v.value(i)
	return truth{x.Num != 0, l}
}

// judge applies one rule.
func (v *view) judge(r *rule) Finding {
	for _, asked := range r.asks {
		if _, lack := v.value(asked); lack != 0 {
			return v.quiet(r)
		}
	}
	if r.when != nil {
		if when := r.when(v); when.is(false) {
			return Finding{Reason: rules.ReasonWhen}
		} else if when.lacks != 0 {
			return v.open(when.lacks)
		}
	}
	f := Finding{Verdict: rules.Pass}
	switch fail, warn := v.decide(r); {
	case fail.lacks != 0:
		return v.open(fail.lacks)
	case fail.holds:
		f.Verdict = rules.Fail
		if f.Assumed = v.assumed(r); len(f.Assumed) > 0 {
			f.Verdict = rules.Warn
		}
	case warn.lacks != 0:
		return v.open(warn.lacks)
	case warn.holds:
		f.Verdict = rules.Warn
	}
	if r.adjusted != rules.Unknown && f.Verdict != rules.Pass {
		f.Verdict = r.adjusted
	}
	return f
}

// decide gives both conditions; warn is asked only where fail does not hold.
func (v *view) decide(r *rule) (fail, warn truth) {
	if r.fail != nil {
		fail = r.fail(v)
	}
	if r.warn != nil && fail.is(false) {
		warn = r.warn(v)
	}
	return fail, warn
}

// assumed decides a fail again without what nobody stated, and names what it
// then lacks of it.
func (v *view) assumed(r *rule) []string {
	strict := view{v.twin, v.records, true}
	l := r.fail(&strict).lacks
	if r.when != nil {
		l |= r.when(&strict).lacks
	}
	for _, asked := range r.asks {
		_, lack := strict.value(asked)
		l |= lack
	}
	var out []string
	for i, name := range names {
		if x, lack := v.value(i); l&(1<<i) != 0 && lack == 0 && x.Assumed {
			out = append(out, name)
		}
	}
	return out
}

// quiet is what a rule comes to that asks for facts which are not there.
func (v *view) quiet(r *rule) Finding {
	var l lacks
	for _, asked := range r.asks {
		_, lack := v.value(asked)
		l |= lack
	}
	f := v.open(l)
	switch {
	case f.Err != "":
		return Finding{Reason: rules.ReasonFigure, Names: []string{f.Err}}
	case f.Reason == "":
		f.Reason = rules.ReasonUnstated
	}
	return f
}

// open is what the lack of facts means: an absent part or a figure without
// meaning takes the rule away, one that nobody stated leaves it open.
func (v *view) open(l lacks) Finding {
	var absent, missing []string
	var sentence, fault string
	for i := range names {
		if l&(1<<i) == 0 {
			continue
		}
		p := v.twin.at[i]
		switch rec := v.records[p.object]; {
		case rec == nil:
			absent = addNew(absent, v.twin.kinds[p.object])
		case p.object == v.twin.figures:
			why := rec.Lack(p.field)
			absent, missing = addNew(absent, why.Absent...), addNew(missing, why.Missing...)
			sentence, fault = either(sentence, why.Reason), either(fault, why.Fault)
		default:
			missing = addNew(missing, names[i])
		}
	}
	switch {
	case len(absent) > 0:
		return Finding{Reason: rules.ReasonAbsent, Names: absent}
	case sentence != "":
		return Finding{Reason: rules.ReasonFigure, Names: []string{sentence}}
	case fault != "":
		return Finding{Err: fault}
	}
	return Finding{Names: missing}
}

func addNew(to []string, more ...string) []string {
	for _, name := range more {
		if !slices.Contains(to, name) {
			to = append(to, name)
		}
	}
	return to
}

func either(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

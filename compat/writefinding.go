package compat

import (
	"bytes"
	"math/bits"
	"slices"
	"time"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// findings writes what the applied rules say.
func (w *writer) findings(passes bool) {
	w.dst = append(w.dst, `,"findings":[`...)
	comma := false
	for i := range w.r.findings {
		f := &w.r.findings[i]
		said := w.told.next(f.Rule.ID)
		if !passes && f.Verdict == rules.Pass {
			continue
		}
		if comma {
			w.dst = append(w.dst, ',')
		}
		comma = true
		w.finding(f, said)
	}
	w.dst = append(w.dst, ']')
}

// finding writes one, with the texts that are made already, where they are.
func (w *writer) finding(f *rules.Finding, said *ChangedFinding) {
	p := w.printed.rule(f.Rule)
	w.dst = append(append(append(w.dst, p.head...), f.Verdict.String()...), `","adjusted":`...)
	w.adjusted(f)
	w.dst = append(w.dst, `,"text":`...)
	if said != nil {
		w.dst = append(wire.AppendString(w.dst, said.Text), p.why...)
		w.dst = wire.AppendString(w.dst, said.Remedy)
	} else {
		w.text = w.speaker.AppendText(w.text[:0], *f)
		w.dst = append(wire.AppendString(w.dst, w.text), p.why...)
		w.text = w.speaker.AppendRemedy(w.text[:0], *f)
		w.dst = wire.AppendString(w.dst, w.text)
	}
	w.dst = append(w.dst, `,"caution":`...)
	w.dst = append(wire.AppendString(w.dst, w.cautionOf(f)), p.basis...)
	w.kinds(p.kinds & w.here)
	w.dst = append(w.dst, `],"used":[`...)
	w.used(f, p)
	w.values(f)
	w.dst = wire.AppendStrings(append(w.dst, `},"assumed":`...), w.assumed)
	w.dst = wire.AppendStrings(append(w.dst, `,"usual":`...), w.usual)
	w.dst = appendLean(append(w.dst, `,"leans":`...), f.Lean)
	w.dst = wire.AppendStrings(append(w.dst, `,"missing":`...), f.Missing)
	w.dst = appendMargin(append(w.dst, `,"marginal":`...), f.Margin)
	w.dst = append(wire.AppendString(append(w.dst, `,"error":`...), f.Err), '}')
}

// values writes the let-names, which are sorted.
func (w *writer) values(f *rules.Finding) {
	w.dst = append(w.dst, `],"values":{`...)
	w.named = w.speaker.AppendValues(w.named[:0], f)
	for i := range w.named {
		if i > 0 {
			w.dst = append(w.dst, ',')
		}
		n := &w.named[i]
		w.dst = append(append(append(w.dst, '"'), n.Name...), `":`...) // a-z, 0-9 and _
		switch n.Type {
		case fact.Name:
			w.dst = wire.AppendString(w.dst, n.Text)
		case fact.Flag:
			w.dst = append(w.dst, truth(n.Num != 0)...)
		default:
			w.dst = wire.AppendFloat(w.dst, n.Num)
		}
	}
}

// kinds writes the names of kinds, by their places.
func (w *writer) kinds(kinds uint64) {
	for rest := kinds; rest != 0; rest &= rest - 1 {
		if rest != kinds {
			w.dst = append(w.dst, ',')
		}
		w.dst = append(w.dst, w.printed.kinds[bits.TrailingZeros64(rest)]...)
	}
}

// adjusted writes the adjustment that changed the verdict.
func (w *writer) adjusted(f *rules.Finding) {
	a := w.r.set.Adjusted(*f)
	if a == nil {
		w.dst = append(w.dst, "null"...)
		return
	}
	dst := append(append(append(w.dst, `{"from":"`...), f.Ruled.String()...), `","reason":`...)
	dst = wire.AppendString(append(wire.AppendString(dst, a.Reason), `,"by":`...), a.By)
	w.dst = append(a.Until.AppendFormat(append(dst, `,"until":"`...), time.DateOnly), `"}`...)
}

// cautionOf gives what to beware of, without the sentences that another finding says;
// see once.
func (w *writer) cautionOf(f *rules.Finding) []byte {
	w.text = w.speaker.AppendCaution(w.text[:0], *f)
	kept := w.text[:0]
	for rest := w.text; len(rest) > 0; {
		sentence := rest
		if i := bytes.Index(rest, []byte(". ")); i >= 0 {
			sentence = rest[:i+2]
		}
		rest = rest[len(sentence):]
		if bare := bytes.TrimSpace(sentence); w.said[string(bare)] != w.round {
			w.said[string(bare)] = w.round
			kept = append(kept, sentence...)
		}
	}
	return bytes.TrimSpace(kept)
}

// used writes the stated facts that a finding's conditions read, and gathers what they
// rest on that nobody stated.
func (w *writer) used(f *rules.Finding, p *printedRule) {
	w.assumed, w.usual = w.assumed[:0], w.usual[:0]
	w.eachUsed(f, p, func(read *printedRead, v *fact.Value) {
		w.dst = append(append(append(w.dst, read.unit...), truth(v.Assumed)...), `,"usual":`...)
		w.dst = append(append(w.dst, truth(v.Usual != fact.NotUsual)...), '}')
		w.restsOn(read, v)
	})
}

// eachUsed writes the name and value of each stated fact that a finding's conditions
// read, and has the end of its entry written.
func (w *writer) eachUsed(f *rules.Finding, p *printedRule, end func(read *printedRead, v *fact.Value)) {
	about := w.r.result.About(*f)
	comma := false
	for i := range p.reads {
		read := &p.reads[i]
		rec := about[read.object]
		if rec == nil || !rec.At(read.Index).Known {
			continue
		}
		if comma {
			w.dst = append(w.dst, ',')
		}
		comma = true
		v := rec.At(read.Index)
		w.dst = appendValue(append(w.dst, read.head...), v, read.typ)
		end(read, v)
	}
}

// restsOn notes what a used fact rests on that nobody stated.
func (w *writer) restsOn(read *printedRead, v *fact.Value) {
	switch {
	case !v.Assumed && v.Usual == fact.NotUsual:
	case read.Object == figures.Object:
		if w.doubts == nil {
			w.doubts = w.r.Figures.Doubts()
		}
		assumed, usual := w.doubts.Roots(read.Index)
		w.assumed, w.usual = addNames(w.assumed, assumed), addNames(w.usual, usual)
	case v.Assumed:
		w.assumed = addName(w.assumed, read.name)
	default:
		w.usual = addName(w.usual, read.name)
	}
}

func addName(to []string, name string) []string {
	if slices.Contains(to, name) {
		return to
	}
	return append(to, name)
}

func appendLean(dst []byte, l *rules.Lean) []byte {
	if l == nil {
		return append(dst, "null"...)
	}
	dst = append(append(append(dst, `{"nominal":"`...), l.Nominal.String()...), `","by":`...)
	dst = append(append(wire.AppendStrings(dst, l.By), `,"open":`...), truth(l.Open)...)
	dst = wire.AppendString(append(dst, `,"ask":`...), l.Ask)
	dst = wire.AppendList(append(dst, `,"fails_at":`...), l.FailsAt, appendPoint)
	return append(wire.AppendList(append(dst, `,"holds_at":`...), l.HoldsAt, appendPoint), '}')
}

func appendPoint(dst []byte, p rules.Point) []byte {
	dst = wire.AppendString(append(dst, `{"name":`...), p.Name)
	return append(wire.AppendFloat(append(dst, `,"value":`...), p.Value), '}')
}

func appendMargin(dst []byte, m *rules.Margin) []byte {
	if m == nil {
		return append(dst, "null"...)
	}
	dst = append(append(append(dst, `{"nominal":"`...), m.Nominal.String()...), `","by":`...)
	return append(append(append(wire.AppendStrings(dst, m.By), `,"open":`...), truth(m.Open)...), '}')
}

package rules

import (
	"bytes"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// Speaker fills in the texts of one Result, all of them from one look at its facts:
// it is for who wants many. It belongs to one goroutine, and Close gives its memory
// back.
//
//	s := result.Speak()
//	defer s.Close()
//	for _, f := range result.Findings {
//		text = s.AppendText(text[:0], f)
//	}
type Speaker struct {
	res    *Result
	frames []opened
	few    [2]opened // of most results: its own facts, and another kind of parts
}

// opened is a frame and the facts that it reads.
type opened struct {
	about []*Record
	frame *expr.Frame
}

// Speak begins to fill texts in.
func (res *Result) Speak() *Speaker {
	s := &Speaker{res: res}
	s.frames = s.few[:0]
	return s
}

// Close ends it.
func (s *Speaker) Close() {
	for _, o := range s.frames {
		o.frame.Close()
	}
	s.frames = nil
}

// frame is where the expressions of a finding read its facts.
func (s *Speaker) frame(about []*Record) *expr.Frame {
	if f := s.res.frame; f != nil && sameRecords(about, s.res.records) {
		return f // which knows let-names already
	}
	for _, o := range s.frames {
		if sameRecords(o.about, about) {
			return o.frame
		}
	}
	s.frames = append(s.frames, opened{about, s.res.set.open(about)})
	return s.frames[len(s.frames)-1].frame
}

// sameRecords says whether two lists are one and the same.
func sameRecords(a, b []*Record) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// AppendText appends what Result.Text says of a finding.
func (s *Speaker) AppendText(dst []byte, f Finding) []byte {
	switch {
	case f.Err != "":
		return append(append(append(dst, "This could not be worked out: "...), f.Err...), '.')
	case f.Lean != nil:
		return append(dst, s.res.leaningText(f)...)
	case f.Verdict == Unknown:
		dst = append(dst, "Not decided, for nobody stated "...)
		return append(append(dst, s.res.set.vocabulary.inWords(f.Missing)...), '.')
	case f.Margin != nil:
		dst = append(s.said(dst, f, f.Margin.Nominal), ' ')
		return append(dst, f.Margin.sentence(s.res.set.vocabulary)...)
	}
	return s.said(dst, f, f.Ruled)
}

// said is the sentence for the numbers as stated, which give a verdict.
func (s *Speaker) said(dst []byte, f Finding, nominal Verdict) []byte {
	if nominal == Pass && f.Rule.passing == nil || f.Margin != nil && f.Margin.apart {
		return append(append(dst, f.Rule.Title...), '.')
	}
	frame := s.frame(s.res.About(f))
	if nominal == Pass {
		dst, _ = f.Rule.passing.append(dst, frame)
		return dst
	}
	dst, _ = f.Rule.say.append(dst, frame)
	if len(f.Assumed) > 0 {
		dst = append(append(dst, " Nobody stated "...), s.res.unstated(f)...)
		dst = append(dst, ", so it only warns: measure to be sure."...)
	}
	return dst
}

// AppendRemedy appends what Result.Remedy says of a finding.
func (s *Speaker) AppendRemedy(dst []byte, f Finding) []byte {
	if f.Ruled != Warn && f.Ruled != Fail {
		return dst
	}
	dst, _ = f.Rule.remedy.append(dst, s.frame(s.res.About(f)))
	return dst
}

// AppendCaution appends what Result.Caution says of a finding.
func (s *Speaker) AppendCaution(dst []byte, f Finding) []byte {
	if f.Rule.caution == nil || f.Ruled == Pass || f.Verdict == Unknown || f.Err != "" {
		return dst
	}
	start := len(dst)
	dst, _ = f.Rule.caution.append(dst, s.frame(s.res.About(f)))
	text := bytes.TrimSpace(dst[start:])
	if string(text) == expr.NotStated { // of a part that is not there, which is no danger
		return dst[:start]
	}
	return append(dst[:start], text...)
}

// Named is a let-name of a rule with the value that it has for a finding.
type Named struct {
	Name string
	Type fact.Type // Fraction for a number, Name for a word, Flag
	Num  float64   // the number; of a flag 1 or 0
	Text string    // the word
}

// Value is a float64, a string or a bool.
func (n Named) Value() any {
	switch n.Type {
	case fact.Name:
		return n.Text
	case fact.Flag:
		return n.Num != 0
	}
	return n.Num
}

// AppendValues appends the let-names of a finding's rule that have a value, sorted by
// name, each with it as the texts have it: for sentences of one's own. What is a list,
// hangs on a fact that nobody stated or went wrong is left out.
func (s *Speaker) AppendValues(to []Named, f *Finding) []Named {
	g := f.Rule.logic()
	if len(g.named) == 0 || g.fault != "" {
		return to
	}
	frame := s.frame(s.res.About(*f))
	for i := range g.named {
		if n, ok := g.named[i].in(frame); ok {
			to = append(to, n)
		}
	}
	return to
}

// in works a let-name out.
func (l *letLine) in(f *expr.Frame) (n Named, ok bool) {
	n.Name = l.name
	switch {
	case l.prog.IsNumber():
		n.Type = fact.Fraction
		n.Num, ok = l.let.Number(f)
		ok = ok && n.Num-n.Num == 0 // not where it is infinite
	case l.prog.IsFlag():
		n.Type = fact.Flag
		n.Num, ok = l.let.Flag(f)
	case l.prog.IsText():
		n.Type = fact.Name
		n.Text, ok = l.let.Text(f)
	}
	return n, ok
}

// Needs gives what to order because of a finding, as Result.Needs does.
func (s *Speaker) Needs(f Finding) (out []FilledNeed) {
	for i := range f.Rule.Needs {
		if what, need, ok := s.Need(nil, &f, i); ok {
			need.What = string(what)
			out = append(out, need)
		}
	}
	return out
}

// Need appends the text of the i-th of a finding's rule's needs to dst, and gives it
// without its What; ok is false where it is not to be ordered.
func (s *Speaker) Need(dst []byte, f *Finding, i int) (out []byte, need FilledNeed, ok bool) {
	n := &f.Rule.Needs[i]
	if f.Verdict == Unknown || n.when == nil && f.Ruled == Pass {
		return dst, FilledNeed{}, false
	}
	frame := s.frame(s.res.records)
	if n.when != nil && !n.when().Holds(frame) {
		return dst, FilledNeed{}, false
	}
	need = FilledNeed{Unit: n.Unit, Thing: n.Thing}
	if n.value != nil {
		if need.Value, ok = n.value().Number(frame); !ok {
			return dst, FilledNeed{}, false
		}
	}
	out, _ = n.what.append(dst, frame)
	return out, need, true
}

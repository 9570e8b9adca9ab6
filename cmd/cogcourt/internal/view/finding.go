package view

import (
	"fmt"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// toMeasure says whether the list of what to measure tells all of a finding. One that
// is open because something went wrong waits for no fact.
func toMeasure(f compat.Finding) bool {
	return f.Verdict == rules.Unknown && len(f.Missing) > 0
}

// finding prints one finding, what would mend it, and what it was taken for granted
// with; where all is to be explained also why it matters and what it rests on.
func (p *printer) finding(f compat.Finding) {
	fmt.Fprintln(p.w)
	p.said(f, "")
	if p.style.Explain {
		if isBad(f.Verdict) {
			under(p.w, "wanted", full(lower(f.Title)))
		}
		under(p.w, "why", f.Why)
	}
	under(p.w, "taken", takenText(f))
	p.mending(f)
	under(p.w, "adjust", adjustText(f))
	if p.style.Explain {
		p.used(f)
	}
}

// takenText says what a finding takes as usual; nothing where it takes nothing so.
func takenText(f compat.Finding) string {
	if len(f.Taken) == 0 {
		return ""
	}
	text := "As usual: " + strings.Join(f.Taken, "; ")
	if len(f.Softens) == 0 { // else it says so itself
		text += "; measure to be sure"
	}
	return text + "."
}

// adjustText says who made a finding another one, until when and why; nothing of most.
func adjustText(f compat.Finding) string {
	if f.Adjust == nil {
		return ""
	}
	return fmt.Sprintf("From %s by %s until %s: %s", f.Ruled, f.Adjust.By, f.Adjust.Until.Format("2006-01-02"), f.Adjust.Reason)
}

// isBad says whether a verdict is one that asks for mending.
func isBad(v rules.Verdict) bool { return v == rules.Fail || v == rules.Warn }

// textOf is what a finding says: of something bad what was found, so that nobody reads
// the good state of it; of any other the good state first.
func textOf(f compat.Finding) string {
	switch {
	case isBad(f.Verdict):
		return f.Text
	case f.Speaks:
		return full(Capital(f.Title)) + " " + f.Text
	}
	return full(Capital(f.Title))
}

// said prints the verdict and what a finding says, with a remark and the rule's id at
// its end.
func (p *printer) said(f compat.Finding, remark string) {
	if !isBad(f.Verdict) {
		p.tell(f.Rule)
	}
	p.marked(f.Verdict, strings.TrimSpace(textOf(f)+" "+remark)+" ["+f.Rule+"]")
}

// tell notes that the good state that a rule wants stands above; it says whether it
// did already.
func (p *printer) tell(rule string) bool {
	if p.told[rule] {
		return true
	}
	if p.told == nil {
		p.told = map[string]bool{}
	}
	p.told[rule] = true
	return false
}

// mending says what would mend a finding, and what to beware of.
func (p *printer) mending(f compat.Finding) {
	under(p.w, "mend", f.Remedy)
	under(p.w, "beware", f.Caution)
}

// used prints what a finding rests on.
func (p *printer) used(f compat.Finding) {
	values, with, basis := p.restsOn(f)
	items(p.w, "  used", values)
	under(p.w, "pass", with)
	items(p.w, "  basis", basis)
}

// restsOn gives the values that a finding rests on, those with which it would pass, and
// who says so. With which it would pass takes a while to find out, and is only told
// where all is explained.
func (p *printer) restsOn(f compat.Finding) (values []string, with string, basis []string) {
	for _, u := range f.Used {
		note := ""
		if u.Value.Assumed {
			note = " (taken as usual)"
		}
		values = append(values, p.report.Words(u.Name)+": "+valueText(u.Value, u.Field)+note)
	}
	for _, b := range f.Basis {
		basis = append(basis, string(b.Kind)+": "+basisText(p.style.Sources, b))
	}
	if !p.style.Explain {
		return values, "", basis
	}
	var would []string
	for _, w := range p.report.Would(f) {
		would = append(would, "with "+p.report.Words(w.Name)+strings.TrimPrefix(w.Text, w.Name))
	}
	if len(would) > 0 {
		with = "Would pass " + strings.Join(would, "; or ") + "."
	}
	return values, with, basis
}

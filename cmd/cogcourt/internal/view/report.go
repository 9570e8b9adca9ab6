package view

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Style says how a report is shown.
type Style struct {
	Explain  bool // also what passed, what did not apply, and the values used
	Colour   bool
	Sources  []rules.Citation // what the ids in a basis stand for
	Currency string           // of the prices of what would mend a cart
	Asked    int              // which report, from 1, begins with an answer: that of the mix on the command line; 0 for none
}

// Reports prints reports one below the other, with the cautions of all once at
// the end and, where more than one mix was asked for, a line that sums them up;
// broken is the number of mixes that did not load.
func Reports(w io.Writer, reports []compat.Report, broken int, style Style) {
	end := ending{w: w, one: "mix", many: "mixes", broken: broken}
	for i, r := range reports {
		if i > 0 {
			fmt.Fprintln(w)
		}
		if i+1 == style.Asked {
			answer(w, r)
		}
		report(w, r, style)
		end.add(r.Verdict, r)
	}
	end.print()
}

// ending is what stands once below several reports.
type ending struct {
	w         io.Writer
	one, many string // what is judged
	broken    int    // how many did not load
	verdicts  []rules.Verdict
	cautions  []string
}

// add takes a verdict over and the cautions behind it.
func (e *ending) add(v rules.Verdict, reports ...compat.Report) {
	e.verdicts = append(e.verdicts, v)
	for _, r := range reports {
		for _, c := range r.Cautions() {
			if !slices.Contains(e.cautions, c) {
				e.cautions = append(e.cautions, c)
			}
		}
	}
}

// print prints the cautions, and a line over several verdicts.
func (e *ending) print() {
	if len(e.cautions) > 0 {
		keepInMind(e.w, "Before riding", e.cautions)
	}
	if len(e.verdicts) == 0 || len(e.verdicts)+e.broken == 1 {
		return
	}
	text := counted(len(e.verdicts), e.one, e.many) + " judged:"
	for _, v := range []rules.Verdict{rules.Fail, rules.Unknown, rules.Warn, rules.Pass} {
		n := 0
		for _, of := range e.verdicts {
			if of == v {
				n++
			}
		}
		text += fmt.Sprintf(" %d %s,", n, v)
	}
	text = strings.TrimSuffix(text, ",") + "."
	if e.broken > 0 {
		text += " " + counted(e.broken, e.one, e.many) + " did not load."
	}
	fmt.Fprintln(e.w)
	wrap(e.w, "", 0, text)
}

// report prints one report: the verdict and a sentence, then what fails, is not
// decided and warns, what to order and to measure, and the count of the rest.
func report(w io.Writer, r compat.Report, style Style) {
	p := printer{w: w, style: style, report: r, findings: r.Findings()}
	p.head()
	for _, f := range p.findings {
		if f.Verdict != rules.Pass || style.Explain {
			p.finding(f)
		}
	}
	p.notJudged()
	p.needs()
	p.measureFirst()
	p.tally()
}

type printer struct {
	w        io.Writer
	style    Style
	report   compat.Report
	findings []compat.Finding
	bare     bool // an answer is all that is printed
}

var colours = map[rules.Verdict]string{rules.Fail: "31", rules.Unknown: "35", rules.Warn: "33", rules.Pass: "32"}

// marked prints a text behind a verdict, which is coloured where colours are
// wanted. The word itself says it all.
func (p *printer) marked(v rules.Verdict, text string) {
	word := strings.ToUpper(v.String())
	var b strings.Builder
	wrap(&b, fmt.Sprintf("%-7s ", word), 8, text)
	line := b.String()
	if p.style.Colour {
		line = "\x1b[1;" + colours[v] + "m" + word + "\x1b[0m" + line[len(word):]
	}
	fmt.Fprint(p.w, line)
}

func (p *printer) count(v rules.Verdict) int {
	n := 0
	for _, f := range p.findings {
		if f.Verdict == v {
			n++
		}
	}
	return n
}

func (p *printer) head() {
	m := p.report.Mix
	p.marked(p.report.Verdict, fmt.Sprintf("%s (%s of %s)", nameOf(m), m.Scope(), counted(len(m.Parts()), "part", "parts")))
	wrap(p.w, "", 0, p.sentence())
	p.absent()
}

// absent says what a whole bicycle lacks.
func (p *printer) absent() {
	if absent := p.report.Absent(); len(absent) > 0 {
		wrap(p.w, "", 0, "A whole bicycle also needs: "+kindsText(absent)+".")
	}
}

// sentence is the report in one line: faults, warnings and open points first. It
// never promises that a mix works: it says what was found, and in how many checks.
func (p *printer) sentence() string {
	fails, warns, broken := p.count(rules.Fail), p.count(rules.Warn), p.broken()
	open := p.count(rules.Unknown) - broken
	checks := counted(len(p.findings), "check", "checks")
	var found []string
	for _, c := range []struct {
		n         int
		one, many string
	}{{fails, "fault", "faults"}, {warns, "warning", "warnings"}, {open, "open point", "open points"},
		{broken, "check that went wrong", "checks that went wrong"}} {
		if c.n > 0 {
			found = append(found, counted(c.n, c.one, c.many))
		}
	}
	switch {
	case len(p.findings) == 0:
		return "Nothing could be checked: no rule applies to these parts."
	case open+broken == len(p.findings):
		return "Nothing could be decided: " + listed(found) + "." + p.advice()
	case len(found) == 0:
		return fmt.Sprintf("No fault found in %s.", checks)
	case fails > 0:
		return fmt.Sprintf("%s in %s. Do not order or ride it as it is.", listed(found), checks)
	case open+broken > 0:
		return fmt.Sprintf("%s in %s, and no fault among the others.%s", listed(found), checks, p.advice())
	}
	return fmt.Sprintf("%s in %s, and no fault.", listed(found), checks)
}

// broken counts the checks that are open because something went wrong.
func (p *printer) broken() int {
	n := 0
	for _, f := range p.findings {
		if f.Error != "" {
			n++
		}
	}
	return n
}

// listed joins words as a sentence does.
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// advice says what to do about what is open.
func (p *printer) advice() string {
	if len(p.report.Missing()) > 0 {
		return " Measure what is named below before ordering."
	}
	return " Mend what went wrong, as said below, before ordering."
}

// finding says first what was found and then what is wanted, so that nobody reads the
// good state of something that is bad.
func (p *printer) finding(f compat.Finding) {
	fmt.Fprintln(p.w)
	if f.Verdict == rules.Fail || f.Verdict == rules.Warn {
		p.marked(f.Verdict, f.Text+" ["+f.Rule+"]")
		wrap(p.w, "        Wanted: ", 16, full(lower(f.Title)))
	} else {
		p.marked(f.Verdict, f.Title+"  ["+f.Rule+"]")
		if f.Speaks {
			wrap(p.w, "        ", 8, f.Text)
		}
	}
	if f.Verdict != rules.Unknown || p.style.Explain { // an unknown says below what to measure
		wrap(p.w, "        Why: ", 13, f.Why)
	}
	if len(f.Taken) > 0 {
		text := strings.Join(f.Taken, "; ")
		if len(f.Softens) == 0 { // else it says so itself
			text += "; measure to be sure"
		}
		wrap(p.w, "        Taken as usual: ", 24, text+".")
	}
	if f.Remedy != "" {
		wrap(p.w, "        Mend: ", 14, f.Remedy)
	}
	if f.Caution != "" {
		wrap(p.w, "        Beware: ", 16, f.Caution)
	}
	if f.Adjust != nil {
		wrap(p.w, "        Adjusted: ", 18,
			fmt.Sprintf("from %s by %s until %s: %s", f.Ruled, f.Adjust.By, f.Adjust.Until.Format("2006-01-02"), f.Adjust.Reason))
	}
	if p.style.Explain {
		p.used(f)
	}
}

func (p *printer) used(f compat.Finding) {
	for _, u := range f.Used {
		note := ""
		if u.Value.Assumed {
			note = " (taken as usual)"
		}
		wrap(p.w, "        Used: ", 14, p.report.Words(u.Name)+": "+valueText(u.Value, u.Field)+note)
	}
	var with []string
	for _, w := range p.report.Would(f) {
		with = append(with, "with "+p.report.Words(w.Name)+strings.TrimPrefix(w.Text, w.Name))
	}
	if len(with) > 0 {
		wrap(p.w, "        Would pass: ", 20, strings.Join(with, "; or ")+".")
	}
	for _, b := range f.Basis {
		wrap(p.w, "        Basis: ", 15, string(b.Kind)+": "+basisText(p.style.Sources, b))
	}
}

// notJudged names what the mix has and no rule judges, and says in sentences why
// else a figure means nothing for this mix. A reader would otherwise miss the checks
// without a word.
func (p *printer) notJudged() {
	named := p.report.NotJudged()
	var sentences []string
	for _, na := range p.report.NotApplied() {
		if na.Reason == rules.ReasonFigure && !na.Quiet && !slices.Contains(sentences, na.Names[0]) {
			sentences = append(sentences, na.Names[0])
		}
	}
	if len(sentences)+len(named) == 0 {
		return
	}
	fmt.Fprintln(p.w, "\nNot judged")
	for _, n := range named {
		wrap(p.w, "  - ", 4, Capital(n.What)+": "+lower(n.Text))
		if n.Caution != "" {
			wrap(p.w, "    Beware: ", 12, n.Caution)
		}
	}
	for _, s := range sentences {
		wrap(p.w, "  - ", 4, full(Capital(s)))
	}
}

// needs lists what to order: one line a thing, with all that it must be.
func (p *printer) needs() {
	lines := orderLines(p.report.Needs())
	if len(lines) == 0 {
		return
	}
	fmt.Fprintln(p.w, "\nOrder with it")
	for _, l := range lines {
		wrap(p.w, "  - ", 4, l)
	}
}

// orderLines gives each thing one line, so that nobody orders three chains for one
// bicycle.
func orderLines(needs []rules.FilledNeed) []string {
	var lines []string
	at := map[string]int{}
	for _, n := range needs {
		text := n.What
		if n.Value != 0 && !strings.Contains(n.What, rules.Decimal(n.Value, -1)) {
			text += ", " + rules.Decimal(n.Value, -1) + " " + n.Unit
		}
		i, there := at[n.Thing]
		if n.Thing == "" || !there {
			at[n.Thing] = len(lines)
			lines = append(lines, text)
			continue
		}
		text = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(text, "new "), n.Thing+" "))
		lines[i] += "; " + text
	}
	return lines
}

func (p *printer) measureFirst() {
	missing := p.report.Missing()
	if len(missing) == 0 {
		return
	}
	fmt.Fprintln(p.w, "\nMeasure or look up first")
	for i, m := range missing {
		wrap(p.w, fmt.Sprintf("%3d. ", i+1), 5, full(Capital(p.report.Words(m.Name))))
		if m.How != "" {
			wrap(p.w, "     How: ", 10, m.How)
		}
		if kind, field, ok := strings.Cut(m.Name, "."); ok {
			wrap(p.w, "     In the file: ", 18, kind+": {"+field+": ...}")
		}
		wrap(p.w, "     Decides: ", 14, strings.Join(m.Rules, ", "))
	}
}

func (p *printer) tally() {
	na := p.report.NotApplied()
	if p.style.Explain {
		p.explainNotApplied(na)
		return
	}
	var text []string
	if n := p.count(rules.Pass); n > 0 {
		text = append(text, counted(n, "check", "checks")+" passed.")
	}
	if len(na) > 0 {
		text = append(text, counted(len(na), "rule", "rules")+" had nothing to say about these parts.")
	}
	if len(text) > 0 {
		fmt.Fprintln(p.w)
		wrap(p.w, "", 0, strings.Join(text, " ")+" --explain shows them.")
	}
}

func (p *printer) explainNotApplied(na []rules.NotApplied) {
	if len(na) == 0 {
		return
	}
	fmt.Fprintln(p.w, "\nDid not apply")
	for _, n := range na {
		why := map[rules.Reason]string{
			rules.ReasonWhen: "not a question with these parts", rules.ReasonAbsent: "not in the mix: ",
			rules.ReasonUnstated: "not stated: ",
		}[n.Reason]
		names := strings.Join(n.Names, ", ")
		switch n.Reason {
		case rules.ReasonAbsent:
			names = kindsText(n.Names)
		case rules.ReasonUnstated:
			words := make([]string, len(n.Names))
			for i, name := range n.Names {
				words[i] = p.report.Words(name)
			}
			names = strings.Join(words, ", ")
		}
		wrap(p.w, "  - ", 4, n.Rule.ID+": "+why+names)
	}
}

// keepInMind prints cautions under their heading.
func keepInMind(w io.Writer, heading string, cautions []string) {
	fmt.Fprintln(w, "\n"+heading)
	for _, c := range cautions {
		wrap(w, "  - ", 4, c)
	}
}

// kindsText names kinds in words.
func kindsText(kinds []string) string {
	return strings.ReplaceAll(strings.Join(kinds, ", "), "_", " ")
}

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
	Explain bool // also what passed, what did not apply, and the values used
	Colour  bool
	Sources []rules.Citation // what the ids in a basis stand for
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
		beforeRiding(e.w, e.cautions)
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

// sentence is the report in one line. It never promises that a mix works: it says
// what was found, and in how many checks.
func (p *printer) sentence() string {
	fails, warns := p.count(rules.Fail), p.count(rules.Warn)
	decided := len(p.findings) - p.count(rules.Unknown)
	tail := "."
	if open := p.open(false); open != "" {
		tail = "; " + open + "."
	}
	switch {
	case len(p.findings) == 0:
		return "Nothing could be checked: no rule applies to these parts."
	case fails > 0:
		return fmt.Sprintf("%s found in %s%s Do not order or ride it as it is.", counted(fails, "fault", "faults"), counted(decided, "check", "checks"), tail)
	case decided == 0:
		return "Nothing could be decided: " + p.open(true) + "." + p.advice()
	case decided < len(p.findings):
		return fmt.Sprintf("No fault found in %s%s%s", counted(decided, "check", "checks"), tail, p.advice())
	case warns > 0:
		return fmt.Sprintf("No fault found in %s, %s.", counted(decided, "check", "checks"), counted(warns, "warning", "warnings"))
	}
	return fmt.Sprintf("No fault found in %s.", counted(decided, "check", "checks"))
}

// open says how many checks were not decided, and of what: want of facts, or a
// rule that went wrong; with the word check or behind one. It is empty where all
// were decided.
func (p *printer) open(check bool) string {
	broken := 0
	for _, f := range p.findings {
		if f.Error != "" {
			broken++
		}
	}
	var parts []string
	if waiting := p.count(rules.Unknown) - broken; waiting > 0 && check {
		parts = append(parts, counted(waiting, "check waits for facts", "checks wait for facts"))
	} else if waiting > 0 {
		parts = append(parts, fmt.Sprintf("%d could not be decided for want of facts", waiting))
	}
	if broken > 0 && check {
		parts = append(parts, counted(broken, "check went wrong", "checks went wrong"))
	} else if broken > 0 {
		parts = append(parts, fmt.Sprintf("%d went wrong", broken))
	}
	return strings.Join(parts, ", ")
}

// advice says what to do about what is open.
func (p *printer) advice() string {
	if len(p.report.Missing()) > 0 {
		return " Measure what is named below before ordering."
	}
	return " Mend what went wrong, as said below, before ordering."
}

func (p *printer) finding(f compat.Finding) {
	fmt.Fprintln(p.w)
	title := f.Title
	if f.Verdict == rules.Fail || f.Verdict == rules.Warn {
		title = "Wanted: " + lower(f.Title)
	}
	p.marked(f.Verdict, title+"  ["+f.Rule+"]")
	if f.Speaks {
		wrap(p.w, "        ", 8, f.Text)
	}
	if f.Verdict != rules.Unknown || p.style.Explain { // an unknown says below what to measure
		wrap(p.w, "        Why: ", 13, f.Why)
	}
	// A fail that only warns because of them has named them already.
	if slices.ContainsFunc(f.Assumed, func(name string) bool { return !slices.Contains(f.Softens, name) }) {
		wrap(p.w, "        Assumed: ", 17, strings.Join(f.Assumed, ", ")+"; measure to be sure.")
	}
	if f.Remedy != "" {
		wrap(p.w, "        Mend: ", 14, f.Remedy)
	}
	if f.Caution != "" {
		wrap(p.w, "        Beware: ", 16, f.Caution)
	}
	if f.Adjust != nil {
		wrap(p.w, "        Adjusted: ", 18, fmt.Sprintf("from %s by %s until %s: %s", f.Ruled, f.Adjust.By, f.Adjust.Until.Format("2006-01-02"), f.Adjust.Reason))
	}
	if p.style.Explain {
		p.used(f)
	}
}

func (p *printer) used(f compat.Finding) {
	for _, u := range f.Used {
		note := ""
		if u.Value.Assumed {
			note = " (assumed)"
		}
		wrap(p.w, "        Used: ", 14, u.Name+" = "+valueText(u.Value, u.Field)+note)
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

func (p *printer) needs() {
	things := p.report.Needs()
	if len(things) == 0 {
		return
	}
	fmt.Fprintln(p.w, "\nOrder with it")
	for _, t := range things {
		text := t.What
		if t.Value != 0 && !strings.Contains(t.What, rules.Decimal(t.Value, -1)) {
			text += ", " + rules.Decimal(t.Value, -1) + " " + t.Unit
		}
		wrap(p.w, "  - ", 4, text)
	}
}

func (p *printer) measureFirst() {
	missing := p.report.Missing()
	if len(missing) == 0 {
		return
	}
	fmt.Fprintln(p.w, "\nMeasure or look up first")
	for i, m := range missing {
		wrap(p.w, fmt.Sprintf("%3d. ", i+1), 5, fmt.Sprintf("%s: %s", m.Name, m.Doc))
		if m.How != "" {
			wrap(p.w, "     How: ", 10, m.How)
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
		if n.Reason == rules.ReasonAbsent {
			names = kindsText(n.Names)
		}
		wrap(p.w, "  - ", 4, n.Rule.ID+": "+why+names)
	}
}

// beforeRiding prints cautions.
func beforeRiding(w io.Writer, cautions []string) {
	fmt.Fprintln(w, "\nBefore riding")
	for _, c := range cautions {
		wrap(w, "  - ", 4, c)
	}
}

// kindsText names kinds in words.
func kindsText(kinds []string) string {
	return strings.ReplaceAll(strings.Join(kinds, ", "), "_", " ")
}

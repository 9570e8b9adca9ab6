package view

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
	"example.org/cogcourt/rules"
)

// Style says how a report is shown.
type Style struct {
	Explain  bool // also what passed, what did not apply, the gears, and the values used
	Colour   bool
	Plain    bool             // a finding a line, for programs that look for words
	Screen   Size             // what the report is shown on; zero where that is no terminal
	Sources  []rules.Citation // what the ids in a basis stand for
	Asked    int              // which report, from 1, begins with an answer: that of the mix on the command line; 0 for none
	Mends    []string         // of each report, how to ask what would mend its mix; empty where there is nothing to choose from
	Currency string           // of the prices of what would mend a cart
}

// Reports prints reports one below the other, with the cautions of all once at
// the end and, where more than one mix was asked for, a line that sums them up;
// broken is the number of mixes that did not load. Where style asks for plain lines
// they stand alone.
func Reports(w io.Writer, reports []compat.Report, broken int, style Style) {
	if style.Plain {
		plainReports(w, reports, style)
		return
	}
	end := newEnding(w, style, ending{one: "mix", many: "mixes", broken: broken})
	for i, r := range reports {
		if i > 0 {
			fmt.Fprintln(end.w)
		}
		if i+1 == style.Asked {
			answer(end.w, r)
		}
		p := printer{w: end.w, style: style, report: r, findings: r.Findings()}
		if i < len(style.Mends) && r.Verdict == rules.Fail {
			p.mends = style.Mends[i]
		}
		end.goesOn = p.all() && len(reports) == 1
		end.add(last{r.Verdict, nameOf(r.Mix), p.brief()}, r)
	}
	end.print()
}

// ending is what stands once below several reports.
type ending struct {
	w         *page
	style     Style
	one, many string // what is judged
	broken    int    // how many did not load
	judged    []last
	cautions  []string
	goesOn    bool // the cautions stand close to what is above them
}

// last is a report in one line.
type last struct {
	verdict     rules.Verdict
	name, brief string
}

func newEnding(w io.Writer, style Style, of ending) *ending {
	of.w, of.style = &page{Writer: w, screen: style.Screen}, style
	return &of
}

// add takes a report over and the cautions behind it.
func (e *ending) add(l last, reports ...compat.Report) {
	e.judged = append(e.judged, l)
	for _, r := range reports {
		for _, c := range r.Cautions() {
			if !slices.Contains(e.cautions, c) {
				e.cautions = append(e.cautions, c)
			}
		}
	}
}

// print prints the cautions, and a line over several verdicts. Where a single report
// is longer than the screen, so that its first line is gone, its verdict stands again.
func (e *ending) print() {
	if len(e.cautions) > 0 {
		if !e.goesOn {
			fmt.Fprintln(e.w)
		}
		block(e.w, "riding", strings.Join(e.cautions, " "))
	}
	switch {
	case len(e.judged) == 0:
	case len(e.judged)+e.broken > 1:
		fmt.Fprintln(e.w)
		block(e.w, "in all", e.sum())
	case e.w.over():
		fmt.Fprintln(e.w)
		l := e.judged[0]
		p := printer{w: e.w, style: e.style}
		p.marked(l.verdict, cut(Clean(l.name), width-gutter-columns(l.brief)-len(": ."))+": "+l.brief+".")
	}
}

// sum counts the verdicts.
func (e *ending) sum() string {
	text := counted(len(e.judged), e.one, e.many) + " judged:"
	for _, v := range []rules.Verdict{rules.Fail, rules.Unknown, rules.Warn, rules.Pass} {
		n := 0
		for _, of := range e.judged {
			if of.verdict == v {
				n++
			}
		}
		text += fmt.Sprintf(" %d %s,", n, v)
	}
	text = strings.TrimSuffix(text, ",") + "."
	if e.broken > 0 {
		text += " " + counted(e.broken, e.one, e.many) + " did not load."
	}
	return text
}

type printer struct {
	w        io.Writer
	style    Style
	report   compat.Report
	findings []compat.Finding
	told     map[string]bool // rules whose good state stands above, by their ids
	bare     bool            // an answer is all that is printed
	mends    string          // how to ask what would mend a mix that fails
}

// next says how to ask what would mend a mix that fails.
func (p *printer) next() {
	if p.mends != "" {
		block(p.w, "next", "What would mend it: "+p.mends)
	}
}

// all prints one report: the verdict and a sentence, then what fails and warns, what to
// measure, and below what is not judged, what to order, and the count of the rest.
// What nobody can decide yet is told by the list of what to measure. It says whether
// the cautions go on where the report ends.
func (p *printer) all() (goesOn bool) {
	p.head()
	for _, f := range p.findings {
		if f.Verdict != rules.Pass && (p.style.Explain || !toMeasure(f)) {
			p.finding(f)
		}
	}
	p.measureFirst()
	p.plot()
	if p.style.Explain {
		p.gears()
		for _, f := range p.findings {
			if f.Verdict == rules.Pass {
				p.finding(f)
			}
		}
	}
	return p.apart(p.notJudged, p.needs, p.next, p.rest)
}

// plot draws the error left at each cog under what it shows: where some cog does not
// pass, or where all is explained and there is any error to be seen.
func (p *printer) plot() {
	o := p.report.Outline()
	met := map[rules.Verdict]bool{}
	for _, c := range o.Cogs {
		if c.Error.Known {
			met[c.Verdict] = true
		}
	}
	lines := picture.Plot(o)
	if len(lines) == 0 || !met[rules.Warn] && !met[rules.Fail] && !p.style.Explain {
		return
	}
	var marks []string
	for _, m := range []struct {
		of   rules.Verdict
		text string
	}{{rules.Pass, "o passes"}, {rules.Warn, "! warns"}, {rules.Fail, "X fails"}, {rules.Unknown, "? is not judged"}} {
		if met[m.of] {
			marks = append(marks, m.text)
		}
	}
	fmt.Fprintln(p.w)
	block(p.w, "index", "Error left at each cog, mm, + is towards the spokes"+movedText(o.Index.Offset)+"; "+strings.Join(marks, ", ")+".")
	fmt.Fprintln(p.w, strings.Join(lines, "\n"))
}

// movedText says how far all steps are moved for the error that is left.
func movedText(offset compat.Number) string {
	way := "spokes"
	if offset.Value < 0 {
		way = "dropout"
	}
	if by := rules.Decimal(math.Abs(offset.Value), 2); offset.Known && by != "0.00" {
		return ", with all steps moved " + by + " towards the " + way
	}
	return ""
}

// apart prints with a blank line above all of it; without, where nothing is printed.
func (p *printer) apart(print ...func()) (printed bool) {
	var b strings.Builder
	w := p.w
	p.w = &b
	for _, f := range print {
		f()
	}
	if p.w = w; b.Len() > 0 {
		fmt.Fprint(w, "\n", b.String())
	}
	return b.Len() > 0
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
	block(p.w, "", p.sentence())
	p.absent()
}

// absent says what a whole bicycle lacks.
func (p *printer) absent() {
	if text := p.absentText(); text != "" {
		block(p.w, "lacks", text)
	}
}

func (p *printer) absentText() string {
	absent := p.report.Absent()
	if len(absent) == 0 {
		return ""
	}
	return "A whole bicycle also needs: " + kindsText(absent) + "."
}

// sentence is the report in one line: faults, warnings and open points first. It
// never promises that a mix works: it says what was found, and in how many checks.
func (p *printer) sentence() string {
	fails, broken := p.count(rules.Fail), p.broken()
	open := p.count(rules.Unknown) - broken
	checks, found := counted(len(p.findings), "check", "checks"), p.found()
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

// found counts what was found, the worst first; nothing where all passes.
func (p *printer) found() []string {
	broken := p.broken()
	var out []string
	for _, c := range []struct {
		n         int
		one, many string
	}{{p.count(rules.Fail), "fault", "faults"}, {p.count(rules.Warn), "warning", "warnings"},
		{p.count(rules.Unknown) - broken, "open point", "open points"}, {broken, "check that went wrong", "checks that went wrong"}} {
		if c.n > 0 {
			out = append(out, counted(c.n, c.one, c.many))
		}
	}
	return out
}

// brief is what stands behind a verdict that is told a second time.
func (p *printer) brief() string {
	found := p.found()
	for _, c := range []struct {
		n         int
		one, many string
	}{{len(p.report.Missing()), "fact to measure", "facts to measure"}, {len(orderLines(p.report.Needs())), "thing to order", "things to order"}} {
		if c.n > 0 {
			found = append(found, counted(c.n, c.one, c.many))
		}
	}
	switch {
	case len(p.findings) == 0:
		return "nothing could be checked"
	case len(found) == 0:
		return "no fault found in " + counted(len(p.findings), "check", "checks")
	}
	return strings.Join(found, ", ")
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

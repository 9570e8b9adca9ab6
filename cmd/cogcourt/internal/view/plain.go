package view

import (
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// plainLine prints a verdict in small letters, what it is of, and a text, with a tab
// between each two: what a program can cut. No text has a tab of its own.
func plainLine(w io.Writer, v rules.Verdict, of, text string) {
	fmt.Fprintf(w, "%s\t%s\t%s\n", v, Clean(of), Clean(strings.Join(strings.Fields(text), " ")))
}

// plainReports prints of each report a line for the mix, and one for each finding that
// does not pass, or for all.
func plainReports(w io.Writer, reports []compat.Report, style Style) {
	for _, r := range reports {
		p := printer{w: w, style: style, report: r, findings: r.Findings()}
		plainLine(w, r.Verdict, "mix", nameOf(r.Mix)+": "+p.sentence()+p.restText())
		for _, f := range p.findings {
			if f.Verdict != rules.Pass || style.Explain {
				plainLine(w, f.Verdict, f.Rule, textOf(f))
			}
		}
	}
}

// restText says what else keeps a report from being complete.
func (p *printer) restText() string {
	text := ""
	if absent := p.absentText(); absent != "" {
		text += " " + absent
	}
	var named []string
	for _, n := range p.report.NotJudged() {
		named = append(named, n.What)
	}
	if len(named) > 0 {
		text += " Not judged: " + strings.Join(named, "; ") + "."
	}
	return text
}

// plainChange prints a line for what is judged, and one for each finding that a change
// of it is about: whether it is new or else, and from which verdict to which it went.
func plainChange(w io.Writer, of string, c compat.Change, style Style) {
	p := printer{w: w, style: style, report: c.After}
	plainLine(w, c.After.Verdict, of, nameOf(c.After.Mix)+": "+changes(c)+"."+p.restText())
	lists, _ := p.shownOf(c)
	for _, l := range lists {
		for _, f := range l.list {
			plainLine(w, f.Verdict, f.Rule, textOf(f.Finding)+" ("+l.word+") "+turned(f))
		}
	}
}

// plainCarts prints a line for each cart, and behind it those of its bicycles.
func plainCarts(w io.Writer, reports []cart.Report, style Style) {
	for _, r := range reports {
		plainLine(w, r.Verdict, "cart", cartName(r)+": "+cartSentence(r))
		for _, bike := range r.Bikes {
			plainChange(w, "bike", bike, style)
		}
	}
}

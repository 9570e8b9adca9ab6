package view

import (
	"fmt"
	"html/template"
	"io"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// htmlReport is one report of a page.
type htmlReport struct {
	ID       string // what its ids begin with
	Head     htmlHead
	Found    []htmlFinding
	Measure  []htmlMeasure
	Order    []string
	Mends    string
	Unjudged []row
	Drawings htmlDrawings
	Parts    []row
	Rest     string
	Passed   []htmlFinding
	Silent   []string
	Open     bool // what explains is open
	Cautions []string
	Foot     string
}

// htmlFinding is one finding.
type htmlFinding struct {
	Verdict    rules.Verdict
	Mark       template.HTML
	Text, Rule string
	Rows, Why  []row
	Drawn      string // the id of the drawing that shows it; empty for none
	Open       bool
}

// htmlMeasure is a fact to measure.
type htmlMeasure struct {
	What, Unit string
	Rows       []row
}

// ReportsHTML writes one page with all reports, which needs nothing beside it: of several
// with contents in front. Of a mix that did not load it has the count, broken. It writes
// nothing where a page cannot be made.
func ReportsHTML(w io.Writer, reports []compat.Report, broken int, style Style) error {
	if len(reports) == 0 {
		return nil
	}
	page := htmlPage{}
	several := len(reports)+broken > 1
	end := newEnding(io.Discard, style, ending{one: "mix", many: "mixes", broken: broken})
	contents := &htmlContents{Title: counted(len(reports)+broken, "mix", "mixes")}
	for i, r := range reports {
		p := &printer{w: io.Discard, style: style, report: r, findings: r.Findings()}
		if i < len(style.Mends) && r.Verdict == rules.Fail {
			p.mends = style.Mends[i]
		}
		id := ""
		if several {
			id = fmt.Sprintf("m%d-", i+1)
		}
		page.Reports = append(page.Reports, p.html(id))
		page.Title = nameOf(r.Mix) + ": " + r.Verdict.String()
		end.add(last{r.Verdict, nameOf(r.Mix), p.brief()})
		contents.Lines = append(contents.Lines, htmlLine{id + "report", nameOf(r.Mix), r.Verdict, markOf(r.Verdict), p.brief()})
	}
	if several {
		page.Title, page.Contents, contents.Sum = contents.Title, contents, end.sum()
	}
	return page.print(w)
}

// html is one report whose ids begin as given.
func (p *printer) html(id string) htmlReport {
	r := p.report
	out := htmlReport{
		ID: id, Head: p.headOf("Report"), Order: orderLines(r.Needs()), Mends: p.mends, Drawings: drawingsOf(r.Outline(), id),
		Parts: partRows(r.Mix), Rest: p.restCount(), Open: p.style.Explain, Cautions: r.Cautions(), Foot: footOf(r),
	}
	for _, f := range p.findings {
		switch {
		case f.Verdict == rules.Pass:
			out.Passed = append(out.Passed, htmlFinding{Text: textOf(f), Rule: f.Rule})
		case !toMeasure(f):
			out.Found = append(out.Found, p.htmlFinding(f, out.Drawings))
		}
	}
	out.Measure = p.htmlMeasure()
	for _, n := range r.NotJudged() {
		out.Unjudged = append(out.Unjudged, row{Capital(n.What), strings.TrimSpace(n.Text + " " + n.Caution)})
	}
	for _, s := range p.meaningless() {
		out.Unjudged = append(out.Unjudged, row{"", s})
	}
	if p.style.Explain {
		out.Silent = p.silent()
	}
	return out
}

// htmlFinding is a finding with a way to the drawing that shows it.
func (p *printer) htmlFinding(f compat.Finding, drawn htmlDrawings) htmlFinding {
	out := htmlFinding{Verdict: f.Verdict, Mark: markOf(f.Verdict), Text: textOf(f), Rule: f.Rule, Open: p.style.Explain}
	out.Rows = rowsOf(row{"Taken", takenText(f)}, row{"Mend", f.Remedy}, row{"Beware", f.Caution}, row{"Adjusted", adjustText(f)})
	if isBad(f.Verdict) {
		out.Why = rowsOf(row{"Wanted", full(Capital(f.Title))})
	}
	values, with, basis := p.restsOn(f)
	out.Why = append(out.Why, rowsOf(row{"Why", f.Why}, row{"Used", strings.Join(values, "; ")},
		row{"Passes", with}, row{"Basis", strings.Join(basis, "; ")})...)
	out.Drawn = drawn.of(f.Draw.Name)
	return out
}

// htmlMeasure lists what to measure, as the text does.
func (p *printer) htmlMeasure() []htmlMeasure {
	var out []htmlMeasure
	for _, m := range p.measures() {
		rows := []row{{"How", m.how}, {"In the file", m.file}}
		for i, text := range m.hangs {
			rows = append(rows, row{[]string{"Open", ""}[min(i, 1)], text})
		}
		out = append(out, htmlMeasure{What: m.what, Unit: m.unit, Rows: rowsOf(rows...)})
	}
	return out
}

// partRows lists the parts of a mix.
func partRows(m compat.Mix) []row {
	var out []row
	for _, part := range m.Parts() {
		name := strings.TrimSpace(part.Maker() + " " + part.Name())
		if name == "" {
			name = part.ID()
		}
		if name == "" {
			name = "described in the mix"
		}
		out = append(out, row{Capital(kindWords(part.Kind())), name})
	}
	return out
}

package view

import (
	"io"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
	"example.org/cogcourt/rules"
)

// htmlSheet is a setup sheet.
type htmlSheet struct {
	Head     htmlHead
	Stops    []htmlFinding
	Stopped  string // why the sheet ends before its end
	Assumed  []string
	Parts    []htmlSteps
	Gauge    *htmlDrawing
	NoGauge  string // why there is none
	Gears    *htmlGears
	Heading  string // of the cautions
	Cautions []string
	Foot     string
}

// htmlSteps are the steps of one part of the work.
type htmlSteps struct {
	Title string
	From  int // the number of the first
	Steps []htmlStep
}

// htmlStep is a step to tick.
type htmlStep struct {
	Number    int
	Do, Value string
	Blank     bool // something is measured in it
	Rows      []row
	Bolts     []string
}

// htmlGears are the gears of the finished job.
type htmlGears struct {
	Span    string
	Figures []htmlFigure
}

// SheetHTML writes a setup sheet as a page to tick and to write on, on a screen or on
// paper. It writes nothing where the page cannot be made.
func SheetHTML(w io.Writer, s compat.Sheet) error {
	r := s.Report()
	p := &printer{w: io.Discard, report: r, findings: r.Findings()}
	sheet := &htmlSheet{Head: p.headOf("Setup sheet"), Parts: stepsOf(s), Heading: cautionsOf(s), Cautions: s.Cautions(), Foot: footOf(r)}
	for _, a := range s.Assumed {
		sheet.Assumed = append(sheet.Assumed, Capital(a.Said))
	}
	for _, stop := range s.Stops {
		sheet.Stops = append(sheet.Stops, htmlFinding{Mark: markOf(rules.Fail), Text: stop.Text, Rule: stop.Rule})
	}
	if len(s.Stops) > 0 {
		sheet.Stopped = "Not beyond this: " + s.Stops[0].Text
	}
	if s.Verdict != rules.Fail { // nobody sets that one up
		sheet.draw(s)
	}
	return htmlPage{Title: "Setup of " + nameOf(s.Mix), Sheet: sheet}.print(w)
}

// draw adds the paper gauge, and the gears that the finished job has.
func (h *htmlSheet) draw(s compat.Sheet) {
	o := s.Report().Outline()
	switch p, _ := picture.Draw("gauge", o, picture.Options{}); {
	case p.Drawn:
		h.Gauge = &htmlDrawing{Title: p.Title, Figures: []htmlFigure{figureOf(p)}}
	case len(o.Cogs) > 1:
		h.NoGauge = p.Caption
	}
	g, there := gearsOfSheet(s)
	if p, _ := picture.Draw("gears", o, picture.Options{}); there && p.Drawn {
		h.Gears = &htmlGears{Span: g.span(), Figures: []htmlFigure{figureOf(p)}}
	}
}

// stepsOf gives the steps under the headings of their parts.
func stepsOf(s compat.Sheet) []htmlSteps {
	var out []htmlSteps
	n := 0
	for _, part := range sheetParts {
		of := htmlSteps{Title: part[1], From: n + 1}
		for _, step := range s.Steps {
			if step.Part != part[0] {
				continue
			}
			n++
			made := stepOf(step)
			made.Number = n
			if step.GoesOverBolts() {
				for _, b := range s.Bolts() {
					made.Bolts = append(made.Bolts, boltText(b))
				}
			}
			of.Steps = append(of.Steps, made)
		}
		if len(of.Steps) > 0 {
			out = append(out, of)
		}
	}
	return out
}

func stepOf(s compat.SheetStep) htmlStep {
	rows := []row{{"Right when", s.Check}, {"Because", s.Because}, {"Beware", s.Caution}}
	for _, text := range wantedFor(s) {
		rows = append(rows, row{"Wanted", text})
	}
	return htmlStep{Do: s.Do, Value: s.Value, Blank: len(s.Measured) > 0, Rows: rowsOf(rows...)}
}

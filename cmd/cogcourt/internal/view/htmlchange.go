package view

import (
	"io"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
)

// htmlChange is a mix before and after a change, beside each other.
type htmlChange struct {
	Head          htmlHead
	Before, After htmlHead
	Lists         []htmlChanged
	Quiet         string
	Drawings      []htmlPair
	Same          string // the drawings in which nothing changes
	Cautions      []string
	Foot          string
}

// htmlChanged is a list of findings under what became of them.
type htmlChanged struct {
	Title    string
	Findings []htmlFinding
}

// htmlPair is a drawing before and after.
type htmlPair struct {
	Title         string
	Before, After htmlFigure
}

// ChangeHTML writes a page with a mix before and after a change beside each other: the
// verdicts, what became of the findings, and each drawing that the change alters. It
// writes nothing where the page cannot be made.
func ChangeHTML(w io.Writer, c compat.Change, style Style) error {
	p := &printer{w: io.Discard, style: style, report: c.After, findings: c.After.Findings()}
	before := &printer{w: io.Discard, style: style, report: c.Before, findings: c.Before.Findings()}
	page := &htmlChange{Head: p.headOf("Change"), Before: before.headOf("Before"), After: p.headOf("After"),
		Cautions: c.After.Cautions(), Foot: footOf(c.After)}
	page.Head.Sentence, page.Head.Blanks = "Compared with "+nameOf(c.Before.Mix)+" ("+c.Before.Verdict.String()+"): "+changes(c)+".", nil
	lists, quiet := p.shownOf(c)
	for _, l := range lists {
		of := htmlChanged{Title: Capital(l.word)}
		for _, f := range l.list {
			of.Findings = append(of.Findings, p.htmlChanged(f))
		}
		page.Lists = append(page.Lists, of)
	}
	if quiet > 0 {
		page.Quiet = quietText(c, quiet)
	}
	page.draw(c)
	return htmlPage{Title: nameOf(c.Before.Mix) + " and " + nameOf(c.After.Mix), Change: page}.print(w)
}

// htmlChanged is a finding with what brings it about, and what would mend it where it is
// one of the mix as it will be.
func (p *printer) htmlChanged(f compat.ChangedFinding) htmlFinding {
	out := p.htmlFinding(f.Finding, htmlDrawings{})
	out.Text = strings.TrimSpace(out.Text + " " + turned(f))
	if f.Was == f.Now || !f.Now.Applied {
		out.Rows = nil
	}
	out.Rows = append(rowsOf(row{"Cause", strings.Join(causes(f), "; ")}), out.Rows...)
	return out
}

// draw puts the drawings beside each other that are not the same before and after.
func (h *htmlChange) draw(c compat.Change) {
	before, after := c.Before.Outline(), c.After.Outline()
	unnamed := [2]compat.Outline{before, after}
	unnamed[0].Mix, unnamed[1].Mix = "", ""
	var same []string
	for _, d := range compat.Drawings() {
		if d.Name == "gauge" { // it goes with a sheet
			continue
		}
		was, _ := picture.Draw(d.Name, unnamed[0], picture.Options{})
		is, _ := picture.Draw(d.Name, unnamed[1], picture.Options{})
		switch {
		case !was.Drawn && !is.Drawn:
		case was.SVG == is.SVG:
			same = append(same, lower(is.Title))
		default:
			was, _ = picture.Draw(d.Name, before, picture.Options{Prefix: "before-"})
			is, _ = picture.Draw(d.Name, after, picture.Options{Prefix: "after-"})
			h.Drawings = append(h.Drawings, htmlPair{is.Title, figureOf(was), figureOf(is)})
		}
	}
	if len(same) > 0 {
		h.Same = "The change leaves as they are: " + listed(same) + "."
	}
}

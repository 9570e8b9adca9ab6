package view

import (
	"html/template"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
)

// htmlDrawings are those of a report.
type htmlDrawings struct {
	Whole       []htmlDrawing // as wide as the page
	Left, Right []htmlDrawing // beside each other, where there is room
	Not         []row         // what cannot be drawn, and why
}

// htmlDrawing is a drawing in one form or two, of which a page shows the one that fits.
type htmlDrawing struct {
	ID, Name, Title string
	Figures         []htmlFigure
}

// htmlFigure is one form of a drawing.
type htmlFigure struct {
	Class   string
	SVG     template.HTML
	Caption string
	Table   picture.Table
}

// drawingsOf draws a report. What is as wide as the page comes first, the rest goes
// left and right in turn.
func drawingsOf(o compat.Outline, id string) htmlDrawings {
	var all []htmlDrawing
	var out htmlDrawings
	for _, p := range picture.All(o, picture.Options{Prefix: id}) {
		if !p.Drawn {
			if !p.Wide {
				out.Not = append(out.Not, row{p.Title, p.Caption})
			}
			continue
		}
		if n := len(all); n == 0 || all[n-1].Name != p.Name {
			all = append(all, htmlDrawing{ID: id + "draw-" + p.Name, Name: p.Name, Title: p.Title})
		}
		d := &all[len(all)-1]
		d.Figures = append(d.Figures, figureOf(p))
	}
	for _, d := range all {
		switch {
		case len(d.Figures) > 1:
			d.Figures[0].Class, d.Figures[1].Class = "wide", "narrow"
			out.Whole = append(out.Whole, d)
		case len(out.Left) > len(out.Right):
			out.Right = append(out.Right, d)
		default:
			out.Left = append(out.Left, d)
		}
	}
	return out
}

// figureOf is a drawing for a page. The SVG is made by us, with all texts escaped.
func figureOf(p picture.Picture) htmlFigure {
	return htmlFigure{SVG: template.HTML(p.SVG), Caption: p.Caption, Table: p.Table}
}

// of gives the id of a drawing that the page has; empty where it has not.
func (h htmlDrawings) of(name string) string {
	for _, list := range [][]htmlDrawing{h.Whole, h.Left, h.Right} {
		for _, d := range list {
			if d.Name == name {
				return d.ID
			}
		}
	}
	return ""
}

package picture

import (
	"html"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// Picture is one drawing with all that a page says beside it.
type Picture struct {
	Name    string // of the drawing, as rules name it by draw:
	Title   string // what is drawn, without a full stop
	Caption string // what is seen there, in sentences, or why nothing is; it is in the drawing too
	SVG     string // an svg element; it needs the rules of Style
	Table   Table  // the numbers of the drawing; empty where the caption has them all
	Drawn   bool   // false where a frame says why there is no drawing
	Wide    bool   // Wide px, of which a page shows the narrow form where it has less room; else Narrow, but for the gauge

	on *canvas
}

// Table is the numbers of a drawing.
type Table struct {
	Head []string
	Rows [][]string // each as long as the head
}

// Options say how drawings stand on their page. The zero Options are those of a page
// with one report.
type Options struct {
	Prefix string // of the ids in the drawings, where a page has several reports: a-z, 0-9 and -
}

// The widths of drawings, in px. Wide is that of the second form of the views; what has
// the first goes on a phone, and at 92 mm on paper, where its letters are still 10 pt.
const (
	Narrow = 360
	Wide   = 940
)

// drawing makes one of the drawings: its canvas, its caption and table.
type drawing struct {
	name   string
	title  string
	width  float64
	enough func(compat.Outline) bool
	draw   func(compat.Outline) (*canvas, string, Table)
}

// drawings lists them by compat.Drawings.
func drawings() []drawing {
	const both = "Side and top view, to one scale"
	return []drawing{
		{"views", both, Wide, enoughForViews, func(o compat.Outline) (*canvas, string, Table) { return views(o, Wide) }},
		{"views", both, Narrow, enoughForViews, func(o compat.Outline) (*canvas, string, Table) { return views(o, Narrow) }},
		{"error", "Error left at each cog", Narrow, enoughForError, drawError},
		{"gears", "Gear ladder", Narrow, enoughForGears, drawGears},
		{"length", "Chain length", Narrow, enoughForLength, drawLength},
		{"gap", "Chain between the cogs", Narrow, enoughForGap, drawGap},
		{"gauge", "Gauge of the B-gap, in life size", Narrow, enoughForGauge, drawGauge},
	}
}

// All draws a report, in the order of compat.Drawings, but for the gauge, which goes with
// a setup sheet: see [Draw]. The views come twice, first Wide and then Narrow, of which
// a page shows one.
func All(o compat.Outline, opt Options) []Picture {
	var out []Picture
	for _, d := range drawings() {
		if d.name != "gauge" {
			out = append(out, d.made(o, opt))
		}
	}
	return out
}

// Draw gives one drawing by its name, of the views the narrow form. It is not ok where
// there is no such drawing.
func Draw(name string, o compat.Outline, opt Options) (p Picture, ok bool) {
	for _, d := range drawings() {
		if d.name == name && d.width == Narrow {
			return d.made(o, opt), true
		}
	}
	return Picture{}, false
}

// made draws one drawing, or the frame in its place.
func (d drawing) made(o compat.Outline, opt Options) Picture {
	p := Picture{Name: d.name, Title: d.title, Wide: d.width == Wide}
	o = sound(o)
	var c *canvas
	if why := whyNot(d.name, o, d.enough); why != "" {
		c, p.Caption = undrawn(why, d.width)
	} else {
		c, p.Caption, p.Table = d.draw(o)
		p.Drawn = true
	}
	p.Caption = fact.Clean(p.Caption)
	p.on = c
	id := opt.Prefix + d.name
	if p.Wide {
		id += "-wide"
	}
	title := p.Title
	if o.Mix != "" {
		title += ": " + o.Mix
	}
	p.SVG = c.svg(id, title, p.Caption)
	return p
}

// undrawn is the frame that says why there is no drawing.
func undrawn(why string, wide float64) (*canvas, string) {
	const margin, lineHeight = 14, 18
	text := "Not drawn: " + lower(why)
	lines := wrapped(text, (wide-2*margin)/textSize)
	c := newCanvas(wide, float64(2*margin+lineHeight*len(lines)))
	c.rect("frame", pt{1, 1}, c.size.to(-1, -1))
	for i, line := range lines {
		c.text("", pt{margin, float64(margin + textSize + lineHeight*i)}, begin, line)
	}
	return c, text
}

// svg puts the element round what was drawn. Its ids begin with the given one.
func (c *canvas) svg(id, title, desc string) string {
	unit, class := "", "pic"
	if c.unit < 0.5 {
		unit, class = "mm", "pic life"
	}
	w, h := string(appendNum(nil, c.size.x, 1)), string(appendNum(nil, c.size.y, 1))
	id = escaped(id)
	return `<svg class="` + class + `" role="img" aria-labelledby="` + id + `-t ` + id + `-d" width="` + w + unit + `" height="` + h + unit +
		`" viewBox="0 0 ` + w + ` ` + h + `"><title id="` + id + `-t">` + escaped(title) + `</title><desc id="` + id + `-d">` +
		escaped(desc) + `</desc>` + string(c.b) + `</svg>`
}

// escaped makes a text one that stays text in SVG, with what nobody would see made
// visible.
func escaped(text string) string { return html.EscapeString(fact.Clean(text)) }

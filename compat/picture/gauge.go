package picture

import (
	"math"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// The paper gauge is drawn in mm: px that are printed as such.
const (
	gaugeWide   = 150
	gaugeTall   = 74
	gaugeLetter = 0.27 // a letter of 13 px is 3.5 mm then, 10 pt
	gaugeMiddle = 46   // the line through both axles
	gaugeTips   = 16   // the lowest tip
	gaugeHalf   = 42   // of the arc, sideways
	controlBar  = 50
)

// drawGauge draws the paper gauge of a setup sheet: the tips of the largest cog as an
// arc, and a cross where the middle of the guide pulley's bolt is wanted, in life size. A
// bar of 50 mm tells whether the page was printed so.
func drawGauge(o compat.Outline) (*canvas, string, Table) {
	tips := o.Cogs[len(o.Cogs)-1]
	bolt := pt{gaugeMiddle, gaugeTips + o.Guide.Bolt.Value}
	c := newCanvas(gaugeWide, max(gaugeTall, bolt.y+17))
	c.unit = gaugeLetter
	r := tips.TipRadius.Value
	half := min(gaugeHalf, 0.8*r)
	rise := r - math.Sqrt(r*r-half*half)
	c.rect("frame", pt{0.3, 0.3}, c.size.to(-0.3, -0.3))
	left, right := pt{gaugeMiddle - half, gaugeTips - rise}, pt{gaugeMiddle + half, gaugeTips - rise}
	if left.y < 2 { // a small cog's arc is cut where the gauge ends
		half = math.Sqrt(r*r - (r-gaugeTips+2)*(r-gaugeTips+2))
		left, right = pt{gaugeMiddle - half, 2}, pt{gaugeMiddle + half, 2}
	}
	c.path("tips", c.from(left).arc(r, false, false, right))
	c.line("axis", pt{gaugeMiddle, gaugeTips}, bolt.to(0, 4))
	const arm = 5
	c.line("cross", bolt.to(-arm, 0), bolt.to(arm, 0))
	c.line("cross", bolt.to(0, -arm), bolt.to(0, arm))
	c.text("b", bolt.to(7, 1.2), begin, dec(o.Guide.Bolt.Value, 1)+" mm")
	c.gaugeTexts(o)
	return c, gaugeCaption(o), Table{}
}

func (c *canvas) gaugeTexts(o compat.Outline) {
	const x = 92
	size := textSize * c.unit
	most := (gaugeWide - x - 3) / size
	y := 8.0
	if o.Mix != "" {
		c.text("b", pt{x, y}, begin, fit(fact.Clean(o.Mix), most, true))
	}
	lines := wrapped("Chain on the largest cog, "+plain(o.Cogs[len(o.Cogs)-1].Teeth)+" t. Lay the arc on its tooth tips; the cross "+
		"is the middle of the guide pulley's bolt.", (gaugeWide-x-3)/(noteSize*c.unit))
	for _, line := range lines {
		y += 4.6
		c.text("s", pt{x, y}, begin, line)
	}
	bar := c.size.y - 8
	from, to := pt{x, bar}, pt{x + controlBar, bar}
	c.path("bar", c.from(from.to(0, -2)).line(from.to(0, 2)).move(from).line(to).move(to.to(0, -2)).line(to.to(0, 2)))
	c.text("s", pt{x, bar - 3.4}, begin, "Print so that this is 50 mm.")
}

func gaugeCaption(o compat.Outline) string {
	return sentences("A paper gauge in life size, where the bar measures 50 mm: the arc lies on the tooth tips of the largest cog, "+
		plain(o.Cogs[len(o.Cogs)-1].Teeth)+" teeth, and the cross "+dec(o.Guide.Bolt.Value, 1)+
		" mm below is where the middle of the guide pulley's bolt is wanted.",
		takenText(o.Guide.Taken))
}

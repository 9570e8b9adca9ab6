package picture

import (
	"math"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// The places of the cut through chain and cogs, in px.
const (
	cutY     = 108 // the middle of the pin
	cutFoot  = 176 // where the cogs are cut off
	cutTall  = 296
	cutSide  = 14
	stripY   = 268
	stripEnd = Narrow - 24
	stripAt  = 24
)

const lifeSize = 96 / 25.4 // px a mm

// cut draws the chain on the cog where it has the least room, between its neighbours,
// the spokes to the left.
type cut struct {
	*canvas
	o     compat.Outline
	on    int     // the cog that the chain lies on
	scale float64 // px a mm
	zero  float64 // where that cog's middle is
}

func drawGap(o compat.Outline) (*canvas, string, Table) {
	c := cut{canvas: newCanvas(Narrow, cutTall), o: o, on: tightest(o)}
	left := o.Cogs[c.on+1].Position.Value - o.Cogs[c.on].Position.Value + o.Thickness.Value
	right := o.Chain.Outer.Value / 2
	if c.on > 0 {
		right = max(right, o.Cogs[c.on].Position.Value-o.Cogs[c.on-1].Position.Value+o.Thickness.Value)
	}
	left = max(left, o.Chain.Outer.Value/2)
	c.scale = (Narrow - 2*cutSide) / (left + right)
	c.zero = cutSide + left*c.scale
	c.arrow(pt{8, 12}, -1)
	c.text("s", pt{18, 16}, begin, "spokes")
	c.arrow(pt{Narrow - 8, 12}, 1)
	c.text("s", pt{Narrow - 18, 16}, end, "dropout")
	c.cog(c.on+1, 52)
	if c.on > 0 {
		c.cog(c.on-1, 128)
	}
	c.cog(c.on, 90)
	c.chain()
	c.room()
	c.strip()
	return c.canvas, c.caption(), gapTable(o)
}

// tightest is the cog with the least room to the next larger one; of equals the middle
// one, which has two neighbours.
func tightest(o compat.Outline) int {
	least := math.Inf(1)
	var same []int
	for i, cog := range o.Cogs {
		switch {
		case !cog.Gap.Known || cog.Gap.Value > least+1e-6:
		case cog.Gap.Value < least-1e-6:
			least, same = cog.Gap.Value, []int{i}
		default:
			same = append(same, i)
		}
	}
	return same[len(same)/2]
}

// x is where a place stands, in mm inward of the cog under the chain.
func (c *cut) x(mm float64) float64 { return c.zero - mm*c.scale }

// cog draws one cog cut through its tooth, which ends at a height of the drawing: how
// much the cogs differ is not to scale.
func (c *cut) cog(i int, top float64) {
	at := c.o.Cogs[i].Position.Value - c.o.Cogs[c.on].Position.Value
	half := c.o.Thickness.Value / 2
	a, b := c.x(at+half), c.x(at-half)
	slope := (b - a) / 5
	c.path("cog", c.from(pt{a, cutFoot}).line(pt{a, top + 8}).line(pt{a + slope, top}).line(pt{b - slope, top}).
		line(pt{b, top + 8}).line(pt{b, cutFoot}).closed())
	c.place("b", c.name(i), spot{pt{(a + b) / 2, cutFoot + 18}, middle})
}

// name is a cog's teeth with their unit.
func (c *cut) name(i int) string {
	if c.o.Cogs[i].Teeth.Known {
		return cogLabel(c.o, i) + " t"
	}
	return cogLabel(c.o, i)
}

// chain draws pin and plates. Only the widths are to scale; a chain whose inner width is
// not known is a block over its pins.
func (c *cut) chain() {
	outer, inner := c.o.Chain.Outer.Value, c.o.Chain.Inner.Value
	if !c.o.Chain.Inner.Known || inner >= outer {
		c.rect("plate", pt{c.x(outer / 2), cutY - 24}, pt{c.x(-outer / 2), cutY + 24})
	} else {
		plate := (outer - inner) / 2 / 2.4
		for _, side := range []float64{1, -1} {
			from := side * inner / 2
			c.rect("plate", pt{c.x(from), cutY - 30}, pt{c.x(from + side*plate), cutY + 30})
			from += side * plate
			c.rect("plate", pt{c.x(from), cutY - 24}, pt{c.x(from + side*plate), cutY + 24})
		}
	}
	c.rect("pin", pt{c.x(outer / 2), cutY - 9}, pt{c.x(-outer / 2), cutY + 9})
	c.dimension(pt{c.x(outer / 2), 40}, pt{c.x(-outer / 2), 40}, "chain "+dec(outer, 2), spot{pt{c.zero, 33}, middle})
	c.dimension(pt{c.x(c.next()), cutFoot + 32}, pt{c.zero, cutFoot + 32}, "pitch "+dec(c.next(), 2),
		spot{pt{c.x(c.next()/2) + 4, cutFoot + 46}, middle}, spot{pt{c.zero + 10, cutFoot + 36}, begin})
}

// next is how far the next larger cog stands.
func (c *cut) next() float64 {
	return c.o.Cogs[c.on+1].Position.Value - c.o.Cogs[c.on].Position.Value
}

// room colours what lies between the pin and the next cog.
func (c *cut) room() {
	a, b := c.x(c.next()-c.o.Thickness.Value/2), c.x(c.o.Chain.Outer.Value/2)
	c.rect(ofVerdict("fill-", c.o.Cogs[c.on].GapVerdict), pt{a, cutY - 12}, pt{b, cutY + 12})
}

// strip is a scale of the room by itself, with the limits on it, which are too small to
// be seen between the cogs.
func (c *cut) strip() {
	cog, ch := c.o.Cogs[c.on], c.o.Chain
	least, most := min(0, cog.Gap.Value), max(0, cog.Gap.Value)
	for _, l := range []compat.Number{ch.GapWarn, ch.GapFail} {
		if l.Known {
			least, most = min(least, l.Value), max(most, l.Value)
		}
	}
	pad := max(0.02, (most-least)*0.12)
	least, most = least-pad, most+pad
	x := func(mm float64) float64 { return stripAt + (stripEnd-stripAt)*(mm-least)/(most-least) }
	c.line("axis", pt{stripAt, stripY}, pt{stripEnd, stripY})
	step := nice(most-least, 5)
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	for k := math.Ceil(least / step); k*step <= most; k++ {
		c.line("axis", pt{x(k * step), stripY}, pt{x(k * step), stripY + 4})
		c.place("s", dec(k*step, decimals), spot{pt{x(k * step), stripY + 17}, middle})
	}
	limit := func(class string, n compat.Number) {
		if n.Known {
			a, b := pt{x(n.Value), stripY - 14}, pt{x(n.Value), stripY}
			c.line(class, a, b)
			c.keep(a, b)
		}
	}
	limit("edge-fail", ch.GapFail)
	limit("edge-warn", ch.GapWarn)
	c.dot(cog.GapVerdict, pt{x(cog.Gap.Value), stripY - 7})
	c.place("b", "room "+dec(cog.Gap.Value, 2)+" mm", spot{pt{x(cog.Gap.Value) - 10, stripY - 4}, end},
		spot{pt{x(cog.Gap.Value) + 10, stripY - 4}, begin}, spot{pt{stripEnd, stripY - 20}, end})
}

func (c *cut) caption() string {
	cog, ch := c.o.Cogs[c.on], c.o.Chain
	text := "A chain " + dec(ch.Outer.Value, 2) + " mm wide on cogs " + dec(c.next(), 2) + " mm apart and " +
		dec(c.o.Thickness.Value, 2) + " mm thick "
	if cog.Gap.Value >= 0 {
		text += "has " + dec(cog.Gap.Value, 2) + " mm of room to the next larger cog."
	} else {
		text += "overlaps the next larger cog by " + dec(-cog.Gap.Value, 2) + " mm."
	}
	limits := ""
	switch {
	case ch.GapWarn.Known && ch.GapFail.Known:
		limits = "It warns under " + dec(ch.GapWarn.Value, -1) + ", the dashed line, and fails under " +
			dec(ch.GapFail.Value, -1) + ", the solid one."
	case ch.GapWarn.Known:
		limits = "It warns under " + dec(ch.GapWarn.Value, -1) + ", the dashed line."
	case ch.GapFail.Known:
		limits = "It fails under " + dec(ch.GapFail.Value, -1) + ", the solid line."
	}
	if cog.GapVerdict == rules.Unknown && limits != "" {
		limits += " What is usual leaves open which it is."
	}
	scale := "The widths are drawn " + dec(c.scale/lifeSize, 0) + " times life size, the heights are not to scale."
	return sentences(text, limits, scale, takenText(ch.WidthTaken))
}

func gapTable(o compat.Outline) Table {
	t := Table{Head: []string{"cog", "to the next larger one, mm", "room to it, mm", "verdict"}}
	for i, cog := range o.Cogs {
		if i+1 < len(o.Cogs) && cog.Position.Known {
			apart := compat.Number{Value: o.Cogs[i+1].Position.Value - cog.Position.Value, Known: true}
			t.Rows = append(t.Rows, []string{cogName(o, i), cell(apart, 2), cell(cog.Gap, 2), says(cog.GapVerdict)})
		}
	}
	return t
}

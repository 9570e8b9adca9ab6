package picture

import (
	"math"
	"slices"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// The places of the error chart, in px.
const (
	rowHeight = 22
	chartTop  = 46
	chartLeft = 64
	chartEnd  = 292
	chartFoot = 48
)

// errorChart draws what is left at each cog, a row a cog, the spokes to the left as they
// are for whoever stands behind the bicycle.
type errorChart struct {
	*canvas
	o     compat.Outline
	scale float64 // px a mm
}

func drawError(o compat.Outline) (*canvas, string, Table) {
	rows := len(o.Cogs)
	e := errorChart{canvas: newCanvas(Narrow, float64(chartTop+rowHeight*rows+chartFoot)), o: o}
	most := 0.1
	for _, c := range o.Cogs {
		most = max(most, math.Abs(c.Error.Value), c.Warn.Value, c.Fail.Value)
	}
	e.scale = (chartEnd - chartLeft) / 2 / (most * 1.08)
	e.bands()
	e.axis(most * 1.08)
	e.heads()
	for i, cog := range o.Cogs {
		e.row(i, cog)
	}
	e.legend(pt{chartLeft - 36, e.size.y - 5}, func(v rules.Verdict) bool {
		return slices.ContainsFunc(o.Cogs, func(c compat.OutlineCog) bool { return c.Error.Known && c.Verdict == v })
	})
	return e.canvas, errorCaption(o), errorTable(o)
}

// x is where an error stands.
func (e *errorChart) x(mm float64) float64 { return (chartLeft+chartEnd)/2 - mm*e.scale }

func rowTop(i int) float64 { return float64(chartTop + rowHeight*i) }

// bands draws what passes and what warns, in steps, for each cog has its own limits.
// Their edges are lines: the two differ too little in lightness to be told apart by it.
func (e *errorChart) bands() {
	if !slices.ContainsFunc(e.o.Cogs, func(c compat.OutlineCog) bool { return c.Warn.Known || c.Fail.Known }) {
		return
	}
	band := func(class string, limit func(compat.OutlineCog) float64) {
		round := e.steps(-1, limit)
		slices.Reverse(round)
		e.path(class, e.through(append(e.steps(1, limit), round...)).closed())
	}
	warn := func(c compat.OutlineCog) float64 { return c.Warn.Value }
	fail := func(c compat.OutlineCog) float64 { return c.Fail.Value }
	band("band-warn", fail)
	band("band-pass", func(c compat.OutlineCog) float64 {
		if !c.Warn.Known {
			return c.Fail.Value
		}
		return c.Warn.Value
	})
	for _, side := range []float64{1, -1} {
		if e.o.Cogs[0].Fail.Known {
			e.path("edge-fail", e.through(e.steps(side, fail)))
		}
		if e.o.Cogs[0].Warn.Known {
			e.path("edge-warn", e.through(e.steps(side, warn)))
		}
	}
}

// steps goes along a limit down one side.
func (e *errorChart) steps(side float64, limit func(compat.OutlineCog) float64) []pt {
	var out []pt
	for i, cog := range e.o.Cogs {
		x := e.x(side * limit(cog))
		if n := len(out); n > 0 && out[n-1].x == x {
			out[n-1].y = rowTop(i + 1)
			continue
		}
		out = append(out, pt{x, rowTop(i)}, pt{x, rowTop(i + 1)})
	}
	return out
}

// axis draws the line of no error and the scale below the rows.
func (e *errorChart) axis(most float64) {
	bottom := rowTop(len(e.o.Cogs))
	e.line("axis", pt{e.x(0), chartTop - 4}, pt{e.x(0), bottom + 4})
	e.line("axis", pt{chartLeft, bottom + 4}, pt{chartEnd, bottom + 4})
	step := nice(2*most, 6)
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	for k := -math.Floor(most / step); k*step <= most; k++ {
		x := e.x(k * step)
		e.line("axis", pt{x, bottom + 4}, pt{x, bottom + 8})
		e.place("s", dec(math.Abs(k*step), decimals), spot{pt{x, bottom + 21}, middle})
	}
}

// heads names the columns, the two sides, and the bands where they are wide enough.
func (e *errorChart) heads() {
	e.text("s", pt{44, 34}, end, "cog")
	e.text("s", pt{Narrow - 8, 34}, end, "mm")
	e.arrow(pt{chartLeft - 26, 12}, -1)
	e.text("s", pt{chartLeft - 17, 16}, begin, "towards the spokes")
	e.arrow(pt{chartEnd + 26, 12}, 1)
	e.text("s", pt{chartEnd + 17, 16}, end, "towards the dropout")
	if c := e.o.Cogs[0]; c.Warn.Known && c.Fail.Known {
		e.place("s", "passes", spot{pt{e.x(0), 34}, middle})
		for _, side := range []float64{1, -1} {
			e.place("s warn", "warns", spot{pt{e.x(side * (c.Warn.Value + c.Fail.Value) / 2), 34}, middle})
		}
	}
}

// arrow is a small one to the left or to the right.
func (c *canvas) arrow(at pt, way float64) {
	c.path("k-soft", c.from(at.to(5*way, 0)).line(at.to(-2*way, -4)).line(at.to(-2*way, 4)).closed())
}

func (e *errorChart) row(i int, cog compat.OutlineCog) {
	y := rowTop(i) + rowHeight/2
	class := "b"
	if e.o.Index.Align.Known && int(e.o.Index.Align.Value) == i+1 {
		class = "b pick"
		e.arrow(pt{10, y}, 1)
	}
	e.text(class, pt{44, y + 4.5}, end, cogLabel(e.o, i))
	if !cog.Error.Known {
		e.text("s", pt{Narrow - 8, y + 4.5}, end, "no step")
		return
	}
	at := pt{e.x(cog.Error.Value), y}
	e.line(ofVerdict("stem-", cog.Verdict), pt{e.x(0), y}, at)
	e.dot(cog.Verdict, at)
	e.text("", pt{Narrow - 8, y + 4.5}, end, signed(cog.Error.Value, 2))
}

// asGood is the error, in mm, below which every step is said to meet its cog.
const asGood = 0.005

func errorCaption(o compat.Outline) string {
	most := o.Index.Residual.Value
	worst := slices.IndexFunc(o.Cogs, func(c compat.OutlineCog) bool { return math.Abs(c.Error.Value) > most-1e-6 })
	if most < asGood || worst < 0 {
		return sentences("Every step meets its cog.", takenText(o.Index.Taken))
	}
	moved := ""
	if off := o.Index.Offset; math.Abs(off.Value) >= asGood {
		side := "spokes"
		if off.Value < 0 {
			side = "dropout"
		}
		moved = "With every step moved " + dec(math.Abs(off.Value), 2) + " mm towards the " + side + ", the"
	} else {
		moved = "The"
	}
	text := moved + " worst miss is " + dec(most, 2) + " mm, first at " + theCog(o, worst) + "."
	if a := int(o.Index.Align.Value); o.Index.Align.Known && a >= 1 && a <= len(o.Cogs) {
		text += " The arrow points to the cog to align on, " + theCog(o, a-1) + "."
	}
	return sentences(text, limitsCaption(o), takenText(o.Index.Taken))
}

// limitsCaption says what the bands are, and why there are none.
func limitsCaption(o compat.Outline) string {
	c := o.Cogs[0]
	switch {
	case o.Index.ByName:
		return "The three are known as one set, so that no limit is held against each cog."
	case o.Index.Open:
		return "What is usual leaves open whether this is within the limits."
	case c.Warn.Known && c.Fail.Known:
		return "Up to the dashed line it passes, beyond the solid line it fails."
	case c.Warn.Known:
		return "Up to the dashed line it passes."
	case c.Fail.Known:
		return "Beyond the solid line it fails."
	}
	return "No rule holds a limit against each cog."
}

func errorTable(o compat.Outline) Table {
	t := Table{Head: []string{"cog", "error, mm towards the spokes", "passes up to", "fails beyond", "room beside the chain, mm", "verdict"}}
	for i, c := range o.Cogs {
		t.Rows = append(t.Rows, []string{cogName(o, i), cell(c.Error, 2), cell(c.Warn, 2), cell(c.Fail, 2), cell(c.Rub, 2), says(c.Verdict)})
	}
	return t
}

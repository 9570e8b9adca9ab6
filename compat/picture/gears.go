package picture

import (
	"cmp"
	"math"
	"slices"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/geometry"
)

// The places of the gear ladder, in px.
const (
	ladderTop  = 50
	ladderFoot = 14
	leastRung  = 15.5 // between rungs, so that their labels have room
	mostLadder = 560
	leastTall  = 120
)

// ladder draws the gears as rungs between two rails a ring, all on one scale of
// logarithms: equal steps are equally far apart, whatever ring they are on.
type ladder struct {
	*canvas
	o     compat.Outline
	top   float64 // the logarithm of the highest gear
	scale float64 // px a unit of it
	wide  float64 // of one ring's column
}

func drawGears(o compat.Outline) (*canvas, string, Table) {
	lowest, highest := math.Inf(1), 0.0
	for _, r := range o.Rings {
		lowest, highest = min(lowest, slices.Min(r.Ratios)), max(highest, slices.Max(r.Ratios))
	}
	span := math.Log(highest / lowest)
	tall := leastTall + 0.0
	if step := leastStep(o); step > 0 {
		tall = max(tall, min(mostLadder, leastRung*span/step))
	}
	l := ladder{canvas: newCanvas(Narrow, ladderTop+tall+ladderFoot), o: o, top: math.Log(highest), wide: Narrow / float64(len(o.Rings))}
	l.scale = tall / max(span, 1e-9)
	steps := geometry.Gears{Cogs: teethOf(o)}.Steps(nil)
	for i := range o.Rings {
		l.column(i, steps)
	}
	return l.canvas, gearsCaption(o, steps), gearsTable(o)
}

// teethOf are the teeth of the cogs.
func teethOf(o compat.Outline) []float64 {
	out := make([]float64, len(o.Cogs))
	for i, c := range o.Cogs {
		out[i] = c.Teeth.Value
	}
	return out
}

// leastStep is the logarithm of the smallest step between cogs; 0 for one cog.
func leastStep(o compat.Outline) float64 {
	least := 0.0
	for i := 1; i < len(o.Cogs); i++ {
		step := math.Log(o.Cogs[i].Teeth.Value / o.Cogs[i-1].Teeth.Value)
		if least == 0 || step < least {
			least = step
		}
	}
	return least
}

func (l *ladder) y(ratio float64) float64 { return ladderTop + (l.top-math.Log(ratio))*l.scale }

// column draws the rails of one ring with the rungs between them.
func (l *ladder) column(i int, steps []float64) {
	ring := l.o.Rings[i]
	alone := len(l.o.Rings) == 1
	from := float64(i) * l.wide
	left, right := from+34, from+l.wide-46
	if alone {
		right = from + l.wide - 116
	}
	first, last := l.y(ring.Ratios[0]), l.y(ring.Ratios[len(ring.Ratios)-1])
	l.text("b", pt{(left + right) / 2, 16}, middle, "ring "+plain(ring.Teeth))
	l.text("s", pt{left - 8, 36}, end, "cog")
	head := "ratio"
	if alone && l.o.Turn.Known {
		head = "ratio, m a turn"
	}
	l.text("s", pt{right + 8, 36}, begin, head)
	for _, x := range []float64{left, right} {
		l.line("rail", pt{x, first - 6}, pt{x, last + 6})
	}
	for k, ratio := range ring.Ratios {
		y := l.y(ratio)
		l.line("rung", pt{left, y}, pt{right, y})
		l.name("b", cogLabel(l.o, k), spot{pt{left - 8, y}, end})
		l.name("", dec(ratio, 2), spot{pt{right + 8, y}, begin})
		if alone && l.o.Turn.Known {
			l.name("", dec(ratio*l.o.Turn.Value, 1)+" m", spot{pt{right + 98, y}, end})
		}
		if k > 0 && i == 0 && y-l.y(ring.Ratios[k-1]) > noteSize {
			l.step(pt{(left + right) / 2, (y+l.y(ring.Ratios[k-1]))/2 + 4.2}, steps[k-1], slices.Max(steps))
		}
	}
}

// name writes a text beside a rung, a little lower where the rung above is close.
func (l *ladder) name(class, text string, at spot) {
	l.place(class, text, spot{at.to(0, 4.5), at.anchor}, spot{at.to(0, 8), at.anchor}, spot{at.to(0, 11), at.anchor})
}

// step says how large a step is, the largest in bold.
func (l *ladder) step(at pt, percent, largest float64) {
	class := "s"
	if percent >= largest-1e-9 {
		class = "s b i"
	}
	l.place(class, dec(percent, 0)+" %", spot{at, middle})
}

func gearsCaption(o compat.Outline, steps []float64) string {
	var all []float64
	for _, r := range o.Rings {
		all = append(all, r.Ratios...)
	}
	lowest, highest := slices.Min(all), slices.Max(all)
	if len(all) == 1 {
		return sentences("One gear of "+dec(highest, 2)+".", turnCaption(o, lowest, highest))
	}
	text := "From " + dec(highest, 2) + " down to " + dec(lowest, 2) + ", a range of " + dec(100*highest/lowest, 0) + " percent."
	if len(o.Cogs) > 1 {
		at := slices.Index(steps, slices.Max(steps))
		text += " The largest step is " + dec(steps[at], 0) + " percent, between " + theCog(o, at) + " and " + theCog(o, at+1) + "."
	}
	if len(o.Rings) > 1 {
		text += " Gears at one height are alike, whatever ring they are on."
	}
	return sentences(text, turnCaption(o, lowest, highest))
}

func turnCaption(o compat.Outline, lowest, highest float64) string {
	switch {
	case !o.Turn.Known:
		return ""
	case cmp.Compare(lowest, highest) == 0:
		return "A turn of the cranks goes " + dec(highest*o.Turn.Value, 1) + " m."
	}
	return "A turn of the cranks goes " + dec(lowest*o.Turn.Value, 1) + " to " + dec(highest*o.Turn.Value, 1) + " m."
}

func gearsTable(o compat.Outline) Table {
	t := Table{Head: []string{"cog"}}
	for _, r := range o.Rings {
		t.Head = append(t.Head, "ratio on the "+plain(r.Teeth))
		if o.Turn.Known {
			t.Head = append(t.Head, "m a turn on the "+plain(r.Teeth))
		}
	}
	for i := range o.Cogs {
		row := []string{cogName(o, i)}
		for _, r := range o.Rings {
			row = append(row, dec(r.Ratios[i], 2))
			if o.Turn.Known {
				row = append(row, dec(r.Ratios[i]*o.Turn.Value, 1))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

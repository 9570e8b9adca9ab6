package picture

import (
	"math"

	"example.org/cogcourt/compat"
)

// top draws cogs, rings and chain from above, below what was drawn from the side.
func (v *view) top() {
	if why := whyNot("top", v.o, enoughForTop); why != "" {
		v.notes = append(v.notes, "From above nothing is drawn: "+lower(why))
		return
	}
	head := "From above"
	if v.sideways != 1 {
		head += ", sideways " + string(times) + " " + dec(v.sideways, 0)
	}
	least, most := 0.0, v.o.OverLocknut.Value/2
	for _, c := range v.o.Cogs {
		least, most = min(least, c.Line.Value), max(most, c.Line.Value)
	}
	for _, r := range v.o.Rings {
		least, most = min(least, r.Line.Value), max(most, r.Line.Value)
	}
	across := v.scale * v.sideways
	middleY := v.size.y + 26 - least*across
	v.size.y = middleY + most*across + 30
	y := func(line float64) float64 { return middleY + line*across }

	v.text("s", pt{viewMargin, middleY + least*across - 8}, begin, head)
	v.line("middle", pt{viewMargin, middleY}, pt{v.size.x - viewMargin, middleY})
	v.keep(pt{viewMargin, middleY}, pt{v.size.x - viewMargin, middleY})
	v.place("s", "middle of the frame", spot{pt{v.size.x - viewMargin, middleY - 6}, end}, spot{pt{v.size.x - viewMargin, middleY + 15}, end})
	v.line("pole", pt{v.rear.x, middleY}, pt{v.rear.x, y(most) + 2})
	thick := v.o.Thickness.Value * across
	for _, c := range v.o.Cogs {
		half := c.TipRadius.Value * v.scale
		v.keep(pt{v.rear.x - half, y(c.Line.Value)}, pt{v.rear.x + half, y(c.Line.Value)})
		v.rect("edge", pt{v.rear.x - half, y(c.Line.Value) - max(thick, 1)/2}, pt{v.rear.x + half, y(c.Line.Value) + max(thick, 1)/2})
	}
	for _, r := range v.o.Rings {
		half := r.TipRadius.Value * v.scale
		v.line("ring", pt{v.front.x - half, y(r.Line.Value)}, pt{v.front.x + half, y(r.Line.Value)})
		v.keep(pt{v.front.x - half, y(r.Line.Value)}, pt{v.front.x + half, y(r.Line.Value)})
	}
	if v.o.OverLocknut.Known {
		face := y(v.o.OverLocknut.Value / 2)
		v.line("face", pt{v.rear.x - 14*v.scale, face}, pt{v.rear.x + 14*v.scale, face})
		v.place("s", "dropout", spot{pt{v.rear.x, face + 16}, middle}, spot{pt{v.rear.x + 14*v.scale + 6, face + 4}, begin})
	}
	v.runs(y)
}

// runs draws the chain on the largest and on the smallest pair, with its angles.
func (v *view) runs(y func(float64) float64) {
	large, small := v.largest(), v.o.Cogs[0]
	outer, inner := v.o.Rings[0], v.o.Rings[len(v.o.Rings)-1]
	a, b := pt{v.rear.x, y(large.Line.Value)}, pt{v.front.x, y(outer.Line.Value)}
	c, d := pt{v.rear.x, y(small.Line.Value)}, pt{v.front.x, y(inner.Line.Value)}
	v.line("chain", a, b)
	v.keep(a, b)
	if !v.twoRuns() {
		v.beside(a, b, -1, v.runName(v.o.Chain.AngleLargest, outer, large))
	} else {
		v.line("chain thin", c, d)
		v.keep(c, d)
		side := 1.0 // of the first run, where it lies below the second
		if a.y+b.y < c.y+d.y {
			side = -1
		}
		v.beside(a, b, side, v.runName(v.o.Chain.AngleLargest, outer, large))
		v.beside(c, d, -side, v.runName(v.o.Chain.AngleSmallest, inner, small))
	}
	for i, r := range v.o.Rings {
		at := pt{v.front.x, y(r.Line.Value)}
		if i == 0 {
			v.place("s", "line "+dec(r.Line.Value, 1), spot{at.to(0, 18), middle}, spot{at.to(0, -8), middle},
				spot{pt{v.size.x - viewMargin, at.y + 18}, end})
			continue
		}
		v.place("s", dec(r.Line.Value, 1), spot{at.to(0, -8), middle}, spot{at.to(-r.TipRadius.Value*v.scale-6, -4), end})
	}
}

// runName says at which angle the chain stands on which pair.
func (v *view) runName(angle compat.Number, ring compat.OutlineRing, cog compat.OutlineCog) string {
	if len(v.o.Rings) == 1 {
		return signed(angle.Value, 1) + "° on the " + plain(cog.Teeth)
	}
	return signed(angle.Value, 1) + "° from " + plain(ring.Teeth) + " to " + plain(cog.Teeth)
}

// beside writes a text above or below a run of the chain, where there is room.
func (v *view) beside(a, b pt, side float64, text string) {
	var spots []spot
	slope := math.Abs((b.y - a.y) / max(b.x-a.x, 1))
	half := width(text, true) * textSize / 2
	off := 5 + slope*half
	if side > 0 {
		off += textSize * 0.8
	}
	for _, far := range []float64{0.55, 0.65, 0.45, 0.75, 0.35} {
		at := pt{a.x + (b.x-a.x)*far, a.y + (b.y-a.y)*far}
		for _, more := range []float64{0, 8, 16} {
			spots = append(spots, spot{at.to(0, side*(off+more)), middle})
		}
	}
	v.place("b i", text, spots...)
}

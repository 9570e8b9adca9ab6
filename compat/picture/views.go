package picture

import (
	"math"

	"example.org/cogcourt/compat"
)

// The places of the views, in px, and what is taken for the cage, whose place nobody
// states: the guide pulley stands a little forward of the largest cog's lowest tooth, the
// other pulley further forward, for on the largest pair the cage is drawn out.
const (
	viewMargin  = 20
	guideAngle  = 12 // degrees forward of straight down
	cageAngle   = 42
	cageLength  = 58 // mm
	wideEnough  = 600
	noteFrame   = 14
	noteLine    = 17
	pinToTip    = 3 // mm from the pins of a chain on a pulley to its tips, about
	betweenRuns = 30
)

// view draws the bicycle's drive from the side, and below it from above on the same
// scale and the same x axis: rear left, front right, the drive side to the reader and
// outboard down, as workshop drawings go.
type view struct {
	*canvas
	o        compat.Outline
	scale    float64 // px a mm
	sideways float64 // how much larger it is across
	rear     pt      // the wheel's axle
	front    pt      // the crank's
	floor    float64 // the lowest px of the side view
	notes    []string
}

// views draws both, as wide as is asked for: a narrow one shows the sideways scale twice
// as large and leaves side notes out.
func views(o compat.Outline, wide float64) (*canvas, string, Table) {
	v := view{canvas: newCanvas(wide, 0), o: o, sideways: 1}
	if !v.roomy() {
		v.sideways = 2
	}
	cog, ring := v.largest(), o.Rings[0]
	v.scale = (wide - 2*viewMargin) / (cog.TipRadius.Value + o.Chainstay.Value + ring.TipRadius.Value)
	tallest := max(cog.TipRadius.Value, ring.TipRadius.Value) * v.scale
	v.rear = pt{viewMargin + cog.TipRadius.Value*v.scale, 44 + tallest}
	v.front = v.rear.to(o.Chainstay.Value*v.scale, 0)
	v.floor = v.rear.y + tallest
	v.size.y = 4000 // until it is known
	v.side()
	v.size.y = v.floor + 12
	v.top()
	v.noted()
	return v.canvas, v.caption(), viewsTable(o)
}

func (v *view) roomy() bool { return v.size.x > wideEnough }

func (v *view) largest() compat.OutlineCog { return v.o.Cogs[len(v.o.Cogs)-1] }

// guided says whether the guide pulley can be drawn.
func (v *view) guided() bool {
	return v.o.Chain.HeldBy == "derailleur" && whyNot("guide", v.o, enoughForGuide) == ""
}

// noted puts what is not drawn into a frame below.
func (v *view) noted() {
	if len(v.notes) == 0 {
		return
	}
	var lines []string
	for _, n := range v.notes {
		lines = append(lines, wrapped(n, (v.size.x-2*viewMargin-2*noteFrame)/noteSize)...)
	}
	from := v.size.y
	v.size.y += float64(noteLine*len(lines) + 2*noteFrame)
	v.rect("frame", pt{viewMargin, from}, pt{v.size.x - viewMargin, v.size.y - 4})
	for i, line := range lines {
		v.text("s", pt{viewMargin + noteFrame, from + float64(noteFrame+noteLine*i) + 8}, begin, line)
	}
}

func (v *view) caption() string {
	o := v.o
	text := "Largest ring and cog, " + plain(o.Rings[0].Teeth) + " and " + plain(v.largest().Teeth) + " teeth, " +
		dec(o.Chainstay.Value, -1) + " mm apart."
	guide := ""
	if v.guided() {
		guide = "The ruler shows " + dec(o.Guide.Bolt.Value, 1) + " mm from the tooth tips to the middle of the guide pulley's bolt, " +
			"with the wanted B-gap of " + dec(o.Guide.Gap.Value, 1) + " mm."
	}
	if o.Guide.Measured.Known {
		guide = sentences(guide, "The gap was measured as "+dec(o.Guide.Measured.Value, 1)+" mm.")
	}
	if v.guided() {
		guide = sentences(guide, "Where the cage stands below the cog is not known, and drawn as is usual.", takenText(o.Guide.Taken))
	}
	above := ""
	if whyNot("top", o, enoughForTop) == "" {
		above = "Seen from above the chain stands at " + signed(o.Chain.AngleLargest.Value, 1) + "° on the largest cog"
		if v.twoRuns() {
			above += " and at " + signed(o.Chain.AngleSmallest.Value, 1) + "° on the smallest"
		}
		above += "; plus is where the ring stands further out."
	}
	out := sentences(text, guide, above)
	for _, n := range v.notes {
		out = sentences(out, n)
	}
	return out
}

// twoRuns says whether the smallest ring and cog are others than the largest.
func (v *view) twoRuns() bool { return len(v.o.Cogs) > 1 || len(v.o.Rings) > 1 }

func viewsTable(o compat.Outline) Table {
	t := Table{Head: []string{"", "teeth", "over the tips, mm", "from the middle of the frame, mm"}}
	row := func(name string, teeth, tip, line compat.Number) {
		tip.Value *= 2
		t.Rows = append(t.Rows, []string{name, cell(teeth, 0), cell(tip, 1), cell(line, 1)})
	}
	for _, r := range o.Rings {
		row("ring", r.Teeth, r.TipRadius, r.Line)
	}
	for _, c := range o.Cogs {
		row("cog", c.Teeth, c.TipRadius, c.Line)
	}
	return t
}

// forward is the way that lies so many degrees forward of straight down.
func forward(degrees float64) pt {
	a := degrees * math.Pi / 180
	return pt{math.Sin(a), math.Cos(a)}
}

package picture

import (
	"math"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// The places of the ruler of half-inch links, in px.
const (
	rulerY     = 112
	rulerTall  = 178
	rulerLeft  = 22
	rulerRight = Narrow - 22
	mostLinks  = 16 // drawn one by one
)

// ruler draws half-inch links as the rollers of a chain, from what the largest pair
// takes to what the chain has.
type ruler struct {
	*canvas
	o           compat.Outline
	least, most float64 // links at its ends
}

func drawLength(o compat.Outline) (*canvas, string, Table) {
	ch := o.Chain
	r := ruler{canvas: newCanvas(Narrow, rulerTall), o: o}
	r.least, r.most = min(ch.Longest.Value, ch.Count.Value), max(ch.Longest.Value, ch.Count.Value)
	if ch.Rest.Known {
		r.least = min(r.least, ch.Rest.Value)
	}
	r.most = max(r.most, ch.Longest.Value+ch.SpareWarn.Value)
	r.least, r.most = math.Floor(r.least)-1, math.Ceil(r.most)+1
	r.flags()
	r.bar()
	r.limits()
	r.rollers()
	r.text("s", pt{rulerLeft - 14, rulerTall - 8}, begin, "half-inch links on the largest ring and cog")
	return r.canvas, lengthCaption(o), Table{}
}

func (r *ruler) x(links float64) float64 {
	return rulerLeft + (rulerRight-rulerLeft)*(links-r.least)/(r.most-r.least)
}

// rollers draws the links, every so many of a long range, with the even ones numbered.
func (r *ruler) rollers() {
	every := math.Max(1, math.Ceil((r.most-r.least)/mostLinks))
	label := nice(r.most-r.least, 6)
	if label < 2 {
		label = 2
	}
	r.line("axis", pt{rulerLeft - 8, rulerY}, pt{rulerRight + 8, rulerY})
	for k := math.Ceil(r.least/every) * every; k <= r.most; k += every {
		r.circle("roller", pt{r.x(k), rulerY}, 4.5)
		if math.Mod(k, label) == 0 {
			r.place("s", dec(k, 0), spot{pt{r.x(k), rulerY + 22}, middle})
		}
	}
}

// bar is what the chain has to spare, or what it lacks.
func (r *ruler) bar() {
	ch := r.o.Chain
	a, b := pt{r.x(ch.Longest.Value), rulerY - 10}, pt{r.x(ch.Count.Value), rulerY + 10}
	r.rect(ofVerdict("fill-", ch.SpareVerdict), a, b)
	text := dec(ch.Spare.Value, 1) + " to spare"
	if ch.Spare.Value < 0 {
		text = dec(-ch.Spare.Value, 1) + " too few"
	}
	if ch.Spare.Known {
		mid := (a.x + b.x) / 2
		r.place("b", text, spot{pt{mid, rulerY + 42}, middle}, spot{pt{rulerRight + 18, rulerY + 42}, end}, spot{pt{4, rulerY + 42}, begin})
	}
}

// limits are the lines up to which a chain is too short.
func (r *ruler) limits() {
	ch := r.o.Chain
	draw := func(class string, spare compat.Number) {
		if spare.Known {
			x := r.x(ch.Longest.Value + spare.Value)
			r.line(class, pt{x, rulerY - 22}, pt{x, rulerY + 11})
		}
	}
	draw("edge-fail", ch.SpareFail)
	draw("edge-warn", ch.SpareWarn)
}

// flags name the lengths, each on a line of its own, so that they may stand close.
func (r *ruler) flags() {
	ch := r.o.Chain
	r.flag(ch.Count, 18, "b", countWord(ch)+" "+plain(ch.Count))
	if ch.Rest.Known && math.Abs(ch.Rest.Value-ch.Longest.Value) > 0.05 {
		r.flag(ch.Longest, 42, "", "axle farthest "+dec(ch.Longest.Value, 1))
		r.flag(ch.Rest, 66, "", "at rest "+dec(ch.Rest.Value, 1))
		return
	}
	r.flag(ch.Longest, 54, "", "this pair takes "+dec(ch.Longest.Value, 1))
}

func (r *ruler) flag(links compat.Number, y float64, class, text string) {
	x := r.x(links.Value)
	r.line("pole", pt{x, y - 9}, pt{x, rulerY})
	r.place(class, text, spot{pt{x - 6, y}, end}, spot{pt{x + 6, y}, begin})
}

// countWord says whose count it is.
func countWord(ch compat.OutlineChain) string {
	if ch.Counted {
		return "the chain has"
	}
	return "cut to"
}

func lengthCaption(o compat.Outline) string {
	ch := o.Chain
	text := "On the largest ring and cog the teeth use " + dec(ch.Longest.Value, 1) + " half-inch links"
	if ch.Rest.Known && math.Abs(ch.Rest.Value-ch.Longest.Value) > 0.05 {
		text += " where the axle is farthest away, and " + dec(ch.Rest.Value, 1) + " at rest"
	}
	text += "."
	has := "Cut to " + plain(ch.Count)
	if ch.Counted {
		has = "Of the " + plain(ch.Count) + " that the chain has"
	}
	switch {
	case !ch.Spare.Known:
		has = ""
	case ch.Spare.Value < 0:
		has += ", " + dec(-ch.Spare.Value, 1) + " are too few."
	case ch.HeldBy == "derailleur":
		has += ", " + dec(ch.Spare.Value, 1) + " are left for the two pulleys."
	default:
		has += ", " + dec(ch.Spare.Value, 1) + " are left."
	}
	slack := ""
	if ch.Slack.Known && ch.HeldBy == "derailleur" {
		slack = "On the smallest ring and cog the cage takes up " + dec(ch.Slack.Value, 1) + "."
	}
	return sentences(text, has, spareLimits(ch), slack, takenText(ch.Taken))
}

// spareLimits says what the lines are, as far as they are drawn.
func spareLimits(ch compat.OutlineChain) string {
	switch {
	case ch.SpareWarn.Known && ch.SpareFail.Known:
		return "Short of the dashed line, at " + dec(ch.SpareWarn.Value, -1) + " to spare, it warns, and short of the solid one, at " +
			dec(ch.SpareFail.Value, -1) + ", it fails."
	case ch.SpareWarn.Known:
		return "Short of the dashed line, at " + dec(ch.SpareWarn.Value, -1) + " to spare, it warns."
	case ch.SpareFail.Known:
		return "Short of the solid line, at " + dec(ch.SpareFail.Value, -1) + " to spare, it fails."
	case ch.SpareVerdict == rules.Unknown && ch.HeldBy == "axle":
		return "Nothing takes it up but the axle."
	}
	return ""
}

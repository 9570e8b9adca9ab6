package compat

import (
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Outline gives all that is drawn of the report. The limits are those of the rules that
// judged, by their draw: keys; where several speak of one, the strictest. The outline of
// the zero Report knows nothing.
func (r Report) Outline() Outline {
	o := outliner{r: r}
	o.roots = sync.OnceValue(r.Figures.Roots)
	o.taken = sync.OnceValue(r.taken)
	out := Outline{
		Mix:       r.Mix.name,
		Thickness: o.figure("cog_thickness_mm"), Turn: o.figure("wheel_turn_m"),
		Chainstay: o.fact(frameStay), OverLocknut: o.fact(hubOverLocknut),
		Index: o.index(), Chain: o.chain(),
		Guide: OutlineGuide{Gap: o.fact(rearGap), Bolt: o.figure("guide_bolt_to_cog_mm"), TipRadius: o.figure("guide_tip_radius_mm"),
			Measured: o.figure("b_gap_measured_mm"), Taken: o.said("guide_bolt_to_cog_mm")},
	}
	out.Rings = o.rings()
	out.Cogs = o.cogs(&out)
	out.Lacks = o.lacks(&out)
	return out
}

// outliner makes the outline of one report.
type outliner struct {
	r     Report
	roots func() figures.Roots
	taken func() map[string][]string
}

var (
	frameStay      = catalog.Frame.Ref("chainstay_mm")
	frameIdler     = catalog.Frame.Ref("idler_t")
	hubOverLocknut = catalog.Hub.Ref("over_locknut_mm")
	rearGap        = catalog.RearDerailleur.Ref("b_gap_mm")
)

// number is what an outline says of a value.
func number(v fact.Value) Number {
	if !v.Known {
		return Number{}
	}
	return Number{Value: v.Num, Known: true, Assumed: v.Assumed, Usual: v.Usual != fact.NotUsual}
}

// value is a fact as it was judged by, usual ones included.
func (o *outliner) value(ref rules.Ref) fact.Value {
	i, _ := catalog.KindIndex(ref.Object.Name())
	return ref.In(o.r.Figures.Records()[i])
}

func (o *outliner) fact(ref rules.Ref) Number { return number(o.value(ref)) }

func (o *outliner) figure(name string) Number {
	v, _ := o.r.Figures.Value(name)
	return number(v)
}

// flag says whether a figure is known and true.
func (o *outliner) flag(name string) bool { return o.figure(name).Value != 0 }

// list gives a list whose numbers are asked for one by one.
func (o *outliner) list(name string) numbers {
	v, _ := o.r.Figures.Value(name)
	return numbers{v}
}

// numbers are a list of one fact. What lies outside is not known.
type numbers struct{ of fact.Value }

func (n numbers) at(i int) Number {
	if i < 0 || i >= len(n.of.List) {
		return Number{}
	}
	v := n.of
	v.Num = v.List[i]
	return number(v)
}

// said is what was taken as usual or assumed behind a figure, in words.
func (o *outliner) said(name string) []string {
	if n, _ := o.r.Figures.Value(name); !n.Assumed && n.Usual == fact.NotUsual {
		return []string{}
	}
	i, _ := figures.Object.Table().Index(name)
	return saidOf(o.taken(), slices.Concat(o.roots().Assumed[i], o.roots().Usual[i]))
}

// rings gives the rings with the gears on each.
func (o *outliner) rings() []OutlineRing {
	teeth, lines, ratios := o.list("ring_teeth_t"), o.list("ring_lines_mm"), o.list("gear_ratios")
	out := []OutlineRing{}
	each := 0
	if n := len(teeth.of.List); n > 0 {
		each = len(ratios.of.List) / n
	}
	for i := range teeth.of.List {
		ring := OutlineRing{Teeth: teeth.at(i), Line: lines.at(i), Ratios: wire.Some(slices.Clone(ratios.of.List[i*each : (i+1)*each]))}
		ring.PitchRadius, ring.TipRadius = o.radii(ring.Teeth)
		out = append(out, ring)
	}
	return out
}

// radii are those of a sprocket; they mean nothing where no half-inch chain drives.
func (o *outliner) radii(teeth Number) (pitch, tip Number) {
	if !teeth.Known || !o.figure("half_inch_drive").Known {
		return Number{}, Number{}
	}
	p, t, ok := figures.Sprocket(teeth.Value)
	if !ok {
		return Number{}, Number{}
	}
	pitch, tip = teeth, teeth
	pitch.Value, tip.Value = p, t
	return pitch, tip
}

// cogs gives the cogs, each judged by the limits that are drawn.
func (o *outliner) cogs(out *Outline) []OutlineCog {
	teeth := numbers{o.value(cogs)}
	at, lines, gaps := o.list("cog_positions_mm"), o.list("cog_lines_mm"), o.list("neighbour_gaps_mm")
	errs, rubs, spacing := o.list("index_errors_mm"), o.list("rub_margins_mm"), o.list("cog_spacing_mm")
	limits, room := o.drawn("error", false), o.chainRoom(&out.Chain)
	if out.Index.ByName {
		limits = drawnLimits{}
	}
	list := make([]OutlineCog, int(o.figure("cog_count").Value))
	for i := range list {
		cog := OutlineCog{Teeth: teeth.at(i), Position: at.at(i), Line: lines.at(i), Error: errs.at(i), Gap: gaps.at(i), Rub: rubs.at(i)}
		cog.PitchRadius, cog.TipRadius = o.radii(cog.Teeth)
		beside := spacing.at(i)
		cog.Warn, cog.Fail = shareOf(limits.warn, beside), shareOf(limits.fail, beside)
		if cog.Error.Known && beside.Known {
			cog.Verdict = limits.judge(decimals9(math.Abs(cog.Error.Value) / beside.Value))
		}
		if cog.Gap.Known {
			cog.GapVerdict = room.judge(cog.Gap.Value)
		}
		list[i] = cog
	}
	return list
}

// decimals9 rounds as the arithmetic of rules does.
func decimals9(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// shareOf is a limit that is a share of a distance, in mm.
func shareOf(share, of Number) Number {
	if !share.Known || !of.Known {
		return Number{}
	}
	of.Value = math.Round(share.Value*of.Value*1e6) / 1e6
	return of
}

func (o *outliner) index() OutlineIndex {
	return OutlineIndex{Offset: o.figure("index_offset_mm"), Residual: o.figure("index_residual_mm"), Align: o.figure("index_align_cog"),
		ByName: o.flag("index_by_name"), Open: o.drawn("error", false).open, Taken: o.said("index_errors_mm")}
}

func (o *outliner) chain() OutlineChain {
	held, _ := o.r.Figures.Value("chain_held_by")
	c := OutlineChain{
		Outer: o.figure("chain_outer_mm"), Inner: o.figure("chain_inner_mm"),
		AngleLargest: o.figure("chain_angle_largest_deg"), AngleSmallest: o.figure("chain_angle_smallest_deg"),
		Rest: o.figure("big_big_rest_pitches"), Longest: o.figure("big_big_pitches"),
		Count: o.figure("chain_count_pitches"), Counted: o.flag("chain_counted"),
		Spare: o.figure("chain_margin_pitches"), Slack: o.figure("small_small_slack_pitches"), HeldBy: held.Text,
		Taken: o.said("chain_margin_pitches"), WidthTaken: o.said("neighbour_gaps_mm"),
	}
	// The limits are those of a cage with two pulleys; a maker's table goes before them.
	if held.Text == "derailleur" && !o.flag("chain_by_table") {
		l := o.drawn("length", true)
		c.SpareWarn, c.SpareFail = l.warn, l.fail
		if c.Spare.Known && o.figure("chain_spare_pitches").Known { // else nobody stated a count to judge
			c.SpareVerdict = l.judge(c.Spare.Value)
		}
	}
	return c
}

// chainRoom gives the limits of the room between the cogs, and tells the chain of them.
func (o *outliner) chainRoom(c *OutlineChain) drawnLimits {
	l := o.drawn("gap", true)
	c.GapWarn, c.GapFail = l.warn, l.fail
	return l
}

// drawnLimits are the limits of one drawing, and what the rules that they are of have
// come to.
type drawnLimits struct {
	warn, fail Number
	least      bool // they are the least that is borne, not the most
	ruled      rules.Verdict
	open       bool // one of the rules is not decided
}

// drawn gathers the limits of a drawing from the rules that judged. Of several the
// strictest is drawn, for whatever one of them finds counts.
func (o *outliner) drawn(name string, least bool) drawnLimits {
	out := drawnLimits{least: least, ruled: rules.Pass}
	for _, f := range o.r.findings {
		if f.Rule.Draw.Name != name || len(f.Rule.Draw.Limits) == 0 {
			continue
		}
		out.open = out.open || f.Ruled == rules.Unknown
		if f.Ruled.Rank() < out.ruled.Rank() {
			out.ruled = f.Ruled
		}
		for _, l := range f.Rule.Draw.Limits {
			to := &out.warn
			if l.Name == limitFail {
				to = &out.fail
			}
			if !to.Known || least == (l.Value > to.Value) {
				*to = Number{Value: l.Value, Known: true}
			}
		}
	}
	return out
}

// judge holds a number against the limits. A rule that gives less than the number alone
// would, because it hangs on what nobody stated, is not outdone: and where it leaves
// open what holds, so does this.
func (l drawnLimits) judge(x float64) rules.Verdict {
	beyond := func(limit Number) bool {
		return limit.Known && (l.least && x < limit.Value || !l.least && x > limit.Value)
	}
	v := rules.Pass
	switch {
	case l.open || !l.warn.Known && !l.fail.Known:
		return rules.Unknown
	case beyond(l.fail):
		v = rules.Fail
	case beyond(l.warn):
		v = rules.Warn
	}
	if v.Rank() < l.ruled.Rank() {
		v = l.ruled
	}
	return v
}

// lacks tells of every drawing whether something of it is not known, and why.
func (o *outliner) lacks(out *Outline) []OutlineLack {
	list := []OutlineLack{}
	add := func(of string, lacks ...fact.Lack) {
		if l, ok := o.lackOf(of, lacks); ok {
			list = append(list, l)
		}
	}
	ringTeeth, stay, cogTeeth := o.lackOfFigure("ring_teeth_t"), o.lackOfFact(frameStay), o.lackOfFact(cogs)
	half := o.lackOfFigure("half_inch_drive")
	add("views", half, o.overIdler(), cogTeeth, ringTeeth, stay)
	add("top", o.lackOfFigure("cog_lines_mm"), o.lackOfFigure("ring_lines_mm"), o.lackOfFigure("chain_angles_deg"))
	add("guide", o.lackOfFigure("guide_bolt_to_cog_mm"))
	add("error", o.lackOfFigure("index_errors_mm"))
	add("gears", o.lackOfFigure("gear_ratios"), o.lackOfFact(cogs))
	add("length", o.lackOfFigure("big_big_pitches"), o.lackOfFigure("chain_count_pitches"))
	add("gap", o.lackOfFigure("neighbour_gaps_mm"))
	add("gauge", half, cogTeeth, o.lackOfFigure("guide_bolt_to_cog_mm"))
	return list
}

// lackOfFigure is why a figure has no value; the zero Lack where it has one.
func (o *outliner) lackOfFigure(name string) fact.Lack {
	v, lack := o.r.Figures.Value(name)
	if v.Known {
		return fact.Lack{}
	}
	return lack
}

// lackOfFact says that nobody stated a fact, or that its part is not there.
func (o *outliner) lackOfFact(ref rules.Ref) fact.Lack {
	i, _ := catalog.KindIndex(ref.Object.Name())
	switch rec := o.r.Figures.Records()[i]; {
	case rec == nil:
		return fact.Lack{Absent: []string{ref.Object.Name()}}
	case !rec.At(ref.Index).Known:
		return fact.Lack{Missing: []string{ref.String()}}
	}
	return fact.Lack{}
}

// overIdler is why nothing is drawn of a chain that goes over an idler.
func (o *outliner) overIdler() fact.Lack {
	if !o.fact(frameIdler).Known {
		return fact.Lack{}
	}
	return fact.Lack{Reason: "the chain goes over an idler, of which nobody states where it stands"}
}

// lackOf puts lacks into one sentence: what has a reason of its own is told by that
// alone, then the parts that are not there, then the facts.
func (o *outliner) lackOf(of string, lacks []fact.Lack) (OutlineLack, bool) {
	var all fact.Lack
	for _, l := range lacks {
		if l.Fault != "" {
			l.Reason = l.Fault
		}
		if all.Reason == "" {
			all.Reason = l.Reason
		}
		all.Absent, all.Missing = addNames(all.Absent, l.Absent), addNames(all.Missing, l.Missing)
	}
	out := OutlineLack{Of: of}
	switch {
	case all.Reason != "":
		out.Text = strings.ToUpper(all.Reason[:1]) + all.Reason[1:] + "."
	case len(all.Absent) > 0:
		out.Text = "The mix has no " + strings.ReplaceAll(joined(all.Absent, ", no ", " and no "), "_", " ") + "."
	case len(all.Missing) > 0:
		words := make([]string, len(all.Missing))
		for i, name := range all.Missing {
			words[i] = o.r.Words(name)
		}
		out.Text = "Nobody stated " + joined(words, ", ", " and ") + "."
	}
	return out, out.Text != ""
}

// joined makes a list of words one phrase.
func joined(words []string, between, last string) string {
	n := len(words) - 1
	if n == 0 {
		return words[0]
	}
	return strings.Join(words[:n], between) + last + words[n]
}

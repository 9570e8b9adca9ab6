package compat

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// caution is something to keep in mind, and for which mixes.
type caution struct {
	text    string
	applies func(r *Report) bool // nil for all
	rides   bool                 // it speaks of riding, which nobody does with a mix that fails
	stand   string               // what it says of the work alone, where it speaks of both
}

func (c *caution) goesWith(r *Report) bool { return c.applies == nil || c.applies(r) }

// cautions go with reports and sheets whatever the verdict: a wrong mix can hurt the
// rider, and so can the work on it. What takes fingers comes first.
var cautions = []caution{
	{"Motor: switch it off and take the battery out before hands go near chain, cranks or spokes; " +
		"a foot on the pedal or the push help starts it.",
		func(r *Report) bool { return r.says(frameAssist, "mid", "hub") }, false, ""},
	{"Fixed cog: the wheel turns chain and cranks as long as it turns. Turn it slowly by its tyre, never with a finger on the chain, " +
		"and fit and try a front brake first.", (*Report).fixed, false, ""},
	{"The makers' instructions and local rules come first; a part's own marking wins over any value here.", nil, false, ""},
	{"Use a torque wrench, and look for limits marked on carbon parts before clamping them.", nil, false, ""},
	{"See that the axle is closed before the first turn of the wheel, and again before the first ride.",
		func(r *Report) bool { return r.has("hub") || r.has("wheel") || r.has("axle") }, true,
		"See that the axle is closed before the first turn of the wheel."},
	{"The hub has a brake of its own: its reaction arm is clipped tight to the stay before the first turn of the wheel.",
		func(r *Report) bool { return r.Mix.facts.Value(hubBrake).Known }, false, ""},
	{"The motor in the wheel was not judged: unplug its cable before the wheel comes out, and tighten nuts and torque arm as they are marked.",
		func(r *Report) bool { return r.says(frameAssist, "hub") }, false, ""},
	{"Lithium cells: charge only what is made to be charged, inside its temperature range; keep button cells from children.",
		(*Report).powered, false, ""},
	{"Try every gear in the stand first, then ride away from traffic before relying on it.",
		func(r *Report) bool { return !r.oneGear() }, true, ""},
	{"Turn the cranks in the stand first, then ride away from traffic before relying on it.", (*Report).oneGear, true, ""},
	{"Ask a qualified mechanic when unsure.", nil, false, ""},
}

// Cautions gives what a mechanic must keep in mind with this mix, whatever the
// verdict.
func (r Report) Cautions() []string { return r.cautions(true) }

// cautions gives them for work that ends in a ride, or in the stand.
func (r *Report) cautions(ridden bool) []string {
	var out []string
	for i := range cautions {
		c := &cautions[i]
		switch {
		case !c.goesWith(r):
		case ridden || !c.rides:
			out = append(out, c.text)
		case c.stand != "":
			out = append(out, c.stand)
		}
	}
	return out
}

// quotedCautions is cautions as JSON.
var quotedCautions = func() (out []string) {
	for _, c := range cautions {
		out = append(out, quoted(c.text))
	}
	return out
}()

// cautions writes Cautions.
func (w *writer) cautions() {
	dst := append(w.dst, `,"cautions":[`...)
	comma := false
	for i := range cautions {
		if !cautions[i].goesWith(&w.r) {
			continue
		}
		if comma {
			dst = append(dst, ',')
		}
		comma = true
		dst = append(dst, quotedCautions[i]...)
	}
	w.dst = append(dst, ']')
}

var (
	rearActuation     = catalog.RearDerailleur.Ref("actuation")
	shifterActuation  = catalog.RearShifter.Ref("actuation")
	frontActuation    = catalog.FrontDerailleur.Ref("actuation")
	frontShifterMoves = catalog.FrontShifter.Ref("actuation")
	frameAssist       = catalog.Frame.Ref("assist")
	hubBrake          = catalog.Hub.Ref("brake")
	hubKind           = catalog.Hub.Ref("kind_of_hub")
	fixedCog          = catalog.Cassette.Ref("fixed_cog")
	cassetteCogs      = catalog.Cassette.Ref("cogs_t")
)

// says tells whether a fact of a word is one of these.
func (r *Report) says(ref rules.Ref, words ...string) bool {
	return slices.Contains(words, r.Mix.facts.Value(ref).Text)
}

// has says whether the mix has a part of a kind.
func (r *Report) has(kind string) bool {
	_, ok := r.Mix.Part(kind)
	return ok
}

// powered says whether anything in the mix takes a cell.
func (r *Report) powered() bool {
	for _, ref := range []rules.Ref{rearActuation, shifterActuation, frontActuation, frontShifterMoves} {
		if r.says(ref, "motor") {
			return true
		}
	}
	return r.has("cell") || r.has("controller_cell") || r.has("charger")
}

// fixed says whether the cog cannot turn back on the hub. Of a drive about which the
// figure says nothing, such as a belt or a hub without its cog, the hub tells it.
func (r *Report) fixed() bool {
	if cog := r.Mix.facts.Value(fixedCog); cog.Known {
		return cog.Num != 0
	}
	if v, _ := r.Figures.Value("fixed_drive"); v.Known {
		return v.Num != 0
	}
	return r.says(hubKind, "fixed")
}

// oneGear says whether there is nothing to shift: one cog without a derailleur, and
// no gears in the hub.
func (r *Report) oneGear() bool {
	several := r.has("rear_derailleur") || r.has("front_derailleur") || r.says(hubKind, "internal")
	return !several && len(r.Mix.facts.Value(cassetteCogs).List) == 1
}

package compat

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// caution is something to keep in mind, and for which mixes.
type caution struct {
	text    string
	applies func(r Report) bool // nil for all
}

// cautions go with reports and sheets whatever the verdict: a wrong mix can hurt the
// rider, and so can the work on it. What takes fingers comes first.
var cautions = []caution{
	{"Motor: switch it off and take the battery out before hands go near chain, cranks or spokes; " +
		"a foot on the pedal or the push help starts it.",
		func(r Report) bool { return r.says(frameAssist, "mid", "hub") }},
	{"Fixed cog: the wheel turns chain and cranks as long as it turns. Turn it slowly by its tyre, never with a finger on the chain, " +
		"and fit and try a front brake first.", Report.fixed},
	{"The makers' instructions and local rules come first; a part's own marking wins over any value here.", nil},
	{"Use a torque wrench, and look for limits marked on carbon parts before clamping them.", nil},
	{"See that the axle is closed before the first turn of the wheel, and again before the first ride.",
		func(r Report) bool { return r.has("hub") || r.has("wheel") || r.has("axle") }},
	{"The hub has a brake of its own: its reaction arm is clipped tight to the stay before the first turn of the wheel.",
		func(r Report) bool { return r.Mix.facts.Value(hubBrake).Known }},
	{"The motor in the wheel was not judged: unplug its cable before the wheel comes out, and tighten nuts and torque arm as they are marked.",
		func(r Report) bool { return r.says(frameAssist, "hub") }},
	{"Lithium cells: charge only what is made to be charged, inside its temperature range; keep button cells from children.", Report.powered},
	{"Try every gear in the stand first, then ride away from traffic before relying on it.", func(r Report) bool { return !r.oneGear() }},
	{"Turn the cranks in the stand first, then ride away from traffic before relying on it.", Report.oneGear},
	{"Ask a qualified mechanic when unsure.", nil},
}

// Cautions gives what a mechanic must keep in mind with this mix, whatever the
// verdict.
func (r Report) Cautions() []string {
	var out []string
	for _, c := range cautions {
		if c.applies == nil || c.applies(r) {
			out = append(out, c.text)
		}
	}
	return out
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
func (r Report) says(ref rules.Ref, words ...string) bool {
	return slices.Contains(words, r.Mix.facts.Value(ref).Text)
}

// has says whether the mix has a part of a kind.
func (r Report) has(kind string) bool {
	_, ok := r.Mix.Part(kind)
	return ok
}

// powered says whether anything in the mix takes a cell.
func (r Report) powered() bool {
	for _, ref := range []rules.Ref{rearActuation, shifterActuation, frontActuation, frontShifterMoves} {
		if r.says(ref, "motor") {
			return true
		}
	}
	return r.has("cell") || r.has("controller_cell") || r.has("charger")
}

// fixed says whether the cog cannot turn back on the hub.
func (r Report) fixed() bool {
	return r.says(hubKind, "fixed") || r.Mix.facts.Value(fixedCog).Num != 0
}

// oneGear says whether there is nothing to shift: one cog without a derailleur, and
// no gears in the hub.
func (r Report) oneGear() bool {
	several := r.has("rear_derailleur") || r.has("front_derailleur") || r.says(hubKind, "internal")
	return !several && len(r.Mix.facts.Value(cassetteCogs).List) == 1
}

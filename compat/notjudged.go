package compat

import (
	"math"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// The facts that tell what is not judged, and which kinds a bicycle needs.
var (
	driveRef      = catalog.Frame.Ref("drive")
	idlerRef      = catalog.Frame.Ref("idler_t")
	timingRef     = catalog.Frame.Ref("timing_chain")
	assistRef     = catalog.Frame.Ref("assist")
	chainPitchRef = catalog.Chain.Ref("pitch_mm")
	hubKindRef    = catalog.Hub.Ref("kind_of_hub")
	indexedRef    = catalog.RearShifter.Ref("indexed")
	reachRef      = catalog.ChainTensioner.Ref("capacity_t")
	leverBrakes   = []rules.Ref{catalog.RearShifter.Ref("integrated_brake"), catalog.FrontShifter.Ref("integrated_brake")}
)

// halfInch is the pitch of the chains that are judged, in mm, and how far a measured
// one may be off it.
const (
	halfInch    = 12.7
	halfInchOff = 0.05
)

// NotJudged names what the mix has and no rule judges: parts of the drive first,
// without which a report is not complete, then what is only named.
func (r Report) NotJudged() []NotJudged {
	return append(r.Mix.driveNotJudged(), r.Mix.restNotJudged()...)
}

// belted says whether the frame is driven by a belt.
func (m Mix) belted() bool { return m.facts.Value(driveRef).Text == "belt" }

// driveNotJudged names parts of the drive itself.
func (m Mix) driveNotJudged() []NotJudged {
	var out []NotJudged
	if m.belted() {
		out = append(out, NotJudged{What: "the belt", Text: "Its cogs, line, tension and length are not judged: go by its maker's " +
			"sheet and gauge.", Drive: true})
	}
	if p := m.facts.Value(chainPitchRef); p.Known && math.Abs(p.Num-halfInch) > halfInchOff && !m.belted() {
		out = append(out, NotJudged{What: "the chain", Text: "It is not a half-inch chain: nothing of it is judged.", Drive: true})
	}
	if m.facts.Value(idlerRef).Known {
		out = append(out, NotJudged{What: "length and angles of the chain over its idler",
			Text: "Lay the chain over tubes and idlers on the largest pair and add two half-inch links; joined chains are of one width, " +
				"and even in all.", Drive: true})
	}
	if t := m.facts.Value(timingRef); t.Known && t.Num != 0 {
		out = append(out, NotJudged{What: "the timing chain", Text: "Its count, its tension and that both its rings have as many teeth " +
			"are not judged.", Drive: true})
	}
	return out
}

// restNotJudged names what neither verdict nor completeness hang on.
func (m Mix) restNotJudged() []NotJudged {
	var out []NotJudged
	if m.facts.Value(hubKindRef).Text == "internal" {
		out = append(out, hubGears(m.cogCount() > 1))
	}
	if i := m.facts.Value(indexedRef); i.Known && i.Num == 0 {
		out = append(out, NotJudged{What: "the place of each gear", Text: "The shifter has no clicks: you set the position by ear."})
	}
	if _, ok := m.Part("chain_tensioner"); ok && !m.facts.Value(reachRef).Known {
		out = append(out, NotJudged{What: "how far the tensioner reaches", Text: "Nobody states what slack it takes up: push the chain " +
			"up and down when it is fitted."})
	}
	if _, ok := m.Part("brake"); !ok {
		for _, ref := range leverBrakes {
			if b := m.facts.Value(ref); b.Known && b.Text != "none" {
				out = append(out, NotJudged{What: "the brake of the lever with the shifter in it",
					Text:    "Pull, cable or hydraulic, and fluid are not judged: no brake is in the mix.",
					Caution: "The brake of this lever was not judged: a lever of the wrong pull hardly brakes, and the wrong fluid ruins its seals."})
				break
			}
		}
	}
	if m.facts.Value(assistRef).Text == "hub" {
		out = append(out, NotJudged{What: "the motor in the hub, its cable and its torque arm", Text: "Axle nuts and torque arm are " +
			"tightened as marked.",
			Caution: "Unplug the motor's cable before the wheel comes out."})
	}
	return out
}

// hubGears is for a hub with gears of its own: alone, or beside a derailleur that is
// judged in full.
func hubGears(beside bool) NotJudged {
	if beside {
		return NotJudged{What: "the hub's own gears and their cable", Text: "The derailleur's cogs are judged like any others; the " +
			"gears in the hub are set by its maker's mark."}
	}
	return NotJudged{What: "the hub gear's shifter, its cable and the washers that keep its axle from " +
		"turning", Text: "They are fitted and set as the hub's maker says."}
}

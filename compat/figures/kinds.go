package figures

import (
	"math"
	"slices"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// wanted is a part that a figure cannot do without: the first of these facts names
// its kind, and any other stands in for it, as chainrings of their own do for those
// of the crankset and a measured place of every cog for the cassette's pitches.
type wanted []*input

// The parts that figures want.
var (
	theCassette     = wanted{&cogs}
	theChain        = wanted{&chainOuter}
	theRings        = wanted{&crankRings, &ownRings}
	theSteps        = wanted{&rearActuation, &benchSteps}
	theFrontRear    = wanted{&frontWants}
	theFrontShifter = wanted{&frontPulls}
	theRear         = wanted{&rearActuation}
	theShifter      = wanted{&pull}
	theHub          = wanted{&hubWidth}
	theFrame        = wanted{&chainstay}
	theConnector    = wanted{&joinSpeeds}
	theWheel        = wanted{&beadSeat}
)

// here says whether the mix has what is wanted: the part of one of the facts, or a
// measured fact that stands in for it.
func (m *measuring) here(w wanted) bool {
	for _, in := range w {
		rec := m.records[in.place]
		if in.place == benchPlace && rec != nil && rec.At(in.Index).Known || in.place != benchPlace && rec != nil {
			return true
		}
	}
	return false
}

// allHere notes which of the parts that a figure wants are absent. It is asked
// before any field: what a part would have to say is no question while another
// part without which it means nothing is not there.
func (m *measuring) allHere(f *figure) bool {
	if m.present&f.parts == f.parts && m.eachHere(f.others) {
		return true
	}
	for _, w := range f.kinds {
		if !m.here(w) {
			m.absent = m.merge(m.absent, w[0].absent)
		}
	}
	return len(m.absent) == 0
}

// eachHere says whether the mix has each of these.
func (m *measuring) eachHere(list []wanted) bool {
	for _, w := range list {
		if !m.here(w) {
			return false
		}
	}
	return true
}

// look notes which parts are there. It comes before any figure, and anew where one comes
// or goes.
func (m *measuring) look() {
	m.present = 0
	for place, rec := range m.records {
		if rec != nil {
			m.present |= 1 << place
		}
	}
}

// alone says whether one part is wanted, and nothing stands in for it.
func (w wanted) alone() bool { return len(w) == 1 && w[0].place != benchPlace }

// gather gives a figure the parts that the figures want which it always reads.
func (f *figure) gather() {
	f.gated = f.chain
	for _, other := range f.figures {
		f.gated = f.gated || other.gated
		if slices.Contains(f.maybe, other) {
			continue
		}
		f.chain = f.chain || other.chain
		for _, w := range other.kinds {
			if !slices.ContainsFunc(f.kinds, func(have wanted) bool { return slices.Equal(have, w) }) {
				f.kinds = append(slices.Clip(f.kinds), w)
			}
		}
	}
	for _, w := range f.kinds {
		if w.alone() {
			f.parts |= 1 << w[0].place
		} else {
			f.others = append(f.others, w)
		}
	}
}

// Sentences for what runs over no half-inch chain.
const (
	onBelt      = "the drive is a belt: its cogs, line, tension and length are not judged"
	otherChains = "the chain is not one of half an inch"
)

// onChain says whether there is a half-inch chain to speak of. It is asked of all
// figures of the chain at once, before what each of them reads: on a belt the kinds
// of parts hold pulleys.
func (m *measuring) onChain(f *figure) bool {
	if !f.chain {
		return true
	}
	if rec := m.records[frameDrive.place]; rec != nil && rec.At(frameDrive.Index).Text == "belt" {
		m.needless(onBelt) // the report names it, and other chains
		return false
	}
	m.read.Join(chainPitch.mark)
	if rec := m.records[chainPitch.place]; rec != nil {
		if p := rec.At(chainPitch.Index); p.Known && math.Abs(p.Num-geometry.Pitch) > 0.05 {
			m.needless(otherChains)
			return false
		}
	}
	return true
}

var figHalfInchDrive = &figure{
	Field: fact.Field{Name: "half_inch_drive", Type: fact.Flag, Doc: "Stated where a half-inch chain drives, or nobody says " +
		"otherwise; it means nothing on a belt and with other chains."},
	reads: []input{frameDrive, chainPitch},
	chain: true,
	measure: func(m *measuring, v *fact.Value) {
		m.peek(&frameDrive) // onChain has looked at both
		m.peek(&chainPitch)
		v.Num, m.doubt = 1, doubt{}
	},
}

// settle leaves one reason of several why a figure has no value: parts that are
// absent go before all else, and what means nothing asks for nothing.
func (m *measuring) settle() {
	switch {
	case len(m.absent) > 0:
		m.missing, m.reason, m.quiet, m.fault = nil, "", false, ""
	case m.reason != "":
		m.missing, m.fault = nil, ""
	case m.fault != "":
		m.missing = nil
	}
}

package figures

import (
	"maps"
	"math"
	"slices"
	"strings"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// How far, in mm, the smallest cog must at least and may at most stand proud of the
// body for the lockring to hold.
const (
	leastProud = 0.1
	mostProud  = 2
)

var figLockringMargin = &figure{
	Field: mm("lockring_margin_mm", "How far the smallest cog stands proud of the freehub body: mount height + spacer - body "+
		"length. A spacer that comes with the cassette counts on the body that it is made for."),
	reads: lockringReads,
	kinds: []wanted{theCassette, theHub}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		if !m.lockringHolds() {
			return
		}
		mount, body := m.need(&mountHeight), m.need(&bodyLength)
		if m.lacking() {
			return
		}
		before := m.doubt
		v.Num = geometry.LockringMargin(mount.Num, m.spacer(), body.Num)
		if m.peek(&benchSpacer) == nil && mount.Num-body.Num > mostProud {
			m.doubt = before // too high without any spacer, and higher with one
		}
	},
}

var figByHeight = &figure{
	Field: fact.Field{Name: "lockring_by_height", Type: fact.Flag, Doc: "Whether cassette and body both state how high they are, so " +
		"that the calliper decides and not the class."},
	reads: lockringReads[:8],
	kinds: []wanted{theCassette, theHub}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		if !m.lockringHolds() {
			return
		}
		if mount, body := m.stated(&mountHeight), m.peek(&bodyLength); mount != nil && body != nil {
			v.Num = 1
			return
		}
		m.doubt = doubt{} // without the heights it would be the class as well
	},
}

// lockringReads: the first eight say whether and by what it is decided.
var lockringReads = []input{cogs, cogCountStated, cogFreehub, hubFreehub, hubKind, mountHeight, bodyLength, heightClass, benchSpacer, cassetteSpacer}

// Sentences for cassettes that no lockring presses on a body.
const (
	screwedOn   = "it is screwed on as one: no lockring holds it"
	oneLength   = "body and cassette of this family are made in one length"
	goesNotOn   = "the cassette does not go on this body"
	notByHeight = "this family is not reckoned by class: state both heights"
	onItsOwn    = "a single cog has no lockring of a cassette"
	decidedByMM = "both heights are stated: the margin decides"
)

// lockringHolds says whether it is a lockring that holds the cogs on a body, and
// whether anything is known against it. Two heights that were measured say how they
// meet of whatever family they are.
func (m *measuring) lockringHolds() bool {
	kind, hub, cog := m.peek(&hubKind), m.peek(&hubFreehub), m.peek(&cogFreehub)
	heights := m.stated(&mountHeight) != nil // a usual height is for texts
	heights = m.peek(&bodyLength) != nil && heights
	switch {
	case m.cogCount() == 1:
		m.needless(onItsOwn)
	case kind != nil && kind.Text != "cassette" && kind.Text != "internal":
		m.needless(screwedOn)
	case hub == nil && cog == nil:
	case hub != nil && screws(hub.Text), hub == nil && slices.ContainsFunc(cog.Words(), screws):
		m.needless(screwedOn)
	case hub != nil && cog != nil && neverGoes(cog.Words(), hub.Text):
		m.needless(goesNotOn)
	case hub == nil && slices.ContainsFunc(cog.Words(), byClass) && len(cog.Words()) > 1: // the body tells which
	case hub == nil:
		m.family(heights, cog.Words()[0])
	case cog == nil || slices.Contains(cog.Words(), hub.Text):
		m.family(heights, hub.Text)
	case hub.Text == "driver-10-long" && goesOn(cog.Words(), hub.Text): // has a row of its own
	case strings.HasPrefix(hub.Text, "spline-8"):
		m.family(heights, hub.Text)
	case !byClass(hub.Text) || !slices.ContainsFunc(cog.Words(), byClass):
		m.byHeight(heights)
	}
	return !m.lacking()
}

// family sorts out the families whose cassettes, on their own body, are not decided
// by how high they stand.
func (m *measuring) family(heights bool, name string) {
	switch {
	case name == "driver-10" || name == "driver-10-long" || name == "driver-bmx":
		m.needless(screwedOn)
	case name == "spline-23" || name == "spline-road-12":
		m.needless(oneLength)
	case strings.HasPrefix(name, "spline-8"):
		if !heights {
			m.needless(notByHeight)
		}
	case !byClass(name):
		m.byHeight(heights)
	}
}

// byHeight is for families whose classes are in no table: the two heights decide, or
// a class that somebody states.
func (m *measuring) byHeight(heights bool) {
	if !heights && m.peek(&heightClass) == nil {
		m.needless(notByHeight)
	}
}

// spacer is what stands behind the cassette: measured, else what comes with it where
// the body asks for it, else nothing, which is assumed.
func (m *measuring) spacer() float64 {
	if s := m.peek(&benchSpacer); s != nil {
		return s.Num
	}
	mount, body := m.peek(&mountHeight), m.peek(&bodyLength)
	proud := 0.0
	if mount != nil && body != nil {
		proud = mount.Num - body.Num
	}
	if s := m.peek(&cassetteSpacer); s != nil && !(proud >= leastProud && proud+s.Num > mostProud) {
		return s.Num
	}
	m.suppose(takesNoSpacer)
	return 0
}

var figSpacerFitted = &figure{
	Field: mm("spacer_fitted_mm", "The spacers behind the cassette: as measured, else those that come with it where the body asks for them."),
	reads: []input{benchSpacer, cassetteSpacer, mountHeight, bodyLength, bodyClass},
	kinds: []wanted{{&cassetteSpacer, &benchSpacer}}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		if s := m.peek(&benchSpacer); s != nil {
			v.Num = s.Num
			return
		}
		comes, class := m.need(&cassetteSpacer), m.peek(&bodyClass)
		mount, body := m.peek(&mountHeight), m.peek(&bodyLength)
		tooProud := mount != nil && body != nil && mount.Num+comes.Num-body.Num > mostProud
		if class != nil && class.Text == "7" || tooProud {
			return // it comes for a longer body
		}
		v.Num = comes.Num
	},
}

var figSpokeGap = &figure{
	Field: mm("spoke_gap_mm", "The room between the largest cog and the spokes: hub's room at that radius + spacers behind the "+
		"cassette - overhang."),
	reads: []input{hubSpokes, overhang, mountHeight, bodyLength, benchSpacer, cassetteSpacer},
	kinds: []wanted{theHub, theCassette}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		if room, over := m.need(&hubSpokes), m.need(&overhang); !m.lacking() {
			v.Num = room.Num + m.spacerInboard() - over.Num
		}
	},
}

// usualInset is for an inset that nobody measured: a millimetre decides here.
const usualInset = "the inset of the smallest cog is only usual: measure it on the hub"

var figDropoutRoom = &figure{
	Field: mm("dropout_room_mm", "The room between the chain on the smallest cog and the inside of the frame's end: inset of the "+
		"smallest cog - chain width / 2 + how far the end is hollowed (none assumed). The inset is stated or measured."),
	reads:   []input{benchInset, hubInset, hubShoulder, mountHeight, bodyLength, benchSpacer, cassetteSpacer, frameRecess},
	figures: []*figure{figCogThickness, figChainOuter},
	rises:   []input{cogThickness, hubInset, hubShoulder}, falls: []input{chainOuter},
	maybe: []*figure{figCogThickness},
	kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		inset, outer := m.inset(), m.figure(figChainOuter)
		if in := m.peek(&hubInset); m.peek(&benchInset) == nil && in != nil && in.Usual != fact.NotUsual {
			m.needless(usualInset)
		}
		if m.lacking() {
			return
		}
		recess := 0.0
		if r := m.peek(&frameRecess); r != nil {
			recess = r.Num
		} else {
			m.suppose(takesNoRecess)
		}
		v.Num = geometry.DropoutRoom(inset, outer.Num, recess)
	},
}

// The least room beside the chain on the smallest cog, in mm: known, and reckoned by
// an inset that belongs to another freewheel.
const (
	leastRoom, leastRoomThread = 0.1, 1
)

var figDropoutLeast = &figure{
	Field: mm("dropout_least_mm", "The least of dropout_room_mm that passes: 0.1, and 1.0 on a thread for freewheels, whose stated inset belongs to the freewheel that it was reckoned with, until it is measured. Where the hub's body is not stated, its kind or the thread of the cogs tells."),
	reads: []input{benchInset, hubFreehub, hubKind, cogFreehub},
	kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		v.Num = leastRoom
		if inset := m.peek(&benchInset); m.threaded() && inset == nil {
			v.Num = leastRoomThread
		}
	},
}

// threaded says whether a freewheel is screwed on the hub: by its body, else by its
// kind or by the thread of the cogs.
func (m *measuring) threaded() bool {
	body, kind, cog := m.peek(&hubFreehub), m.peek(&hubKind), m.peek(&cogFreehub)
	if body != nil {
		return freewheelThread(body.Text)
	}
	return kind != nil && kind.Text == "freewheel" || cog != nil && slices.ContainsFunc(cog.Words(), freewheelThread)
}

var figLeastCog = &figure{
	Field:   whole("least_cog_t", "t", "The smallest cog that the hub's body takes: as stated, else that of its family (assumed where it is from memory). Of a body that the cassette does not go on it means nothing."),
	reads:   leastCogReads,
	kinds:   []wanted{theHub},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.leastCog(v, familyCogs) },
}

var figLeastCogKind = &figure{
	Field:   whole("least_cog_kind_t", "t", "The smallest cog that any body of the family of the hub's is known to carry, and no more than the hub states."),
	reads:   leastCogReads,
	kinds:   []wanted{theHub},
	chain:   true,
	measure: func(m *measuring, v *fact.Value) { m.leastCog(v, kindFamilyCogs) },
}

var leastCogReads = []input{hubMinCog, hubFreehub, cogFreehub}

// leastCog takes what the hub states, but no more than its family is known to carry.
func (m *measuring) leastCog(v *fact.Value, known map[string]float64) {
	stated, family := m.peek(&hubMinCog), m.peek(&hubFreehub)
	name := ""
	if family != nil {
		name = family.Text
	}
	if stated != nil {
		v.Num = stated.Num
		if least := known[name]; least < familyCogs[name] {
			v.Num = min(v.Num, least)
		}
		return
	}
	if made := m.peek(&cogFreehub); family != nil && made != nil && neverGoes(made.Words(), name) {
		m.needless("the cassette is made for another body")
		return
	}
	v.Num = known[name]
	if v.Num == 0 {
		m.lack(&hubMinCog)
		return
	}
	if rememberedCogs[name] {
		m.suppose(takesFamilyCog)
	}
}

// familyCogs are the smallest cogs by the family of the body.
var familyCogs = map[string]float64{
	"spline-9": 11, "spline-9-deep": 11, "spline-road-12": 11, "spline-8": 11, "spline-8-deep": 11, "spline-8-short": 9,
	"driver-10": 10, "driver-10-long": 10, "spline-23": 10, "driver-bmx": 8,
}

// kindFamilyCogs are the smallest that any of them is known to carry: one driver takes
// a nine.
var kindFamilyCogs = withNine(familyCogs)

func withNine(all map[string]float64) map[string]float64 {
	out := maps.Clone(all)
	out["driver-10"], out["driver-10-long"] = 9, 9
	return out
}

// rememberedCogs are the families whose smallest cog no page was read for.
var rememberedCogs = map[string]bool{"spline-8": true, "spline-8-deep": true, "spline-8-short": true, "spline-9-deep": true, "spline-road-12": true, "driver-bmx": true}

// near says whether two lengths differ by no more than so many mm.
func near(a, b, by float64) bool { return math.Abs(a-b) <= by+1e-9 }

package figures

import (
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// What decides whether cogs hold on a hub.
const (
	holdsByBody   = "body"
	holdsByKind   = "kind"   // such a hub carries no such cogs at all
	holdsByThread = "thread" // a fixed cog on the thread of freewheels
)

var figCogHold = &figure{
	Field: fact.Field{Name: "cog_hold", Type: fact.Choice, Choices: []string{holdsByBody, holdsByKind, holdsByThread},
		Doc: "What decides whether the cogs hold on the hub: body, the splines or the thread; kind, where several cogs or splined ones are on a fixed hub or on lugs; thread, where a fixed cog is on the thread of freewheels."},
	reads: []input{hubKind, hubFreehub, cogs, cogCountStated, cogFreehub, cogFixed},
	kinds: []wanted{theHub, theCassette}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		kind, body := m.peek(&hubKind), m.peek(&hubFreehub)
		v.Text = holdsByBody
		lugs := kind != nil && kind.Text == "internal" && body != nil && strings.HasPrefix(body.Text, "lug-")
		alone := kind != nil && kind.Text == "fixed" || lugs
		switch fixed := m.fixed(); {
		case alone && (m.cogCount() > 1 || m.splined()):
			v.Text = holdsByKind
		case fixed && body != nil && freewheelThread(body.Text):
			v.Text = holdsByThread
		}
	},
}

// splined says whether the cogs go on splines only.
func (m *measuring) splined() bool {
	cog := m.peek(&cogFreehub)
	return cog != nil && !slices.ContainsFunc(cog.Words(), func(body string) bool {
		return !strings.HasPrefix(body, "spline-") && !strings.HasPrefix(body, "driver-")
	})
}

// freewheelThread says whether freewheels are screwed on this.
func freewheelThread(body string) bool { return strings.HasPrefix(body, "thread-") }

// fixed says whether the cog turns with the wheel: as it says itself; else by a thread
// that is made for fixed cogs, or by being alone on a fixed hub. A freewheel that goes
// on such a hub does not, unless the hub has its thread: then nobody knows which it is.
func (m *measuring) fixed() bool {
	if cog := m.peek(&cogFixed); cog != nil {
		return cog.Num != 0
	}
	made, kind, body := m.peek(&cogFreehub), m.peek(&hubKind), m.peek(&hubFreehub)
	if made != nil && slices.Contains(made.Words(), trackThread) {
		return true
	}
	freewheel := made != nil && slices.ContainsFunc(made.Words(), freewheelThread)
	if freewheel && body != nil && !freewheelThread(body.Text) {
		return false
	}
	return kind != nil && kind.Text == "fixed" && m.cogCount() == 1
}

// trackThread has a lockring of left-hand thread beside it, which fixed cogs want.
const trackThread = "track-1.375"

// What is on the chain of a fixed cog.
const (
	fixedNone    = "none"
	fixedAlone   = "alone"
	fixedStrains = "derailleur"
	fixedPulls   = "tensioner"
)

var figFixedCog = &figure{
	Field: fact.Field{Name: "fixed_cog", Type: fact.Choice, Choices: []string{fixedNone, fixedAlone, fixedStrains, fixedPulls},
		Doc: "Whether there is a fixed cog, stated or made as such or alone on a fixed hub without being a freewheel, and what else takes its chain: none, where no cog is fixed; alone; derailleur; tensioner."},
	reads: []input{hubKind, hubFreehub, cogs, cogCountStated, cogFixed, cogFreehub, rearActuation, tensioner},
	kinds: []wanted{theHub, theCassette}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		m.goesWithoutSaying(&rearActuation) // that they are there is enough
		m.goesWithoutSaying(&tensioner)
		switch {
		case !m.fixed():
			v.Text = fixedNone
		case m.there(&rearActuation):
			v.Text = fixedStrains
		case m.there(&tensioner):
			v.Text = fixedPulls
		default:
			v.Text = fixedAlone
		}
	},
}

// By what the drive into a geared hub is judged.
const (
	inputByRatio  = "ratio"
	inputByTorque = "torque"
	inputByBoth   = "both"
)

// Sentences for drives into a hub.
const (
	hubOfCogs    = "the cogs are shifted by a derailleur: what its hub gear bears is not judged"
	hubSaysNoSet = "the maker of the hub gear states no limit of its drive"
)

var figHubInputBy = &figure{
	Field: fact.Field{Name: "hub_input_by", Type: fact.Choice, Choices: []string{inputByRatio, inputByTorque, inputByBoth},
		Doc: "What the drive into a geared hub of one cog is judged by: ratio of ring and cog, where the hub states the least; torque, where the hub states the most or a motor at the crank drives it; both."},
	reads: []input{hubKind, cogs, hubMinRatio, hubMaxInput, frameAssist},
	kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		if !m.geared() {
			return
		}
		least, most, motor := m.peek(&hubMinRatio), m.peek(&hubMaxInput), m.peek(&frameAssist)
		if m.cogCount() != 1 {
			m.needless(hubOfCogs)
			return
		}
		mid := motor != nil && motor.Text == "mid"
		switch {
		case least != nil && (mid || most != nil):
			v.Text = inputByBoth
		case least != nil:
			v.Text = inputByRatio
		case mid || most != nil:
			v.Text = inputByTorque
		default:
			m.needless(hubSaysNoSet)
		}
	},
}

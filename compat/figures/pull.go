package figures

import (
	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// usualCrank is a crank's length, in mm, where none is stated.
const usualCrank = 175

// leastPlainRing is the ring, in teeth, under which a motor's ring hardly turns only
// as often as the cranks (from memory).
const leastPlainRing = 22

var figChainPull = &figure{
	Field: fraction("chain_pull_n", "N", "The most that riders and a motor at the crank pull at the chain on the smallest ring: "+
		"(1500 N a rider x crank length + motor's torque) / (ring's radius x how often the ring turns for a turn of the crank)."),
	reads: []input{crankRings, ownRings, crankLength, frameAssist, assistTorque, ringFactor, timingChain},
	kinds: []wanted{theRings}, chain: true,
	measure: (*measuring).chainPull,
}

func (m *measuring) chainPull(v *fact.Value) {
	r, d := m.rings(), geometry.Drive{Riders: 1, Crank: usualCrank, Assist: m.assist(), Factor: 1}
	if m.lacking() {
		return
	}
	ring := r.List[len(r.List)-1]
	if l := m.peek(&crankLength); l != nil {
		d.Crank = l.Num
	} else {
		m.suppose(takesCrankLength)
	}
	if t := m.peek(&timingChain); t == nil {
		m.suppose(takesOneRider)
	} else if t.Num != 0 {
		d.Riders = 2
	}
	switch f := m.peek(&ringFactor); {
	case f != nil:
		d.Factor = f.Num
	case d.Assist > 0 && ring < leastPlainRing:
		m.lack(&ringFactor)
		return
	case d.Assist > 0:
		m.suppose(takesRingAsCrank)
	}
	v.Num = d.ChainPull(ring)
}

// Who pulls at the chain harder than one rider alone.
const (
	pulledByMotor  = "rider-and-motor"
	pulledByTwo    = "two-riders"
	pulledByBoth   = "two-riders-and-motor"
	riderPullsOnly = "one rider alone pulls at the chain: any chain bears it"
)

var figChainPulledBy = &figure{
	Field: fact.Field{Name: "chain_pulled_by", Type: fact.Choice, Choices: []string{pulledByMotor, pulledByTwo, pulledByBoth},
		Doc: "Who pulls at the chain harder than one rider alone: a motor at the crank, the two riders of a frame with a timing chain, or both."},
	reads: []input{frameAssist, timingChain},
	kinds: []wanted{theFrame}, chain: true,
	measure: func(m *measuring, v *fact.Value) {
		kind, timing := m.peek(&frameAssist), m.peek(&timingChain)
		mid, two := kind != nil && kind.Text == "mid", timing != nil && timing.Num != 0
		switch {
		case mid && two:
			v.Text = pulledByBoth
		case mid:
			v.Text = pulledByMotor
		case two:
			v.Text = pulledByTwo
		case kind == nil:
			m.lack(&frameAssist)
		default:
			m.needless(riderPullsOnly)
		}
	},
}

// assist is the torque of a motor that pulls through the chain.
func (m *measuring) assist() float64 {
	switch kind := m.peek(&frameAssist); {
	case kind == nil:
		m.suppose(takesNoMotor)
	case kind.Text == "mid":
		return m.need(&assistTorque).Num
	}
	return 0
}

// Sentences for hubs.
const noOwnGears = "the hub has no gears of its own"

var hubReads = []input{hubKind, crankRings, ownRings, cogs, frameAssist, assistTorque}

var figHubInput = &figure{
	Field: fraction("hub_input_nm", "N m", "The torque at the sprocket of a geared hub, as its makers reckon a rider: (250 N m + "+
		"the motor's torque) x largest cog / smallest ring; with a belt by the pulleys' teeth."),
	reads: hubReads, kinds: []wanted{theHub, theRings, theCassette},
	measure: atHub(geometry.HubInput),
}

var figMotorInput = &figure{
	Field: fraction("motor_input_nm", "N m", "The torque at the sprocket of a geared hub that a motor at the crank makes up alone."),
	reads: hubReads, kinds: []wanted{theHub, theRings, theCassette},
	measure: atHub(geometry.MotorInput),
}

// atHub works out a torque at the sprocket of a geared hub.
func atHub(torque func(assist, ring, cog float64) float64) func(*measuring, *fact.Value) {
	return func(m *measuring, v *fact.Value) {
		if !m.geared() {
			return
		}
		r, c, assist := m.rings(), m.need(&cogs), m.assist()
		if !m.lacking() {
			v.Num = torque(assist, r.List[len(r.List)-1], c.List[len(c.List)-1])
		}
	}
}

// geared says whether the hub has gears of its own.
func (m *measuring) geared() bool {
	if kind := m.goesWithoutSaying(&hubKind); kind == nil || kind.Text != "internal" {
		m.needless(noOwnGears)
		return false
	}
	return true
}

// The least ratios of ring and cog, whatever the hub's maker states for one rider on
// a plain bicycle: with two riders or a long chain, and on the smallest sprockets.
const (
	leastForTwo, leastOnSmall = 2.5, 3
	smallSprocket             = 14
)

var figLeastRatio = &figure{
	Field: fraction("hub_least_ratio", "", "The least ratio of ring to cog for a geared hub: as its maker states it, 2.5 at least "+
		"for two riders and for a chain over an idler, 3.0 at least with a cog of 14 teeth or fewer."),
	reads: []input{hubKind, hubMinRatio, timingChain, idler, cogs}, kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		if !m.geared() {
			return
		}
		least, c := m.need(&hubMinRatio), m.need(&cogs)
		two, over := m.peek(&timingChain), m.peek(&idler)
		if m.lacking() {
			return
		}
		v.Num = least.Num
		if two != nil && two.Num != 0 || over != nil {
			v.Num = max(v.Num, leastForTwo)
		}
		if c.List[0] <= smallSprocket {
			v.Num = max(v.Num, leastOnSmall)
		}
	},
}

var figFrontPulls = &figure{
	Field: mm("front_pulls_off_mm", "Where the front shifter's cable is furthest off what the front derailleur wants: the largest "+
		"difference of the running sums, positive where too much is pulled."),
	reads: []input{frontPulls, frontWants}, kinds: []wanted{theFrontShifter, theFrontRear},
	measure: func(m *measuring, v *fact.Value) {
		if has, wants := m.need(&frontPulls), m.need(&frontWants); !m.lacking() {
			v.Num = geometry.RunningOff(has.List, wants.List)
		}
	},
}

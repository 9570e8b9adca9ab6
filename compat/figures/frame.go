package figures

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/fact"
)

var figAxleKind = &figure{
	Field:   fact.Field{Name: "axle_kind", Type: fact.Choice, Choices: []string{"quick", "through"}, Doc: "How the rear wheel is held: as the hub states it, else as the frame does."},
	reads:   []input{hubAxle, frameAxle},
	kinds:   []wanted{{&hubAxle, &frameAxle}},
	measure: (*measuring).axleKind,
}

func (m *measuring) axleKind(v *fact.Value) {
	for _, in := range []*input{&hubAxle, &frameAxle} {
		if kind := m.peek(in); kind != nil {
			v.Text = kind.Text
			return
		}
	}
	if m.there(&hubAxle) {
		m.lack(&hubAxle)
	} else {
		m.lack(&frameAxle)
	}
}

// unstated stands for a word that nobody gave, where a rule speaks of that itself.
const unstated = "unstated"

var figAxleEnd = &figure{
	Field: fact.Field{Name: "axle_end", Type: fact.Choice, Choices: []string{"open", "blind", unstated}, Doc: "Whether a through axle can come out at the far side of the frame; unstated where nobody says."},
	reads: []input{frameAxleEnd},
	kinds: []wanted{theFrame},
	measure: func(m *measuring, v *fact.Value) {
		v.Text = unstated
		if end := m.peek(&frameAxleEnd); end != nil {
			v.Text = end.Text
		}
	},
}

// universalThread is that of the frame which a universal hanger belongs to.
const universalThread = "m12-1.0"

var figAxleThread = &figure{
	Field: fact.Field{Name: "axle_thread", Type: fact.Name, Known: catalog.Frame.Ref("axle_thread").Field().Known,
		Doc: "The thread of the through axle in the frame: as stated, else that of frames with a universal hanger (assumed)."},
	reads: []input{frameThread, frameHanger},
	kinds: []wanted{theFrame},
	measure: func(m *measuring, v *fact.Value) {
		if thread := m.peek(&frameThread); thread != nil {
			v.Text = thread.Text
			return
		}
		if hanger := m.peek(&frameHanger); hanger != nil && hanger.Text == "universal" {
			v.Text = universalThread
			m.suppose(takesUniversalThread)
			return
		}
		m.lack(&frameThread)
	},
}

// How the axles of hub and frame go together.
const (
	axlesAlike  = "alike"
	axlesDiffer = "differ"
	axlesAsked  = "asked"  // one side is silent, and a through axle is in the mix
	axlesSilent = "silent" // one side is silent
)

var figAxleCompared = &figure{
	Field: fact.Field{Name: "axle_compared", Type: fact.Choice, Choices: []string{axlesAlike, axlesDiffer, axlesAsked, axlesSilent},
		Doc: "Whether hub and frame state the same kind of axle: alike or differ; where one of them does not say, asked with a through axle in the mix, else silent."},
	reads: []input{hubAxle, frameAxle, axleThread},
	kinds: []wanted{theFrame},
	measure: func(m *measuring, v *fact.Value) {
		m.goesWithoutSaying(&axleThread) // that the axle is there is enough
		hub, frame := m.peek(&hubAxle), m.peek(&frameAxle)
		switch {
		case hub != nil && frame != nil && hub.Text == frame.Text:
			v.Text = axlesAlike
		case hub != nil && frame != nil:
			v.Text = axlesDiffer
		case m.there(&axleThread):
			v.Text = axlesAsked
		default:
			v.Text = axlesSilent
		}
	},
}

var figLeverBrake = &figure{
	Field: fact.Field{Name: "lever_brake", Type: fact.Name, Doc: "The brake that the lever of the rear shifter moves, as it states it, where there is a brake in the mix; unstated where it does not say."},
	reads: []input{leverBrake},
	kinds: []wanted{{&brakePull}, theShifter},
	measure: func(m *measuring, v *fact.Value) {
		v.Text = unstated
		if brake := m.peek(&leverBrake); brake != nil {
			v.Text = brake.Text
		}
	},
}

var figAxleGoes = &figure{
	Field: fact.Field{Name: "axle_goes", Type: fact.Choice, Choices: []string{"through", "open", axlesDiffer},
		Doc: "Into what a through axle that is in the mix goes: a through frame, as hub or frame state it or nobody says otherwise; open dropouts; differ, where hub and frame state two kinds."},
	reads:   []input{axleThread, frameAxle, hubAxle},
	kinds:   []wanted{{&axleThread}, theFrame},
	measure: (*measuring).axleGoes,
}

func (m *measuring) axleGoes(v *fact.Value) {
	m.goesWithoutSaying(&axleThread) // that the axle is there is enough
	v.Text = "through"
	hub, frame := m.peek(&hubAxle), m.peek(&frameAxle)
	switch {
	case hub != nil && frame != nil && hub.Text != frame.Text:
		v.Text = axlesDiffer
	case hub != nil && hub.Text == "quick", frame != nil && frame.Text == "quick":
		v.Text = "open"
	}
}

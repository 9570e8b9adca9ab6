package figures

import (
	"math"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules/fact"
)

// The least inner width, in mm, of a chain that goes on every cog and ring sold, and
// the most of one that goes on hardly any ring of which nobody published the teeth.
const (
	goesOnAll  = 3.1
	narrowMost = 1.9
)

// chainWidth reads a width of the chain. Of chains for 13 there are two kinds, which a
// drill shank tells apart.
func (m *measuring) chainWidth(v *fact.Value, width *input) {
	s := m.peek(width)
	switch {
	case s != nil:
		v.Num = s.Num
	case m.speeds() == 13:
		m.lack(&chainClass)
	default:
		m.lack(width)
	}
}

// least and most are the ends of what a value may be: of a usual one those of its
// spread.
func least(v *fact.Value) float64 {
	if v.Spread() != nil {
		return v.Spread().Least
	}
	return v.Num
}

func most(v *fact.Value) float64 {
	if v.Spread() != nil {
		return v.Spread().Most
	}
	return v.Num
}

// worstPitch is the least distance of neighbouring cogs that the facts leave open.
func (m *measuring) worstPitch(thick float64) float64 {
	switch at, ps, p, stack := m.peek(&benchCogs), m.peek(&pitches), m.peek(&pitch), m.peek(&stackHeight); {
	case at != nil:
		return leastApart(at.List)
	case ps != nil:
		return leastOf(ps.List)
	case p != nil:
		return least(p)
	case stack != nil:
		return geometry.PitchFromStack(stack.Num, thick, m.cogCount())
	}
	m.lack(&pitch)
	return 0
}

// leastApart is the least distance of neighbours in a rising list.
func leastApart(at []float64) float64 {
	x := math.Inf(1)
	for i := 1; i < len(at); i++ {
		x = min(x, at[i]-at[i-1])
	}
	return x
}

func leastOf(list []float64) float64 {
	x := math.Inf(1)
	for _, y := range list {
		x = min(x, y)
	}
	return x
}

// statedRing is the thickness of the teeth of the ring in use, nil where nobody knows
// it. Of rings for the narrowest chain nothing is usual: they are to be measured.
func (m *measuring) knownRing() *fact.Value {
	in := &crankTeeth
	if m.there(&ownTeeth) {
		in = &ownTeeth
	}
	inner := m.known(figChainInner)
	if inner != nil && inner.Num < narrowMost && (in == &ownTeeth || m.peek(&crankSpeeds) == nil) {
		return m.stated(in)
	}
	return m.peek(in)
}

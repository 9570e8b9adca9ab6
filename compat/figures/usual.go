package figures

import "example.org/cogcourt/rules/fact"

// spread is a usual value and how far published and measured ones lie from it.
type spread struct{ usual, least, most float64 }

// kindEnd and worstEnd are the ends of distances, of which more is kinder.
func (s spread) kindEnd() float64  { return s.most }
func (s spread) worstEnd() float64 { return s.least }

// exactly is a value of which one figure is published.
func exactly(x float64) spread { return spread{x, x, x} }

// The usual widths by number of cogs, in mm, with their spreads. They stand in
// where nobody measured: a rule that hangs on one can warn and not fail, unless the
// kind end of the spread misses as well, for which there are figures of their own.
// The usual width is taken, not the widest, which would make matched sets rub.
// Chain widths are those of published width tables and trade pages that agree with
// them; cog and ring thicknesses those of trade pages and of a patent on teeth.
var (
	usualOuter = map[int]spread{
		5: {7.3, 7.1, 7.8}, 6: {7.3, 7.1, 7.8}, 7: {7.3, 7.1, 7.3}, 8: {7.1, 7, 7.3}, 9: {6.6, 6.5, 7},
		10: {5.9, 5.84, 6.2}, 11: {5.6, 5.46, 5.74}, 12: {5.25, 5.15, 5.3},
	}
	usualInner = map[int]spread{
		5: {2.38, 2.3, 2.4}, 6: {2.38, 2.3, 2.4}, 7: {2.38, 2.3, 2.4}, 8: {2.38, 2.3, 2.4},
		9: {2.18, 2.14, 2.29}, 10: {2.18, 2.14, 2.29}, 11: {2.18, 2.14, 2.29}, 12: {2.18, 2.14, 2.29},
	}
	usualThickness = map[int]spread{
		5: {2, 1.85, 2}, 6: {2, 1.85, 2}, 7: {1.85, 1.8, 1.9}, 8: {1.8, 1.8, 1.9}, 9: {1.78, 1.75, 1.8},
		10: {1.6, 1.6, 1.7}, 11: exactly(1.6), 12: {1.6, 1.55, 1.6},
	}
	usualRing = map[int]spread{ // by the cogs whose chain the rings are made for
		5: {2.1, 1.9, 2.21}, 6: {2.1, 1.9, 2.21}, 7: {2.1, 1.9, 2.21}, 8: {2.1, 1.9, 2.21},
		9: ringOfNine, 10: ringOfNine, 11: ringOfNine, 12: ringOfNine,
	}
	ringOfNine = spread{2, 1.8, 2.13}

	// classInner is the inner width by the name that it is sold by.
	classInner = map[string]spread{
		"eighth": {3.175, 3.175, 3.3}, "three-32": {2.38, 2.3, 2.4}, "eleven-128": {2.18, 2.14, 2.29},
		"narrow": exactly(1.75), "five-32": exactly(4),
	}

	// Of chains for 13 there are two kinds, told apart by the inner width.
	outerNarrow13, outerOther13 = exactly(4.9), spread{5.25, 5.15, 5.3}

	// pitchBands are the published distances of neighbouring cogs, by number of cogs.
	pitchBands = map[int]spread{
		5: {5.5, 5.35, 5.5}, 6: {5.5, 5, 5.5}, 7: {5, 5, 5.1}, 8: {4.8, 4.8, 5}, 9: {4.34, 4.34, 4.55}, 10: {3.95, 3.95, 4.15},
		11: {3.78, 3.74, 3.9}, 12: {3.65, 3.5, 3.75}, 13: {3.4, 3.3, 3.5},
	}

	// kindest13 are the kind ends of a cog, a chain's width over its pins and its
	// inner width for 13, of whichever kind.
	kindestCog13, kindestOuter13, kindestInner13 = 1.5, 4.9, 2.29
	thickestCog13                                = 1.6
)

// The least inner width, in mm, of a chain that goes on every cog and ring sold, and
// the most of one that goes on hardly any ring of which nobody published the teeth.
const (
	goesOnAll  = 3.1
	narrowMost = 1.9
)

// usual takes a stated width, or the usual one of a table, which counts as assumed.
func (m *measuring) usual(v *fact.Value, stated *input, count int, table map[int]spread) {
	if s := m.peek(stated); s != nil {
		v.Num = s.Num
		return
	}
	x, ok := table[count]
	if !ok {
		m.lack(stated)
		return
	}
	v.Num = x.usual
	m.suppose(takesUsualWidth)
}

// chainSpread is how wide the chain may be, inside or over its pins, by what it is
// sold as; unknown where it is of one of two kinds or says nothing.
func (m *measuring) chainSpread(inside bool) (spread, bool) {
	class, speeds := m.peek(&chainClass), m.speeds()
	if inside {
		if class != nil {
			return classInner[class.Text], true
		}
		s, ok := usualInner[speeds]
		return s, ok
	}
	if speeds != 13 {
		s, ok := usualOuter[speeds]
		return s, ok
	}
	switch {
	case class == nil:
		return spread{}, false
	case class.Text == "narrow":
		return outerNarrow13, true
	}
	return outerOther13, true
}

// chainWidth takes a stated width of the chain, or the usual one of what it is sold
// as.
func (m *measuring) chainWidth(v *fact.Value, stated *input, inside bool) {
	if s := m.peek(stated); s != nil {
		v.Num = s.Num
		return
	}
	s, ok := m.chainSpread(inside)
	switch {
	case ok:
		v.Num = s.usual
		m.suppose(takesUsualWidth)
	case m.speeds() == 13: // of two kinds, which a drill shank tells apart
		m.lack(&chainClass)
	default:
		m.lack(stated)
	}
}

// kindOuter is the least width over its pins that the chain may have; ok is false
// where nobody can say.
func (m *measuring) kindOuter() (float64, bool) {
	if s := m.peek(&chainOuter); s != nil {
		return s.Num, true
	}
	if m.speeds() == 13 && m.peek(&chainClass) == nil {
		return kindestOuter13, true
	}
	s, ok := m.chainSpread(false)
	return s.least, ok
}

// worstOuter is the most that the chain may be wide over its pins.
func (m *measuring) worstOuter() (float64, bool) {
	if s := m.peek(&chainOuter); s != nil {
		return s.Num, true
	}
	if m.speeds() == 13 && m.peek(&chainClass) == nil {
		return outerOther13.most, true
	}
	s, ok := m.chainSpread(false)
	return s.most, ok
}

// worstThickness is the most that a cog of the cassette may be thick.
func (m *measuring) worstThickness() (float64, bool) {
	if s := m.peek(&cogThickness); s != nil {
		return s.Num, true
	}
	if m.cogCount() == 13 {
		return thickestCog13, true
	}
	s, ok := usualThickness[m.cogCount()]
	return s.most, ok
}

// kindInner is the most inner width that the chain may have.
func (m *measuring) kindInner() (float64, bool) {
	if s := m.peek(&chainInner); s != nil {
		return s.Num, true
	}
	if m.speeds() == 13 && m.peek(&chainClass) == nil {
		return kindestInner13, true
	}
	s, ok := m.chainSpread(true)
	return s.most, ok
}

// kindThickness is the least that a cog of the cassette may be thick.
func (m *measuring) kindThickness() (float64, bool) {
	if s := m.peek(&cogThickness); s != nil {
		return s.Num, true
	}
	if m.cogCount() == 13 {
		return kindestCog13, true
	}
	s, ok := usualThickness[m.cogCount()]
	return s.least, ok
}

// ringSpread is how thick the teeth of the ring in use may be, by the chains that
// the crankset is made for: nothing is published of rings for 13 cogs.
func (m *measuring) ringSpread() (spread, bool) {
	if m.there(&ownTeeth) {
		return ringOfNine, true
	}
	n := m.peek(&crankSpeeds)
	if n == nil {
		return ringOfNine, true
	}
	s, ok := usualRing[int(n.Num)]
	return s, ok
}

// statedRing is the stated thickness of the teeth of the ring in use, nil where
// nobody stated it.
func (m *measuring) statedRing() *fact.Value {
	if m.there(&ownTeeth) {
		return m.peek(&ownTeeth)
	}
	return m.peek(&crankTeeth)
}

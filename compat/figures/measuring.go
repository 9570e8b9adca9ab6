package figures

import (
	"cmp"
	"math"
	"slices"

	"example.org/cogcourt/compat/geometry"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// measuring works out figures of one bicycle in the order of the table.
type measuring struct {
	records []*rules.Record
	present uint64 // the parts that are there, by their places: see look
	out     *measured

	// Of the figure that is being worked out:
	now     *figure
	missing []string
	absent  []string
	reason  string
	quiet   bool // of the reason: see fact.Lack
	fault   string
	doubt   doubt
	read    fact.Marks // the stated facts that were read, through other figures too

	indexed   bool           // a figure has asked for it: see index
	met       geometry.Index // how steps and cogs meet
	spare     bool           // comes with step_positions_mm: there are spare clicks,
	first     int            // and so many of them lie outside the smallest cog
	onePull   [1]float64
	oneRatio  [1]float64
	trace     func(name string)
	supposed  func(place int) // a supposition that the figure in work takes
	roots     [][]string      // of each figure, where they are asked for: see doubt
	rests     [][]string      // with roots: the usual facts that each rests on
	arenaUsed int
	names     []string // for lists of names that are joined
	room      Room     // for facts that are completed
}

// doubt says whether a value hangs on something that nobody stated, and on what:
// on assumed facts, and on figures that suppose a usual value. The names are
// gathered only where measuring.roots asks for them.
type doubt struct {
	assumed bool
	usual   bool // it rests on a usual value
	roots   []string
	rests   []string // the usual facts
}

// measured is the figures of one bicycle, in few pieces of memory. It never
// changes once all are worked out.
type measured struct {
	record  rules.Record
	records []*rules.Record // the facts and, in its place, record
	values  []fact.Value    // by the places of the table
	reads   [mostFigures]fact.Marks
	lacks   []*fact.Lack // nil while nothing lacks, and for each figure that has a value
	pieces  []fact.Lack  // memory for lacks: they are few, for most figures lack the same as others
	brief   bool         // it serves once: that lacks are equal is not worth finding out
	shared  bool         // the lacks are those of other figures, and not to be written to
	room    []*fact.Lack // memory for lacks, where there is any
	arena   [arenaSize]float64
}

// arenaSize has room for every list of a bicycle of three rings and 13 cogs; a
// longer one is allocated apart.
const arenaSize = 320

// measureAll works every figure out. The records are kept, and the figures put
// among them.
func measureAll(list []*figure, records []*rules.Record, trace func(figure, read string)) *measured {
	both := new(struct { // in one piece of memory
		m      measuring
		out    measured
		names  [24]string
		lacks  [mostFigures]*fact.Lack
		pieces [manyPieces]fact.Lack
	})
	both.m.names = both.names[:0]
	both.out.room, both.out.pieces = both.lacks[:0], both.pieces[:0]
	both.out.records, both.out.values = records, make([]fact.Value, len(list))
	both.m.records, both.m.out = records, &both.out
	m := &both.m
	m.look()
	for _, f := range list {
		if trace != nil {
			m.trace = func(read string) { trace(f.Name, read) }
		}
		m.one(f)
	}
	return m.done()
}

// done makes a record of what was worked out.
func (m *measuring) done() *measured {
	Object.FillComputed(&m.out.record, m.out.values, m.out.lacks, m.out.reads[:len(m.out.values)])
	m.records[figuresPlace] = &m.out.record
	return m.out
}

// one works out one figure and keeps its value or its lack.
func (m *measuring) one(f *figure) {
	if m.lacking() {
		m.missing, m.absent, m.reason, m.quiet, m.fault = nil, nil, "", false, ""
	}
	m.now, m.doubt = f, doubt{}
	m.read = fact.Marks{}
	v := &m.out.values[f.place]
	*v = fact.Value{}
	if m.allHere(f) && m.onChain(f) {
		f.measure(m, v)
	}
	if !m.lacking() && !clean(v) {
		m.fault = "the facts behind " + f.Name + " do not fit together"
	}
	m.out.reads[f.place] = m.read
	if m.lacking() {
		m.settle()
		*v = fact.Value{}
		m.out.lack(f, &fact.Lack{Missing: m.missing, Absent: m.absent, Reason: m.reason, Quiet: m.quiet, Fault: m.fault})
		return
	}
	v.Known, v.Assumed = true, m.doubt.assumed
	if m.doubt.usual {
		v.Usual = fact.ByClass
	}
	m.out.lack(f, nil) // it may have had one before what it hangs on moved
	if m.roots != nil {
		m.roots[f.place], m.rests[f.place] = m.doubt.roots, m.doubt.rests
	}
}

// lack keeps why a figure has no value, or that it has one, where it had none.
func (d *measured) lack(f *figure, l *fact.Lack) {
	switch {
	case d.lacks != nil && sameLack(d.lacks[f.place], l):
		return
	case d.lacks == nil && l == nil:
		return
	case d.lacks == nil:
		d.lacks = slices.Grow(d.room, len(d.values))[:len(d.values)]
		clear(d.lacks)
	case d.shared:
		d.lacks = append(d.room, d.lacks...)
	}
	d.shared = false
	d.lacks[f.place] = d.piece(l)
}

// manyPieces is more lacks than most bicycles have.
const manyPieces = 24

// piece keeps a lack, or gives the same one that is kept already.
func (d *measured) piece(l *fact.Lack) *fact.Lack {
	if l == nil {
		return nil
	}
	if !d.brief {
		for i := range d.pieces {
			if sameLack(&d.pieces[i], l) {
				return &d.pieces[i]
			}
		}
	}
	if len(d.pieces) == cap(d.pieces) {
		d.pieces = make([]fact.Lack, 0, max(manyPieces, 2*cap(d.pieces))) // those that are kept stay where they are
	}
	d.pieces = append(d.pieces, *l)
	return &d.pieces[len(d.pieces)-1]
}

// lacking is why a figure has no value.
func (d *measured) lacking(place int) *fact.Lack {
	if d.lacks == nil || d.lacks[place] == nil {
		return &fact.Lack{}
	}
	return d.lacks[place]
}

func sameLack(a, b *fact.Lack) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Reason == b.Reason && a.Quiet == b.Quiet && a.Fault == b.Fault && slices.Equal(a.Missing, b.Missing) && slices.Equal(a.Absent, b.Absent)
}

// clean rounds a value to six decimals, so that rules, texts and JSON see one
// number; it is false for what is no number.
func clean(v *fact.Value) bool {
	v.Num = round(v.Num)
	ok := !math.IsNaN(v.Num)
	for i, x := range v.List {
		v.List[i] = round(x)
		ok = ok && !math.IsNaN(x)
	}
	return ok
}

// round rounds to six decimals; minus zero becomes zero. Half of what has six decimals
// ends in a 5 at the seventh, and what is reckoned by two roads lies a hair to either side
// of that: it is rounded to nine first, so that equal distances are equal numbers.
func round(x float64) float64 {
	at := x * 1e6
	whole := math.RoundToEven(at) // at a half it makes no difference, for what lies near one goes on
	if math.Abs(at-whole) > 0.4995 {
		whole = math.Round(math.Round(x*1e9) / 1e3)
	}
	return whole/1e6 + 0
}

// doubted notes that the figure in work hangs on an assumed fact.
func (m *measuring) doubted(in *input) {
	m.doubt.assumed = true
	if m.roots != nil {
		m.doubt.roots = m.merge(m.doubt.roots, in.missing)
	}
}

// lacking says whether the figure in work lacks anything.
func (m *measuring) lacking() bool {
	return len(m.missing) > 0 || len(m.absent) > 0 || m.reason != "" || m.fault != ""
}

// meaningless says why the figure would mean nothing for this mix.
func (m *measuring) meaningless(sentence string) {
	if m.reason == "" {
		m.reason = sentence
	}
}

// needless is meaningless where that is how things should be.
func (m *measuring) needless(sentence string) {
	if m.reason == "" {
		m.reason, m.quiet = sentence, true
	}
}

// peek reads a fact where it is stated, nil where it is not.
func (m *measuring) peek(in *input) *fact.Value {
	if m.trace != nil {
		m.trace(in.name)
	}
	m.read.Join(in.mark)
	rec := m.records[in.place]
	if rec == nil {
		return nil
	}
	v := rec.At(in.Index)
	if !v.Known {
		return nil
	}
	if v.Assumed {
		m.doubted(in)
	}
	if v.Usual != fact.NotUsual {
		m.doubt.usual = true
		if m.roots != nil {
			m.doubt.rests = m.merge(m.doubt.rests, in.missing)
		}
	}
	return v
}

// stated reads a fact where somebody stated it, nil where it is only usual.
func (m *measuring) stated(in *input) *fact.Value {
	before, read := m.doubt, m.read
	v := m.peek(in)
	if v != nil && v.Usual != fact.NotUsual {
		m.doubt, m.read = before, read // where it lies makes no difference
		return nil
	}
	return v
}

// there says whether the part of a fact is in the mix.
func (m *measuring) there(in *input) bool { return m.records[in.place] != nil }

// need reads a fact that the figure cannot do without; where it is not there,
// that is noted and the zero value stands in.
func (m *measuring) need(in *input) *fact.Value {
	if v := m.peek(in); v != nil {
		return v
	}
	m.lack(in)
	return &noValue
}

// noValue is read, never written.
var noValue fact.Value

// lack notes that a fact is missing, or its part absent.
func (m *measuring) lack(in *input) {
	if m.there(in) {
		m.missing = m.merge(m.missing, in.missing)
	} else {
		m.absent = m.merge(m.absent, in.absent)
	}
}

// merge joins lists of names; the first list is shared, never written to.
func (m *measuring) merge(to, names []string) []string {
	if len(to) == 0 {
		return names
	}
	for _, n := range names {
		if !slices.Contains(to, n) {
			to = m.longer(to, n)
		}
	}
	return to
}

// longer copies a list with one name more. All such lists of a mix share one
// piece of memory.
func (m *measuring) longer(list []string, name string) []string {
	if cap(m.names)-len(m.names) <= len(list) {
		m.names = make([]string, 0, max(64, 2*len(list)))
	}
	start := len(m.names)
	m.names = append(append(m.names, list...), name)
	return slices.Clip(m.names[start:])
}

// figure reads an earlier figure; what it lacks, this one lacks too.
func (m *measuring) figure(f *figure) *fact.Value {
	v := m.known(f)
	if v == nil {
		l := m.out.lacking(f.place)
		m.missing = m.merge(m.missing, l.Missing)
		m.absent = m.merge(m.absent, l.Absent)
		if l.Quiet {
			m.needless(l.Reason)
		} else {
			m.meaningless(l.Reason)
		}
		m.fault = cmp.Or(m.fault, l.Fault)
		return &noValue
	}
	return v
}

// known reads an earlier figure where it has a value, nil where it has none.
func (m *measuring) known(f *figure) *fact.Value {
	if m.trace != nil {
		m.trace("figures." + f.Name)
	}
	m.read.Join(m.out.reads[f.place])
	v := &m.out.values[f.place]
	if !v.Known {
		return nil
	}
	if v.Assumed {
		m.doubt.assumed = true
		if m.roots != nil {
			m.doubt.roots = m.merge(m.doubt.roots, m.roots[f.place])
		}
	}
	if v.Usual != fact.NotUsual {
		m.doubt.usual = true
		if m.roots != nil {
			m.doubt.rests = m.merge(m.doubt.rests, m.rests[f.place])
		}
	}
	return v
}

// free gives the unused rest of the arena, for geometry to append a list to.
func (m *measuring) free() []float64 {
	return m.out.arena[m.arenaUsed:m.arenaUsed]
}

// keep takes what was appended to free out of the unused rest.
func (m *measuring) keep(list []float64) []float64 {
	if len(list) > 0 && m.arenaUsed < arenaSize && &list[0] == &m.out.arena[m.arenaUsed] {
		m.arenaUsed += len(list)
	}
	return list
}

package fit

import (
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
)

// A rule over many kinds often sees little of each: of a cassette that it has several
// cogs, say, where it reads a figure that is worked out from the teeth of each. Such a
// figure, which hangs on one open kind alone, takes the place of the facts behind it:
// candidates with which it comes to the same are of one shape. A part of which a value
// carries a tolerance or is only usual is told apart by its facts all the same, for such
// values are tried elsewhere too.

// mostRaw is how many kinds a search may have that goes by the facts themselves: to find
// the figures takes longer than to ask a few rules too often.
const mostRaw = 2

// refine tells the candidates apart as each rule over several kinds sees them.
func (s *search) refine() {
	if len(s.vars) <= mostRaw {
		return
	}
	r := refining{search: s, gate: s.openGate(), columns: make([]map[rules.Ref][]int32, len(s.vars)), moving: map[rules.Ref]bool{}}
	for v := range s.vars {
		r.open |= 1 << s.vars[v].place
		r.columns[v] = map[rules.Ref][]int32{}
		r.loose = append(r.loose, r.loosely(v))
	}
	r.staying()
	for i := range s.tables {
		if t := &s.tables[i]; len(t.vars) > 1 {
			r.table(t)
		}
	}
}

// staying notes what may move of the facts that stay: of the parts of the mix that are not
// open, and of what was measured.
func (r *refining) staying() {
	for place, kind := range catalog.KindNames() {
		if r.open&(1<<place) == 0 {
			for _, ref := range r.judge.Loose(kind) {
				r.moving[ref] = true
			}
		}
	}
	for _, i := range r.base.Facts().Bench().Toleranced() {
		r.moving[rules.Ref{Object: figures.Bench, Index: i}] = true
	}
}

// openGate fits parts with which a half-inch chain drives, where there are any: on
// anything else the figures of the chain mean nothing, and tell no parts apart.
func (s *search) openGate() []catalog.Part {
	known := func() bool { v, _ := s.judge.Value(figures.HalfInch()); return v.Known }
	chains, frames := s.gating("chain"), s.gating("frame")
	for _, chain := range chains {
		s.judge.Put(chain)
		for _, frame := range frames {
			if s.judge.Put(frame); known() {
				return []catalog.Part{chain, frame}
			}
		}
	}
	return nil
}

// gating gives the candidates of a kind that may tell what drives; the zero Part, which
// changes nothing, where it is not open.
func (s *search) gating(kind string) []catalog.Part {
	for i := range s.vars {
		if s.vars[i].kind == kind {
			var out []catalog.Part
			for _, c := range s.vars[i].all {
				out = append(out, c.part)
			}
			return out
		}
	}
	return []catalog.Part{{}}
}

// refining is the work of refine.
type refining struct {
	*search
	gate    []catalog.Part          // see openGate
	open    uint64                  // the open kinds
	moving  map[rules.Ref]bool      // facts that stay, and of which rules try other values too
	columns []map[rules.Ref][]int32 // by kind: what each candidate comes to in a fact or figure, numbered
	loose   [][][]int               // by kind and candidate: the fields of which other values are tried too
}

// table tells candidates apart as one rule sees them.
func (r *refining) table(t *table) {
	rule := r.ix.checker.Rules().Rules()[t.rule]
	atoms := make([][]rules.Ref, len(r.vars))
	for _, ref := range r.ix.checker.Rules().Reads(rule) {
		r.atoms(ref, atoms)
	}
	t.own = make([]shaping, len(r.vars))
	for _, v := range t.vars {
		t.own[v] = r.shaped(t, v, atoms[v])
	}
}

// atoms adds what a fact comes down to: facts of open kinds, and figures that hang on
// one of these alone.
func (r *refining) atoms(ref rules.Ref, to [][]rules.Ref) {
	kinds, sure := r.support(ref)
	switch {
	case sure && kinds&(kinds-1) == 0: // of one kind, or of none that is open
		for v := range r.vars {
			if kinds&(1<<r.vars[v].place) != 0 && !slices.Contains(to[v], ref) {
				to[v] = append(to[v], ref)
			}
		}
		if half := figures.HalfInch(); ref != half && slices.Contains(figures.Inputs(ref), half) {
			r.atoms(half, to)
		}
	default:
		for _, in := range figures.Inputs(ref) {
			r.atoms(in, to)
		}
	}
}

// support gives the open kinds that a fact hangs on where a half-inch chain drives. It is
// not sure of one behind which something was measured on an open kind, which is true
// only as long as that keeps its part, nor of one behind which a fact that stays may
// move: what comes to the same beside its value may differ beside another.
func (r *refining) support(ref rules.Ref) (kinds uint64, sure bool) {
	bench := r.base.Facts().Bench()
	for _, of := range figures.Core(ref) {
		if r.moving[of] {
			return 0, false
		}
		if of.Object == figures.Bench {
			if bench.At(of.Index).Known && figures.MeasuredOn(of.Index)&r.open != 0 {
				return 0, false
			}
			continue
		}
		if place, ok := catalog.KindIndex(of.Object.Name()); ok {
			kinds |= 1 << place & r.open
		}
	}
	return kinds, true
}

// shaped numbers the candidates of a kind by what a rule sees of them.
func (r *refining) shaped(t *table, v int, atoms []rules.Ref) shaping {
	of := &r.vars[v]
	columns := make([][]int32, 0, len(atoms)+1)
	for _, ref := range atoms {
		columns = append(columns, r.column(v, ref))
	}
	raw := make([]int32, len(of.all)) // from 1, of those that are told apart by their facts
	for i := range of.all {
		c := &of.all[i]
		if c.fitted || r.isLoose(t, v, i) {
			raw[i] = int32(r.search.raw(t, of, c)) + 1
		}
	}
	return shape(append(columns, raw))
}

// column numbers what the candidates of a kind come to in a fact or figure.
func (r *refining) column(v int, ref rules.Ref) []int32 {
	if column, ok := r.columns[v][ref]; ok {
		return column
	}
	of := &r.vars[v]
	column := make([]int32, len(of.all))
	numbers := map[string]int32{}
	var key []byte
	for i := range of.all {
		r.judge.Put(of.all[i].part)
		value, lack := r.judge.Value(ref)
		key = value.AppendKey(key[:0])
		key = lack.AppendKey(key)
		n, ok := numbers[string(key)]
		if !ok {
			n = int32(len(numbers))
			numbers[string(key)] = n
		}
		column[i] = n
	}
	r.columns[v][ref] = column
	r.reset()
	return column
}

// isLoose says whether a rule reads a value of a candidate that is tried elsewhere too.
func (r *refining) isLoose(t *table, v, at int) bool {
	reads := r.ix.rules[t.rule].fields[r.vars[v].place]
	return slices.ContainsFunc(r.loose[v][at], func(field int) bool { return slices.Contains(reads, field) })
}

// loosely tells of each candidate of a kind which fields that are.
func (r *refining) loosely(v int) [][]int {
	out := make([][]int, len(r.vars[v].all))
	for i := range r.vars[v].all {
		r.judge.Put(r.vars[v].all[i].part)
		for _, ref := range r.judge.Loose(r.vars[v].kind) {
			out[i] = append(out[i], ref.Index)
		}
	}
	r.reset()
	return out
}

// reset fits again what was exchanged to look at it.
func (r *refining) reset() {
	for _, p := range r.gate {
		r.judge.Put(p)
	}
}

package prove

import (
	"math"
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// mostMoved bounds the numbers and lists that are tried for one fact.
const mostMoved = 120

// hints are what a rule's own text offers for its facts.
type hints struct {
	numbers []float64 // on and beside its numbers, the likeliest first
	steps   []float64 // how far to move a number of an example
	lengths []int     // of lists
	words   []string
}

func newExplorer(p *prover, r *rules.Rule) *explorer {
	x := &explorer{prover: p, rule: r}
	h := hintsOf(r)
	reads := p.set.Reads(r)
	for _, ref := range reads {
		x.changes = append(x.changes, x.changesOf(ref, h))
	}
	// Figures hang on facts that the rule does not name: these may be missing.
	var beneath []change
	for _, ex := range r.Examples() {
		for ref := range stated(ex.Given()) {
			for _, c := range []change{{ref: ref}, {ref: rules.Ref{Object: ref.Object, Index: wholeObject}}} {
				named := slices.ContainsFunc(reads, func(o rules.Ref) bool {
					return o == c.ref || c.ref.Index == wholeObject && o.Object == c.ref.Object
				})
				if !named && !slices.ContainsFunc(beneath, func(o change) bool { return o.ref == c.ref }) {
					beneath = append(beneath, c)
				}
			}
		}
	}
	x.changes = append(x.changes, beneath)
	return x
}

// hintsOf reads the numbers and texts of a rule's expressions: a limit tells most
// on the number itself, a unit of its last digit beside it, and half of one.
func hintsOf(r *rules.Rule) hints {
	var h hints
	var literals []float64
	for _, e := range r.Expressions() {
		literals = append(literals, expr.Literals(e.Text)...)
		h.words = append(h.words, expr.Words(e.Text)...)
	}
	for _, d := range []float64{0, 1, -1, 0.5, -0.5} {
		for _, lit := range literals {
			h.numbers = append(h.numbers, onGrid(lit+d*unitOf(lit)))
		}
	}
	h.steps = []float64{1}
	for _, lit := range literals {
		h.steps = append(h.steps, unitOf(lit))
	}
	for _, x := range h.numbers {
		h.steps = append(h.steps, math.Abs(x))
		if x == math.Trunc(x) && x > 0 && x < math.MaxInt32 {
			h.lengths = append(h.lengths, int(x))
		}
	}
	return h
}

// onGrid rounds a number to what files may hold: six decimals.
func onGrid(x float64) float64 { return math.Round(x*1e6)/1e6 + 0 }

// unitOf is one unit of the last digit of a number as people write it.
func unitOf(x float64) float64 {
	for digits := range 6 {
		if unit := math.Pow10(digits); math.Abs(x*unit-math.Round(x*unit)) < 1e-9 {
			return 1 / unit
		}
	}
	return 1e-6
}

// changesOf lists what to try for one fact: that it is not stated, that its whole
// object is not there, then the values that it can hold.
func (x *explorer) changesOf(ref rules.Ref, h hints) []change {
	out := []change{{ref: ref}, {ref: rules.Ref{Object: ref.Object, Index: wholeObject}}}
	var tried []fact.Value
	add := func(values ...fact.Value) {
		for _, v := range values {
			if within(ref.Field(), v) && !slices.ContainsFunc(tried, func(o fact.Value) bool { return same(o, v) }) {
				tried = append(tried, v)
				out = append(out, change{ref, v})
			}
		}
	}
	index := slices.Index(x.set.Vocabulary().Objects(), ref.Object)
	var known []fact.Value
	for _, ex := range x.rule.Examples() {
		if v := ref.In(x.set.Complete(ex.Given())[index]); v.Known {
			v.Assumed = false
			known = append(known, v)
		}
	}
	switch f := ref.Field(); f.Type {
	case fact.Choice:
		for _, c := range f.Choices {
			add(fact.Word(c))
		}
	case fact.Flag:
		add(fact.Truth(true), fact.Truth(false))
	case fact.Name:
		for _, w := range slices.Concat(h.words, someKnown(f), []string{"other"}) {
			add(fact.Word(w))
		}
	case fact.Fraction, fact.Whole:
		add(few(numbers(known, h))...)
		add(fact.Num(0), fact.Num(f.Min), fact.Num(f.Max))
	case fact.Fractions, fact.Wholes:
		for _, v := range known {
			add(few(lists(f, v.List, h))...)
		}
	case fact.Names:
		h.words = slices.Concat(h.words, someKnown(f))
		add(nameLists(known, h)...)
	}
	add(known...)
	return out
}

// someKnown gives a few of the words that a field knows, for conditions that ask
// whether it does.
func someKnown(f fact.Field) []string { return f.KnownNames()[:min(len(f.Known), 3)] }

// few cuts a list of values short, so that one fact cannot use the budget up.
func few(values []fact.Value) []fact.Value { return values[:min(len(values), mostMoved)] }

// numbers gives the rule's own numbers, and those of the examples moved.
func numbers(known []fact.Value, h hints) []fact.Value {
	var out []fact.Value
	for _, n := range h.numbers {
		out = append(out, fact.Num(n))
	}
	for _, step := range h.steps {
		for _, v := range known {
			out = append(out, fact.Num(onGrid(v.Num+step)), fact.Num(onGrid(v.Num-step)))
		}
	}
	for _, n := range h.numbers {
		out = append(out, fact.Num(onGrid(-n)))
	}
	return out
}

// lists gives a list of an example with another first or last entry, and longer
// and shorter ones.
func lists(f fact.Field, list []float64, h hints) []fact.Value {
	var out []fact.Value
	n := len(list)
	if n == 0 {
		return nil
	}
	set := func(i int, x float64) {
		moved := slices.Clone(list)
		moved[i] = onGrid(x)
		out = append(out, fact.Nums(moved))
	}
	for _, length := range append([]int{n - 1, n + 1}, h.lengths...) {
		out = append(out, resized(f, list, length)...)
	}
	for _, x := range h.numbers {
		set(n-1, x)
		set(0, x)
	}
	for _, step := range h.steps {
		for _, d := range []float64{step, -step} {
			set(n-1, list[n-1]+d)
			set(0, list[0]+d)
		}
	}
	return out
}

// resized gives a list of another length: cut at the end or at the beginning, or
// with more entries like its last ones.
func resized(f fact.Field, list []float64, length int) []fact.Value {
	n := len(list)
	switch {
	case length < 1 || length > f.Cap || length == n:
		return nil
	case length < n:
		return []fact.Value{fact.Nums(slices.Clone(list[:length])), fact.Nums(slices.Clone(list[n-length:]))}
	}
	var out []fact.Value
	for _, step := range []float64{1, -1, 0} {
		longer, front := slices.Clone(list), slices.Clone(list)
		for len(longer) < length {
			longer = append(longer, onGrid(longer[len(longer)-1]+step))
			front = slices.Insert(front, 0, onGrid(front[0]-step))
		}
		out = append(out, fact.Nums(longer), fact.Nums(front))
	}
	return out
}

// nameLists gives each word of the rule alone, beside those of the examples, and
// away from them.
func nameLists(known []fact.Value, h hints) []fact.Value {
	var out []fact.Value
	for _, w := range append(slices.Clone(h.words), "other") {
		out = append(out, fact.Texts(w))
		for _, v := range known {
			without := slices.DeleteFunc(slices.Clone(v.Words()), func(o string) bool { return o == w })
			out = append(out, fact.Texts(append(slices.Clone(without), w)...), fact.Texts(without...))
		}
	}
	for _, v := range known {
		for _, w := range v.Words() {
			out = append(out, fact.Texts(w))
		}
	}
	return out
}

// within says whether a field can hold a value.
func within(f fact.Field, v fact.Value) bool {
	if f.Type == fact.Flag || f.Type == fact.Choice || f.Type == fact.Name {
		return true
	}
	if f.Type == fact.Names {
		return len(v.Words()) > 0 && len(v.Words()) <= f.Cap
	}
	entries := v.List
	if v.List == nil {
		entries = []float64{v.Num}
	}
	for i, n := range entries {
		whole := f.Type == fact.Whole || f.Type == fact.Wholes
		if n < f.Min || n > f.Max || whole && n != math.Trunc(n) || f.Rising && i > 0 && n <= entries[i-1] {
			return false
		}
	}
	return v.List == nil || len(v.List) > 0 && len(v.List) <= f.Cap
}

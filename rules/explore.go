package rules

import (
	"iter"
	"math"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// explorer looks for facts at which something holds, near the examples of a
// rule: it changes one fact, then two, to values at which the rule's conditions
// may turn. It finds the example that an author would have to write.
type explorer struct {
	set      *Set
	rule     *Rule
	values   [][]fact.Value // for each read of the rule, what to try
	examples []Example
}

// searchBudget bounds the tries of one search, each a few microseconds.
const searchBudget = 12_000

// mostValues bounds what is tried for one fact.
const mostValues = 96

func newExplorer(s *Set, r *Rule) *explorer {
	x := &explorer{set: s, rule: r, examples: r.examples()}
	steps := []float64{1}
	for _, e := range r.logic().exprs {
		for _, lit := range expr.Literals(e.text) {
			// On the number itself, a unit of its last digit beside it, and half of one.
			for _, d := range []float64{-1, -0.5, 0, 0.5, 1} {
				steps = append(steps, math.Abs(lit+d*unitOf(lit)))
			}
			steps = append(steps, unitOf(lit))
		}
	}
	slices.Sort(steps)
	steps = slices.Compact(steps)
	for _, read := range r.logic().reads {
		x.values = append(x.values, x.candidates(read, steps))
	}
	return x
}

// unitOf is one unit of the last digit of a number as people write it.
func unitOf(x float64) float64 {
	for unit := 1.0; unit > 1e-6; unit /= 10 {
		if math.Abs(x/unit-math.Round(x/unit)) < 1e-9 {
			return unit
		}
	}
	return 1e-6
}

// candidates lists what to try for one fact: the words and flags that it can
// hold, and every number of the examples, moved by the rule's own numbers.
func (x *explorer) candidates(read expr.Read, steps []float64) []fact.Value {
	f := x.set.vocabulary.lang.Field(read)
	var out []fact.Value
	add := func(v fact.Value) {
		same := func(o fact.Value) bool {
			return o.Num == v.Num && o.Text == v.Text && slices.Equal(o.List, v.List)
		}
		if len(out) < mostValues && within(f, v) && !slices.ContainsFunc(out, same) {
			out = append(out, v)
		}
	}
	switch f.Type {
	case fact.Choice:
		for _, c := range f.Choices {
			add(fact.Word(c))
		}
	case fact.Flag:
		add(fact.Truth(true))
		add(fact.Truth(false))
	case fact.Name:
		add(fact.Word("other"))
	case fact.Fraction, fact.Whole:
		for _, step := range steps {
			add(fact.Num(step))
			add(fact.Num(-step))
		}
	}
	for _, ex := range x.examples {
		rec := x.set.complete(ex.given)[read.Object]
		if rec != nil && rec.At(read.Field).Known {
			for _, v := range moved(f, *rec.At(read.Field), steps) {
				add(v)
			}
		}
	}
	return out
}

// moved gives a value and, for numbers, its neighbours by each step; of a list,
// the last and the first entry move.
func moved(f fact.Field, v fact.Value, steps []float64) []fact.Value {
	v.Assumed = false
	out := []fact.Value{v}
	for _, step := range steps {
		for _, d := range []float64{-step, step} {
			switch f.Type {
			case fact.Fraction, fact.Whole:
				out = append(out, fact.Num(math.Round((v.Num+d)*1e6)/1e6))
			case fact.Fractions, fact.Wholes:
				if n := len(v.List); n > 0 {
					last, first := slices.Clone(v.List), slices.Clone(v.List)
					last[n-1] += d
					first[0] += d
					out = append(out, fact.Nums(last), fact.Nums(first))
				}
			}
		}
	}
	return out
}

// within says whether a field can hold a value.
func within(f fact.Field, v fact.Value) bool {
	for _, n := range append([]float64{v.Num}, v.List...) {
		if f.Type == fact.Flag || f.Type == fact.Choice || f.Type == fact.Name {
			break
		}
		if (f.Type == fact.Whole || f.Type == fact.Wholes) && n != math.Round(n) {
			return false
		}
		if len(v.List) == 0 && (n < f.Min || n > f.Max) {
			return false
		}
	}
	if f.Rising {
		for i := 1; i < len(v.List); i++ {
			if v.List[i] <= v.List[i-1] {
				return false
			}
		}
	}
	return true
}

// search finds facts at which hit holds, and says them as a change of an example:
// of one fact where that is enough, else of two.
func (x *explorer) search(hit func(records []*Record) bool) (string, bool) {
	tries := 0
	try := func(changes ...change) (string, bool) {
		for _, ex := range x.examples {
			tries++
			given := ex.given
			for _, c := range changes {
				given = x.set.with(given, c)
			}
			if hit(x.set.complete(given)) {
				return x.words(ex, changes), true
			}
		}
		return "", false
	}
	for a := range x.changes(0) {
		if text, ok := try(a.change); ok {
			return text, true
		}
	}
	for a := range x.changes(0) {
		for b := range x.changes(a.fact + 1) {
			if tries > searchBudget {
				return "", false
			}
			if text, ok := try(a.change, b.change); ok {
				return text, true
			}
		}
	}
	return "", false
}

// candidate is a change to try, with the place of its fact among the rule's.
type candidate struct {
	change
	fact int
}

// changes gives what to try for the rule's facts from one of them on.
func (x *explorer) changes(from int) iter.Seq[candidate] {
	return func(yield func(candidate) bool) {
		for i := from; i < len(x.values); i++ {
			for _, c := range x.changesOf(i) {
				if !yield(candidate{c, i}) {
					return
				}
			}
		}
	}
}

// changesOf gives what to try for one fact: its values, then that it is not
// stated, then that its whole object is not there.
func (x *explorer) changesOf(i int) []change {
	read := x.rule.logic().reads[i]
	out := make([]change, 0, len(x.values[i])+2)
	for _, v := range x.values[i] {
		out = append(out, change{read: read, value: v})
	}
	return append(out, change{read: read, unstated: true}, change{read: read, absent: true})
}

// change puts one value into one fact, takes the fact away, or its whole object.
type change struct {
	read     expr.Read
	value    fact.Value
	unstated bool
	absent   bool
}

// words says a change of an example as an author would write it.
func (x *explorer) words(ex Example, changes []change) string {
	parts := make([]string, len(changes))
	for i, c := range changes {
		f := x.set.vocabulary.lang.Field(c.read)
		text := c.value.String()
		if f.Type == fact.Flag {
			text = map[bool]string{true: "true", false: "false"}[c.value.Num != 0]
		}
		parts[i] = "with " + x.set.vocabulary.lang.Name(c.read) + ": " + text
		switch {
		case c.absent:
			parts[i] = "without " + x.set.vocabulary.objects[c.read.Object].Name()
		case c.unstated:
			parts[i] = "without " + x.set.vocabulary.lang.Name(c.read)
		}
	}
	return "like \"" + ex.Name + "\", " + strings.Join(parts, " and ")
}

// with gives records in which one fact is changed.
func (s *Set) with(records []*Record, c change) []*Record {
	out := slices.Clone(records)
	if c.absent {
		out[c.read.Object] = nil
		return out
	}
	o := s.vocabulary.objects[c.read.Object]
	values := make([]fact.Value, len(o.Table().Fields()))
	if rec := out[c.read.Object]; rec != nil {
		copy(values, rec.inner.Values)
	}
	c.value.Known = !c.unstated
	values[c.read.Field] = c.value
	// Of two fields that say the same thing only one is stated.
	for i, f := range o.Table().Fields() {
		j, _ := o.Table().Index(f.Excludes)
		if f.Excludes != "" && (i == c.read.Field || j == c.read.Field) {
			other := i + j - c.read.Field
			values[other] = fact.Value{}
		}
	}
	out[c.read.Object] = o.NewRecord(values, nil)
	return out
}

// complete derives what can be computed from given facts.
func (s *Set) complete(given []*Record) []*Record {
	if s.derive == nil {
		return given
	}
	return s.derive(given)
}

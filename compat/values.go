package compat

import (
	"math"
	"slices"

	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Span is a range of one fact, or one word, over which a mix is judged alike.
type Span struct {
	From    float64       `json:"from" doc:"The least number of the range; 0 of a word."`
	To      float64       `json:"to" doc:"The greatest number of the range; 0 of a word."`
	Word    string        `json:"word" doc:"The word, of a fact that is one; empty for numbers."`
	Verdict rules.Verdict `json:"verdict" doc:"The verdict of the whole mix."`
	Alone   rules.Verdict `json:"alone" doc:"The worst verdict of the rules that hang on the fact; unknown where none of them applies."`
	Rules   []string      `json:"rules" doc:"Those of these rules that give it."`
	Refused string        `json:"refused" doc:"Why values beside this range are left out, told once; empty for most."`
}

// MarshalJSON writes the span with a list that is never null.
func (s Span) MarshalJSON() ([]byte, error) {
	type plain Span
	s.Rules = wire.Some(s.Rules)
	return wire.Encode(plain(s))
}

// mostPoints is how many values are tried one by one; of more, every tenth, and the
// ends are then found between them.
const mostPoints = 10000

// Values tells over which values of one fact, such as chain.outer_width_mm or a field
// of the bench, the mix passes, warns, fails or stays open, and which rules decide
// that. Each value of the field's grid is judged as Check judges the mix with that
// value stated over the part (catalog.Part.With) or measured at the bench; neighbours
// with equal answers are one Span. Of a text each word that is known is tried, of a
// flag both. A value that contradicts what else is stated is left out.
//
// The error is source.Problems: for a name that is no fact of a part or the bench,
// for a list, and for a fact of a part that is not in the mix.
func (c *Checker) Values(m Mix, name string) ([]Span, error) {
	v, err := c.varied(m, name, nil)
	if err != nil {
		return nil, err
	}
	return v.spans(v.whole())
}

// walk is what is tried of a fact: the places from first to last, each step-th, and
// all between two of these that are judged otherwise. The place of a number is how
// many steps of the grid it lies from nothing, that of a word its index.
type walk struct{ first, last, step int }

// whole walks over all that the field may hold.
func (v *varied) whole() walk {
	f := v.ref.Field()
	return v.between(f.Min, f.Max, mostPoints)
}

// between walks over the grid between two numbers, over so many points at most; over all
// words of what is none.
func (v *varied) between(least, most float64, points int) walk {
	if v.grid == 0 {
		return walk{0, len(v.words) - 1, 1}
	}
	const near = 1e-6 // a number of the grid counts as one, however it was reckoned
	w := walk{int(math.Ceil(least*v.perUnit() - near)), int(math.Floor(most*v.perUnit() + near)), 1}
	for (w.last-w.first)/w.step >= points {
		w.step *= 10
	}
	return w
}

// perUnit is how many steps of the grid make one.
func (v *varied) perUnit() float64 { return math.Round(1 / v.grid) }

// number is the number at a place.
func (v *varied) number(i int) float64 { return float64(i) / v.perUnit() }

// place is the place of a number.
func (v *varied) place(x float64) int { return int(math.Round(x * v.perUnit())) }

// value is the value at a place.
func (v *varied) value(i int) fact.Value {
	f := v.ref.Field()
	switch {
	case v.grid > 0:
		return fact.Num(v.number(i))
	case f.Type == fact.Flag:
		return fact.Truth(v.words[i] == "true")
	case f.Type == fact.Names:
		return fact.Texts(v.words[i])
	}
	return fact.Word(v.words[i])
}

// wordsOf lists what a fact may be that is no number.
func wordsOf(f fact.Field) []string {
	switch {
	case f.Type == fact.Flag:
		return []string{"false", "true"}
	case f.Type == fact.Choice:
		return f.Choices
	}
	return f.KnownNames()
}

// answer is what is said of the mix with one value.
type answer struct {
	verdict, alone rules.Verdict
	rules          []string
	refused        error
}

func (a answer) equal(b answer) bool {
	if a.refused != nil || b.refused != nil {
		return a.refused != nil && b.refused != nil
	}
	return a.verdict == b.verdict && a.alone == b.alone && slices.Equal(a.rules, b.rules)
}

// stretch is where an answer begins.
type stretch struct {
	from   int
	answer answer
}

// stretches gives the answers along a walk, each where it begins.
func (v *varied) stretches(w walk) []stretch {
	if w.last < w.first {
		return nil
	}
	last := v.answer(w.first)
	out := []stretch{{w.first, last}}
	for i := w.first; i < w.last; {
		next := min(i+w.step, w.last)
		a := v.answer(next)
		if !a.equal(last) {
			out = v.narrow(out, i, stretch{next, a})
		}
		i, last = next, a
	}
	return out
}

// narrow adds the places behind one that was tried at which another answer begins, up
// to the answer of one further on.
func (v *varied) narrow(out []stretch, low int, high stretch) []stretch {
	mine := out[len(out)-1].answer
	if high.from-low == 1 {
		return append(out, high)
	}
	middle := stretch{from: (low + high.from) / 2}
	middle.answer = v.answer(middle.from)
	if !middle.answer.equal(mine) {
		out = v.narrow(out, low, middle)
	}
	if !middle.answer.equal(high.answer) {
		out = v.narrow(out, middle.from, high)
	}
	return out
}

// spans makes spans of the answers along a walk. Where every value is refused, the
// error says why the first is.
func (v *varied) spans(w walk) ([]Span, error) {
	found := v.stretches(w)
	var out []Span
	var told []string
	waiting := "" // why values in front of the first span are left out
	for i, s := range found {
		if s.answer.refused != nil {
			why := reasonOf(s.answer.refused)
			switch {
			case slices.Contains(told, why):
				continue
			case len(out) == 0:
				waiting = why
			default:
				out[len(out)-1].Refused = why
			}
			told = append(told, why)
			continue
		}
		last := w.last
		if i+1 < len(found) {
			last = found[i+1].from - 1
		}
		span := Span{Verdict: s.answer.verdict, Alone: s.answer.alone, Rules: s.answer.rules, Refused: waiting}
		waiting = ""
		if v.grid > 0 {
			span.From, span.To = v.number(s.from), v.number(last)
			out = append(out, span)
			continue
		}
		for k := s.from; k <= last; k++ { // words are told one by one
			span.Word = v.words[k]
			out = append(out, span)
			span.Refused = ""
		}
	}
	if len(out) == 0 && len(found) > 0 {
		return nil, found[0].answer.refused
	}
	return out, nil
}

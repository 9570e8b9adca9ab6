package expr

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// sort is what a random expression gives.
type sort int

const (
	whole sort = iota
	fraction
	flag
	word
	wholes
	fractions
	names
	sorts
)

// writer writes random well-typed expressions over the boats.
type writer struct {
	*rand.Rand
	lets map[sort][]string
	loop sort // of the loop name each, -1 outside of loops
}

func (w *writer) pick(options ...string) string { return options[w.IntN(len(options))] }

// any writes an expression of a sort, at most so deep.
func (w *writer) any(k sort, depth int) string {
	if depth <= 0 || w.IntN(6) == 0 {
		return w.leaf(k)
	}
	sub := func(k sort) string { return w.any(k, depth-1) }
	if w.IntN(9) == 0 && k < wholes {
		return "(" + sub(flag) + " ? " + sub(k) + " : " + sub(k) + ")"
	}
	switch k {
	case whole:
		return w.number(k, func() string { return sub(whole) }, sub)
	case fraction:
		if w.IntN(3) == 0 {
			return "(" + sub(w.numeric()) + " / " + w.divisor(sub(w.numeric())) + ")"
		}
		mixed := func() string { return sub(w.numeric()) }
		return w.number(k, mixed, sub)
	case flag:
		return w.flag(sub, depth)
	case word:
		return "(" + sub(word) + " + " + sub(word) + ")"
	}
	return w.leaf(k)
}

func (w *writer) numeric() sort { return sort(w.IntN(2)) }

// number writes an operation on numbers; operand gives what may be mixed in.
func (w *writer) number(k sort, operand func() string, sub func(sort) string) string {
	first := sub(k) // one operand of the sort itself, so that the result is of it
	list := wholes
	if k == fraction {
		list = fractions
	}
	switch w.IntN(9) {
	case 0, 1, 2:
		return "(" + first + w.pick(" + ", " - ", " * ") + operand() + ")"
	case 3:
		return w.pick("min", "max") + "(" + operand() + ", " + first + ")"
	case 4:
		return w.pick("abs(", "-(") + first + ")"
	case 5, 6:
		return w.pick("min", "max", "first", "last", "sum") + "(" + sub(list) + ")"
	case 7:
		return w.leaf(list) + "[" + w.pick("0", "1", "9", sub(whole)) + "]"
	}
	if k == fraction {
		return first
	}
	return w.pick(w.pick("count(", "size(")+sub(w.list())+")", "("+first+" % "+w.divisor(operand())+")", "size("+sub(word)+")", "size("+w.leaf(names)+")")
}

// divisor is an operand, but for the 0 that is refused as a divisor.
func (w *writer) divisor(operand string) string {
	if operand == "0" || operand == "0.0" {
		return "(1 - 1)"
	}
	return operand
}

func (w *writer) list() sort { return wholes + sort(w.IntN(2)) }

func (w *writer) flag(sub func(sort) string, depth int) string {
	switch w.IntN(12) {
	case 0, 1, 2:
		return "(" + sub(flag) + w.pick(" && ", " || ") + sub(flag) + ")"
	case 3:
		return "!(" + sub(flag) + ")"
	case 4, 5, 6:
		return "(" + sub(w.numeric()) + w.pick(" < ", " <= ", " > ", " >= ") + sub(w.numeric()) + ")"
	case 7:
		k := []sort{whole, flag, word}[w.IntN(3)]
		return "(" + sub(k) + w.pick(" == ", " != ") + sub(k) + ")"
	case 8:
		return "near(" + sub(w.numeric()) + ", " + sub(w.numeric()) + ", " + sub(w.numeric()) + ")"
	case 9:
		return w.pick(
			"("+sub(whole)+" in "+sub(wholes)+")",
			"(sail.cloth in ['canvas', 'nylon'])",
			"(("+sub(word)+" + 'x') in ['canvasx', 'nylonx', "+sub(word)+"])",
			"("+sub(word)+" in "+w.leaf(names)+")",
			sub(word)+".startsWith("+sub(word)+")")
	}
	if w.loop >= 0 {
		return w.leaf(flag)
	}
	return w.over([]sort{wholes, fractions, names}[w.IntN(3)], depth)
}

// over writes a loop.
func (w *writer) over(list sort, depth int) string {
	from := w.leaf(list)
	w.loop = map[sort]sort{wholes: whole, fractions: fraction, names: word}[list]
	defer func() { w.loop = -1 }()
	return from + w.pick(".all", ".exists") + "(each, " + w.any(flag, min(depth-1, 2)) + ")"
}

func (w *writer) leaf(k sort) string {
	if w.loop == k && w.IntN(2) == 0 {
		return "each"
	}
	if names := w.lets[k]; len(names) > 0 && w.IntN(3) == 0 {
		return names[w.IntN(len(names))]
	}
	switch k {
	case whole:
		return w.pick("sail.reefs", "mast.stays", "mast.limit_size", "0", "1", "2", "9007199254740991")
	case fraction:
		return w.pick("sail.area_m2", "mast.height_m", "sail.area_m2", "0.0", "0.5", "2.0", "1e15")
	case flag:
		return w.pick("sail.wet", "sail.wet", "true", "false")
	case word:
		return w.pick("sail.cloth", "sail.maker", "('' + '')", "'canvas'", "('é' + 'x')", "(sail.cloth + '-' + sail.maker)",
			"(sail.wet ? sail.cloth + '!' : sail.maker)", "('a' + (sail.wet ? 'b' : sail.cloth + 'c'))")
	case wholes:
		return w.pick("sail.knots", "sail.knots", "[1, 2, 2]")
	case names:
		return w.pick("sail.makers", "mast.makers")
	}
	return w.pick("sail.panels_m2", "sail.panels_m2", "[0.5, 1.5]")
}

// program writes let-names and an expression that may read them, and compiles
// all. It gives nil where the expression is over a limit.
func (w *writer) program(l *Language, k sort) (*Program, int, string, error) {
	w.lets, w.loop = map[sort][]string{}, -1
	s := l.NewScope()
	var story strings.Builder
	slots := 0
	for range w.IntN(4) {
		kind := sort(w.IntN(int(sorts)))
		text := w.any(kind, 2)
		p, issues := s.Compile(text, Value)
		if p == nil {
			return nil, 0, "", refusal(text, issues)
		}
		name := fmt.Sprintf("let_%d", slots)
		s.Let(name, slots, p)
		fmt.Fprintf(&story, "%s: %s; ", name, text)
		w.lets[kind] = append(w.lets[kind], name)
		slots++
	}
	text := w.any(k, 4)
	story.WriteString(text)
	role := Value
	if k == flag {
		role = Condition
	}
	p, issues := s.Compile(text, role)
	if p == nil {
		return nil, 0, "", refusal(text, issues)
	}
	return p, slots, story.String(), nil
}

// refusal is nil where an expression was refused for its size.
func refusal(text string, issues []Issue) error {
	for _, is := range issues {
		for _, limit := range []string{"too long", "could take", "could grow"} {
			if strings.Contains(is.Text, limit) {
				return nil
			}
		}
	}
	return fmt.Errorf("%s: %v", text, issues)
}

// values gives a record of random values, each field stated with a chance, or
// nil for an object that is not there.
func (w *writer) values(o *Object, stated float64) *Record {
	if w.Float64() > stated+0.1 {
		return nil
	}
	r := &Record{Values: make([]fact.Value, len(o.Table.Fields()))}
	for i, f := range o.Table.Fields() {
		if w.Float64() < stated {
			r.Values[i] = w.value(f)
		}
	}
	return r
}

func (w *writer) value(f fact.Field) fact.Value {
	number := func() float64 { return []float64{0, 1, 2, 3, -1, 9, 1e15}[w.IntN(7)] }
	fractional := func() float64 { return number() + []float64{0, 0.5, 0.25}[w.IntN(3)] }
	switch f.Type {
	case fact.Whole:
		return fact.Num(number())
	case fact.Fraction:
		return fact.Num(fractional())
	case fact.Flag:
		return fact.Truth(w.IntN(2) == 0)
	case fact.Choice:
		return fact.Word(w.pick(f.Choices...))
	case fact.Name:
		return fact.Word(w.pick("ann", "bob", "canvas"))
	case fact.Names:
		return fact.Texts([]string{"ann", "canvas", "bob"}[w.IntN(4):]...)
	}
	xs := make([]float64, w.IntN(4))
	for i := range xs {
		if xs[i] = number(); f.Type == fact.Fractions {
			xs[i] = fractional()
		}
	}
	return fact.Nums(xs)
}

// complete states at random what a record leaves open.
func (w *writer) complete(o *Object, r *Record) *Record {
	full := w.values(o, 1)
	if r == nil {
		return full
	}
	for i, v := range r.Values {
		if v.Known {
			full.Values[i] = v
		}
	}
	return full
}

package second

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing/fstest"
	"time"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// writer writes one random rule.
type writer struct {
	*rand.Rand
	facts map[fact.Type][]field // of the kinds that the rule is about
	lets  map[fact.Type][]string
	inner bool // inside a loop, which has no other in it
}

// field is one fact that rules may read.
type field struct {
	name string
	fact.Field
}

// Rules writes a number of random rules, each of which loads: over all kinds of parts,
// figures and the bench, with let-names, loops, choices, texts, stated() and known(), and
// now and then what goes wrong. Every third is adjusted.
func Rules(seed uint64, n int) (*compat.Checker, map[string]Adjustment, error) {
	return drawn(seed, n, func(random *rand.Rand, v *rules.Vocabulary, id string) string { return newWriter(random, v).rule(id) })
}

// Loops writes as many rules that hang on the entries of loops. They cost more: there is
// room for some thirty in a set.
func Loops(seed uint64, n int) (*compat.Checker, map[string]Adjustment, error) {
	return drawn(seed, n, func(random *rand.Rand, v *rules.Vocabulary, id string) string {
		return newWriter(random, v, "cassette", "crankset", "figures").loopRule(id)
	})
}

// drawn loads rules that are written one by one. A set that could take too long all
// together is loaded without the last of them.
func drawn(seed uint64, n int, write func(*rand.Rand, *rules.Vocabulary, string) string) (*compat.Checker, map[string]Adjustment, error) {
	random := rand.New(rand.NewPCG(seed, 77))
	v, err := compat.Vocabulary()
	if err != nil {
		return nil, nil, err
	}
	var out []drawnRule
	for refused := 0; len(out) < n; {
		r := drawnRule{id: fmt.Sprintf("drawn/rule-%d", len(out))}
		r.text = write(random, v, r.id)
		// What the language refuses, such as a text without a fact, is written anew.
		if _, err := rules.Load(rules.Config{Vocabulary: v, Files: []fs.FS{fstest.MapFS{"rule.yaml": r.file()}}}); err != nil {
			if refused++; refused > 20*n {
				return nil, nil, fmt.Errorf("%d rules are refused, the last one for %w", refused, err)
			}
			continue
		}
		if random.IntN(3) == 0 {
			r.adjust, r.adjusted = adjustment(random, r.id)
		}
		out = append(out, r)
	}
	for {
		c, adjusted, err := together(out)
		var ps source.Problems
		if !errors.As(err, &ps) || ps[0].Code != source.Cost || len(out) < n/2 {
			return c, adjusted, err
		}
		out = out[:len(out)*9/10]
	}
}

// drawnRule is one rule, and how it is adjusted, if it is.
type drawnRule struct {
	id, text, adjust string
	adjusted         Adjustment
}

func (r drawnRule) file() *fstest.MapFile { return &fstest.MapFile{Data: []byte(header + r.text)} }

// together loads some rules.
func together(drawn []drawnRule) (*compat.Checker, map[string]Adjustment, error) {
	files := fstest.MapFS{}
	adjusted := map[string]Adjustment{}
	adjust := ""
	for i, r := range drawn {
		files[fmt.Sprintf("rule-%05d.yaml", i)] = r.file()
		if r.adjust != "" {
			adjust += r.adjust
			adjusted[r.id] = r.adjusted
		}
	}
	if adjust != "" {
		files["zz-adjust.yaml"] = &fstest.MapFile{Data: []byte(header + "adjust:\n" + adjust)}
	}
	c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{files}, Clock: func() time.Time { return Day }})
	return c, adjusted, err
}

// Day is the day that adjustments are held against.
var Day = time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC)

const header = "pack: drawn\nedition: 1\n"

// adjustment draws one, in force or not.
func adjustment(random *rand.Rand, id string) (string, Adjustment) {
	to := random.IntN(3)
	a := Adjustment{[]rules.Verdict{rules.Pass, rules.Warn, rules.Fail}[to], Day.Truncate(24*time.Hour).AddDate(0, 0, random.IntN(3)-1)}
	return fmt.Sprintf("  - {rule: %s, to: %s, reason: drawn, by: a test, until: %s}\n", id, []string{"pass", "warn", "fail"}[to],
		a.Until.Format(time.DateOnly)), a
}

// Adjust adjusts every fifth rule of a set, and gives the file that says so.
func Adjust(seed uint64, set *rules.Set) (fs.FS, map[string]Adjustment) {
	random := rand.New(rand.NewPCG(seed, 78))
	text := header + "adjust:\n"
	adjusted := map[string]Adjustment{}
	for _, r := range set.Rules() {
		entry, a := adjustment(random, r.ID)
		if random.IntN(5) > 0 || r.Safety && a.To == rules.Pass {
			continue
		}
		text += entry
		adjusted[r.ID] = a
	}
	return fstest.MapFS{"adjust.yaml": &fstest.MapFile{Data: []byte(text)}}, adjusted
}

// Shipped gives a checker of the shipped rules of which some are adjusted.
func Shipped(seed uint64) (*compat.Checker, map[string]Adjustment, error) {
	plain, err := compat.New(compat.Config{})
	if err != nil {
		return nil, nil, err
	}
	file, adjusted := Adjust(seed, plain.Rules())
	c, err := compat.New(compat.Config{Rules: []fs.FS{file}, Clock: func() time.Time { return Day }})
	return c, adjusted, err
}

// newWriter chooses what the rule is about: one to three kinds, most often the figures
// among them, and those that are named.
func newWriter(random *rand.Rand, v *rules.Vocabulary, also ...string) *writer {
	w := &writer{Rand: random, facts: map[fact.Type][]field{}, lets: map[fact.Type][]string{}}
	objects := v.Objects()
	chosen := []*rules.Object{objects[w.IntN(len(objects))]}
	for range w.IntN(3) {
		chosen = append(chosen, objects[w.IntN(len(objects))])
	}
	if w.IntN(2) == 0 {
		chosen = append(chosen, objects[len(objects)-2])
	}
	for _, o := range objects {
		if slices.Contains(also, o.Name()) {
			chosen = append(chosen, o)
		}
	}
	for _, o := range chosen {
		for _, f := range o.Table().Fields() {
			w.facts[f.Type] = append(w.facts[f.Type], field{o.Name() + "." + f.Name, f})
		}
	}
	return w
}

// rule writes one.
func (w *writer) rule(id string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "rules:\n  - id: %s\n    title: Drawn\n    why: Drawn by a grammar.\n", id)
	if n := w.IntN(4); n > 0 {
		b.WriteString("    let:\n")
		for i := range n {
			name := fmt.Sprintf("given_%d", i)
			t := []fact.Type{fact.Fraction, fact.Whole, fact.Flag, fact.Name}[w.IntN(4)]
			fmt.Fprintf(&b, "      %s: %q\n", name, w.of(t, 2))
			w.lets[t] = append(w.lets[t], name)
		}
	}
	if w.IntN(2) == 0 {
		fmt.Fprintf(&b, "    when: %q\n", w.when())
	}
	which := w.IntN(4)
	if which < 3 {
		fmt.Fprintf(&b, "    fail_if: %q\n", w.truth(3))
	}
	if which > 1 {
		fmt.Fprintf(&b, "    warn_if: %q\n", w.truth(3))
	}
	if which < 3 && w.IntN(6) == 0 {
		b.WriteString("    open_warns: true\n")
	}
	fmt.Fprintf(&b, "    say: %q\n    remedy: Another.\n    basis: {practice: drawn}\n", "It is {"+w.number(1)+"}, and so much for that.")
	return b.String()
}

// of writes an expression of a type.
func (w *writer) of(t fact.Type, depth int) string {
	switch t {
	case fact.Flag:
		return w.truth(depth)
	case fact.Name:
		return w.text(depth)
	case fact.Whole:
		return w.whole(depth)
	}
	return w.number(depth)
}

// when writes terms of which some ask for a fact to be stated.
func (w *writer) when() string {
	var terms []string
	for range 1 + w.IntN(2) {
		if f, ok := w.any(); ok && w.IntN(3) > 0 {
			terms = append(terms, "stated("+f.name+")")
		}
	}
	if len(terms) == 0 || w.IntN(2) == 0 {
		terms = append(terms, "("+w.truth(2)+")")
	}
	return strings.Join(terms, " && ")
}

func (w *writer) any() (field, bool) {
	for range 8 {
		if list := w.facts[fact.Type(1+w.IntN(8))]; len(list) > 0 {
			return list[w.IntN(len(list))], true
		}
	}
	return field{}, false
}

// one draws a fact or a let-name of a type.
func (w *writer) one(t fact.Type) (field, bool) {
	list := w.facts[t]
	if names := w.lets[t]; len(names) > 0 && w.IntN(3) == 0 {
		return field{name: names[w.IntN(len(names))], Field: fact.Field{Type: t, Max: 12}}, true
	}
	if len(list) == 0 {
		return field{}, false
	}
	return list[w.IntN(len(list))], true
}

// limit writes a number near those that a fact may have.
func (w *writer) limit(f field) string {
	most := math.Min(f.Max, 60)
	least := math.Max(f.Min, -10)
	x := least + (most-least)*w.Float64()
	if f.Type == fact.Whole || f.Type == fact.Wholes {
		return fmt.Sprintf("%d", int(x))
	}
	return fmt.Sprintf("%.2f", x)
}

func (w *writer) number(depth int) string {
	if depth <= 0 || w.IntN(3) == 0 {
		t := fact.Fraction
		if w.IntN(3) == 0 {
			t = fact.Whole
		}
		if f, ok := w.one(t); ok {
			return f.name
		}
		return fmt.Sprintf("%.1f", 10*w.Float64())
	}
	switch w.IntN(9) {
	case 0, 1, 2:
		return "(" + w.number(depth-1) + " " + []string{"+", "-", "*", "/"}[w.IntN(4)] + " " + w.number(depth-1) + ")"
	case 3:
		return "abs(" + w.number(depth-1) + ")"
	case 4:
		return []string{"min", "max"}[w.IntN(2)] + "(" + w.number(depth-1) + ", " + w.number(depth-1) + ")"
	case 5:
		return "(" + w.truth(depth-1) + " ? " + w.number(depth-1) + " : " + w.number(depth-1) + ")"
	case 6:
		return "-" + w.number(0)
	}
	if l, ok := w.list(); ok {
		if w.IntN(3) == 0 {
			return l.name + "[" + w.index(l) + "]"
		}
		return []string{"sum", "min", "max", "first", "last"}[w.IntN(5)] + "(" + l.name + ")"
	}
	return w.number(depth - 1)
}

// index writes a place in a list, which may lie outside.
func (w *writer) index(l field) string {
	switch w.IntN(3) {
	case 0:
		return "count(" + l.name + ") - 1"
	case 1:
		return w.whole(0)
	}
	return fmt.Sprint(w.IntN(6))
}

func (w *writer) list() (field, bool) {
	if w.IntN(2) == 0 {
		if f, ok := w.one(fact.Wholes); ok {
			return f, true
		}
	}
	return w.one(fact.Fractions)
}

func (w *writer) whole(depth int) string {
	f, ok := w.one(fact.Whole)
	l, listed := w.list()
	switch {
	case depth > 0 && w.IntN(3) == 0:
		return "(" + w.whole(depth-1) + " " + []string{"+", "-", "*", "%"}[w.IntN(4)] + " " + w.whole(depth-1) + ")"
	case ok && w.IntN(2) == 0:
		return f.name
	case listed:
		return []string{"count", "size"}[w.IntN(2)] + "(" + l.name + ")"
	}
	return fmt.Sprint(w.IntN(14))
}

// text writes a name, a choice or a text of its own.
func (w *writer) text(depth int) string {
	t := []fact.Type{fact.Choice, fact.Name}[w.IntN(2)]
	f, ok := w.one(t)
	switch {
	case depth > 0 && w.IntN(4) == 0:
		return "(" + w.truth(depth-1) + " ? " + w.text(depth-1) + " : " + w.text(depth-1) + ")"
	case depth > 0 && w.IntN(6) == 0:
		return "(" + w.text(0) + " + " + w.text(0) + ")"
	case ok && w.IntN(3) > 0:
		return f.name
	}
	return w.word(f)
}

// word writes a text that a fact may have.
func (w *writer) word(f field) string {
	words := append(f.KnownNames(), "heron", "reed", "cable")
	words = append(words, f.Choices...)
	return "'" + words[w.IntN(len(words))] + "'"
}

package second

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// aimed writes rules of which the limits lie where the numbers of drawn mixes lie: what
// is drawn over the range of a field hardly ever turns within a tolerance or a spread, and
// never between two values of one. Such rules have two limits a number, sums of many
// numbers, and ask for figures that have a meaning only at one end of what is usual.
type aimed struct {
	*rand.Rand
	at    map[string][]span
	names []string // of these
	wide  []string // of those that go with what is usual
	doors []string // figures that are known at one end of it and not at another
	wild  []string // figures of which nobody declares how they go with it: these have one limit
}

// span is what a number is in one mix, and between which values it lies over what is usual
// there: one fact moves after another, and the ways are added up.
type span struct{ least, value, most float64 }

// aimedMixes is how many mixes are looked at before rules are written.
const aimedMixes = 120

// Aimed writes a number of random rules of which the limits lie among the numbers of mixes.
func Aimed(seed uint64, n int) (*compat.Checker, map[string]Adjustment, error) {
	a, err := newAimed(seed)
	if err != nil {
		return nil, nil, err
	}
	return drawn(seed, n, func(random *rand.Rand, _ *rules.Vocabulary, id string) string {
		a.Rand = random
		return a.rule(id)
	})
}

func newAimed(seed uint64) (*aimed, error) {
	v, err := compat.Vocabulary()
	if err != nil {
		return nil, err
	}
	j, a, mixes := bare(v), &aimed{at: map[string][]span{}}, NewMixes(seed+5000)
	for range aimedMixes {
		mix, _, err := mixes.Next()
		if err != nil {
			return nil, err
		}
		a.look(j, compat.Measure(mix).Records())
	}
	for _, name := range j.names() {
		spans := a.at[name]
		if len(spans)*8 < aimedMixes {
			continue
		}
		a.names = append(a.names, name)
		if slices.ContainsFunc(spans, func(s span) bool { return s.least < s.most }) {
			a.wide = append(a.wide, name)
		}
	}
	slices.Sort(a.doors)
	a.doors = slices.Compact(a.doors)
	return a, nil
}

// look keeps the numbers of one mix.
func (a *aimed) look(j *Judge, records []*rules.Record) {
	usual := j.loose(records, func(v *fact.Value) bool { return v.Spread() != nil })
	var ends [][]*rules.Record
	for _, name := range usual {
		ends = append(ends, j.moved(records, map[string]float64{name: -1}), j.moved(records, map[string]float64{name: 1}))
	}
	for _, name := range j.names() {
		p := j.places[name]
		if records[p.object] == nil {
			continue
		}
		v := records[p.object].At(p.field)
		if v.Known && (p.of == fact.Fraction || p.of == fact.Whole) {
			a.at[name] = append(a.at[name], spanOf(v.Num, ends, p))
			if slices.ContainsFunc(usual, func(with string) bool { return j.undeclaredBy(name, with) }) {
				a.wild = addOnce(a.wild, name)
			}
		}
		if p.object == j.figures && !byName[name] && slices.ContainsFunc(ends, func(to []*rules.Record) bool { return to[p.object].At(p.field).Known != v.Known }) {
			a.doors = append(a.doors, name)
		}
	}
}

func spanOf(x float64, ends [][]*rules.Record, p place) span {
	s := span{x, x, x}
	for i := 0; i < len(ends); i += 2 {
		low, high := x, x
		for _, to := range ends[i : i+2] {
			if v := to[p.object].At(p.field); v.Known {
				low, high = math.Min(low, v.Num), math.Max(high, v.Num)
			}
		}
		s.least, s.most = s.least-(x-low), s.most+(high-x)
	}
	return s
}

// undeclaredBy says whether nobody declares how a fact goes with another that it hangs on.
func (j *Judge) undeclaredBy(name, with string) bool {
	if name == with {
		return false
	}
	way, _ := figures.Ways(j.ref(name), j.ref(with))
	return way == 0 && slices.Contains(figures.Behind(j.ref(name)), j.ref(with))
}

// names gives every fact, in the order of the vocabulary.
func (j *Judge) names() []string {
	var out []string
	for _, o := range j.objects {
		for _, f := range o.Table().Fields() {
			out = append(out, o.Name()+"."+f.Name)
		}
	}
	return out
}

// rule writes one. One condition of those that make it fail turns on what is usual: what
// two of them leave between their limits may be narrower than any place that is tried. So
// may a band be beside a figure that means something at one end alone.
func (a *aimed) rule(id string) string {
	when, fail := "", a.truth(a.one())
	switch a.IntN(6) {
	case 0:
		when = a.truth(a.steady())
	case 1:
		when, fail = a.truth(a.one()), a.truth(a.steady())
	case 2:
		when, fail = "stated("+a.asked()+")", a.oneLimit(a.one())
	case 3:
		when, fail = "stated("+a.asked()+")", a.oneLimit(a.steady())
	case 4:
		when, fail = "stated("+a.asked()+") && "+a.truth(a.steady()), a.oneLimit(a.one())
	}
	var b strings.Builder
	fmt.Fprintf(&b, "rules:\n  - id: %s\n    title: Drawn\n    why: Drawn among the numbers of mixes.\n", id)
	if when != "" {
		fmt.Fprintf(&b, "    when: %q\n", when)
	}
	which := a.IntN(4)
	if which < 3 {
		fmt.Fprintf(&b, "    fail_if: %q\n", fail)
	}
	if which > 1 {
		fmt.Fprintf(&b, "    warn_if: %q\n", a.truth(a.one()))
	}
	if which < 3 && a.IntN(6) == 0 {
		b.WriteString("    open_warns: true\n")
	}
	fmt.Fprintf(&b, "    say: %q\n    remedy: Another.\n    basis: {practice: drawn}\n", "It is {"+a.one()+"}.")
	return b.String()
}

// asked draws what when asks to be stated, most often a figure that is not always known.
func (a *aimed) asked() string {
	if len(a.doors) > 0 && a.IntN(3) > 0 {
		return a.doors[a.IntN(len(a.doors))]
	}
	return a.one()
}

// one draws a number, most often one that goes with what is usual.
func (a *aimed) one() string {
	if a.IntN(3) > 0 {
		return a.wide[a.IntN(len(a.wide))]
	}
	return a.steady()
}

// steady draws one that does not.
func (a *aimed) steady() string {
	for {
		if name := a.names[a.IntN(len(a.names))]; !slices.Contains(a.wide, name) {
			return name
		}
	}
}

// truth writes a condition on a number, or on many.
func (a *aimed) truth(name string) string {
	s := a.at[name][a.IntN(len(a.at[name]))]
	low, high := a.band(name, s)
	form := a.IntN(9)
	if form < 4 && slices.Contains(a.wild, name) {
		form = 8
	}
	switch form {
	case 0:
		return fmt.Sprintf("%s > %s && %s < %s", name, written(low), name, written(high))
	case 1:
		return fmt.Sprintf("(%s < %s || %s > %s)", name, written(low), name, written(high))
	case 2:
		return fmt.Sprintf("near(1.0 * %s, %s, %s)", name, written((low+high)/2), written((high-low)/2))
	case 3:
		return fmt.Sprintf("abs(%s - %s) > %s", name, written((low+high)/2), written((high-low)/2))
	case 4, 5:
		return a.sum(name)
	case 6:
		return fmt.Sprintf("%s > %s", name, written(low-0.1*math.Abs(low)-1))
	}
	return a.oneLimit(name)
}

// oneLimit writes a condition that holds on one side of a number.
func (a *aimed) oneLimit(name string) string {
	s := a.at[name][a.IntN(len(a.at[name]))]
	return name + []string{" < ", " > "}[a.IntN(2)] + written(s.least+(s.most-s.least)*a.Float64())
}

// band gives limits within or around a span, so far apart that a row of 17 places meets
// what lies between them, in the mix where the number goes farthest too: that a narrower
// band is not seen is said.
func (a *aimed) band(name string, s span) (low, high float64) {
	room := s.most - s.least
	width := max(room*(0.2+0.4*a.Float64()), 0.15*a.farthest(name))
	if width == 0 {
		width = 0.02 + math.Abs(s.value)*0.1*a.Float64()
	}
	low = s.least + (room-width)*a.Float64()
	return low, low + width
}

// farthest is how far a number goes over what is usual, in any mix.
func (a *aimed) farthest(name string) (most float64) {
	for _, s := range a.at[name] {
		most = max(most, s.most-s.least)
	}
	return most
}

// sum writes a sum of many numbers, of which only the first goes with what is usual,
// against a limit near it, or far away: what hangs on more than four tolerances is decided
// by these alone. The others are of one part, for whoever states one of its numbers often
// states them all.
func (a *aimed) sum(name string) string {
	kind, _, _ := strings.Cut(a.steady(), ".")
	of := slices.DeleteFunc(slices.Clone(a.names), func(n string) bool { return !strings.HasPrefix(n, kind+".") || slices.Contains(a.wide, n) })
	text, total := "", 0.0
	for range 4 + a.IntN(6) {
		text += "1.0 * " + name + " + "
		total += a.at[name][a.IntN(len(a.at[name]))].value
		name = of[a.IntN(len(of))]
	}
	return strings.TrimSuffix(text, " + ") + []string{" < ", " > "}[a.IntN(2)] + written(total*(0.5+a.Float64()))
}

// written gives a number as rules have it.
func written(x float64) string { return fmt.Sprintf("%.4f", x) }

package compat

import (
	"strings"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// taking says in words, with value and unit, what stands in for facts that nobody
// stated. It is worked out for the facts that are asked for alone.
type taking struct {
	r      *Report
	doubts *figures.Doubts // begun when first asked for
	known  map[string][]string
}

func (r *Report) taking() *taking { return &taking{r: r, known: map[string][]string{}} }

// close gives memory back.
func (t *taking) close() {
	if t.doubts != nil {
		t.doubts.Close()
	}
}

// roots gives what a figure rests on; see figures.Doubts.
func (t *taking) roots(place int) (assumed, usual []string) { return t.begun().Roots(place) }

func (t *taking) begun() *figures.Doubts {
	if t.doubts == nil {
		t.doubts = t.r.Figures.Doubts()
	}
	return t.doubts
}

// said joins what is taken for these names, each thing once.
func (t *taking) said(names []string) []string {
	out := []string{}
	for _, n := range names {
		out = addNames(out, t.of(n))
	}
	return out
}

// of gives what is taken for one fact, by its name; nothing for one that is stated.
func (t *taking) of(name string) []string {
	if said, known := t.known[name]; known {
		return said
	}
	said := t.say(name)
	t.known[name] = said
	return said
}

func (t *taking) say(name string) []string {
	ref, ok := t.r.set.Vocabulary().Find(name)
	if !ok {
		return nil
	}
	if ref.Object == figures.Object {
		var out []string
		for _, taken := range t.begun().Taken(ref.Index) {
			text := taken.What
			if taken.ByValue {
				text += ", " + measure(taken.Value, taken.Field)
			}
			out = addNames(out, []string{text})
		}
		return out
	}
	i, _ := t.r.set.Vocabulary().Index(ref.Object.Name())
	rec := t.r.Figures.Records()[i]
	if rec == nil {
		return nil
	}
	v := rec.At(ref.Index)
	if !v.Known || !v.Assumed && v.Usual == fact.NotUsual {
		return nil
	}
	return []string{t.r.Words(name) + ", " + measure(*v, ref.Field()) + t.r.spread(v, rec)}
}

// Words says in words what a fact is, for who does not write rules; see
// [rules.Vocabulary.Words].
func (r Report) Words(name string) string {
	if r.set != nil {
		return r.set.Vocabulary().Words(name)
	}
	v, err := Vocabulary()
	if err != nil {
		return name
	}
	return v.Words(name)
}

// spread says how far a usual value goes, and for how many cogs one is that is known
// by their number.
func (r Report) spread(v *fact.Value, rec *rules.Record) string {
	text := ""
	if s := v.Spread(); s != nil && s.Least < s.Most {
		text = ", " + rules.Decimal(s.Least, -1) + " to " + rules.Decimal(s.Most, -1)
	}
	if v.Usual == fact.ByCount {
		for _, k := range filledKinds {
			if n := k.count(rec); k.object == rec.Object() && n > 0 {
				text += ", for " + counted(int(n))
			}
		}
	}
	return text
}

func counted(cogs int) string {
	if cogs == 1 {
		return "1 cog"
	}
	return rules.Decimal(float64(cogs), 0) + " cogs"
}

// mostNumbers is how many numbers of a list a sentence takes.
const mostNumbers = 6

// measure prints a value as a mechanic says it: a list that rises evenly by its step, any
// other long one by its two ends.
func measure(v fact.Value, f fact.Field) string {
	unit := f.Unit
	switch {
	case f.Type == fact.Flag && v.Num != 0:
		return "yes"
	case f.Type == fact.Flag:
		return "no"
	case f.Type == fact.Choice || f.Type == fact.Name:
		return v.Text
	case f.Type == fact.Names:
		return strings.Join(v.Words(), ", ")
	case len(v.List) == 0:
		return strings.TrimSpace(rules.Decimal(v.Num, decimalsOf(f)) + " " + unit)
	}
	if step, even := evenStep(v.List); even {
		return rules.Decimal(step, 2) + " " + unit + " each"
	}
	each := make([]string, len(v.List))
	for i, x := range v.List {
		each[i] = rules.Decimal(x, -1)
	}
	if last := len(each) - 1; last >= mostNumbers {
		return strings.TrimSpace(each[0]+" to "+each[last]+" "+unit) + " (" + rules.Decimal(float64(len(each)), 0) + " numbers)"
	}
	return strings.TrimSpace(strings.Join(each, ", ") + " " + unit)
}

// decimalsOf is two for what a caliper measures.
func decimalsOf(f fact.Field) int {
	if f.Unit == "mm" && f.Type == fact.Fraction {
		return 2
	}
	return -1
}

// evenStep is the step of a list of three or more that rises by the same each time.
func evenStep(list []float64) (step float64, even bool) {
	if len(list) < 3 {
		return 0, false
	}
	step = list[1] - list[0]
	for i := 2; i < len(list); i++ {
		if d := list[i] - list[i-1] - step; d > 1e-6 || d < -1e-6 {
			return 0, false
		}
	}
	return step, true
}

package compat

import (
	"slices"
	"strings"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// taken says in words, with value and unit, what stands in for facts that nobody
// stated: by the name of the fact, or of the figure that takes a usual value.
func (r Report) taken() map[string][]string {
	out := map[string][]string{}
	for _, t := range r.Figures.Taken() {
		name := figures.Object.Name() + "." + t.Field.Name
		text := t.What
		if t.ByValue {
			text += ", " + measure(t.Value, t.Field)
		}
		if !slices.Contains(out[name], text) {
			out[name] = append(out[name], text)
		}
	}
	for _, rec := range r.Figures.Records() {
		if rec == nil || rec.Object() == figures.Object {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			if v := rec.At(i); v.Known && (v.Assumed || v.Usual != fact.NotUsual) {
				name := rec.Object().Name() + "." + f.Name
				out[name] = []string{r.Words(name) + ", " + measure(*v, f) + r.spread(v, rec)}
			}
		}
	}
	return out
}

// saidOf joins what is taken for these names, each thing once.
func saidOf(taken map[string][]string, names []string) []string {
	out := []string{}
	for _, n := range names {
		for _, text := range taken[n] {
			if !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
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
	if s := v.Spread; s != nil && s.Least < s.Most {
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

// usual lists the usual values that stand in the facts.
func (r Report) usual() []usualJSON {
	out := []usualJSON{}
	for _, rec := range r.Figures.Records() {
		if rec == nil || rec.Object() == figures.Object {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			v := rec.At(i)
			if !v.Known || v.Usual == fact.NotUsual {
				continue
			}
			u := usualJSON{Name: rec.Object().Name() + "." + f.Name, Value: v.Plain(f.Type), Unit: f.Unit}
			if f.Type == fact.Fraction || f.Type == fact.Whole {
				u.Least, u.Most = v.Num, v.Num
			}
			if s := v.Spread; s != nil {
				u.Least, u.Most, u.Source = s.Least, s.Most, s.Source
			}
			out = append(out, u)
		}
	}
	return out
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
		return strings.Join(v.Words, ", ")
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

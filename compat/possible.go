package compat

import (
	"sync"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// possible is what a number may be, and what it is usually; 0 where nothing is usual.
func possible(ref rules.Ref, known fact.Value) (least, most, usual float64) {
	f := ref.Field()
	least, most = f.Min, f.Max
	if span, ok := usualSpans()[ref]; ok && span.Least < span.Most {
		least, most = span.Least, span.Most
	}
	if known.Known && known.Usual != fact.NotUsual {
		usual = known.Num
		if s := known.Spread(); s != nil {
			least, most = s.Least, s.Most
		}
	}
	return least, most, usual
}

// usualSpans is how far each number goes over all usual classes and counts together.
var usualSpans = sync.OnceValue(func() map[rules.Ref]fact.Spread {
	out := map[rules.Ref]fact.Spread{}
	add := func(ref rules.Ref, v fact.Value) {
		s := fact.Spread{Least: v.Num, Most: v.Num}
		if v.Spread() != nil {
			s = *v.Spread()
		}
		if was, ok := out[ref]; ok {
			s.Least, s.Most = min(s.Least, was.Least), max(s.Most, was.Most)
		}
		out[ref] = s
	}
	for _, p := range Usual().Parts() {
		rec := p.Record()
		for i, f := range rec.Object().Table().Fields() {
			if v := rec.Value(i); f.Grid() > 0 && f.Cap == 0 && p.States(f.Name) {
				add(rules.Ref{Object: rec.Object(), Index: i}, v)
			}
		}
	}
	for _, lines := range usualLines() {
		for _, line := range lines {
			for _, v := range line.values {
				add(v.ref, v.value)
			}
		}
	}
	return out
})

package second

import (
	"fmt"
	"slices"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
)

// goes says which figures a fact moves that they are said not to have been worked out with:
// a rule is held against tolerances and spreads of what was read alone.
func (m *mix) goes() []string {
	var out []string
	j := m.judge
	before := m.nominal.records[j.figures]
	for _, name := range append(slices.Clone(m.loose), m.usual...) {
		for _, end := range []float64{-1, 1} {
			after := j.moved(m.nominal.records, map[string]float64{name: end})[j.figures]
			for i, f := range figures.Object.Table().Fields() {
				if !before.Reads()[i].Meets(figures.Mark(j.ref(name))) && !alike(before, after, i) {
					out = append(out, fmt.Sprintf("figures/%s: it goes with %s; the library says that it has not read it", f.Name, name))
				}
			}
		}
	}
	return out
}

// alike says whether a figure is the same in two records, with its lack.
func alike(a, b *rules.Record, i int) bool {
	x, y := a.At(i), b.At(i)
	return x.Known == y.Known && x.Num == y.Num && x.Text == y.Text && slices.Equal(x.List, y.List) &&
		slices.Equal(x.Words(), y.Words()) && a.Lack(i).Reason == b.Lack(i).Reason
}

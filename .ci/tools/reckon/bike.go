// Package reckon works the figures of a bicycle out a second time, by another road than
// the library: tangents and polygons are closed in on by halving, the best offset of an
// index is searched for, differences are taken over all pairs, sums are exact fractions,
// and words come out of tables. A twin may read other figures where these have a twin of
// their own or are read from the bench or a part; it is asked only where the library
// gives a value.
package reckon

import (
	"math/big"
	"slices"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// bike reads the facts and figures of one bicycle.
type bike struct {
	vocabulary *rules.Vocabulary
	records    []*rules.Record
}

func newBike(v *rules.Vocabulary, r compat.Report) bike { return bike{v, r.Figures.Records()} }

// value reads a fact by its full name; it is not Known where nobody stated it.
func (b bike) value(name string) fact.Value {
	ref, ok := b.vocabulary.Find(name)
	if !ok {
		panic("reckon: there is no " + name)
	}
	i, _ := b.vocabulary.Index(ref.Object.Name())
	return ref.In(b.records[i])
}

func (b bike) known(name string) bool     { return b.value(name).Known }
func (b bike) num(name string) float64    { return b.value(name).Num }
func (b bike) list(name string) []float64 { return b.value(name).List }
func (b bike) text(name string) string    { return b.value(name).Text }

// here says whether a part is in the mix.
func (b bike) here(kind string) bool {
	i, _ := b.vocabulary.Index(kind)
	return b.records[i] != nil
}

// either gives the first of some facts that is stated.
func (b bike) either(names ...string) fact.Value {
	for _, name := range names {
		if v := b.value(name); v.Known {
			return v
		}
	}
	return fact.Value{}
}

// ofRing reads a fact of the chainring where there is one, else of the crankset.
func (b bike) ofRing(field string) fact.Value {
	if b.here("chainring") {
		return b.value("chainring." + field)
	}
	return b.value("crankset." + field)
}

// rings and cogs give teeth, in any order.
func (b bike) rings() []float64 { return b.either("chainring.rings_t", "crankset.rings_t").List }
func (b bike) cogs() []float64  { return b.list("cassette.cogs_t") }

// exact adds up fractions as they are written, signs by turns of the names.
func exact(plus []float64, minus ...float64) float64 {
	sum := new(big.Rat)
	add := func(x float64, sign int64) {
		r := new(big.Rat)
		r.SetString(fact.Num(x).String())
		sum.Add(sum, r.Mul(r, big.NewRat(sign, 1)))
	}
	for _, x := range plus {
		add(x, 1)
	}
	for _, x := range minus {
		add(x, -1)
	}
	out, _ := sum.Float64()
	return out
}

// overall gives the least and the greatest of what a function makes of all pairs.
func overall(as, bs []float64, f func(a, b float64) float64) (least, most float64) {
	var all []float64
	for _, a := range as {
		for _, b := range bs {
			all = append(all, f(a, b))
		}
	}
	return slices.Min(all), slices.Max(all)
}

// Known gives the names of all figures.
func Known() []string {
	var out []string
	for _, f := range figures.Object.Table().Fields() {
		out = append(out, f.Name)
	}
	return out
}

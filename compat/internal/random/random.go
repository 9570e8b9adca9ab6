// Package random draws mixes for tests: any kinds of parts with any of their
// fields, made to meet more often than chance would have it.
//
//	d := random.New(random.Seeded(4))
//	mix, err := compat.NewMix("random", compat.ScopeCart, d.Parts()...)
//
// A draw is plain Go values by object and field, so that one field can be taken
// away again. The same seed draws the same mixes.
package random

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Draw is what a random mix is made of, as Go values by object and field. "bench"
// stands beside the kinds.
type Draw struct {
	Bike   bool // the mix is to be judged as a whole bicycle
	Fields map[string]map[string]any
}

// drawer draws one mix. The parts are made to meet more often than chance would
// have it: facts without a fit decide nothing.
type drawer struct {
	*rand.Rand
	out   Draw
	teeth []int   // of the cassette
	pitch float64 // what the steps aim at
	ratio float64 // what turns a pull into such a step
	drive string  // cable or motor, for the most part at both ends
	roll  string  // the rollers that most parts are made for
}

// Seeded gives the same numbers in every run.
func Seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 2607)) }

// New draws a mix of any kinds of parts with any of their fields.
func New(r *rand.Rand) Draw {
	d := drawer{Rand: r, out: Draw{Fields: map[string]map[string]any{}}}
	if r.IntN(4) == 0 {
		d.out.Bike = true
	}
	d.cogs()
	for _, kind := range catalog.Kinds() {
		if d.chance(0.85) && !(rareKinds[kind.Name()] && d.chance(0.8)) {
			d.part(kind)
		}
	}
	if d.chance(0.4) {
		d.part(figures.Bench)
	}
	d.agree()
	return d.out
}

// Parts makes the parts of the draw, in the order of the kinds. It panics where the
// drawer has drawn what is no part.
func (d Draw) Parts() []catalog.Part {
	var out []catalog.Part
	for _, kind := range catalog.KindNames() {
		fields, ok := d.Fields[kind]
		if !ok {
			continue
		}
		p, err := catalog.New(kind, fields)
		if err != nil {
			panic(fmt.Sprintf("random: %v: %v", fields, err))
		}
		out = append(out, p)
	}
	return out
}

// Facts gives the records of the parts and what was measured.
func (d Draw) Facts() figures.Facts {
	var out figures.Facts
	for _, p := range d.Parts() {
		out = out.With(p.Record())
	}
	return out.With(Bench(d.Fields["bench"]))
}

// Bench makes a record of what was measured, from Go values. It panics where they
// are none.
func Bench(fields map[string]any) *rules.Record {
	if fields == nil {
		return nil
	}
	n, err := source.FromGo("bench", fields)
	if err != nil {
		panic(fmt.Sprintf("random: %v", err))
	}
	var ps source.Problems
	values := n.ReadRecord(figures.Bench.Table(), "bench", nil, &ps)
	if err := ps.Err(); err != nil {
		panic(fmt.Sprintf("random: %v: %v", fields, err))
	}
	return figures.Bench.NewRecord(values, nil)
}

// Loosen gives some of the numbers a tolerance.
func (d Draw) Loosen(r *rand.Rand) {
	for _, ref := range d.Stated() {
		fields := d.Fields[ref.Object.Name()]
		if x, ok := fields[ref.Field().Name].(float64); ok && r.IntN(8) == 0 {
			tol := []float64{0.02, 0.05, 0.2}[r.IntN(3)]
			if f := ref.Field(); x-tol < f.Min || x+tol > f.Max {
				continue
			}
			fields[ref.Field().Name] = fmt.Sprintf("%v ± %v", x, tol)
		}
	}
}

// Without is the draw without one field.
func (d Draw) Without(object, field string) Draw {
	if fields := d.Fields[object]; field == "cog_count" && fields["cogs_t"] == nil {
		return d // a cassette has to have one of the two
	}
	d.Fields = maps.Clone(d.Fields)
	d.Fields[object] = maps.Clone(d.Fields[object])
	delete(d.Fields[object], field)
	return d
}

// With is the draw with one field stated.
func (d Draw) With(object, field string, value any) Draw {
	if d.Fields = maps.Clone(d.Fields); d.Fields == nil {
		d.Fields = map[string]map[string]any{}
	}
	fields := maps.Clone(d.Fields[object])
	if fields == nil {
		fields = map[string]any{}
	}
	fields[field] = value
	d.Fields[object] = fields
	return d
}

// Stated lists the fields of the draw that could be left out, as object.field.
func (d Draw) Stated() []rules.Ref {
	var out []rules.Ref
	for _, o := range append(catalog.Kinds(), figures.Bench) {
		for i, f := range o.Table().Fields() {
			if _, ok := d.Fields[o.Name()][f.Name]; ok && !f.Required {
				out = append(out, rules.Ref{Object: o, Index: i})
			}
		}
	}
	return out
}

func (d *drawer) chance(p float64) bool { return d.Float64() < p }

// between draws a number with two decimals, as people state them.
func (d *drawer) between(low, high float64) float64 {
	x := math.Round((low+(high-low)*d.Float64())*100) / 100
	return min(max(x, low), high)
}

// cogs draws the cassette's teeth and the pitch that goes with so many.
func (d *drawer) cogs() {
	n := []int{1, 2, 3, 7, 8, 9, 10, 11, 12, 12, 13}[d.IntN(11)]
	for teeth := 9 + d.IntN(4); len(d.teeth) < n; teeth += 1 + d.IntN(5) {
		d.teeth = append(d.teeth, min(teeth, 47+len(d.teeth)))
	}
	usual := map[int]float64{7: 5, 8: 4.8, 9: 4.34, 10: 3.95, 11: 3.8, 12: 3.65, 13: 3.4}
	d.drive = []string{"cable", "cable", "motor"}[d.IntN(3)]
	d.ratio = []float64{1.1, 1.4, 1.7}[d.IntN(3)]
	d.roll = d.oftenFirst("standard", "large")
	d.pitch = usual[n]
	if d.pitch == 0 {
		d.pitch = 4.34
	}
}

// part draws some fields of one object: few, many or nearly all of them.
func (d *drawer) part(o *rules.Object) {
	density := []float64{0.3, 0.65, 0.95}[d.IntN(3)]
	fields := map[string]any{}
	for _, f := range o.Table().Fields() {
		if !f.Required && !d.chance(density) || (rare[f.Name] || rare[o.Name()+"."+f.Name]) && d.chance(0.85) {
			continue
		}
		if _, said := fields[f.Excludes]; said || f.Name == "pitches_mm" && len(d.teeth) == 1 {
			continue
		}
		if f.Excludes != "" && d.chance(0.3) { // leave room for the other spelling
			continue
		}
		fields[f.Name] = d.field(o.Name(), f)
	}
	if o != figures.Bench && d.chance(0.1) {
		fields["basis"] = "assumed"
	}
	d.out.Fields[o.Name()] = fields
}

// field draws one value: like those of real parts where the drawer knows the
// field, anything in its range where it does not.
func (d *drawer) field(object string, f fact.Field) any {
	if likely := likelyValues[object+"."+f.Name]; likely != nil {
		return likely(d)
	}
	if span, ok := likelyRanges[f.Name]; ok && span[0] <= f.Max && f.Min <= span[1] { // a new kind may mean another thing by the name
		f.Min, f.Max = max(f.Min, span[0]), min(f.Max, span[1])
	}
	switch f.Type {
	case fact.Fraction:
		return d.between(f.Min, f.Max)
	case fact.Whole:
		return int(f.Min) + d.IntN(int(f.Max-f.Min)+1)
	case fact.Flag:
		return d.chance(0.5)
	case fact.Choice:
		return f.Choices[d.IntN(len(f.Choices))]
	case fact.Fractions:
		return inOrder(d.list(1+d.IntN(f.Cap), f.Min, f.Max), f.Rising)
	case fact.Wholes:
		return inOrder(d.wholes(1+d.IntN(f.Cap), int(f.Min), int(f.Max)), f.Rising)
	case fact.Names:
		return []string{d.word()}
	}
	return d.word()
}

func (d *drawer) word() string { return []string{"heron", "heron", "reed"}[d.IntN(3)] }

func (d *drawer) list(n int, low, high float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = d.between(low, high)
	}
	return out
}

func (d *drawer) wholes(n, low, high int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = low + d.IntN(high-low+1)
	}
	return out
}

// inOrder sorts a list that must rise, and takes out what stands in it twice.
func inOrder[T cmp.Ordered](xs []T, rising bool) []T {
	if !rising {
		return xs
	}
	slices.Sort(xs)
	return slices.Compact(xs)
}

// agree mends what one description must not say of itself.
func (d *drawer) agree() {
	f := d.out.Fields
	ordered := func(kind, low, high string) {
		if a, b := f[kind][low], f[kind][high]; a != nil && b != nil && !lessDrawn(a, b) {
			delete(f[kind], low)
		}
	}
	ordered("chain", "inner_width_mm", "outer_width_mm")
	ordered("rear_derailleur", "min_largest_cog_t", "max_cog_t")
	ordered("crankset", "ring_thickness_mm", "wide_tooth_mm")
	ordered("chainring", "ring_thickness_mm", "wide_tooth_mm")
	ordered("chain_guide", "ring_min_t", "ring_max_t")
	ordered("charger", "min_c", "max_c")
	ordered("front_derailleur", "min_difference_t", "capacity_t")
	ordered("crankset", "inner_bolt_circle_mm", "bolt_circle_mm")
	ordered("chainring", "inner_bolt_circle_mm", "bolt_circle_mm")
	if f["frame"]["rear_suspension"] == "none" {
		delete(f["frame"], "growth_at_sag_mm")
		if f["frame"]["chain_growth_mm"] != nil {
			f["frame"]["chain_growth_mm"] = 0
		}
	}
	d.withdraw()
	if c := f["cassette"]; c != nil && d.chance(0.08) { // nobody has counted the teeth
		c["cog_count"] = len(d.teeth)
		delete(c, "cogs_t")
	}
	if pulls, ok := f["rear_shifter"]["pulls_mm"].([]float64); ok && f["rear_shifter"]["clicks"] != nil {
		f["rear_shifter"]["clicks"] = len(pulls)
	}
	if f["crankset"]["ring_offset_mm"] != nil {
		f["crankset"]["ring_offset_mm"] = d.list(len(f["crankset"]["rings_t"].([]int)), -7, 7)
	}
}

// lessDrawn compares two drawn numbers of one type.
func lessDrawn(a, b any) bool {
	if x, ok := a.(int); ok {
		return x < b.(int)
	}
	return a.(float64) < b.(float64)
}

// rising adds up distances near the aim: positions from 0.
func (d *drawer) rising(n int) []float64 {
	out := make([]float64, n)
	for i := 1; i < n; i++ {
		out[i] = out[i-1] + d.near(0.08)
	}
	return out
}

// near draws a distance that is off the aim by up to a share of it, and now and
// then by much more.
func (d *drawer) near(share float64) float64 {
	if d.chance(0.15) {
		share *= 5
	}
	return min(max(d.between(d.pitch*(1-share), d.pitch*(1+share)), 2), 8)
}

// nearly repeats distances near the aim.
func (d *drawer) nearly(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = d.near(0.04)
	}
	return out
}

// steps is a number of steps for the cogs, often the right one.
func (d *drawer) steps() int {
	return min(max(len(d.teeth)-1+[]int{0, 0, 0, 0, -1, 1, 2, 3}[d.IntN(8)], 1), 16)
}

// rings draws one to three rings in any order.
func (d *drawer) rings() []int {
	out := d.wholes(1+d.IntN(3), 22, 53)
	slices.Sort(out)
	return slices.Compact(out)
}

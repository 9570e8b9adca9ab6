// Package draw draws random mixes as the documents that mix files are: parts
// described in place with some, many or nearly all of their facts, what was
// measured at the bench, and tolerances where they are asked for. The parts meet
// more often than chance would have it, since facts without a fit decide nothing.
// The same seed draws the same mixes.
package draw

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
)

// Mixes draws mixes in turn.
type Mixes struct {
	random     *rand.Rand
	tables     []table
	tolerances bool
	drawn      int
}

// New begins a row of mixes. With tolerances, some numbers carry one.
func New(seed uint64, tolerances bool) *Mixes {
	return &Mixes{random: rand.New(rand.NewPCG(seed, 2607)), tables: tables(), tolerances: tolerances}
}

// Next draws a mix: what a mix file holds, ready to be written as JSON.
func (m *Mixes) Next() map[string]any {
	d := drawer{Rand: m.random, out: map[string]facts{}}
	scope := "cart"
	if d.IntN(4) == 0 {
		scope = "bike"
	}
	d.cogs()
	for _, t := range m.tables {
		if t.name != "bench" && d.chance(0.85) || t.name == "bench" && d.chance(0.4) {
			d.part(t)
		}
	}
	d.agree()
	if m.tolerances {
		d.loosen(m.tables)
	}
	m.drawn++
	doc := map[string]any{"mix": fmt.Sprintf("Drawn %d", m.drawn), "scope": scope}
	if bench, ok := d.out["bench"]; ok {
		doc["bench"] = bench
		delete(d.out, "bench")
	}
	doc["parts"] = maps.Clone(d.out)
	return doc
}

// facts are what a part states, by field.
type facts map[string]any

// drawer draws one mix.
type drawer struct {
	*rand.Rand
	out   map[string]facts
	teeth []int   // of the cassette
	pitch float64 // what the steps aim at
	ratio float64 // what turns a pull into such a step
	drive string  // cable or motor, for the most part at both ends
	roll  string  // the rollers of chain and teeth, for the most part of all
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

// rare are fields that take figures away where they stand.
var rare = map[string]bool{"idler_t": true, "kind_of_hub": true}

// part draws some facts of one part: few, many or nearly all of them.
func (d *drawer) part(t table) {
	density := []float64{0.3, 0.65, 0.95}[d.IntN(3)]
	fields := facts{}
	for _, f := range t.fields {
		if !f.required && !d.chance(density) || rare[f.name] && d.chance(0.85) {
			continue
		}
		if _, said := fields[f.excludes]; said || f.name == "pitches_mm" && len(d.teeth) == 1 {
			continue
		}
		if f.excludes != "" && d.chance(0.3) { // leave room for the other spelling
			continue
		}
		fields[f.name] = d.value(t.name, f)
	}
	if t.name != "bench" && d.chance(0.1) {
		fields["basis"] = "assumed"
	}
	d.out[t.name] = fields
}

// value draws one fact: like those of real parts where the drawer knows the
// field, anything in its range where it does not.
func (d *drawer) value(object string, f field) any {
	if likely := likelyValues[object+"."+f.name]; likely != nil {
		return likely(d)
	}
	if span, ok := likelyRanges[f.name]; ok && span[0] <= f.max && f.min <= span[1] { // a new kind may mean another thing by the name
		f.min, f.max = max(f.min, span[0]), min(f.max, span[1])
	}
	return d.anywhere(f)
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
	f := d.out
	for _, pair := range [][3]string{
		{"chain", "inner_width_mm", "outer_width_mm"}, {"rear_derailleur", "min_largest_cog_t", "max_cog_t"},
		{"crankset", "ring_thickness_mm", "wide_tooth_mm"}, {"chainring", "ring_thickness_mm", "wide_tooth_mm"},
		{"chain_guide", "ring_min_t", "ring_max_t"}, {"charger", "min_c", "max_c"},
		{"front_derailleur", "min_difference_t", "capacity_t"}, {"crankset", "inner_bolt_circle_mm", "bolt_circle_mm"},
		{"chainring", "inner_bolt_circle_mm", "bolt_circle_mm"},
	} {
		if a, b := f[pair[0]][pair[1]], f[pair[0]][pair[2]]; a != nil && b != nil && number(a) >= number(b) {
			delete(f[pair[0]], pair[1])
		}
	}
	if f["frame"]["rear_suspension"] == "none" {
		delete(f["frame"], "growth_at_sag_mm")
		if f["frame"]["chain_growth_mm"] != nil {
			f["frame"]["chain_growth_mm"] = 0
		}
	}
	d.withdraw()
	if pulls, ok := f["rear_shifter"]["pulls_mm"].([]float64); ok && f["rear_shifter"]["clicks"] != nil {
		f["rear_shifter"]["clicks"] = len(pulls)
	}
	if f["crankset"]["ring_offset_mm"] != nil {
		f["crankset"]["ring_offset_mm"] = d.list(len(f["crankset"]["rings_t"].([]int)), -7, 7)
	}
}

// number gives a drawn number.
func number(v any) float64 {
	if n, ok := v.(int); ok {
		return float64(n)
	}
	return v.(float64)
}

// loosen gives some fractions a tolerance, where it stays in the field's range.
func (d *drawer) loosen(tables []table) {
	for _, t := range tables {
		for _, f := range t.fields {
			x, ok := d.out[t.name][f.name].(float64)
			if !ok || d.IntN(8) > 0 {
				continue
			}
			if tol := []float64{0.02, 0.05, 0.2}[d.IntN(3)]; f.min <= x-tol && x+tol <= f.max {
				d.out[t.name][f.name] = fmt.Sprintf("%v ± %v", x, tol)
			}
		}
	}
}

// rising adds up distances near the aim: positions from 0.
func (d *drawer) rising(n int) []float64 {
	out := make([]float64, n)
	for i := 1; i < n; i++ {
		out[i] = math.Round((out[i-1]+d.near(0.08))*100) / 100
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

// rings draws one to three rings.
func (d *drawer) rings() []int {
	out := d.wholes(1+d.IntN(3), 22, 53)
	slices.Sort(out)
	return slices.Compact(out)
}

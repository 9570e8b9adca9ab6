// Package stock makes large catalogues for tests and measurements: seeded, of parts
// like those of the demo, with the repetition and the gaps that a shop's data has. All
// of it is invented.
//
//	parts, err := stock.Make(stock.Options{Seed: 1, Each: 10_000, Kinds: stock.Kinds()})
//	c, err := catalog.Of(parts...)
//
// Of every kind there are four times the root of Each models, the popular ones with far
// more articles than the others. Three articles in a hundred lack a fact or two, one in
// a hundred was measured a little off.
package stock

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/rules/fact"
)

// Options say what to make.
type Options struct {
	Seed  uint64
	Each  int      // articles of every kind
	Kinds []string // of the catalogue
	Price Pricing
}

// Pricing is how prices lie.
type Pricing uint8

// The pricings.
const (
	Usual   Pricing = iota // as in the demo, a few per cent either way
	Hurting                // a model costs between one and ten times that
	Equal                  // all the same
)

// Kinds are the eight kinds that a drivetrain is completed with.
func Kinds() []string {
	return []string{"cassette", "chain", "chain_connector", "rear_derailleur", "rear_shifter", "crankset", "bottom_bracket", "hub"}
}

// Make makes articles, those of a kind together. Equal options, equal articles.
func Make(o Options) ([]catalog.Part, error) {
	base, err := catalog.Load(demo.Files())
	if err != nil {
		return nil, err
	}
	m := maker{Rand: rand.New(rand.NewPCG(o.Seed, 1931)), options: o}
	var out []catalog.Part
	for _, kind := range o.Kinds {
		parts, err := m.kind(kind, base.OfKind(kind))
		if err != nil {
			return nil, err
		}
		out = append(out, parts...)
	}
	return out, nil
}

type maker struct {
	*rand.Rand
	options Options
}

// model is what articles have in common.
type model struct {
	fields map[string]any
	cents  int
}

// kind makes the articles of a kind, like these.
func (m *maker) kind(kind string, like []catalog.Part) ([]catalog.Part, error) {
	if len(like) == 0 {
		return nil, fmt.Errorf("stock: the demo has no %s", kind)
	}
	models := make([]model, 4*int(math.Sqrt(float64(m.options.Each))))
	for i := range models {
		models[i] = m.model(like[m.IntN(len(like))])
	}
	word := strings.ReplaceAll(kind, "_", "-")
	popular := rand.NewZipf(m.Rand, 1.3, 4, uint64(len(models)-1))
	out := make([]catalog.Part, 0, m.options.Each)
	for i := range m.options.Each {
		of := models[popular.Uint64()]
		fields := maps.Clone(of.fields)
		m.flaw(kind, fields)
		fields["id"], fields["name"] = fmt.Sprintf("%s-%d", word, i), "Invented article"
		fields["price"] = m.price(of.cents)
		p, err := catalog.New(kind, fields)
		if err != nil { // what a gap leaves does not go together: the whole article then
			fields = maps.Clone(of.fields)
			fields["id"], fields["name"], fields["price"] = fmt.Sprintf("%s-%d", word, i), "Invented article", m.price(of.cents)
			if p, err = catalog.New(kind, fields); err != nil {
				return nil, err
			}
		}
		out = append(out, p)
	}
	return out, nil
}

// standards are sizes that no maker moves a little.
var standards = map[string]bool{
	"chain.pitch_mm": true, "hub.over_locknut_mm": true, "crankset.bolt_circle_mm": true, "crankset.inner_bolt_circle_mm": true,
	"rear_shifter.clamp_diameter_mm": true, "crankset.length_mm": true, "rear_derailleur.cell_max_v": true,
}

// model makes one like a part of the demo, some of its numbers a little elsewhere.
func (m *maker) model(like catalog.Part) model {
	out := model{fields: stated(like), cents: 5000}
	if cents, ok := like.Cents(); ok {
		out.cents = int(cents)
	}
	for _, name := range slices.Sorted(maps.Keys(out.fields)) {
		f := field(like, name)
		x, number := out.fields[name].(float64)
		if !number || f.Grid() == 0 || standards[like.Kind()+"."+name] || m.IntN(6) > 0 {
			continue
		}
		moved := math.Round((x+m.NormFloat64()*max(3*f.Grid(), 0.004*x))/f.Grid()) * f.Grid()
		if moved >= f.Min && moved <= f.Max {
			out.fields[name] = moved
			if _, err := catalog.New(like.Kind(), named(out.fields)); err != nil {
				out.fields[name] = x
			}
		}
	}
	switch m.options.Price {
	case Hurting:
		out.cents = out.cents * (10 + m.IntN(91)) / 10
	case Equal:
		out.cents = 5000
	}
	return out
}

// named gives fields with the name that a part must have.
func named(fields map[string]any) map[string]any {
	out := maps.Clone(fields)
	out["id"], out["name"] = "any", "any"
	return out
}

// flaw takes a fact or two from three articles in a hundred, and moves a number of one
// in a hundred by a step of measuring.
func (m *maker) flaw(kind string, fields map[string]any) {
	names := slices.Sorted(maps.Keys(fields))
	switch n := m.IntN(100); {
	case n < 3:
		for range 1 + m.IntN(2) {
			delete(fields, names[m.IntN(len(names))])
		}
	case n == 3:
		name := names[m.IntN(len(names))]
		if x, ok := fields[name].(float64); ok && x != math.Trunc(x) && !standards[kind+"."+name] {
			fields[name] = math.Round(100*x+float64(m.IntN(3)-1)) / 100
		}
	}
}

// price is that of an article, as a part file has it.
func (m *maker) price(cents int) string {
	if m.options.Price == Usual {
		cents += cents * m.IntN(9) / 100
	}
	return fmt.Sprintf("%d.%02d", cents/100, cents%100)
}

// stated gives what a part states, as catalog.New takes it.
func stated(p catalog.Part) map[string]any {
	out := map[string]any{}
	for i, f := range p.Record().Object().Table().Fields() {
		if v := p.Record().Value(i); v.Known && p.States(f.Name) {
			if f.Type == fact.Names && len(v.Words()) == 1 {
				out[f.Name] = v.Words()[0]
				continue
			}
			out[f.Name] = v.Plain(f.Type)
		}
	}
	return out
}

func field(p catalog.Part, name string) fact.Field {
	i, _ := p.Record().Object().Table().Index(name)
	return p.Record().Object().Table().Fields()[i]
}

package draw

import (
	"fmt"
	"math/rand/v2"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
)

// Listed draws mixes of the parts of the demo: most name them by id, some
// describe one in place or hold bench facts, and some are maps of parts alone, as
// the batch mode takes them.
type Listed struct {
	random *rand.Rand
	parts  *catalog.Catalog
	drawn  int
}

// NewListed begins a row of mixes.
func NewListed(seed uint64) (*Listed, error) {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		return nil, err
	}
	return &Listed{random: rand.New(rand.NewPCG(seed, 0)), parts: parts}, nil
}

// Parts are the parts that the mixes name.
func (l *Listed) Parts() *catalog.Catalog { return l.parts }

// Next draws a mix: what a mix file holds, or the map from kinds to ids alone.
func (l *Listed) Next() map[string]any {
	chosen := map[string]any{}
	for _, kind := range catalog.Kinds() {
		of := l.parts.OfKind(kind.Name())
		if len(of) == 0 || l.random.IntN(10) < 2 {
			continue
		}
		chosen[kind.Name()] = of[l.random.IntN(len(of))].ID()
	}
	if l.random.IntN(8) == 0 {
		chosen["cassette"] = l.cassette()
	}
	i := l.drawn
	l.drawn++
	if l.random.IntN(5) == 0 && len(chosen) > 0 {
		return chosen
	}
	mix := map[string]any{"mix": fmt.Sprintf("Generated %d", i), "scope": []string{"cart", "bike"}[l.random.IntN(2)], "parts": chosen}
	if l.random.IntN(3) == 0 {
		mix["bench"] = map[string]any{"chain_pitches": 2 * (50 + l.random.IntN(15)), "spacer_behind_mm": float64(l.random.IntN(5)) / 2}
	}
	return mix
}

// Mix draws one that is no map of parts alone.
func (l *Listed) Mix() map[string]any {
	mix := l.Next()
	if _, whole := mix["mix"]; !whole {
		mix = map[string]any{"mix": fmt.Sprintf("Generated %d", l.drawn-1), "parts": mix}
	}
	return mix
}

// cassette describes one in place.
func (l *Listed) cassette() map[string]any {
	n := 7 + l.random.IntN(6)
	cogs := []int{9 + l.random.IntN(4)}
	for len(cogs) < n {
		cogs = append(cogs, cogs[len(cogs)-1]+1+l.random.IntN(4))
	}
	usual := []float64{5, 4.8, 4.34, 3.95, 3.8, 3.65}
	return map[string]any{"cogs_t": cogs, "pitch_mm": usual[n-7]}
}

// Cart draws a cart: up to three bicycles, and lines of parts by id or number,
// of which some are no parts and some say which bicycle they are for.
func (l *Listed) Cart() map[string]any {
	all := l.parts.Parts()
	bikes, lines := []any{}, []any{}
	for i := range l.random.IntN(4) {
		bike := l.Mix()
		bike["mix"] = fmt.Sprintf("Bike %d", i+1)
		bikes = append(bikes, bike)
	}
	for range 1 + l.random.IntN(6) {
		p := all[l.random.IntN(len(all))]
		line := map[string]any{"id": p.ID(), "quantity": 1 + l.random.IntN(3)}
		switch l.random.IntN(8) {
		case 0:
			line = map[string]any{"sku": "BELL-3", "name": "A brass bell"}
		case 1, 2:
			if p.SKU() != "" {
				line = map[string]any{"sku": p.SKU()}
			}
		}
		if l.random.IntN(3) == 0 {
			line["bike"] = fmt.Sprintf("Bike %d", 1+l.random.IntN(3))
		}
		lines = append(lines, line)
	}
	return map[string]any{"cart": "Drawn", "bikes": bikes, "lines": lines}
}

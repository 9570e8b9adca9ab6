// Command mixes prints generated mixes, one JSON object a line, for the batch
// mode of cogcourt check: most name parts of the demo by id, some describe parts
// in place or hold bench facts, and some are maps of parts alone. The same flags
// give the same lines.
//
//	mixes -n 100000 | cogcourt check --format jsonl - > reports.jsonl
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
)

func main() {
	n := flag.Int("n", 1000, "how many mixes")
	seed := flag.Uint64("seed", 1, "another seed gives other mixes")
	flag.Parse()
	if err := run(*n, *seed); err != nil {
		fmt.Fprintln(os.Stderr, "mixes:", err)
		os.Exit(1)
	}
}

func run(n int, seed uint64) error {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		return err
	}
	out := bufio.NewWriter(os.Stdout)
	enc := json.NewEncoder(out)
	g := generator{Rand: rand.New(rand.NewPCG(seed, 0)), parts: parts}
	for i := range n {
		if err := enc.Encode(g.mix(i)); err != nil {
			return err
		}
	}
	return out.Flush()
}

// generator draws mixes.
type generator struct {
	*rand.Rand
	parts *catalog.Catalog
}

// mix draws one mix.
func (g *generator) mix(i int) any {
	chosen := map[string]any{}
	for _, kind := range catalog.Kinds() {
		of := g.parts.OfKind(kind.Name())
		if len(of) == 0 || g.IntN(10) < 2 {
			continue
		}
		chosen[kind.Name()] = of[g.IntN(len(of))].ID()
	}
	if g.IntN(8) == 0 {
		chosen["cassette"] = g.cassette()
	}
	if g.IntN(5) == 0 && len(chosen) > 0 {
		return chosen
	}
	mix := map[string]any{"mix": fmt.Sprintf("Generated %d", i), "scope": []string{"cart", "bike"}[g.IntN(2)], "parts": chosen}
	if g.IntN(3) == 0 {
		mix["bench"] = map[string]any{"chain_pitches": 2 * (50 + g.IntN(15)), "spacer_behind_mm": float64(g.IntN(5)) / 2}
	}
	return mix
}

// cassette describes one in place.
func (g *generator) cassette() map[string]any {
	n := 7 + g.IntN(6)
	cogs := []int{9 + g.IntN(4)}
	for len(cogs) < n {
		cogs = append(cogs, cogs[len(cogs)-1]+1+g.IntN(4))
	}
	usual := []float64{5, 4.8, 4.34, 3.95, 3.8, 3.65}
	return map[string]any{"cogs_t": cogs, "pitch_mm": usual[n-7]}
}

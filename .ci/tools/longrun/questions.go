package main

import (
	"context"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/fit"
)

// swappedMix and swappedCart name the part of which there are two editions.
const (
	swappedMix = `{"mix": "Swapped", "parts": {"cassette": "swapped", "chain": "towrope-9", "crankset": "windlass-46-30", "rear_derailleur": "landing-rd-9-long",
		"rear_shifter": "landing-sh-9", "frame": "shoreline-tour-445"}}`
	swappedCart = `{"cart": "Swapped", "bikes": [` + swappedMix + `, {"mix": "Other", "parts": {"cassette": "hauler-9-11-40"}}],
		"lines": [{"sku": "SWAPPED", "bike": "Other"}, {"id": "towrope-12", "bike": "Swapped"}, {"sku": "BELL", "name": "Bell"}]}`
)

// questions are checks, sheets, comparisons, carts, fits and exchanges.
func questions() []question {
	var out []question
	mixes := map[string][]byte{"swapped": []byte(swappedMix)}
	names := []string{"swapped"}
	for _, name := range demo.Mixes() {
		mixes[name], _ = demo.Mix(name)
		names = append(names, name)
	}
	for _, name := range names {
		out = append(out, ofMix(name, mixes[name])...)
	}
	order, _ := demo.Order("order")
	for name, text := range map[string][]byte{"order": order, "swapped": []byte(swappedCart)} { // in any order
		out = append(out, question{name: "cart " + name, cart: text, ask: func(c *compat.Checker, parts *catalog.Catalog, _ *fit.Index) ([]byte, error) {
			read, err := cart.Read("cart.yaml", text, parts)
			if err != nil {
				return nil, err
			}
			got, _, err := read.AppendCheck(context.Background(), nil, c, parts)
			return got, err
		}})
	}
	return append(out, searches(mixes["fleet-three-faults"])...)
}

// ofMix are the questions that need no more than a mix.
func ofMix(name string, text []byte) []question {
	with := func(what string, use func(c *compat.Checker, m compat.Mix) ([]byte, error)) question {
		return question{name: what + " " + name, ask: func(c *compat.Checker, parts *catalog.Catalog, _ *fit.Index) ([]byte, error) {
			m, err := compat.ReadMix("mix.yaml", text, parts)
			if err != nil {
				return nil, err
			}
			return use(c, m)
		}}
	}
	return []question{
		with("check", func(c *compat.Checker, m compat.Mix) ([]byte, error) { return c.Check(m).MarshalJSON() }),
		with("check once", func(c *compat.Checker, m compat.Mix) ([]byte, error) {
			out, _ := c.AppendCheck(nil, m, compat.ExtentBrief, 1)
			return out, nil
		}),
		with("sheet", func(c *compat.Checker, m compat.Mix) ([]byte, error) { return c.Sheet(m).MarshalJSON() }),
		with("compare", func(c *compat.Checker, m compat.Mix) ([]byte, error) {
			return compat.Compare(c.Check(m.Without("chain")), c.Check(m)).MarshalJSON()
		}),
	}
}

// searches ask an index which parts go on a bicycle, and what mends it.
func searches(text []byte) []question {
	read := func(parts *catalog.Catalog) (compat.Mix, error) { return compat.ReadMix("mix.yaml", text, parts) }
	return []question{
		{name: "fit", searches: true, ask: func(_ *compat.Checker, parts *catalog.Catalog, ix *fit.Index) ([]byte, error) {
			m, err := read(parts)
			if err != nil {
				return nil, err
			}
			a, err := ix.Fit(context.Background(), fit.Query{Mix: m, Kinds: []string{"cassette"}, Limit: 2, Budget: 300})
			if err != nil {
				return nil, err
			}
			return a.MarshalJSON()
		}},
		{name: "swap", searches: true, ask: func(_ *compat.Checker, parts *catalog.Catalog, ix *fit.Index) ([]byte, error) {
			m, err := read(parts)
			if err != nil {
				return nil, err
			}
			mending, err := ix.SwapBy(context.Background(), fit.Query{Mix: m, Budget: 300}, 2)
			if err != nil {
				return nil, err
			}
			return mending.MarshalJSON()
		}},
	}
}

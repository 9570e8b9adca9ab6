package cart

import (
	"context"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// Options are what a check of a cart does beside judging. The zero Options add nothing.
type Options struct {
	// Mend looks for the smallest exchange that mends each bicycle which fails as it
	// will be: of the parts that the cart brings where that is enough, else of any
	// but the frame.
	Mend bool

	// Index is of the catalogue that the cart is checked with, and serves any number of
	// carts. Nil makes one for this cart alone, which takes longer than a check.
	Index *fit.Index

	// Price tells what a part costs, in hundredths, and whether it can be had; see
	// fit.Query. Nil takes the prices that parts state.
	Price func(catalog.Part) (cents int64, has bool)
}

// Mending is what would mend a bicycle that fails as the cart leaves it.
type Mending struct {
	Bike  string // its name
	Place int    // among the bicycles of the cart, from 0
	fit.Mending
}

// mendingsShown is how many exchanges a cart is offered for a bicycle.
const mendingsShown = 3

// mend looks for what mends the bicycles of a report.
func (r *Report) mend(ctx context.Context, o Options, with *compat.Checker, from *catalog.Catalog) error {
	r.Mendings = []Mending{}
	for i, bike := range r.Bikes {
		if bike.After.Verdict != rules.Fail {
			continue
		}
		if o.Index == nil {
			o.Index = fit.NewIndex(with, from)
		}
		m, err := mending(ctx, o, bike)
		if err != nil {
			return err
		}
		r.Mendings = append(r.Mendings, Mending{bike.After.Mix.Name(), r.place(i), m})
	}
	return nil
}

// mending looks among the kinds that the cart brings first: the bicycle is the
// customer's, and what is only ordered is exchanged for nothing.
func mending(ctx context.Context, o Options, bike compat.Change) (fit.Mending, error) {
	q := fit.Query{Mix: bike.After.Mix, Price: o.Price, Limit: mendingsShown}
	for _, p := range bike.After.Mix.Parts() {
		if old, had := bike.Before.Mix.Part(p.Kind()); !had || old != p {
			q.Kinds = append(q.Kinds, p.Kind())
		}
	}
	if len(q.Kinds) > 0 {
		if m, err := o.Index.SwapBy(ctx, q, 0); err != nil || len(m.Swaps) > 0 {
			return m, err
		}
	}
	q.Kinds = nil
	return o.Index.SwapBy(ctx, q, 0)
}

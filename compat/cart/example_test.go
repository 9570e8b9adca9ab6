package cart_test

import (
	"context"
	"fmt"
	"slices"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
)

// A shop's back end: what the cart changes on each bicycle, and which line is to
// blame. A server would read the cart from the request and answer with the
// report as JSON; here it is the order of the demo.
func ExampleLive_CheckCart() {
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		fmt.Println(err) // which rule or part file, and where
		return
	}
	order, _ := demo.Order("order")
	report, err := live.CheckCart(context.Background(), "order.yaml", order)
	if err != nil {
		fmt.Println(err) // which line, and what is wrong with it
		return
	}
	for i, line := range report.Lines {
		fmt.Println(i+1, line)
	}
	for _, bike := range report.Bikes {
		fmt.Println(bike.After.Mix.Name(), bike.Before.Verdict, "to", bike.After.Verdict)
		for _, f := range slices.Concat(bike.Worse, bike.New) {
			fmt.Println("-", f.Rule, f.Was, "to", f.Now, "because of", f.Causes) // f.Text says why
		}
	}
	// Output:
	// 1 SD-1251: fitted to Ferry 7 (paired by trying: elsewhere it brings a fault)
	// 2 WC-2012: fitted to Ferry 7, 1 spare
	// 3 hauler-9-11-40: fitted to Club tourer
	// 4 WC-2009: fitted to Club tourer (paired by trying: elsewhere it brings a fault)
	// 5 BELL-3: ignored (the catalogue has no such part)
	// 6 GF-6048: fitted to Club tourer
	// 7 tiller-bar-flat: ambiguous (it goes as well with Ferry 7 as with Club tourer; say for which one it is)
	// Ferry 7 warn to warn
	// Club tourer pass to fail
	// - bottom-bracket/spindle pass to fail because of [[line 6]]
	// - cassette/largest-cog pass to warn because of [[line 3]]
	// - cassette/capacity pass to warn because of [[line 3 line 6]]
	// - chain/length pass to warn because of [[line 3 line 6]]
	// - front/max-ring pass to warn because of [[line 6]]
	// - front/capacity pass to warn because of [[line 6]]
	// - front/chainline pass to warn because of [[line 6]]
	// - front/rings pass to warn because of [[line 6]]
}

// Two shops have rules of their own and share one catalogue. What either does is told to
// its observer, here as a line without times; slog.Info("cogcourt", "event", e) logs it.
func ExampleLiveOf() {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, shop := range []string{"wharf", "club"} {
		rules, err := compat.New(compat.Config{Observe: func(e compat.Event) {
			if e.Did == compat.DidSwap || e.Did == compat.DidCart {
				fmt.Println(shop, e.Did, e.Name, e.Verdict, e.Parts > 0)
			}
		}})
		if err != nil {
			fmt.Println(err)
			return
		}
		live, err := cart.LiveOf(context.Background(), rules, parts)
		if err != nil {
			fmt.Println(err) // which example of a rule does not hold
			return
		}
		order, _ := demo.Order("order")
		if _, err := live.CheckCart(context.Background(), "order.yaml", order); err != nil {
			fmt.Println(err)
			return
		}
	}
	// Output:
	// wharf swap demo (invented) unknown true
	// wharf cart Order 1207 fail false
	// club swap demo (invented) unknown true
	// club cart Order 1207 fail false
}

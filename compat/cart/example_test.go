package cart_test

import (
	"context"
	"fmt"
	"slices"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
)

// order is a cart of seven lines for two bicycles (invented). Three lines say for
// which bicycle they are, one is no drivetrain part, and one goes with either.
const order = `{
  "cart": "Order 1207",
  "bikes": [
    {"mix": "Ferry 7", "scope": "bike", "parts": {
      "cassette": "reedbed-12-10-51", "chain": "lantern-chain-12", "chain_connector": "lantern-link-12",
      "rear_derailleur": "lantern-rd-52", "rear_shifter": "lantern-pod", "crankset": "capstan-32",
      "bottom_bracket": "capstan-bb-73", "hub": "slipway-148-s23", "frame": "gangway-s-430", "cockpit": "tiller-bar-flat",
      "wheel": "slipway-wheel-61-622", "cell": "skellow-pack", "charger": "skellow-charger"},
      "bench": {"chain_pitches": 118, "spacer_behind_mm": 0}},
    {"mix": "Club tourer", "scope": "bike", "parts": {
      "cassette": "reedbed-9-11-34", "chain": "towrope-9", "chain_connector": "towrope-link-9",
      "rear_derailleur": "landing-rd-9-long", "rear_shifter": "landing-sh-9", "crankset": "windlass-46-30",
      "front_derailleur": "landing-fd-tour", "front_shifter": "landing-fs-flat", "bottom_bracket": "capstan-bb-68",
      "hub": "slipway-135-s9", "frame": "shoreline-tour-445", "cockpit": "tiller-bar-flat"}}
  ],
  "lines": [
    {"sku": "SD-1251", "name": "Cassette 10-51"},
    {"sku": "WC-2012", "name": "Chain", "quantity": 2, "bike": "Ferry 7"},
    {"id": "hauler-9-11-40", "bike": "Club tourer"},
    {"sku": "WC-2009", "name": "Chain"},
    {"sku": "BELL-3", "name": "A brass bell"},
    {"sku": "GF-6048", "name": "Crank, three rings", "bike": "Club tourer"},
    {"id": "tiller-bar-flat"}
  ]
}`

// A shop's back end: what the cart changes on each bicycle, and which line is to
// blame. A server would read the cart from the request and answer with the
// report as JSON.
func ExampleLive_CheckCart() {
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		fmt.Println(err) // which rule or part file, and where
		return
	}
	report, err := live.CheckCart(context.Background(), "order.json", []byte(order))
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
	// - cassette/capacity pass to fail because of [[line 3 line 6]]
	// - bottom-bracket/spindle pass to fail because of [[line 6]]
	// - cassette/largest-cog pass to warn because of [[line 3]]
	// - chain/length pass to warn because of [[line 3 line 6]]
	// - front/max-ring pass to warn because of [[line 6]]
	// - front/capacity pass to warn because of [[line 6]]
}

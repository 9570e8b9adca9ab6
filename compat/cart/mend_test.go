package cart_test

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// A cart that makes a bicycle fail is offered exchanges of what it brings; each mends
// the bicycle by a whole check.
func TestMend(t *testing.T) {
	text, _ := demo.Order("order")
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	c, _ := live.Now()
	r, err := live.CheckCartWith(context.Background(), "order.yaml", text, cart.Options{Mend: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Mendings) != 1 || r.Mendings[0].Bike != "Club tourer" || r.Mendings[0].Parts != 1 || len(r.Mendings[0].Swaps) < 2 {
		t.Fatalf("mendings: %+v", r.Mendings)
	}
	for _, choice := range r.Mendings[0].Swaps {
		if v := c.Check(choice.Mix()).Verdict; v == rules.Fail || choice.Parts[0].Kind() != "crankset" {
			t.Errorf("with %s %s it is %s", choice.Parts[0].Kind(), choice.Parts[0].ID(), v)
		}
	}
	plain, err := live.CheckCart(context.Background(), "order.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	if asked, not := mendingsOf(t, r), mendingsOf(t, plain); asked != 1 || not != 0 {
		t.Errorf("%d mendings are printed, and %d where nobody asked", asked, not)
	}
}

// mendingsOf counts the mendings in the JSON of a report.
func mendingsOf(t *testing.T, r cart.Report) int {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var got struct{ Mendings []json.RawMessage }
	if err := json.Unmarshal(text, &got); err != nil || got.Mendings == nil {
		t.Fatalf("mendings %v, %v", got.Mendings, err)
	}
	return len(got.Mendings)
}

// What cannot be had mends nothing; and where the parts of the cart do not mend it, those
// of the bicycle are for exchange too.
func TestMendOfWhatThereIs(t *testing.T) {
	parts, c := shelf(t), checker(t)
	read := func(lines string) cart.Cart {
		basket, err := cart.Read("cart.yaml", []byte(twoBikes+"lines:\n"+lines), parts)
		if err != nil {
			t.Fatal(err)
		}
		return basket
	}
	sold := func(not string) func(catalog.Part) (int64, bool) {
		return func(p catalog.Part) (int64, bool) { return 100, p.Kind() != not }
	}
	check := func(lines string, o cart.Options) cart.Report {
		o.Mend = true
		r, err := read(lines).CheckWith(context.Background(), c, parts, o)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	const mount = "  - {id: foghorn-pod, bike: Ferry 7}\n" // a controller of another family
	r := check(mount, cart.Options{Price: sold("none")})
	if len(r.Mendings) != 1 || len(r.Mendings[0].Swaps) == 0 || r.Mendings[0].Swaps[0].Parts[0].Kind() != "rear_shifter" {
		t.Fatalf("mendings: %+v", r.Mendings)
	}
	r = check(mount, cart.Options{Price: sold("rear_shifter"), Index: fit.NewIndex(c, parts)})
	if len(r.Mendings) != 1 || len(r.Mendings[0].Swaps) == 0 || r.Mendings[0].Swaps[0].Parts[0].Kind() != "rear_derailleur" {
		t.Fatalf("mendings without shifters: %+v", r.Mendings)
	}
	if r = check("  - {sku: WC-2012, bike: Ferry 7}\n", cart.Options{}); r.Mendings == nil || len(r.Mendings) > 0 {
		t.Errorf("a cart that fails nothing has mendings: %+v", r.Mendings)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := read(mount).CheckWith(ctx, c, parts, cart.Options{Mend: true}); err == nil || !strings.Contains(err.Error(), "canceled") {
		t.Errorf("a cancelled check gives %v", err)
	}
}

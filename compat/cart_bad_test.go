package compat_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// What is wrong with a cart file is said at its place, all at once.
func TestBadCarts(t *testing.T) {
	tests := []struct{ name, file, want string }{
		{"no lines", "cart: Order\n", "cart.yaml:1:1: the cart has no lines"},
		{"not a map", "- id: x\n", "cart.yaml:1:1"},
		{"a line that is nothing", "lines:\n  - {quantity: 2}\n", "cart.yaml:2:5: lines[0]: the line says not what it is"},
		{"a line that is a text", "lines:\n  - towrope-9\n", "cart.yaml:2:5: lines[0]"},
		{"no quantity", "lines:\n  - {id: towrope-9, quantity: 0}\n", "cart.yaml:2:31: lines[0].quantity: 0 is no quantity"},
		{"half a quantity", "lines:\n  - {id: towrope-9, quantity: 1.5}\n", "cart.yaml:2:31: lines[0].quantity"},
		{"a misspelt key", "lines:\n  - {id: towrope-9, quantitiy: 1}\n", "cart.yaml:2:21: lines[0]: unknown entry \"quantitiy\""},
		{"a bad bicycle", "bikes:\n  - {mix: A, parts: {chain: towrope-99}}\nlines: []\n", "cart.yaml:2:29: parts.chain: no part is called \"towrope-99\""},
		{"two of a name", "bikes:\n  - {mix: A, parts: {}}\n  - {mix: A, parts: {}}\nlines: []\n", "cart.yaml:3:5: bikes: two bicycles are called \"A\""},
		{"two faults", "lines:\n  - {quantity: 1}\n  - {id: 9}\n", "cart.yaml:3:10: lines[1].id"},
	}
	parts := shelf(t)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := compat.ReadCart("cart.yaml", []byte(test.file), parts)
			var ps source.Problems
			if !errors.As(err, &ps) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got  %v\nwant %s", err, test.want)
			}
		})
	}
}

// A cart that a program made is held against the same limits.
func TestBadCartsOfPrograms(t *testing.T) {
	parts, c := shelf(t), checker(t)
	bike, err := compat.NewMix("A", compat.ScopeBike)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name string
		cart compat.Cart
		from *catalog.Catalog
		want string
	}{
		{"no catalogue", compat.Cart{Name: "X"}, nil, "cart X: there is no catalogue"},
		{"less than nothing", compat.Cart{Name: "X", Lines: []compat.CartLine{{ID: "towrope-9", Quantity: -1}}}, parts, "cart X: lines[0].quantity: -1 is no quantity"},
		{"two of a name", compat.Cart{Name: "X", Bikes: []compat.Mix{bike, bike}}, parts, `cart X: bikes: two bicycles are called "A"`},
		{"too many lines", compat.Cart{Name: "X", Lines: make([]compat.CartLine, 1001)}, parts, "1001 lines and 0 bicycles are too many"},
	}
	for _, test := range tests {
		_, err := c.CheckCart(context.Background(), test.cart, test.from)
		var ps source.Problems
		if !errors.As(err, &ps) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want %s", test.name, err, test.want)
		}
	}
}

// A cart of nothing that rides decides nothing, and one that was cancelled says so.
func TestCartOfNothing(t *testing.T) {
	parts, c := shelf(t), checker(t)
	r := judged(t, c, parts, cartFile("", "{sku: BELL}"))
	if r.Verdict != rules.Unknown || r.Complete || len(r.Bikes) != 0 {
		t.Errorf("%+v", r)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	cart, err := compat.ReadCart("cart.yaml", []byte(cartFile(twoBikes, "{id: tiller-bar-flat}")), parts)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.CheckCart(ctx, cart, parts); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// A cart that leaves everything open ends in time and names every line.
func TestCartOfManyWays(t *testing.T) {
	parts, c := shelf(t), checker(t)
	cart := compat.Cart{Name: "many"}
	for i := range 100 {
		m, _ := compat.NewMix(fmt.Sprint(i), compat.ScopeBike)
		cart.Bikes = append(cart.Bikes, m)
	}
	for _, p := range parts.Parts() {
		cart.Lines = append(cart.Lines, compat.CartLine{ID: p.ID()}, compat.CartLine{ID: p.ID() + "x"})
	}
	r, err := c.CheckCart(context.Background(), cart, parts)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Lines {
		if l.Use != "ambiguous" && l.Use != "ignored" {
			t.Fatalf("%s", l)
		}
	}
}

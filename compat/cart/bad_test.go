package cart_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
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
		{"a bicycle of no such class", "bikes:\n  - {mix: A, parts: {chain: {id: usual-chain-99}}}\nlines: []\n", "cart.yaml:2:34: parts.chain.id: no part is called \"usual-chain-99\""},
		{"two of a name", "bikes:\n  - {mix: A, parts: {}}\n  - {mix: A, parts: {}}\nlines: []\n", "cart.yaml:3:5: bikes: two bicycles are called \"A\""},
		{"two faults", "lines:\n  - {quantity: 1}\n  - {id: 9}\n", "cart.yaml:3:10: lines[1].id"},
	}
	parts := shelf(t)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := cart.Read("cart.yaml", []byte(test.file), parts)
			var ps source.Problems
			if !errors.As(err, &ps) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got  %v\nwant %s", err, test.want)
			}
			if slices.ContainsFunc(ps, func(p source.Problem) bool { return p.Code == "" || p.Code == source.Invalid }) {
				t.Errorf("a problem without a code: %v", ps)
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
		name   string
		basket cart.Cart
		from   *catalog.Catalog
		want   string
	}{
		{"no catalogue", cart.Cart{Name: "X"}, nil, "cart X: there is no catalogue"},
		{"less than nothing", cart.Cart{Name: "X", Lines: []cart.Line{{ID: "towrope-9", Quantity: -1}}}, parts, "cart X: lines[0].quantity: -1 is no quantity"},
		{"two of a name", cart.Cart{Name: "X", Bikes: []compat.Mix{bike, bike}}, parts, `cart X: bikes: two bicycles are called "A"`},
		{"too many lines", cart.Cart{Name: "X", Lines: make([]cart.Line, 1001)}, parts, "1001 lines and 0 bicycles are too many"},
	}
	for _, test := range tests {
		_, err := test.basket.Check(context.Background(), c, test.from)
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
	basket, err := cart.Read("cart.yaml", []byte(cartFile(twoBikes, "{id: tiller-bar-flat}")), parts)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := basket.Check(ctx, c, parts); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// A cart without a name and without bicycles makes one that is called so.
func TestCartWithoutNames(t *testing.T) {
	r := judged(t, checker(t), shelf(t), "lines: [{id: towrope-9, quantity: 2}]")
	if len(r.Bikes) != 1 || r.Lines[0].String() != "towrope-9: fitted to the bicycle, 1 spare" {
		t.Errorf("%d bicycles, %s", len(r.Bikes), r.Lines[0])
	}
}

// A cart that leaves everything open ends in time and names every line.
func TestCartOfManyWays(t *testing.T) {
	parts, c := shelf(t), checker(t)
	basket := cart.Cart{Name: "many"}
	for i := range 100 {
		m, _ := compat.NewMix(fmt.Sprint(i), compat.ScopeBike)
		basket.Bikes = append(basket.Bikes, m)
	}
	for _, p := range parts.Parts() {
		basket.Lines = append(basket.Lines, cart.Line{ID: p.ID()}, cart.Line{ID: p.ID() + "x"})
	}
	r, err := basket.Check(context.Background(), c, parts)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Lines {
		if l.Use != cart.Ambiguous && l.Use != cart.Ignored {
			t.Fatalf("%s", l)
		}
	}
}

// What is tried are up to 4096 ways on up to 64 bicycles: eight bicycles and four lines of a
// kind each are 8^4, eleven and two lines of two parts each are 55^2. Beyond that nothing
// is tried, and every line is named with that for a reason.
func TestCartOfTooManyWays(t *testing.T) {
	c, parts := checker(t), shelf(t)
	kinds := []string{"cassette", "chain", "hub", "crankset", "frame"}
	for _, row := range []struct {
		bikes, lines, quantity int
		tooMany                bool
	}{
		{8, 4, 1, false}, {8, 5, 1, true}, {11, 2, 2, false}, {12, 2, 2, true}, {64, 1, 1, false}, {65, 1, 1, true}, {64, 1, 32, true},
	} {
		basket := cart.Cart{Name: "ways"}
		for i := range row.bikes {
			m, err := compat.NewMix(fmt.Sprint(i), compat.ScopeBike)
			if err != nil {
				t.Fatal(err)
			}
			basket.Bikes = append(basket.Bikes, m)
		}
		for _, kind := range kinds[:row.lines] {
			basket.Lines = append(basket.Lines, cart.Line{ID: parts.OfKind(kind)[0].ID(), Quantity: row.quantity})
		}
		r, err := basket.Check(context.Background(), c, parts)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range r.Lines {
			if l.Use != cart.Ambiguous || strings.Contains(l.Note, "too many ways") != row.tooMany {
				t.Errorf("%+v: %s", row, l)
			}
		}
	}
}

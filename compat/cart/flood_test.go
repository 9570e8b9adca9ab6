package cart_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
)

// TestFloodsAreShort reads files of nothing but mistakes: what a server answers is
// never many times what it was sent. More than a door lets in is one fault.
func TestFloodsAreShort(t *testing.T) {
	for many, end := range map[int]string{6_000: " more (", 55_000: "x.yaml: has more than "} {
		floods(t, many, end)
	}
}

func floods(t *testing.T, many int, end string) {
	t.Helper()
	var keys, kinds, lines strings.Builder
	for i := range many {
		fmt.Fprintf(&keys, "scop%d: 1\n", i)
		fmt.Fprintf(&kinds, "  casset%d: x\n", i)
		fmt.Fprintf(&lines, "  - %d\n", i)
	}
	mix := func(text string) error { _, err := compat.ReadMix("x.yaml", []byte(text), shelf(t)); return err }
	order := func(text string) error { _, err := cart.Read("x.yaml", []byte(text), shelf(t)); return err }
	for name, err := range map[string]error{
		"keys of a mix":   mix(keys.String()),
		"kinds of a mix":  mix("mix: a\nparts:\n" + kinds.String()),
		"keys of a part":  mix("mix: a\nparts:\n  chain:\n" + strings.ReplaceAll(kinds.String(), "  ", "    ")),
		"lines of a cart": order("lines:\n" + lines.String()),
		"a cart of bikes": order("lines: []\nbikes:\n" + lines.String()),
	} {
		if err == nil || !strings.Contains(err.Error(), end) || len(err.Error()) > 40<<10 {
			t.Errorf("%d %s: %d bytes, the end is %.100s", many, name, len(fmt.Sprint(err)), fmt.Sprint(err)[max(0, len(fmt.Sprint(err))-100):])
		}
	}
}

// TestListsOfMapsAreShown has carts in which a list of maps is something else.
func TestListsOfMapsAreShown(t *testing.T) {
	_, err := cart.Read("x.yaml", []byte("lines: towrope-9\nbikes: none\n"), shelf(t))
	const is = "must be a list, is a text (write its entries on the lines below, each as "
	for _, want := range []string{"1:8: lines: " + is + "- {id: ..., quantity: ...}", "2:8: bikes: " + is + "- {mix: ..., parts: ...}"} {
		if !strings.Contains(fmt.Sprint(err), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// TestHonestCarts holds that as many lines and bicycles as a cart may have get in by its
// limits, each as fully described as a shop may do.
func TestHonestCarts(t *testing.T) {
	var text strings.Builder
	text.WriteString("cart: Order 1207\nbikes:\n")
	for i := range 100 {
		fmt.Fprintf(&text, "  - mix: Ferry %d\n    scope: bike\n    bench: {chain_pitches: 118, spacer_behind_mm: 0, hanger_error_mm: 1}\n    parts:\n", i)
		for _, kind := range []string{"chain_connector: lantern-link-12", "rear_derailleur: lantern-rd-52", "rear_shifter: lantern-pod", "crankset: capstan-32",
			"hub: slipway-148-s23", "frame: gangway-s-430", "cockpit: tiller-bar-flat", "wheel: slipway-wheel-61-622", "cell: skellow-pack",
			"chain: {speeds: 12, outer_width_mm: 5.25, inner_width_mm: 2.2, pitches: 126}",
			"cassette: {cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 51], pitch_mm: 3.75 ± 0.02, cog_thickness_mm: 1.6, freehub: wide}"} {
			fmt.Fprintf(&text, "      %s\n", kind)
		}
	}
	text.WriteString("lines:\n")
	for i := range 1000 {
		fmt.Fprintf(&text, "  - {id: shop-article-%d, sku: \"400 638 133 %04d\", name: \"A part, or a bell: number %d\", quantity: 2, bike: Ferry %d, note: by the door}\n", i, i, i, i%100)
	}
	if _, err := cart.FileLimits().Parse("order.yaml", []byte(text.String())); err != nil {
		t.Errorf("%d bytes: %v", text.Len(), err)
	}
}

// TestClashesAreShort has a thousand lines that all clash: each names a few of the others.
func TestClashesAreShort(t *testing.T) {
	parts := shelf(t)
	var text strings.Builder
	text.WriteString("cart: a\nlines:\n")
	for i := range 1000 {
		fmt.Fprintf(&text, "  - {id: %s}\n", []string{"towrope-12", "lantern-chain-12"}[i%2])
	}
	r := judged(t, checker(t), parts, text.String())
	const want = "line 2 and line 4 and line 6 and line 8 and line 10 and others brings another part of the same kind for a"
	if got := r.Lines[0].Note; got != want || r.Lines[0].Use != cart.Ambiguous {
		t.Errorf("%.200s, want %s", got, want)
	}
	for i, l := range r.Lines {
		if len(l.Note) > 120 {
			t.Fatalf("line %d says %d bytes", i+1, len(l.Note))
		}
	}
}

// TestBikesOfLinesAreBounded holds that lines make no more bicycles of their own than a
// cart may have.
func TestBikesOfLinesAreBounded(t *testing.T) {
	parts := shelf(t)
	order := func(n int) cart.Cart {
		c := cart.Cart{Name: "a"}
		for i := range n {
			c.Lines = append(c.Lines, cart.Line{ID: "towrope-12", Bike: fmt.Sprint("Ferry ", i)})
		}
		return c
	}
	if r, err := order(100).Check(context.Background(), checker(t), parts); err != nil || len(r.Bikes) != 100 {
		t.Errorf("%d bicycles, %v", len(r.Bikes), err)
	}
	_, err := order(101).Check(context.Background(), checker(t), parts)
	if want := "cart a: lines: are for 101 bicycles (a cart has at most 100)"; fmt.Sprint(err) != want {
		t.Errorf("%v, want %s", err, want)
	}
}

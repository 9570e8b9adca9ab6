package cart_test

import (
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

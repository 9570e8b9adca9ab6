package cart_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"
	"unicode"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules/source"
)

// FuzzCart reads any text as a cart: it has faults with places, or it is judged in the same
// bytes by both doors, no line of it is lost, and a client reads the answer and writes it
// in the same bytes again.
func FuzzCart(f *testing.F) {
	c, parts := checker(f), shelf(f)
	order, _ := demo.Order("order")
	seeds := []string{
		string(order), "cart: C\n" + twoBikes + "lines:\n  - {id: hauler-9-11-40}\n  - {sku: WC-2012, quantity: 3, bike: Ferry 7}\n  - {sku: SET-9}\n  - {sku: EITHER, name: Either}\n",
		`{"cart": "J", "lines": [{"id": "towrope-9", "bike": "A"}, {"id": "hauler-9-11-40", "bike": "A"}, {"sku": "BELL", "name": "Bell", "quantity": 2}]}`,
		"lines:\n  - {id: tiller-bar-flat}\n  - {id: tiller-bar-drop}\n  - {id: donated-hub-130-deep}\n",
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		read, err := cart.Read([]string{"c.yaml", "c.json"}[choice%2], text, parts)
		if err != nil {
			inputFaults(t, err)
			return false
		}
		r, err := read.Check(t.Context(), c, parts)
		if err != nil {
			inputFaults(t, err)
			return false
		}
		if len(r.Lines) != len(read.Lines) || len(r.Places) != len(r.Bikes) {
			t.Errorf("%d lines of %d, and %d places of %d bicycles", len(r.Lines), len(read.Lines), len(r.Places), len(r.Bikes))
		}
		want, err := r.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		got, verdict, err := read.AppendCheck(t.Context(), []byte("["), c, parts)
		if err != nil || verdict != r.Verdict || !bytes.Equal(got[1:], want) {
			t.Errorf("%s, %v, in one it is\n%s\nand was\n%s", verdict, err, got, want)
		}
		readByClients(t, want)
		return true
	})
}

// inputFaults makes sure that an error is of faults in the input, and none is our own.
func inputFaults(t testing.TB, err error) {
	t.Helper()
	var ps source.Problems
	var internal *cart.InternalError
	if errors.As(err, &internal) {
		t.Fatalf("%v\n%s", err, internal.Stack)
	}
	if !errors.As(err, &ps) || len(ps) == 0 {
		t.Fatalf("the error is no Problems: %v", err)
	}
	for _, p := range ps {
		if p.Pos.File == "" || p.Code == "" || p.Code == source.Internal || p.Text == "" {
			t.Errorf("a problem without a place or a sense: %+v", p)
		}
	}
}

// readByClients reads a cart's answer and writes it again.
func readByClients(t testing.TB, wrote []byte) {
	t.Helper()
	var read report.Cart
	d := json.NewDecoder(bytes.NewReader(wrote))
	d.DisallowUnknownFields()
	if err := d.Decode(&read); err != nil {
		t.Fatalf("%v: %s", err, wrote)
	}
	if again, err := read.MarshalJSON(); err != nil || !bytes.Equal(again, wrote) {
		t.Errorf("it was\n%s\nand is\n%s, %v", wrote, again, err)
	}
	for _, r := range string(wrote) {
		if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
			t.Fatalf("it holds %U: %s", r, wrote)
		}
	}
}

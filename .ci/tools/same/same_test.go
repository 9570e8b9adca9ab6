package main

import (
	"encoding/json"
	"testing"

	"example.org/cogcourt/tools/draw"
)

// TestNothingIsRefused holds that what is drawn loads: of errors nobody would
// learn what a change of the library does.
func TestNothingIsRefused(t *testing.T) {
	listed, err := draw.NewListed(1)
	if err != nil {
		t.Fatal(err)
	}
	l, err := newLibrary(listed.Parts())
	if err != nil {
		t.Fatal(err)
	}
	mixes := draw.New(1, true)
	for _, w := range []work{
		{"mix", 100, func(int) map[string]any { return listed.Mix() }, l.report},
		{"drawn mix", 100, func(int) map[string]any { return mixes.Next() }, l.report},
		{"cart", 100, func(int) map[string]any { return listed.Cart() }, l.cart},
		{"sheet", 100, func(int) map[string]any { return mixes.Next() }, l.sheet},
	} {
		for i := range w.count {
			text, err := json.Marshal(w.draw(i))
			if err != nil {
				t.Fatal(err)
			}
			if answer, err := w.judge(text); err != nil || !json.Valid(answer) {
				t.Errorf("%s %d: %v\n%s", w.name, i, err, text)
			}
		}
	}
}

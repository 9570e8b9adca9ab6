package cart_test

import (
	"testing"

	"example.org/cogcourt/compat/cart"
)

// A customer's bicycle may be of usual classes, with what is known stated over them.
func TestBicyclesOfClasses(t *testing.T) {
	c, err := cart.Read("cart.yaml", []byte(`
bikes:
  - mix: Hers
    parts: {cassette: {id: usual-cassette-9-434, cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34]}, hub: {id: [usual-body-s9-35, usual-rear-135]}}
lines: []
`), shelf(t))
	if err != nil {
		t.Fatal(err)
	}
	hub, ok := c.Bikes[0].Part("hub")
	if cassette, there := c.Bikes[0].Part("cassette"); !ok || !there || hub.ID() != "usual-body-s9-35+usual-rear-135" || !cassette.States("cogs_t") {
		t.Errorf("the bicycle has %q and %q", hub.ID(), cassette.Name())
	}
}

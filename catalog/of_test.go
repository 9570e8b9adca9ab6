package catalog_test

import (
	"errors"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/source"
)

// A catalog of parts is as one that was loaded; all that is wrong with them is told.
func TestOf(t *testing.T) {
	make := func(id string) catalog.Part {
		fields := map[string]any{"name": "any", "speeds": 9}
		if id != "" {
			fields["id"] = id
		}
		p, err := catalog.New("chain", fields)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	one, other := make("one"), make("other")
	c, err := catalog.Of(one, other)
	if err != nil || c.Len() != 2 || len(c.OfKind("chain")) != 2 {
		t.Fatalf("%v, %v", c, err)
	}
	if got, ok := c.Part("other"); !ok || got != other {
		t.Errorf("%v is found, %t", got, ok)
	}
	_, err = catalog.Of(one, make("one"), catalog.Part{}, make(""))
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) != 3 {
		t.Fatalf("the faults are %v", err)
	}
	for i, want := range []string{`part 2: the id "one" is taken already`, "part 3: it is no part at all", "part 4: the chain has no id"} {
		if !strings.Contains(ps[i].String(), want) {
			t.Errorf("fault %d is %q", i, ps[i])
		}
	}
	if c, err := catalog.Of(); err != nil || c.Len() != 0 {
		t.Errorf("a catalog of nothing: %v, %v", c, err)
	}
}

// Parts that state the same share their record when they are loaded, whatever they are
// called and cost; parts that differ in anything do not.
func TestEqualRecordsAreShared(t *testing.T) {
	c, err := catalog.ReadFile("parts.yaml", []byte(`parts:
  - {kind: chain, id: a, name: one, price: 12, speeds: 9, outer_width_mm: 6.6}
  - {kind: chain, id: b, name: other, maker: another, speeds: 9, outer_width_mm: 6.6}
  - {kind: chain, id: c, name: one, speeds: 9, outer_width_mm: 6.6 ± 0.1}
  - {kind: chain, id: d, name: one, speeds: 9, outer_width_mm: 6.6, basis: measured}
  - {kind: chain, id: e, name: one, speeds: 9}
`))
	if err != nil {
		t.Fatal(err)
	}
	record := func(id string) any { p, _ := c.Part(id); return p.Record() }
	if record("a") != record("b") {
		t.Error("equal parts do not share their record")
	}
	for _, id := range []string{"c", "d", "e"} {
		if record(id) == record("a") {
			t.Errorf("%s shares the record of another part", id)
		}
	}
}

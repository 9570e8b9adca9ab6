package catalog_test

import (
	"context"
	"errors"
	"io"
	"iter"
	"reflect"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/rules/source"
)

// row is one of a table of parts, as a program has it; a row without a kind breaks off.
type row struct {
	kind   string
	fields map[string]any
}

// rows makes parts of them, each at the place of its row.
func rows(list ...row) iter.Seq2[catalog.Part, error] {
	return func(yield func(catalog.Part, error) bool) {
		for i, r := range list {
			p, err := catalog.NewAt(source.Pos{File: "stock", Line: i + 1}, r.kind, r.fields)
			if r.kind == "" {
				err = io.ErrUnexpectedEOF
			}
			if !yield(p, err) {
				return
			}
		}
	}
}

// Parts of a table are a catalogue with a name and a currency, and know their rows.
func TestFrom(t *testing.T) {
	c, err := catalog.From(t.Context(), rows(row{"chain", map[string]any{"id": "a", "speeds": 9, "price": 12}}, row{"chain", map[string]any{"id": "b", "speeds": 10}}),
		catalog.Config{Name: "Shed", Currency: "EUR"})
	if err != nil {
		t.Fatal(err)
	}
	b, _ := c.Part("b")
	if c.Name() != "Shed" || c.Currency() != "EUR" || c.Len() != 2 || b.Pos().String() != "stock:2" {
		t.Errorf("%s, %s, %d parts, b at %s", c.Name(), c.Currency(), c.Len(), b.Pos())
	}
}

// All that is wrong with a table is told at once, each at its row; an error that is none
// of the input is found again.
func TestFromFaults(t *testing.T) {
	list := []row{{"chain", map[string]any{"id": "a", "speeds": 9}}, {"chains", nil}, {"chain", map[string]any{"id": "b", "speed": "no"}},
		{"chain", map[string]any{"id": "a", "speeds": 9}}, {}, {"chain", map[string]any{"speeds": 9}}}
	c, err := catalog.From(t.Context(), rows(list...), catalog.Config{Currency: "\xff"})
	if c != nil || !errors.Is(err, io.ErrUnexpectedEOF) || !strings.Contains(err.Error(), "part 5: unexpected EOF") {
		t.Errorf("%v, %v", c, err)
	}
	wantFaults(t, err, `stock:2: there is no kind "chains"`, `stock:3: `, `stock:4: the id "a" is taken already, at stock:1`, "stock:6: the chain has no id", "the catalogue: currency: ")
}

// A sequence without an end is left when the context is done, and when nothing but
// errors come.
func TestFromStops(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	seen := 0
	c, err := catalog.From(ctx, func(yield func(catalog.Part, error) bool) {
		for yield(catalog.Part{}, nil) {
			if seen++; seen == 10 {
				cancel()
			}
		}
	}, catalog.Config{})
	if c != nil || err != context.Canceled || seen != 10 {
		t.Errorf("%v, %v after %d", c, err, seen)
	}
	if _, err = catalog.From(ctx, rows(), catalog.Config{}); err != context.Canceled {
		t.Errorf("an empty table: %v", err)
	}
	if c, err := catalog.From(t.Context(), func(yield func(catalog.Part, error) bool) {
		for yield(catalog.Part{}, io.EOF) {
		}
	}, catalog.Config{}); c != nil || !errors.Is(err, io.EOF) {
		t.Errorf("%v, %v", c, err)
	}
}

// What a part states makes an equal part again: same texts, same values with all that is
// known of them, the same stated and the same by default.
func TestFieldsMakeTheSamePart(t *testing.T) {
	shed, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	classes, err := catalog.ReadFile("own.yaml", []byte(`parts:
  - {kind: cassette, id: own-twelve, name: Twelve, basis: usual, cog_count: 12, pitch_mm: {usual: 3.65, least: 3.55, most: 3.75, source: memory}, cog_thickness_mm: {usual: 1.6, least: 1.6, most: 1.6, source: memory}}
  - {kind: cassette, id: own-uneven, name: Uneven, basis: measured, cogs_t: [11, 13, 15], pitches_mm: [4.1 ± 0.02, 4.2]}
`))
	if err != nil {
		t.Fatal(err)
	}
	tolerances := 0
	for _, c := range []*catalog.Catalog{shed, classes} {
		for p := range c.All() {
			fields := p.Fields()
			q, err := catalog.New(p.Kind(), fields)
			if err != nil {
				t.Fatalf("%s: %v", p.ID(), err)
			}
			if q.ID() != p.ID() || q.Name() != p.Name() || q.Maker() != p.Maker() || q.SKU() != p.SKU() || q.Price() != p.Price() || q.Basis() != p.Basis() {
				t.Errorf("%s is called otherwise", p.ID())
			}
			for i, f := range p.Record().Object().Table().Fields() {
				v, w := *p.Record().At(i), *q.Record().At(i)
				if !reflect.DeepEqual(v, w) || p.States(f.Name) != q.States(f.Name) || p.Source(f.Name) != q.Source(f.Name) {
					t.Errorf("%s: %s is %+v, and was %+v", p.ID(), f.Name, w, v)
				}
				if _, has := fields[f.Name]; has != p.States(f.Name) {
					t.Errorf("%s: %s is given and not stated, or the other way round", p.ID(), f.Name)
				}
				if v.Tol > 0 || v.Tols() != nil {
					tolerances++
				}
			}
		}
	}
	if tolerances < 3 || len(catalog.Part{}.Fields()) != 0 {
		t.Errorf("%d tolerances are too few", tolerances)
	}
}

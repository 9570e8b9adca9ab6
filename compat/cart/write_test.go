package cart

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/compat/report"
)

// wired is the report by way of the structs that the JSON Schema is made from.
func (r Report) wired() ([]byte, error) {
	out := report.Cart{
		SchemaVersion: 1, Tool: "cogcourt " + compat.Version, Cart: r.Name, Verdict: r.Verdict, Complete: r.Complete,
		Rules: r.rules, Lines: []report.Line{}, Bikes: []report.Bike{}, Mendings: []report.BikeMending{},
	}
	out.Rules.Packs = wire.Some(out.Rules.Packs)
	for i, l := range r.Lines {
		out.Lines = append(out.Lines, report.Line{Line: i + 1, ID: l.ID, SKU: l.SKU, Name: l.Name, Quantity: l.Quantity, Bike: l.Bike,
			Use: l.Use.String(), Bikes: wire.Some(l.Bikes), Spare: l.Spare, Note: l.Note})
	}
	for i, c := range r.Bikes {
		bike := report.Bike{Bike: c.After.Mix.Name(), BikeIndex: r.place(i)}
		if err := errors.Join(json.Unmarshal(c.AppendJSON(nil), &bike.Change), json.Unmarshal(c.After.AppendJSON(nil), &bike.Report)); err != nil {
			return nil, err
		}
		out.Bikes = append(out.Bikes, bike)
	}
	for _, m := range r.Mendings {
		mending := report.BikeMending{Bike: m.Bike, BikeIndex: m.Place}
		text, err := m.MarshalJSON()
		if err := errors.Join(err, json.Unmarshal(text, &mending.Mending)); err != nil {
			return nil, err
		}
		out.Mendings = append(out.Mendings, mending)
	}
	return wire.Encode(out)
}

// What is written by hand is what encoding/json writes of the structs, also where lines
// are fitted, spare, ambiguous and of no part at all.
func TestWriteAsTheStructs(t *testing.T) {
	live, err := NewLive(compat.Config{}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	swaps := []fit.Choice{{Cents: 250, Warns: []string{"chain/width"}}, {}}
	reports := []Report{{}, {Bikes: []compat.Change{{}, {}}, Places: []int{4}}, {Lines: []LineResult{{Use: Fitted, Bikes: []string{"a", "\x7f"}, Spare: 2}}},
		{Mendings: []Mending{{"<red>", 0, fit.Mending{Fails: []string{"index/residual"}, Swaps: swaps, Parts: 1}}, {"\x7f", 3, fit.Mending{None: true}}}}}
	_, parts := live.Now()
	for _, kind := range catalog.KindNames() {
		for _, part := range parts.OfKind(kind) {
			r, err := live.CheckCart(t.Context(), "cart.json", []byte(`{"cart": "Of one", "bikes": [{"mix": "Red", "parts": {"chain": "towrope-8"}},
				{"mix": "Blue", "scope": "bike", "parts": {"cassette": "oxbow-11-11-29"}}], "lines": [{"id": "`+part.ID()+`", "bike": "Blue", "quantity": 2},
				{"sku": "B", "name": "<bell>"}, {"id": "towrope-8"}, {"id": "`+part.ID()+`", "bike": "Red"}]}`))
			if err != nil {
				t.Fatal(err)
			}
			reports = append(reports, r)
		}
	}
	changed := 0
	for _, r := range reports {
		want, err := r.wired()
		if err != nil {
			t.Fatal(err)
		}
		if got := r.AppendJSON([]byte("["))[1:]; !bytes.Equal(got, want) {
			t.Fatalf("it is\n%s\nand not\n%s", got, want)
		}
		var out bytes.Buffer
		if n, err := r.WriteTo(&out); err != nil || n != int64(len(want)) || !bytes.Equal(out.Bytes(), want) {
			t.Fatalf("%d bytes are written of %d, %v", n, len(want), err)
		}
		for _, bike := range r.Bikes {
			changed += len(bike.New) + len(bike.Worse) + len(bike.Better) + len(bike.Gone)
		}
	}
	if len(reports) < 100 || changed < 100 {
		t.Errorf("%d reports with %d changes are too few", len(reports), changed)
	}
}

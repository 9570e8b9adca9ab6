package catalog_test

import (
	"context"
	"fmt"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/source"
)

func ExampleLoad() {
	parts := fstest.MapFS{"shed.yaml": {Data: []byte(`
catalog: Ferry shed (invented)
currency: EUR
parts:
  - kind: cassette
    id: pier-9-11-34
    name: Pier nine, 11-34
    price: 41.50
    cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34]
    pitch_mm: 4.34 ± 0.02
`)}}
	shed, err := catalog.Load(parts)
	if err != nil {
		fmt.Println(err)
		return
	}
	pitch := catalog.Cassette.Ref("pitch_mm")
	for _, part := range shed.OfKind("cassette") {
		v := pitch.In(part.Record())
		fmt.Println(part.Name(), part.Price(), shed.Currency())
		fmt.Println(pitch, v.Num, "within", v.Tol, pitch.Field().Unit)
	}
	// Output:
	// Pier nine, 11-34 41.50 EUR
	// cassette.pitch_mm 4.34 within 0.02 mm
}

func ExampleReadFile() {
	_, err := catalog.ReadFile("shed.yaml", []byte(`parts:
  - kind: casette
    id: pier-9
    name: Pier nine
  - kind: chain
    id: pier-9
    name: Chain of the pier
    outer_width_mm: 0.27
`))
	fmt.Println(err)
	// Output:
	// shed.yaml:2:11: parts[0].kind: there is no kind "casette" (did you mean "cassette"?)
	// shed.yaml:6:9: parts[1].id: the id "pier-9" is taken already, at shed.yaml:3:9 (give each part an id of its own)
	// shed.yaml:8:21: parts[1].outer_width_mm: 0.27 is below the least, 3.5 (write a number in mm from 3.5 to 14)
}

func ExampleNew() {
	chain, err := catalog.New("chain", map[string]any{
		"name": "Chain from the donation box", "basis": "measured",
		"outer_width_mm": "5.9 ± 0.05", "pitches": 112,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	v := catalog.Chain.Ref("pitches").In(chain.Record())
	fmt.Println(chain.Name(), v.Num, "half-inch links")
	// Output:
	// Chain from the donation box 112 half-inch links
}

// Parts of a table come row by row. Every fault is told at once, with its row.
func ExampleFrom() {
	table := []struct {
		id     int
		kind   string
		fields map[string]any
	}{
		{4711, "chain", map[string]any{"id": "pier-chain", "speeds": 9, "price": "12.50"}},
		{4712, "chian", map[string]any{"id": "lamp-chain", "speeds": 9}},
		{4713, "chain", map[string]any{"id": "pier-chain", "speeds": 10}},
	}
	rows := func(yield func(catalog.Part, error) bool) {
		for _, row := range table {
			at := source.Pos{File: fmt.Sprint("parts, row ", row.id)}
			if !yield(catalog.NewAt(at, row.kind, row.fields)) {
				return
			}
		}
	}
	_, err := catalog.From(context.Background(), rows, catalog.Config{Name: "Ferry shed (invented)", Currency: "EUR"})
	fmt.Println(err)
	// Output:
	// parts, row 4712: there is no kind "chian" (did you mean "chain"?)
	// parts, row 4713: the id "pier-chain" is taken already, at parts, row 4711 (give each part an id of its own)
}

// A price changes: the catalogue with it is another one, and the old one serves on.
func ExampleCatalog_With() {
	chain, _ := catalog.New("chain", map[string]any{"id": "pier-chain", "speeds": 9, "price": "12.50"})
	shed, _ := catalog.Of(chain)
	dearer, err := chain.Priced("13.90")
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := shed.With(dearer)
	if err != nil {
		fmt.Println(err)
		return
	}
	before, _ := shed.Part("pier-chain")
	after, _ := next.Part("pier-chain")
	fmt.Println(before.Price(), after.Price(), after.Fields())
	// Output:
	// 12.50 13.90 map[basis:stated id:pier-chain price:13.90 speeds:9]
}

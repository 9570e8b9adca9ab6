package cart

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/rules"
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
			text := []byte(`{"cart": "Of one", "bikes": [{"mix": "Red", "parts": {"chain": "towrope-8"}},
				{"mix": "Blue", "scope": "bike", "parts": {"cassette": "oxbow-11-11-29"}}], "lines": [{"id": "` + part.ID() + `", "bike": "Blue", "quantity": 2},
				{"sku": "B", "name": "<bell>"}, {"id": "towrope-8"}, {"id": "` + part.ID() + `", "bike": "Red"}]}`)
			r, err := live.CheckCart(t.Context(), "cart.json", text)
			if err != nil {
				t.Fatal(err)
			}
			reports = append(reports, r)
			sameOnce(t, live, r, text)
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

// sameOnce wants of AppendCheckCart the verdict and the bytes of a report, behind what is
// there already.
func sameOnce(t *testing.T, live *Live, r Report, text []byte) {
	t.Helper()
	got, verdict, err := live.AppendCheckCart(t.Context(), []byte("["), "cart.json", text)
	if want := r.AppendJSON([]byte("[")); err != nil || verdict != r.Verdict || !bytes.Equal(got, want) {
		t.Fatalf("at once it is %v, %v\n%s\nand not %v\n%s", verdict, err, got, r.Verdict, want)
	}
}

// What fails says why in the same words, tells the observer the same and appends nothing.
func TestOnceFails(t *testing.T) {
	var told []compat.Event
	live, err := NewLive(compat.Config{Observe: func(e compat.Event) { told = append(told, e) }}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	done, cancel := context.WithCancel(t.Context())
	cancel()
	_, parts := live.Now()
	bad, good := []byte(`{"lines": [{"idd": "x"}]}`), Cart{Name: "Good", Lines: []Line{{ID: "towrope-8"}}}
	for name, each := range map[string]struct {
		check func() error
		once  func([]byte) ([]byte, rules.Verdict, error)
	}{
		"a file": {
			func() error { _, err := live.CheckCart(t.Context(), "c.json", bad); return err },
			func(dst []byte) ([]byte, rules.Verdict, error) {
				return live.AppendCheckCart(t.Context(), dst, "c.json", bad)
			},
		},
		"a context that is done": {
			func() error { _, err := good.Check(done, standardOf(live), parts); return err },
			func(dst []byte) ([]byte, rules.Verdict, error) {
				return good.AppendCheck(done, dst, standardOf(live), parts)
			},
		},
		"a panic": {
			func() error { _, err := good.Check(t.Context(), nil, parts); return err },
			func(dst []byte) ([]byte, rules.Verdict, error) { return good.AppendCheck(t.Context(), dst, nil, parts) },
		},
		"nothing in use": {
			func() error { _, err := new(Live).CheckCart(t.Context(), "c.json", bad); return err },
			func(dst []byte) ([]byte, rules.Verdict, error) {
				return new(Live).AppendCheckCart(t.Context(), dst, "c.json", bad)
			},
		},
	} {
		told = nil
		want := each.check()
		events := len(told)
		got, verdict, err := each.once([]byte("["))
		if err == nil || want == nil || err.Error() != want.Error() || string(got) != "[" || verdict != rules.Unknown || len(told) != 2*events {
			t.Errorf("%s: %q, %v, %v and not %v; %d events, then %d", name, got, verdict, err, want, events, len(told)-events)
		}
	}
}

func standardOf(live *Live) *compat.Checker { c, _ := live.Now(); return c }

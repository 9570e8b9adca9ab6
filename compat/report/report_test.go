package report_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/rules/fact"
)

// again reads what the library wrote and writes it again: the same bytes, also where
// json.Marshal goes over both.
func again[T json.Marshaler](t *testing.T, what string, wrote json.Marshaler) T {
	t.Helper()
	var read T
	want, err := wrote.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	d := json.NewDecoder(bytes.NewReader(want))
	d.DisallowUnknownFields()
	if err := d.Decode(&read); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	got, err := read.MarshalJSON()
	if err != nil || !bytes.Equal(got, want) {
		t.Fatalf("%s: it is\n%s\nand was\n%s, %v", what, got, want, err)
	}
	marshalled, _ := json.Marshal(wrote)
	if got, err = json.Marshal(read); err != nil || !bytes.Equal(got, marshalled) {
		t.Errorf("%s: json.Marshal gives other bytes, %v", what, err)
	}
	return read
}

func shop(t testing.TB) (*compat.Checker, *catalog.Catalog) {
	t.Helper()
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	return c, parts
}

// Reports, changes and sheets of all mixes of the demo are read as they were written.
func TestDemoMixesAreRead(t *testing.T) {
	c, parts := shop(t)
	var last compat.Report
	leans := 0
	for _, name := range demo.Mixes() {
		text, _ := demo.Mix(name)
		m, err := compat.ReadMix(name, text, parts)
		if err != nil {
			t.Fatal(err)
		}
		r := c.Check(m)
		read := again[report.Report](t, name, r)
		if read.Verdict != r.Verdict || read.Mix != m.Name() || len(read.Findings) != len(r.Findings()) || read.Rules.Hash != r.RuleSet().Hash {
			t.Errorf("%s: %s, %d findings", read.Mix, read.Verdict, len(read.Findings))
		}
		for _, f := range read.Findings {
			if f.Leans != nil {
				leans++
			}
		}
		change := compat.Compare(last, r)
		if read := again[report.Change](t, name, change); len(read.New) != len(change.New) || read.After.Verdict != r.Verdict {
			t.Errorf("%s: %d are new", name, len(read.New))
		}
		again[report.Sheet](t, name, c.Sheet(m))
		last = r
	}
	if leans == 0 {
		t.Error("no finding leans: too few are read")
	}
	again[report.Report](t, "nothing", compat.Report{})
	again[report.Change](t, "nothing", compat.Change{})
	again[report.Sheet](t, "nothing", compat.Sheet{})
	again[report.Cart](t, "nothing", cart.Report{})
}

// Carts drawn from the demo are read as they were written, with what mends them; a
// bicycle is found by its place, also where none has a name.
func TestCartsAreRead(t *testing.T) {
	c, parts := shop(t)
	order, _ := demo.Order("order")
	texts := [][]byte{order}
	draw := rand.New(rand.NewPCG(11, 3))
	all := parts.Parts()
	for range 40 {
		var bikes, lines []string
		for range draw.IntN(3) {
			p := all[draw.IntN(len(all))]
			bikes = append(bikes, fmt.Sprintf(`{mix: B%d, parts: {%s: %s, cassette: oxbow-11-11-29}}`, len(bikes), p.Kind(), p.ID()))
			if p.Kind() == "cassette" {
				bikes[len(bikes)-1] = fmt.Sprintf(`{mix: B%d, parts: {cassette: %s}}`, len(bikes)-1, p.ID())
			}
		}
		for range 1 + draw.IntN(4) {
			lines = append(lines, fmt.Sprintf(`{id: %s, quantity: %d}`, all[draw.IntN(len(all))].ID(), 1+draw.IntN(2)))
		}
		texts = append(texts, fmt.Appendf(nil, "cart: \"<Drawn> & more\"\nbikes: [%s]\nlines: [%s]\n", strings.Join(bikes, ", "), strings.Join(lines, ", ")))
	}
	mendings, second := 0, 0
	live, err := cart.LiveOf(t.Context(), c, parts)
	if err != nil {
		t.Fatal(err)
	}
	for i, text := range texts {
		r, err := live.CheckCartWith(t.Context(), "cart.yaml", text, cart.Options{Mend: i%8 == 0})
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		read := again[report.Cart](t, string(text), r)
		if len(read.Lines) != len(r.Lines) || len(read.Bikes) != len(r.Bikes) || read.Verdict != r.Verdict {
			t.Fatalf("%+v", read)
		}
		for k, bike := range read.Bikes {
			if bike.BikeIndex != r.Places[k] || bike.Report.Verdict != r.Bikes[k].After.Verdict {
				t.Errorf("bicycle %d is at %d", r.Places[k], bike.BikeIndex)
			}
			if k == 0 && bike.BikeIndex > 0 {
				second++
			}
		}
		mendings += len(read.Mendings)
	}
	if mendings == 0 || second == 0 {
		t.Errorf("%d mendings, and %d carts leave the first bicycle as it is: too few", mendings, second)
	}
}

// A key of a later version is left out; a verdict that is none is an error.
func TestOddReports(t *testing.T) {
	var r report.Report
	if err := json.Unmarshal([]byte(`{"verdict": "warn", "later": [1], "figures": {"b": 1, "a": [2, 3]}}`), &r); err != nil || r.Verdict != fact.Warn {
		t.Errorf("%+v, %v", r, err)
	}
	if len(r.Figures) != 2 || r.Figures[0].Name != "b" || fmt.Sprint(r.Figures[1].Value) != "[2 3]" {
		t.Errorf("%+v", r.Figures)
	}
	for _, text := range []string{`{"verdict": "fine"}`, `{"figures": [1]}`, `{"figures": 1}`} {
		if err := json.Unmarshal([]byte(text), &r); err == nil {
			t.Errorf("%s is read", text)
		}
	}
}

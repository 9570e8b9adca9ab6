package main

import (
	"encoding/json"
	"io/fs"
	"maps"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/report"
)

// filled is a store of invented parts, and what serves them.
func filled(t testing.TB, count int) (*store, *cart.Live) {
	t.Helper()
	s, err := open(t.Context(), "file::memory:")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	if err := s.fill(t.Context(), count); err != nil {
		t.Fatal(err)
	}
	live, err := begin(t.Context(), compat.Config{}, s)
	if err != nil {
		t.Fatal(err)
	}
	return s, live
}

// No request fails while prices are swapped, and every request is answered.
func TestLoad(t *testing.T) {
	s, live := filled(t, 400)
	cost, err := measure(t.Context(), live, s, work{requests: 200, clients: 8})
	if err != nil || cost.answered != 200 || cost.swaps == 0 || live.Status().Taken != 1+cost.swaps {
		t.Errorf("%v, %v, %+v", cost, err, live.Status())
	}
}

// A new price is in use after a swap; a row that is no part is told by its id, and the
// old prices stay.
func TestReprice(t *testing.T) {
	s, live := filled(t, 80)
	_, before := live.Now()
	first := before.Parts()[0]
	if _, err := s.ExecContext(t.Context(), `UPDATE parts SET price = '7.25' WHERE id = ?`, first.ID()); err != nil {
		t.Fatal(err)
	}
	if err := reprice(t.Context(), live, s); err != nil {
		t.Fatal(err)
	}
	_, after := live.Now()
	if p, _ := after.Part(first.ID()); p.Price() != "7.25" || p.Record() != first.Record() || after.Len() != before.Len() {
		t.Errorf("the price is %s", p.Price())
	}
	if _, err := s.ExecContext(t.Context(), `UPDATE parts SET price = 'dear' WHERE id = ?`, first.ID()); err != nil {
		t.Fatal(err)
	}
	place := "parts, id " + first.ID() + ": price: "
	if err := reprice(t.Context(), live, s); err == nil || !strings.HasPrefix(err.Error(), place) {
		t.Errorf("a price that is none: %v", err)
	}
	if _, err := s.catalog(t.Context()); err == nil || !strings.HasPrefix(err.Error(), place) {
		t.Errorf("a row that is no part: %v", err)
	}
	if _, now := live.Now(); now != after {
		t.Error("the old prices do not stay")
	}
}

// A cart is answered by a report that a client reads, a faulty one by problems with codes.
func TestAnswers(t *testing.T) {
	_, live := filled(t, 80)
	ask := func(body string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		handler(live).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/cart", strings.NewReader(body)))
		return w
	}
	var answer report.Cart
	w := ask(string(carts(live, 1)[0]))
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || w.Code != http.StatusOK || len(answer.Bikes) == 0 || answer.Rules.Hash != live.Status().Hash {
		t.Errorf("%d, %v, %+v", w.Code, err, answer)
	}
	var faulty struct{ Problems []struct{ Code, Path string } }
	w = ask(`{"lines": [{"id": 9, "quantity": 0}], "line": 3}`)
	if err := json.Unmarshal(w.Body.Bytes(), &faulty); err != nil || w.Code != http.StatusUnprocessableEntity || len(faulty.Problems) < 2 {
		t.Errorf("%d, %v, %s", w.Code, err, w.Body)
	}
}

// files prints the parts of a catalogue as part files, as a shop without catalog.From does.
func files(t testing.TB, parts *catalog.Catalog) fs.FS {
	t.Helper()
	var list []map[string]any
	for p := range parts.All() {
		fields := p.Fields()
		fields["kind"] = p.Kind()
		list = append(list, maps.Clone(fields))
	}
	text, err := json.Marshal(map[string]any{"parts": list})
	if err != nil {
		t.Fatal(err)
	}
	return fstest.MapFS{"parts.json": {Data: text}}
}

// BenchmarkSwap puts a swap of all prices of 10,000 parts beside one of rules and parts
// together, in processor time: prices may take a fifth.
func BenchmarkSwap(b *testing.B) {
	s, live := filled(b, 10000)
	_, parts := live.Now()
	whole := files(b, parts)
	b.Run("prices", func(b *testing.B) {
		began := spent()
		for b.Loop() {
			var priced []catalog.Part
			for p := range parts.All() {
				q, err := p.Priced("12.50")
				if err != nil {
					b.Fatal(err)
				}
				priced = append(priced, q)
			}
			next, err := parts.With(priced...)
			if err != nil {
				b.Fatal(err)
			}
			if err := live.SwapParts(b.Context(), next); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64((spent()-began).Microseconds())/float64(b.N), "cpu-us/op")
	})
	b.Run("rows", func(b *testing.B) {
		began := spent()
		for b.Loop() {
			next, err := s.catalog(b.Context())
			if err != nil {
				b.Fatal(err)
			}
			if err := live.SwapParts(b.Context(), next); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64((spent()-began).Microseconds())/float64(b.N), "cpu-us/op")
	})
	b.Run("all", func(b *testing.B) {
		began := spent()
		for b.Loop() {
			if err := live.Swap(compat.Config{}, whole); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64((spent()-began).Microseconds())/float64(b.N), "cpu-us/op")
	})
}

package report_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/internal/blind"
)

// FuzzReport reads any text as each document: what is taken is written as JSON, and that
// reads back as what writes the same bytes.
func FuzzReport(f *testing.F) {
	c, parts := shop(f)
	seeds := []string{`{"verdict": "warn", "figures": {"b": 1, "a": [2, 3]}, "worst": {"a": [1, 2]}}`, `{"figures": null}`}
	for _, name := range demo.Mixes()[:3] {
		text, _ := demo.Mix(name)
		m, err := compat.ReadMix(name, text, parts)
		if err != nil {
			f.Fatal(err)
		}
		brief, _ := c.Check(m).Brief()
		sheet, _ := c.Sheet(m).MarshalJSON()
		seeds = append(seeds, string(brief[:min(len(brief), 6000)]), string(brief), string(sheet))
	}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		switch choice % 4 {
		case 0:
			return settled[report.Report](t, text)
		case 1:
			return settled[report.Change](t, text)
		case 2:
			return settled[report.Sheet](t, text)
		}
		return settled[report.Cart](t, text)
	})
}

// settled reads a document, writes it, and does so again.
func settled[T json.Marshaler](t testing.TB, text []byte) bool {
	t.Helper()
	var first, second T
	if json.Unmarshal(text, &first) != nil {
		return false
	}
	wrote, err := first.MarshalJSON()
	if err != nil || !json.Valid(wrote) {
		t.Fatalf("%.300q is read, and written as %.300q, %v", text, wrote, err)
	}
	if err := json.Unmarshal(wrote, &second); err != nil {
		t.Fatalf("%.300q is written, and not read: %v", wrote, err)
	}
	if again, err := second.MarshalJSON(); err != nil || !bytes.Equal(again, wrote) {
		t.Errorf("%.300q is written\n%q\nand then\n%q, %v", text, wrote, again, err)
	}
	return true
}

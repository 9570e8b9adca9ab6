package rules_test

import (
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestWords holds what facts are called in texts: no name of the vocabulary gets
// there, but where nothing describes it.
func TestWords(t *testing.T) {
	v, err := rules.NewVocabulary(
		rules.NewObject("jib_sail", "The sail before the mast; there may be none.",
			fact.Field{Name: "area_m2", Type: fact.Fraction, Min: 0, Max: 99, Doc: "The area of the cloth, hems included.", How: "Measure it."},
			fact.Field{Name: "ratio", Type: fact.Fraction, Min: 0, Max: 99, Doc: "B-side over foot: as cut.", How: "Read it."},
			fact.Field{Name: "bare", Type: fact.Flag}),
		rules.NewObject("sums", "What is worked out.",
			fact.Field{Name: "heel_deg", Type: fact.Fraction, Min: 0, Max: 99, Doc: "Where she lies at 7.5 knots, by the book."}))
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"jib_sail.area_m2": "the area of the cloth (jib sail)",
		"jib_sail.ratio":   "B-side over foot (jib sail)",
		"jib_sail.bare":    "jib_sail.bare",
		"jib_sail":         "the sail before the mast",
		"sums.heel_deg":    "where she lies at 7.5 knots",
		"keel":             "keel",
	} {
		if got := v.Words(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

package view

import (
	"slices"
	"testing"

	"example.org/cogcourt/rules"
)

// One thing is one line of an order, with all that it must be, and other things have
// lines of their own.
func TestOrderLines(t *testing.T) {
	got := orderLines([]rules.FilledNeed{
		{What: "chain of 116 half-inch links or more", Value: 116, Unit: "half-inch links", Thing: "chain"},
		{What: "spacer behind the cassette", Value: 1.85, Unit: "mm"},
		{What: "chain rated for motors at the crank", Thing: "chain"},
		{What: "connector for chains of 9 cogs", Thing: "connector"},
		{What: "new chain of the same width", Thing: "chain"},
		{What: "ruler"},
	})
	want := []string{
		"chain of 116 half-inch links or more; rated for motors at the crank; of the same width",
		"spacer behind the cassette, 1.85 mm", "connector for chains of 9 cogs", "ruler",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if orderLines(nil) != nil {
		t.Error("nothing is ordered, and there are lines")
	}
}

func TestListed(t *testing.T) {
	for want, words := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		if got := listed(words); got != want {
			t.Errorf("%v: %q, want %q", words, got, want)
		}
	}
}

package compat

import (
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// Every step that gives a torque has its line in the table of bolts, and measures the
// fact in which its bolt is written down, where there is one.
func TestBoltsAreWhatStepsTighten(t *testing.T) {
	c, rng := standardChecker(t), random.Seeded(92)
	seen, listed := map[string]bool{}, 0
	for range fewer(600) {
		var s Sheet // to its end, whatever fails
		for _, d := range c.set.Sheet(Measure(mixOf(random.New(rng))).Records()) {
			s.Steps = append(s.Steps, SheetStep{ID: d.Step.ID, Value: d.Value, Measured: d.Step.Measured})
		}
		var rows []string
		for _, step := range s.Steps {
			b, ok := bolts[step.ID]
			if strings.Contains(step.Value, "N m") && !ok {
				t.Fatalf("%s says %q and stands in no table of bolts", step.ID, step.Value)
			}
			if !ok {
				continue
			}
			seen[step.ID] = true
			rows = append(rows, b.Bolt)
			if b.Fact != "" && !slices.Contains(step.Measured, b.Fact) {
				t.Errorf("%s does not measure %s", step.ID, b.Fact)
			}
		}
		for i, b := range s.Bolts() {
			listed++
			if b.Bolt != rows[i] || !strings.Contains(b.Wanted, "N m") && !strings.HasPrefix(b.Wanted, "Not stated; read it from") {
				t.Errorf("line %d of the table is %+v, and the step tightens the %s", i, b, rows[i])
			}
		}
	}
	if len(seen) < len(bolts)-2 || listed < fewer(1000) {
		t.Errorf("only %d of %d bolts and %d lines were seen", len(seen), len(bolts), listed)
	}
}

// Of a rating that is left every finding would say the same; it is said once, with the
// first, and nothing else is lost by it.
func TestRatingIsSaidOnce(t *testing.T) {
	const rating = "Outside the maker's rating: whoever fits it answers for it, and the warranty may not."
	for _, c := range []struct {
		parts string
		rules string // that warn or fail by a rating
	}{
		{`{cassette: {cogs_t: [11, 36]}, rear_derailleur: {max_cog_t: 34}}`, "cassette/largest-cog"},
		{`{cassette: {cogs_t: [11, 40]}, rear_derailleur: {max_cog_t: 34}}`, "cassette/largest-cog"},
		{`{cassette: {cogs_t: [11, 36]}, crankset: {rings_t: [50, 34]}, rear_derailleur: {max_cog_t: 34, capacity_t: 38, max_front_difference_t: 14}}`,
			"cassette/largest-cog cassette/capacity front/difference"},
		{`{cassette: {cogs_t: [10, 45]}, rear_derailleur: {max_cog_t: 52, min_largest_cog_t: 50}}`, "cassette/smallest-largest-cog"},
		{`{crankset: {rings_t: [52, 34]}, front_derailleur: {max_ring_t: 50, capacity_t: 16}, frame: {max_ring_t: 50}}`, "front/max-ring front/capacity ring/chainstay"},
		{`{crankset: {rings_t: [50, 38]}, front_derailleur: {min_difference_t: 14}}`, "front/step"},
		{`{hub: {kind_of_hub: internal, min_drive_ratio: 1.9}, crankset: {rings_t: [36]}, cassette: {cogs_t: [20]}}`, "hub/input-ratio"},
		{`{frame: {assist: mid}, chain: {assist_rated: false}, cassette: {cogs_t: [11, 34], assist_rated: false}}`, "chain/assist-rated cassette/assist-rated"},
		{`{cassette: {cogs_t: [11, 34]}, rear_derailleur: {max_cog_t: 34}}`, ""},
	} {
		m, err := ReadMix("mix.yaml", []byte("mix: rated\nparts: "+c.parts+"\n"), nil)
		if err != nil {
			t.Fatal(err)
		}
		r := standardChecker(t).Check(m)
		said := 0
		for _, f := range r.Findings() {
			said += strings.Count(f.Caution, rating)
		}
		text, err := r.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		want := min(1, len(strings.Fields(c.rules)))
		if said != want || strings.Count(string(text), rating) != want {
			t.Errorf("%s: said %d times, and %d in JSON", c.parts, said, strings.Count(string(text), rating))
		}
		for _, id := range strings.Fields(c.rules) {
			i := slices.IndexFunc(r.findings, func(f rules.Finding) bool { return f.Rule.ID == id })
			if i < 0 || !strings.Contains(r.result.Caution(r.findings[i]), rating) {
				t.Errorf("%s: %s says nothing of the rating", c.parts, id)
			}
		}
	}
}

// Of equal wants of one thing the largest is ordered, and one chain is one line.
func TestLargestOfEqualWants(t *testing.T) {
	m, err := ReadMix("mix.yaml", []byte("mix: wants\nparts: {chain: {inner_width_mm: 1.7}, cassette: {cogs_t: [11, 13], cog_thickness_mm: 1.8}, "+
		"crankset: {rings_t: [40], ring_thickness_mm: 2.1}}\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	needs := standardChecker(t).Check(m).Needs()
	if len(needs) != 1 || needs[0].Thing != "chain" || needs[0].Value < 2.149 || needs[0].Value > 2.151 {
		t.Errorf("%+v is ordered, want one chain of 2.15 mm inside", needs)
	}
	m, err = ReadMix("mix.yaml", []byte("mix: short\nparts: {cassette: {cogs_t: [10, 51]}, crankset: {rings_t: [32]}, "+
		"frame: {chainstay_mm: 435, chain_growth_mm: 20, assist: mid}, rear_derailleur: {max_cog_t: 51}, chain: {pitches: 110, assist_rated: false}}\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	chains := 0
	for _, n := range standardChecker(t).Check(m).Needs() {
		if strings.Contains(n.What, "second") {
			t.Errorf("a second chain beside another: %+v", n)
		}
		if n.Thing == "chain" {
			chains++
		}
	}
	if chains != 2 { // the longer one, and that it is rated: one line of the order
		t.Errorf("%d wants of a chain", chains)
	}
}

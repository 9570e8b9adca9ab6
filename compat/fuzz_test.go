package compat

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// demoParts are the parts that the mixes of the demo name.
func demoParts(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// mixSeeds are mixes as people write them, in each form that is read.
func mixSeeds(t testing.TB) []string {
	t.Helper()
	seeds := []string{
		`{"mix": "M", "parts": {"chain": {"speeds": 9, "outer_width_mm": "6.6 ± 0.05"}, "cassette": {"cogs_t": [11, 13, 15, 17, 20, 23, 26, 30, 34], "pitch_mm": 4.34}}}`,
		`{"cassette": {"cogs_t": [11, 13, 15]}, "chain": {"speeds": 12}, "rear_derailleur": {"max_cog_t": 14, "capacity_t": 40}}`,
		`{"chain": "towrope-9", "cassette": {"id": "usual-cassette-9-434"}, "rear_shifter": {"speeds": 9}}`,
		"mix: M\nscope: bike\nparts:\n  cassette: {id: usual-cassette-11-378-road, cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28]}\n" +
			"  chain: {speeds: 11}\nbench:\n  chain_pitches: 110\n  chain_wear_percent: 0.3\n  position: stand\n",
		"mix: M\nparts:\n  frame: {chainstay_mm: 440 ± 2, chain_growth_mm: 12}\n  cassette: {cogs_t: [10, 51], pitch_mm: 3.65 ± 0.2}\n  crankset: {rings_t: 32, chainline_mm: 52}\n" +
			"  rear_derailleur: {actuation: motor, made_for_pitch_mm: 3.65, add_pitches: 2}\nbench: {guide_bolt_to_cog_mm: 20, cog_positions_mm: [0, 3.7]}\n",
	}
	for _, name := range demo.Mixes() {
		text, _ := demo.Mix(name)
		seeds = append(seeds, string(text))
	}
	return seeds
}

// FuzzMix takes any text the whole way: it is read, in each form that mixes have, or its
// faults have places; it is judged, and written in the same bytes as by encoding/json; a
// client reads that and writes it in the same bytes again.
func FuzzMix(f *testing.F) {
	c, parts := standardChecker(f), demoParts(f)
	blind.Fuzz(f, mixSeeds(f), func(t testing.TB, text []byte, choice byte) bool {
		m, err := anyMix(text, choice, parts)
		if err != nil {
			placedFaults(t, err)
			return false
		}
		r := c.Check(m)
		wholeWay(t, r)
		sameBytes(t, "a report", r.AppendJSON(nil), func() ([]byte, error) { return r.wired(true) })
		sameBytes(t, "a brief report", r.AppendBrief(nil), func() ([]byte, error) { return r.wired(false) })
		briefLines(t, r)
		return true
	})
}

// anyMix reads a mix in one of its forms.
func anyMix(text []byte, choice byte, parts *catalog.Catalog) (Mix, error) {
	switch choice % 3 {
	case 0:
		return ReadMix("m.yaml", text, parts)
	case 1:
		return ReadMix("m.json", text, parts)
	}
	return ReadMixLine("m.jsonl", int(choice), text, parts)
}

// placedFaults makes sure that an error is of faults with places, and none is our own.
func placedFaults(t testing.TB, err error) {
	t.Helper()
	var ps source.Problems
	if !errors.As(err, &ps) || len(ps) == 0 {
		t.Fatalf("the error is no Problems: %v", err)
	}
	for _, p := range ps {
		whole := p.Code == source.Empty && p.Pos == source.Pos{} // of all files together
		if p.Pos.File == "" && !whole || p.Code == "" || p.Code == source.Internal || p.Code == source.Invalid || p.Text == "" {
			t.Errorf("a problem without a place or a sense: %+v", p)
		}
	}
}

// wholeWay holds what must be true of any report and its sheet: JSON that hides nothing
// and that a client writes again in the same bytes, and no error that counts as a pass.
func wholeWay(t testing.TB, r Report) {
	t.Helper()
	for _, f := range r.Findings() {
		if f.Error != "" && (f.Verdict != rules.Unknown || r.Complete || r.Verdict == rules.Pass || r.Verdict == rules.Warn) {
			t.Errorf("%s went wrong and is %s, the report %s: %s", f.Rule, f.Verdict, r.Verdict, f.Error)
		}
		if strings.Contains(f.Error, "internal error") {
			t.Errorf("%s broke down: %s", f.Rule, f.Error)
		}
	}
	if len(r.Findings()) == 0 && r.Verdict != rules.Unknown {
		t.Errorf("without a finding it is %s", r.Verdict)
	}
	readBack[report.Report](t, r)
	readBack[report.Sheet](t, r.checker.Sheet(r.Mix))
}

// readBack has a client read a document and write it again.
func readBack[T json.Marshaler](t testing.TB, wrote json.Marshaler) {
	t.Helper()
	var read T
	want, err := wrote.MarshalJSON()
	if err != nil || !json.Valid(want) {
		t.Fatalf("no JSON: %v: %s", err, want)
	}
	for _, r := range string(want) {
		if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
			t.Fatalf("it holds %U: %s", r, want)
		}
	}
	d := json.NewDecoder(bytes.NewReader(want))
	d.DisallowUnknownFields()
	if err := d.Decode(&read); err != nil {
		t.Fatalf("%v: %s", err, want)
	}
	if got, err := read.MarshalJSON(); err != nil || !bytes.Equal(got, want) {
		t.Fatalf("it was\n%s\nand is\n%s, %v", want, got, err)
	}
}

// FuzzAdjust puts any block of adjustments beside three rules: what loads says who decided
// and until when, holds for no day behind the last, changes no pass and no unknown, and
// never takes a finding about safety below a warning.
func FuzzAdjust(f *testing.F) {
	seeds := []string{
		"  - {rule: shop/wide, to: warn, reason: a wider tool, by: the workshop, until: 2999-12-31}\n  - {rule: shop/brake, to: warn, reason: tried, by: Wharf, until: 2026-03-31}\n",
		"  - {rule: shop/narrow, to: pass, reason: 'we know', by: us, until: '2000-02-29'}\n", "  - {rule: shop/wide, to: fail, reason: r, by: b, until: 2026-06-15}\n",
		"  - rule: shop/brake\n    to: pass\n    reason: r\n    by: b\n    until: 9999-12-31\n  - {rule: shop/open, to: pass, reason: r, by: b, until: 2030-01-01}\n",
	}
	day := time.Date(2026, 6, 15, 23, 30, 0, 0, time.UTC)
	mixes := fixedMixes(f)
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, _ byte) bool {
		c, err := New(Config{NoStandard: true, Rules: ruleFiles(adjustable + "adjust:\n" + string(text)), Clock: func() time.Time { return day }})
		if err != nil {
			placedFaults(t, err)
			return false
		}
		for _, m := range mixes {
			r := c.Check(m)
			wholeWay(t, r)
			for _, f := range r.Findings() {
				decided(t, f, day)
			}
		}
		return true
	})
}

// decided holds what an adjustment may do to a finding.
func decided(t testing.TB, f Finding, day time.Time) {
	t.Helper()
	switch a := f.Adjust; {
	case f.Ruled == f.Verdict:
		if a != nil {
			t.Errorf("%s is adjusted and as it was ruled", f.Rule)
		}
	case a == nil || a.By == "" || a.Reason == "" || day.Format(time.DateOnly) > a.Until.Format(time.DateOnly):
		t.Errorf("%s was %s and is %s by %+v", f.Rule, f.Ruled, f.Verdict, a)
	case f.Ruled != rules.Warn && f.Ruled != rules.Fail || f.Safety && f.Verdict == rules.Pass:
		t.Errorf("%s was %s and is %s", f.Rule, f.Ruled, f.Verdict)
	}
}

// adjustable is a pack with a rule of each sort.
const adjustable = `pack: shop
rules:
  - {id: shop/wide, title: t, why: w, fail_if: chain.outer_width_mm > 5, say: s, remedy: r, basis: {practice: p}}
  - {id: shop/narrow, title: t, why: w, warn_if: chain.outer_width_mm > 5, say: s, remedy: r, basis: {practice: p}}
  - {id: shop/brake, title: t, why: w, safety: true, fail_if: chain.outer_width_mm > 5, say: s, remedy: r, basis: {practice: p}}
  - {id: shop/open, title: t, why: w, warn_if: chain.strength_n < 100, say: s, remedy: r, basis: {practice: p}}
`

// fixedMixes are a whole bicycle, one of which little is known, and nothing.
func fixedMixes(t testing.TB) []Mix {
	t.Helper()
	little, err := ReadMix("m.json", []byte(`{"mix": "Little", "parts": {"chain": {"outer_width_mm": "6.6 ± 0.05"}, "cassette": {"cogs_t": [11, 13]}}}`), nil)
	if err != nil {
		t.Fatal(err)
	}
	return []Mix{lakeBike(t), little, {}}
}

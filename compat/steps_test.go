package compat

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Every shipped rule that can fail is named by a step, so that a sheet ends where its
// fault stops the work and not at the first step for want of knowing.
func TestEveryFailStopsAStep(t *testing.T) {
	set := standardChecker(t).set
	for _, r := range set.Rules() {
		if r.FailIf != "" && !slices.ContainsFunc(set.Steps(), func(s *rules.Step) bool { return s.Names(r.ID) }) {
			t.Errorf("%s can fail, and no step says stopped_by: [%s]", r.ID, r.ID)
		}
	}
}

// The steps of a sheet measure what the record of the finished job asks for; what
// they do not measure is what few measure, and is kept where it is stated.
func TestWhatStepsMeasure(t *testing.T) {
	var measured, rest []string
	for _, s := range standardChecker(t).set.Steps() {
		measured = append(measured, s.Measured...)
	}
	for _, f := range figures.Bench.Table().Fields() {
		if !slices.Contains(measured, "bench."+f.Name) {
			rest = append(rest, f.Name)
		}
	}
	want := []string{"cog_positions_mm", "step_positions_mm", "smallest_cog_inset_mm", "b_gap_mm", "jockey_play_mm",
		"guide_travel_mm"} // before anything is ordered
	slices.Sort(rest)
	slices.Sort(want)
	if !slices.Equal(rest, want) {
		t.Errorf("no step measures %v, want %v", rest, want)
	}
}

// standsByValue are the steps that are about one value, and have no place without it.
var standsByValue = []string{"controller-spacer", "b-gap-gauge", "spare-click", "outside-rating", "noise", "noise-unguarded"}

// A step stands by what the mix is and not by who stated its value: where the number
// of some part is taken away, the same steps are left.
func TestStepsStandByParts(t *testing.T) {
	set, rng := standardChecker(t).set, random.Seeded(91)
	tried := 0
	for range fewer(400) {
		m := mixOf(random.New(rng))
		before := idsOf(set, m)
		for _, p := range m.Parts() {
			for _, f := range p.Record().Object().Table().Fields() {
				number := f.Type == fact.Fraction || f.Type == fact.Fractions
				if !number || f.Required || f.Name == "chain_growth_mm" || f.Name == "idler_t" {
					continue
				}
				i, _ := p.Record().Object().Table().Index(f.Name)
				if !p.Record().At(i).Known {
					continue
				}
				tried++
				if got := idsOf(set, without(t, m, p.Kind(), f.Name)); !slices.Equal(got, before) {
					t.Fatalf("without %s.%s the steps are\n%v\nand were\n%v", p.Kind(), f.Name, got, before)
				}
			}
		}
	}
	if tried < fewer(1000) {
		t.Errorf("only %d numbers were taken away", tried)
	}
}

// idsOf gives the steps for a mix, but for those about one value; which of two ways
// to trim is told by the index, and counts as one.
func idsOf(set *rules.Set, m Mix) []string {
	var out []string
	for _, d := range set.Sheet(Measure(m).Records()) {
		if !slices.Contains(standsByValue, d.Step.ID) {
			out = append(out, strings.TrimSuffix(strings.TrimSuffix(d.Step.ID, "-matched"), "-unguarded"))
		}
	}
	return out
}

// without is a mix in which one fact of a part is not stated.
func without(t *testing.T, m Mix, kind, field string) Mix {
	t.Helper()
	p, _ := m.Part(kind)
	values := map[string]any{}
	for i, f := range p.Record().Object().Table().Fields() {
		if v := p.Record().At(i); f.Name != field && v.Known {
			values[f.Name] = v.Plain(f.Type)
		}
	}
	return m.With(newPart(t, kind, values))
}

// A sheet of a mix that fails ends before the step that its fault stops, and says
// nothing of the ride.
func TestSheetEndsAtTheFault(t *testing.T) {
	c := standardChecker(t)
	place := map[string]int{}
	for i, s := range c.set.Steps() {
		place[s.ID] = i
	}
	stopped := map[string]bool{}
	eachReport(t, 1500, func(t *testing.T, d random.Draw, r Report) {
		s := c.Sheet(r.Mix)
		if (r.Verdict == rules.Fail) != (len(s.Stops) > 0) {
			t.Fatalf("verdict %s, and stops %v", r.Verdict, s.Stops)
		}
		if len(s.Stops) == 0 {
			return
		}
		for i, stop := range s.Stops {
			if stop.Text == "" || i > 0 && place[s.Stops[i-1].Step] > place[stop.Step] {
				t.Errorf("the stops are in no order: %v", s.Stops)
			}
			stopped[stop.Step] = true
		}
		for _, step := range s.Steps {
			if step.Part != "bench" || place[step.ID] >= place[s.Stops[0].Step] {
				t.Errorf("%s stands on a sheet that ends at %s", step.ID, s.Stops[0].Step)
			}
		}
		if text, err := json.Marshal(s); err != nil || !strings.Contains(string(text), `"stops":[{"rule":"`+s.Stops[0].Rule) {
			t.Errorf("%v: %s", err, text)
		}
	})
	if len(stopped) < 8 {
		t.Errorf("only %d steps were stopped at: %v", len(stopped), stopped)
	}
}

// Cautions stand where they apply, and only there.
func TestCautionsApply(t *testing.T) {
	for _, c := range []struct{ parts, has, not string }{
		{`{"frame": {"assist": "mid"}}`, "Motor:", "Fixed cog:|axle is closed|Lithium"},
		{`{"frame": {"assist": "none"}, "hub": {"axle": "quick"}}`, "axle is closed", "Motor:|Fixed cog:|Lithium"},
		{`{"hub": {"kind_of_hub": "fixed"}, "cassette": {"cogs_t": [16]}}`, "Fixed cog:|Turn the cranks in the stand", "every gear|Motor:"},
		{`{"cassette": {"cogs_t": [16], "fixed_cog": true}}`, "Fixed cog:", "axle is closed"},
		{`{"cassette": {"cogs_t": [16], "fixed_cog": false}, "hub": {"kind_of_hub": "internal"}}`, "every gear", "Fixed cog:"},
		{`{"front_derailleur": {"actuation": "motor"}}`, "Lithium", "Motor:"},
		{`{"controller_cell": {"form": "cr2032"}}`, "Lithium", "Motor:"},
	} {
		m, err := ReadMix("cautions.json", []byte(`{"mix": "cautions", "parts": `+c.parts+`}`), nil)
		if err != nil {
			t.Fatal(err)
		}
		all := strings.Join(standardChecker(t).Check(m).Cautions(), "\n")
		for _, want := range strings.Split(c.has, "|") {
			if !strings.Contains(all, want) {
				t.Errorf("%s lacks %q:\n%s", c.parts, want, all)
			}
		}
		for _, not := range strings.Split(c.not, "|") {
			if strings.Contains(all, not) {
				t.Errorf("%s has %q:\n%s", c.parts, not, all)
			}
		}
	}
}

// What is taken as usual is said with value, unit and count, and no inner name.
func TestTakenInWords(t *testing.T) {
	m, err := ReadMix("taken.json", []byte(`{"mix": "taken", "parts": {"chain": {"speeds": 9}, "cassette": {"cogs_t": [11, 12, 13, 14, 15, 17, 19, 21, 23], "pitch_mm": 4.34},
		"rear_derailleur": {"actuation": "motor", "made_for_pitch_mm": 4.4}}}`), nil)
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, f := range standardChecker(t).Check(m).Findings() {
		for _, text := range f.Taken {
			said[text] = true
		}
		if len(f.Taken) == 0 && len(f.Assumed) > 0 {
			t.Errorf("%s hangs on %v, and says nothing of it", f.Rule, f.Assumed)
		}
	}
	for _, want := range []string{"the widest the chain is (chain), 6.60 mm, 6.5 to 7, for 9 cogs",
		"that a motor's steps are as wide as the pitch of the cassette that it is made for, 4.40 mm each"} {
		if !said[want] {
			t.Errorf("%q is not said, but %v", want, said)
		}
	}
}

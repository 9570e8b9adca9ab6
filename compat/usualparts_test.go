package compat_test

import (
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// TestUsualParts holds that every class is read, under an id that no other part may
// have, and that each number lies within a spread whose source is known.
func TestUsualParts(t *testing.T) {
	known := map[string]bool{"memory": true}
	for _, s := range checker(t).Rules().Citations() {
		known[s.ID] = true
	}
	classes := compat.Usual()
	if classes.Len() < 100 {
		t.Errorf("there are only %d classes", classes.Len())
	}
	if again := compat.Usual(); again != classes {
		t.Error("they are parsed twice")
	}
	for _, p := range classes.Parts() {
		if !strings.HasPrefix(p.ID(), catalog.UsualPrefix) || p.Basis() != "usual" || p.Maker() != "" || p.Price() != "" || !strings.HasPrefix(p.Name(), "Usual ") {
			t.Errorf("%s %q is %s, made by %q", p.ID(), p.Name(), p.Basis(), p.Maker())
		}
		for i, f := range p.Record().Object().Table().Fields() {
			v, from := p.Record().Value(i), p.Source(f.Name)
			if p.States(f.Name) != (v.Usual == fact.ByClass) || v.Assumed || v.Own || v.Tol != 0 {
				t.Errorf("%s.%s is %+v", p.ID(), f.Name, v)
			}
			if from != "" && !known[from] {
				t.Errorf("%s.%s rests on %q, which is no source", p.ID(), f.Name, from)
			}
			if s := v.Spread(); s != nil && !(s.Least <= v.Num && v.Num <= s.Most && s.Least < s.Most && s.Source == from) {
				t.Errorf("%s.%s is %v, from %v to %v by %s", p.ID(), f.Name, v.Num, s.Least, s.Most, s.Source)
			}
			measured := f.Type == fact.Fraction && !slices.Contains(callings, f.Name)
			if measured && p.States(f.Name) && from == "" {
				t.Errorf("%s.%s is a number of which nobody says whose", p.ID(), f.Name)
			}
		}
	}
}

// callings are numbers by which classes are called: the width of a hub or frame.
var callings = []string{"over_locknut_mm"}

// TestUsualKinds holds that each kind that people name by a class has some.
func TestUsualKinds(t *testing.T) {
	have := map[string]int{}
	for _, p := range compat.Usual().Parts() {
		have[p.Kind()]++
	}
	for kind, least := range map[string]int{"cassette": 28, "chain": 13, "chain_connector": 7, "rear_shifter": 21, "rear_derailleur": 24,
		"front_shifter": 5, "front_derailleur": 4, "crankset": 12, "chainring": 5, "hub": 33, "frame": 10} {
		if have[kind] < least {
			t.Errorf("%d classes of %s, there were %d", have[kind], kind, least)
		}
	}
}

// neverUsual are the fields that nobody may take for granted: being wrong there can
// break a part or hurt the rider, or looks alike and does not go.
var neverUsual = []string{
	"steps_mm", "made_for_pitch_mm", "made_for_pitches_mm", "made_for_cogs", "steps_selectable", "radio",
	"cell", "cell_max_v", "form", "chemistry", "nominal_v", "primary", "min_c", "max_c", "trim_step_mm", "trim_range_mm", "limit_stops",
	"mount", "hanger", "hanger_part", "gives_hanger", "axle_thread", "axle_length_mm", "axle_end", "thread", "length_mm",
	"chain_growth_mm", "growth_at_sag_mm", "idler_t", "chainstay_mm", "shell", "spindle", "bolt_circle_mm", "inner_bolt_circle_mm",
	"bolt_pattern", "direct_name", "assist_rated", "strength_n", "integrated_brake", "directional", "extended_inner_plates", "pitches",
}

func TestNeverUsual(t *testing.T) {
	for _, p := range compat.Usual().Parts() {
		for _, f := range p.Record().Object().Table().Fields() {
			if p.States(f.Name) && (slices.Contains(neverUsual, f.Name) || strings.HasSuffix(f.Name, "_nm")) {
				t.Errorf("%s states %s", p.ID(), f.Name)
			}
		}
		// Larger rollers are what one class is called by; of no other are they known.
		if p.States("roller_class") && !strings.Contains(p.ID(), "large-roller") {
			t.Errorf("%s states its rollers", p.ID())
		}
	}
}

// TestUsualSets holds that each published set stands on a lever, a derailleur and a
// cassette: where one is missing it would never hold.
func TestUsualSets(t *testing.T) {
	for _, field := range []string{"index_sets", "index_sets_warn"} {
		kinds := map[string]map[string]bool{}
		for _, p := range compat.Usual().Parts() {
			if !p.States(field) {
				continue
			}
			i, _ := p.Record().Object().Table().Index(field)
			for _, set := range p.Record().Value(i).Words() {
				if kinds[set] == nil {
					kinds[set] = map[string]bool{}
				}
				kinds[set][p.Kind()] = true
			}
		}
		for set, on := range kinds {
			if got := slices.Sorted(maps.Keys(on)); !slices.Equal(got, []string{"cassette", "rear_derailleur", "rear_shifter"}) {
				t.Errorf("%s %s stands on %v", field, set, got)
			}
		}
		if least := map[string]int{"index_sets": 13, "index_sets_warn": 3}[field]; len(kinds) < least {
			t.Errorf("%s names %d sets, there were %d", field, len(kinds), least)
		}
	}
}

// TestEvenLevers holds that a lever with one pull is even, and one with a list is
// not said to be.
func TestEvenLevers(t *testing.T) {
	seen := 0
	for _, p := range compat.Usual().OfKind("rear_shifter") {
		even := catalog.RearShifter.Ref("even").In(p.Record())
		if p.States("pull_mm") != (even.Known && even.Num == 1) || p.States("pulls_mm") && even.Known {
			t.Errorf("%s: even %v", p.ID(), even)
		}
		if even.Known {
			seen++
		}
	}
	if seen < 10 {
		t.Errorf("only %d levers are even", seen)
	}
}

// TestUsualHeads holds that every file says what its numbers are.
func TestUsualHeads(t *testing.T) {
	files, err := fs.Glob(usual.Files(), "parts/*.yaml")
	if err != nil || len(files) < 5 {
		t.Fatalf("%d files: %v", len(files), err)
	}
	for _, file := range files {
		text, err := fs.ReadFile(usual.Files(), file)
		if err != nil || !strings.HasPrefix(string(text), "# Usual parts: ") || !strings.Contains(string(text), "\n# Classes without a maker, and published values.") {
			t.Errorf("%s does not say what it is: %v", file, err)
		}
	}
}

// TestEveryClassIsChecked holds that a class by itself and with all others of its
// kind stated around it is judged without a fault of the program.
func TestEveryClassIsChecked(t *testing.T) {
	c := checker(t)
	base := mustMix(t, "mix: All around\nparts: {cassette: usual-cassette-9-434, chain: usual-chain-9, rear_shifter: usual-shifter-9-p25, "+
		"rear_derailleur: {id: [usual-rd-r17, usual-cage-range-long]}, crankset: usual-crank-mtn-3, hub: {id: [usual-body-s9-35, usual-rear-135]}, frame: usual-frame-steel}")
	for _, p := range compat.Usual().Parts() {
		for _, m := range []compat.Mix{base.Without("chain").Without("cassette").With(p), base.With(p)} {
			for _, f := range c.Check(m).Findings() {
				if f.Error != "" {
					t.Errorf("%s: %s: %s", p.ID(), f.Rule, f.Error)
				}
			}
		}
	}
}

package compat

import (
	"slices"
	"strings"
	"testing"
)

// The questions that a workshop gets on the telephone, answered from speeds and classes:
// the rule of the question is held, not the whole report. What is known is said over the
// classes, and what is open names the one measure that settles it.
func TestTelephoneQuestions(t *testing.T) {
	type over = map[string]map[string]any
	c := standardChecker(t)
	eleven := []int{11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34}
	for _, q := range []struct {
		question   string
		over       over
		ids        string
		rule, want string
		says       string // in the text, or the one fact that is asked for
	}{
		{"1 a nine on eleven", over{"chain": {"speeds": 9}, "cassette": {"cog_count": 11}}, "", "chain/neighbour-gap", "fail", "overlaps"},
		{"2 a ten on eleven", nil, "chain-10 cassette-11-378-road", "chain/neighbour-gap", "unknown", "chain.outer_width_mm"},
		{"2 says up to where", nil, "chain-10 cassette-11-378-road", "chain/neighbour-gap", "unknown", "passes up to 5.86"},
		{"3 an eleven between nine cogs", nil, "chain-11 cassette-9-434", "chain/neighbour-gap", "pass", ""},
		{"3 on them", nil, "chain-11 cassette-9-434", "chain/on-cog", "pass", ""},
		{"3 on their rings", nil, "chain-11 ring-332-9to12", "chain/on-ring", "pass", ""},
		{"3 on rings for eight", nil, "chain-11 ring-332-5to8", "chain/on-ring", "warn", "passes up to"},
		{"4 a lever for ten with a derailleur for nine", nil, "shifter-10-p23 rd-r17 cassette-10-395-thin", "index/residual", "pass", "Known as one set"},
		{"5 with a mountain derailleur", nil, "shifter-10-p23 rd-r12 cassette-10-395-thin", "index/residual", "fail", ""},
		{"6 a lever for eleven with a derailleur for ten", nil, "shifter-11-p27 rd-r17 cassette-11-378-road", "index/residual", "fail", ""},
		{"7 a lever for eight on seven", over{"rear_shifter": {"speeds": 8}}, "shifter-6-8-p28 rd-r17 cassette-7", "index/residual", "pass", ""},
		{"7 a click is spare", over{"rear_shifter": {"speeds": 8}}, "shifter-6-8-p28 rd-r17 cassette-7", "index/steps", "pass", "limit screw"},
		{"8 eight on the body of 35", nil, "cassette-8-480 body-s9-35", "hub/lockring-margin", "pass", ""},
		{"8 nine on it", nil, "cassette-9-434 body-s9-35", "hub/lockring-margin", "pass", ""},
		{"8 ten with its ring", over{"bench": {"spacer_behind_mm": 1.0}}, "cassette-10-395-thin body-s9-35", "hub/lockring-margin", "pass", ""},
		{"8 seven with 4.5", over{"bench": {"spacer_behind_mm": 4.5}}, "cassette-7 body-s9-35", "hub/lockring-margin", "pass", ""},
		{"8 road eleven on it", nil, "cassette-11-378-road body-s9-35", "hub/lockring-margin", "fail", ""},
		{"8 road eleven on the longer one", nil, "cassette-11-378-road body-s9-3675", "hub/lockring-margin", "pass", ""},
		{"8 nine on the longer one", over{"bench": {"spacer_behind_mm": 1.85}}, "cassette-9-434 body-s9-3675", "hub/lockring-margin", "pass", ""},
		{"8 nine without a ring on it", over{"bench": {"spacer_behind_mm": 0}}, "cassette-9-434 body-s9-3675", "hub/lockring-margin", "fail", ""},
		{"9 the short driver's on the long one", over{"cassette": {"freehub": "driver-10"}, "bench": {"spacer_behind_mm": 1.85}},
			"cassette-11-driver body-driver10-long", "hub/lockring-margin", "pass", ""},
		{"9 on nine splines", over{"cassette": {"freehub": "driver-10"}}, "cassette-11-driver body-s9-35", "hub/freehub", "fail", ""},
		{"10 a short cage", over{"cassette": {"cogs_t": eleven}, "crankset": {"rings_t": []int{50, 34}}}, "cage-road-short-11", "cassette/largest-cog", "unknown",
			"rear_derailleur.max_cog_t"},
		{"10 a medium one", over{"cassette": {"cogs_t": eleven}, "crankset": {"rings_t": []int{50, 34}}}, "cage-road-medium-11", "cassette/largest-cog", "pass", ""},
		{"10 its capacity", over{"cassette": {"cogs_t": eleven}, "crankset": {"rings_t": []int{50, 34}}}, "cage-road-medium-11", "cassette/capacity", "pass", ""},
		{"11 a hub of 130 in 126", over{"frame": {"over_locknut_mm": 126}}, "rear-130", "hub/over-locknut", "unknown", "frame.material"},
		{"11 of steel", over{"frame": {"over_locknut_mm": 126, "material": "steel"}}, "rear-130", "hub/over-locknut", "warn", ""},
		{"11 of aluminium", over{"frame": {"over_locknut_mm": 126, "material": "aluminium"}}, "rear-130", "hub/over-locknut", "fail", ""},
		{"12 a motor for twelve on eleven", over{"cassette": {"cogs_t": eleven}, "rear_derailleur": {"actuation": "motor", "made_for_cogs": 12}}, "", "index/steps", "fail", ""},
		{"12 whose app lists eleven", over{"cassette": {"cogs_t": eleven}, "rear_derailleur": {"actuation": "motor", "made_for_cogs": 12, "steps_selectable": []int{10, 11}}},
			"", "index/steps", "pass", ""},
		{"12 known by its pitch", over{"cassette": {"cogs_t": eleven}, "rear_derailleur": {"actuation": "motor", "made_for_pitch_mm": 3.65}}, "", "index/steps", "unknown",
			"rear_derailleur.made_for_cogs"},
	} {
		got, f := said(c.Check(usualMix(t, q.over, strings.Fields(q.ids)...)), q.rule)
		if got != q.want || q.says != "" && !strings.Contains(f.Text, q.says) && !slices.Contains(f.Missing, q.says) {
			t.Errorf("%s: %s is %s, want %s (%s): %s %v", q.question, q.rule, got, q.want, q.says, f.Text, f.Missing)
		}
	}
}

// A plain matched bicycle, described by its classes and what one reads or counts, is
// decided without a warning. An id counts as one fact.
func TestMatchedBicyclesByClass(t *testing.T) {
	c := standardChecker(t)
	for _, b := range []struct {
		name, ids string
		over      map[string]map[string]any
	}{
		{"eight", "chain-8 cassette-8-480 shifter-6-8-p28 rd-r17 crank-road-2 rear-130", map[string]map[string]any{
			"cassette":     {"cogs_t": []int{13, 14, 15, 17, 19, 21, 23, 26}},
			"rear_shifter": {"speeds": 8}, "crankset": {"rings_t": []int{52, 42}}, "hub": {"freehub": "spline-9", "body_class": "8-10"}}},
		{"nine", "chain-9 cassette-9-434 shifter-9-p25 rd-r17 crank-road-2 rear-130", map[string]map[string]any{
			"cassette": {"cogs_t": []int{12, 13, 14, 15, 17, 19, 21, 23, 25}, "freehub": "spline-9"},
			"crankset": {"rings_t": []int{52, 39}}, "hub": {"freehub": "spline-9", "body_class": "8-10"}}},
		{"ten", "chain-10 cassette-10-395-flat shifter-10-p23 rd-r17 crank-road-2 rear-130", map[string]map[string]any{
			"cassette": {"cogs_t": []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25}, "freehub": "spline-9"},
			"crankset": {"rings_t": []int{50, 34}}, "hub": {"freehub": "spline-9", "body_class": "8-10"}}},
		{"eleven", "chain-11 cassette-11-378-road shifter-11-p27 rd-r14 crank-road-2 rear-130", map[string]map[string]any{
			"cassette": {"cogs_t": []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28}, "freehub": "spline-9"},
			"crankset": {"rings_t": []int{50, 34}}, "hub": {"freehub": "spline-9", "body_class": "road-11"}}},
	} {
		over := map[string]map[string]any{
			"frame":           {"chainstay_mm": 410, "rear_suspension": "none", "hanger": "fixed", "over_locknut_mm": 130},
			"rear_derailleur": {"mount": "hanger", "max_cog_t": 30, "capacity_t": 35},
		}
		facts := len(strings.Fields(b.ids))
		for kind, fields := range b.over {
			over[kind] = fields
		}
		for _, fields := range over {
			facts += len(fields)
		}
		m := usualMix(t, over, strings.Fields(b.ids)...)
		r := c.Check(m)
		if r.Verdict.String() != "pass" {
			t.Errorf("%s by %d facts: %s", b.name, facts, r.Verdict)
			for _, f := range r.Findings() {
				if f.Verdict.String() != "pass" {
					t.Errorf("  %s %s: %s %v", f.Rule, f.Verdict, f.Text, f.Missing)
				}
			}
		}
		if t.Logf("%s: %d facts", b.name, facts); facts > 18 {
			t.Errorf("%s takes %d facts", b.name, facts)
		}
	}
}

// The same of twelve cogs, whose pull and ratio nobody publishes: its maker's set by name.
func TestMatchedTwelveByName(t *testing.T) {
	m, err := ReadMix("twelve.yaml", []byte(`
mix: Touring club, twelve cogs and one ring (invented)
parts:
  cassette: {id: usual-cassette-12-range, cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 51], index_family: lake, freehub: driver-10}
  chain: usual-chain-12
  rear_shifter: {id: usual-shifter-12-range, index_family: lake}
  rear_derailleur: {id: [usual-rd-12-cable, usual-cage-single-51], index_family: lake, mount: hanger}
  crankset: {rings_t: [32]}
  hub: {id: usual-rear-148, freehub: driver-10}
  frame: {chainstay_mm: 430, rear_suspension: none, hanger: universal, over_locknut_mm: 148}
`), nil)
	if err != nil {
		t.Fatal(err)
	}
	r := standardChecker(t).Check(m) // by 18 facts, an id counts as one
	for _, f := range r.Findings() {
		if f.Verdict.String() != "pass" {
			t.Errorf("%s %s: %s %v", f.Rule, f.Verdict, f.Text, f.Missing)
		}
	}
}

// Without usual values nothing is decided by a count, a class or a published set.
func TestNoUsual(t *testing.T) {
	c, err := New(Config{NoUsual: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []struct {
		over      map[string]map[string]any
		ids, rule string
	}{
		{map[string]map[string]any{"chain": {"speeds": 9}, "cassette": {"cog_count": 11}}, "", "chain/neighbour-gap"},
		{nil, "chain-9 cassette-11-378-road", "chain/neighbour-gap"},
		{nil, "chain-11 cassette-9-434", "chain/on-cog"},
		{nil, "shifter-10-p23 rd-r17 cassette-10-395-thin", "index/residual"},
		{map[string]map[string]any{"cassette": {"cogs_t": []int{11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34}}}, "cage-road-medium-11", "cassette/largest-cog"},
	} {
		r := c.Check(usualMix(t, q.over, strings.Fields(q.ids)...))
		if got, f := said(r, q.rule); got != "unknown" || len(usualWire(r)) > 0 && f.Lean != nil {
			t.Errorf("%s of %s is %s: %s", q.rule, q.ids, got, f.Text)
		}
	}
}

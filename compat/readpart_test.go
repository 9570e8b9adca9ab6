package compat_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/fact"
)

// shed is a catalogue of a caller.
func shed(t *testing.T) *catalog.Catalog {
	t.Helper()
	c, err := catalog.ReadFile("shed.yaml", []byte(`
catalog: Our shed
parts:
  - {kind: cassette, id: reed-9, name: Reed nine, cogs_t: [11, 13, 15], pitch_mm: 4.34}
  - {kind: chain, id: towline, name: Towline, speeds: 9}
`))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func mustMix(t *testing.T, text string) compat.Mix {
	t.Helper()
	m, err := compat.ReadMix("m.yaml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func partOf(t *testing.T, m compat.Mix, kind string) catalog.Part {
	t.Helper()
	p, ok := m.Part(kind)
	if !ok {
		t.Fatalf("there is no %s", kind)
	}
	return p
}

// TestMixesOfClasses holds that classes are found without a catalogue and beside any,
// and that what is stated over a part is.
func TestMixesOfClasses(t *testing.T) {
	m := mustMix(t, "mix: No catalogue\nparts: {cassette: usual-cassette-9-434, chain: {id: usual-chain-9, outer_width_mm: 6.7, basis: measured}}")
	if id := partOf(t, m, "cassette").ID(); id != "usual-cassette-9-434" {
		t.Errorf("the cassette is %s", id)
	}
	width := catalog.Chain.Ref("outer_width_mm").In(partOf(t, m, "chain").Record())
	if !width.Own || width.Num != 6.7 || width.Spread() != nil || width.Usual != fact.NotUsual {
		t.Errorf("the chain is %+v wide", width)
	}
	both, err := compat.ReadMix("m.yaml", []byte("mix: Ours\nparts:\n  cassette: {id: reed-9, pitch_mm: 4.4, basis: assumed}\n"+
		"  rear_derailleur: {id: [usual-rd-r17, usual-cage-range-long], max_cog_t: 36}\n"), shed(t))
	if err != nil {
		t.Fatal(err)
	}
	pitch := catalog.Cassette.Ref("pitch_mm").In(partOf(t, both, "cassette").Record())
	if pitch.Num != 4.4 || !pitch.Own || !pitch.Assumed {
		t.Errorf("the pitch is %+v", pitch)
	}
	text, err := json.Marshal(checker(t).Check(both))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"catalog":"Our shed"`, `"id":"reed-9","name":"Reed nine, pitch_mm assumed","basis":"stated"`,
		`"id":"usual-rd-r17+usual-cage-range-long"`, `, max_cog_t stated","basis":"usual"`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the report has no %s", want)
		}
	}
	line, err := compat.ReadMixLine("lines", 7, []byte(`{"cassette": {"id": "usual-cassette-10-412", "cog_thickness_mm": 1.65}}`), nil)
	if err != nil || partOf(t, line, "cassette").Name() != "Usual cassette of 10 cogs on eight splines, pitch 4.12 mm, cog_thickness_mm stated" {
		t.Errorf("a line: %v, %v", line, err)
	}
	measured, err := compat.ReadMix("m.yaml", []byte("mix: M\nparts: {cassette: usual-sprocket-1-18}\nbench: {cog_positions_mm: [0, 4]}"), nil)
	if err == nil || !strings.Contains(err.Error(), "bench.cog_positions_mm: 2 positions for 1 cogs") {
		t.Errorf("places for more cogs than there are: %v, %v", measured, err)
	}
}

// TestMixRefusals has what no mix may say of parts and classes: one sentence for each,
// with its place.
func TestMixRefusals(t *testing.T) {
	for parts, want := range map[string]string{
		"cassette: usual-cassette-9-443":                    `m.yaml:2:19: parts.cassette: no part is called "usual-cassette-9-443" (did you mean "usual-cassette-9-434"?)`,
		"cassette: {id: usual-cassette-9-443}":              `m.yaml:2:24: parts.cassette.id: no part is called "usual-cassette-9-443"`,
		"cassette: {id: reed-9}":                            `m.yaml:2:24: parts.cassette.id: there is no catalogue to find "reed-9" in`,
		"cassette: usual-chain-9":                           "m.yaml:2:19: parts.cassette: usual-chain-9 is of the kind chain (write chain: usual-chain-9)",
		"cassette: [usual-cassette-7]":                      "m.yaml:2:19: parts.cassette: is a list (write cassette: {id: [...]}",
		"cassette: {id: []}":                                "m.yaml:2:24: parts.cassette.id: is an empty list (write the ids of usual classes)",
		"cassette: {id: 9}":                                 "m.yaml:2:24: parts.cassette.id: must be a text, is a number",
		"cassette: {id: [usual-cassette-7, 9]}":             "m.yaml:2:43: parts.cassette.id[1]: must be a text, is a number",
		"cassette: {id: [reed-9, usual-cassette-7]}":        `m.yaml:2:25: parts.cassette.id[0]: "reed-9" is no usual class, and only those make a part together`,
		"hub: {id: [usual-body-s9-35, usual-body-s9-3675]}": "m.yaml:2:38: hub.id[1]: usual-body-s9-35 and usual-body-s9-3675 both give kind_of_hub, freehub, body_class, body_length_mm and min_cog_t",
		"hub: {id: [usual-body-s9-35, usual-chain-9]}":      "m.yaml:2:38: parts.hub.id[1]: usual-chain-9 is of the kind chain",
		"chain: {id: usual-chain-9, speds: 9}":              `m.yaml:2:36: chain: unknown entry "speds" (did you mean "speeds"?)`,
		"chain: {id: usual-chain-9, basis: usual}":          "m.yaml:2:43: chain.basis: usual values are for part files",
		"chain: {id: usual-chain-9, outer_width_mm: {usual: 6.6, least: 6, most: 7, source: memory}}": "m.yaml:2:52: chain.outer_width_mm: only a usual value goes over a spread",
		"chain: {outer_width_mm: {usual: 6.6, least: 6, most: 7, source: memory}}":                    "m.yaml:2:33: chain.outer_width_mm: only a usual value goes over a spread",
		"chain: {speeds: 9, basis: usual}":                                                            "m.yaml:2:35: chain.basis: usual values are for part files",
		"cassette: {id: usual-cassette-9-434, cogs_t: [11, 12, 13]}":                                  "m.yaml:2:54: cassette.cogs_t: cogs_t has 3 cogs, and cog_count is 9",
	} {
		_, err := compat.ReadMix("m.yaml", []byte("mix: M\nparts: {"+parts+"}\n"), nil)
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s:\n%v\nwant %s", parts, err, want)
		}
	}
	_, err := compat.ReadMix("m.yaml", []byte("mix: M\nparts: {chain: {id: usual-chain-99, speeds: 900, spede: 9}}"), nil)
	if err == nil || strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("not all faults are told: %v", err)
	}
}

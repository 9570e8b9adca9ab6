package compat

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/fact"
)

// Refit gives the mix with parts fitted in the place of those of their kinds, as
// With does, and forgets what was measured on the parts that they replace: the
// count of the old chain, the places of the old cassette's cogs. What is stated
// of the new parts would otherwise lose against measurements of others.
func (m Mix) Refit(parts ...catalog.Part) Mix {
	m = m.clone()
	var kinds uint64
	for _, p := range parts {
		if i, ok := catalog.KindIndex(p.Kind()); ok {
			m.put(i, p)
			kinds |= 1 << i
		}
	}
	measured := m.records[benchPlace]
	values := make([]fact.Value, len(bench.Table().Fields()))
	forgot := false
	for i := range values {
		values[i] = *measured.At(i)
		if values[i].Known && measuredOnKinds[i]&kinds != 0 {
			values[i], forgot = fact.Value{}, true
		}
	}
	if forgot {
		m.records[benchPlace] = bench.NewRecord(values, nil)
	}
	m.loose = looseFacts(m.records)
	return m
}

// measuredOn says on which parts each measured fact was taken: with another part
// of one of these kinds it has to be measured again. Where the suspension stood
// is about the measuring, not about a part.
var measuredOn = map[string][]string{
	"position":              nil,
	"chain_pitches":         {"chain"},
	"end_to_end_pitches":    {"cassette", "crankset", "chainring", "frame"},
	"chain_wear_percent":    {"chain"},
	"cog_positions_mm":      {"cassette"},
	"step_positions_mm":     {"rear_derailleur", "rear_shifter"},
	"chainline_mm":          {"crankset", "chainring", "bottom_bracket", "frame"},
	"smallest_cog_inset_mm": {"cassette", "hub"},
	"spacer_behind_mm":      {"cassette", "hub"},
	"b_gap_mm":              {"cassette", "rear_derailleur", "hanger_link", "frame"},
	"guide_bolt_to_cog_mm":  {"cassette", "rear_derailleur", "hanger_link", "frame"},
	"hanger_error_mm":       {"frame", "hanger_link"},
	"trim_clicks_used":      {"cassette", "rear_derailleur"},
	"cage_to_spoke_mm":      {"cassette", "rear_derailleur", "hub", "wheel", "hanger_link", "frame"},
	"jockey_play_mm":        {"rear_derailleur"},
	"cell_charge_percent":   {"cell"},
	"torque_nm":             {"rear_derailleur", "hanger_link", "frame"},
}

// measuredOnKinds is measuredOn by the places of the fields and of the kinds.
var measuredOnKinds = measuredSets()

func measuredSets() []uint64 {
	out := make([]uint64, len(bench.Table().Fields()))
	for i, f := range bench.Table().Fields() {
		for _, kind := range measuredOn[f.Name] {
			place, _ := catalog.KindIndex(kind)
			out[i] |= 1 << place
		}
	}
	return out
}

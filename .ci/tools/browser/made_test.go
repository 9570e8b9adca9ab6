package browser

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// made are mixes that have most of what is drawn: 1 to 13 cogs, 1 to 3 rings, odd
// pitches, long names, and here and there a part or a fact too few.
type made struct {
	*rand.Rand
	n int
}

// object is a part or a mix, as JSON has it.
type object = map[string]any

func (m *made) between(least, most float64) float64 {
	return math.Round((least+(most-least)*m.Float64())*100) / 100
}

// often leaves one of ten out.
func (m *made) often(of object, name string, value any) {
	if m.IntN(10) > 0 {
		of[name] = value
	}
}

// Next makes a mix: what a mix file holds, ready to be written as JSON.
func (m *made) Next() object {
	cogs := 1 + m.n%13
	m.n++
	teeth, at := []int{}, 9+m.IntN(4)
	for k := range cogs {
		teeth = append(teeth, at)
		at += 1 + m.IntN(1+min(5, 1+k/2))
	}
	cassette := object{"cogs_t": teeth, "pitch_mm": m.between(3.2, 5.2)}
	m.often(cassette, "cog_thickness_mm", m.between(1.5, 2.2))
	rings := [][]int{{50}, {50, 34}, {48, 36, 26}}[m.IntN(3)]
	offsets := [][]float64{{0}, {2.5, -2.5}, {5, 0, -5}}[len(rings)-1]
	crankset := object{"rings_t": rings, "ring_offset_mm": offsets}
	m.often(crankset, "chainline_mm", m.between(40, 58))
	derailleur := object{"actuation": "motor", "made_for_cogs": max(2, cogs-m.IntN(2)), "made_for_pitch_mm": m.between(3.2, 5.2)}
	m.often(derailleur, "b_gap_mm", m.between(4, 22))
	m.often(derailleur, "guide_pulley_t", 12)
	parts := object{"cassette": cassette, "crankset": crankset}
	m.often(parts, "rear_derailleur", derailleur)
	m.often(parts, "frame", object{"chainstay_mm": m.between(395, 480), "chain_growth_mm": float64(m.IntN(2)) * m.between(1, 25)})
	m.often(parts, "chain", object{"outer_width_mm": m.between(4.9, 7.4), "inner_width_mm": m.between(2.1, 2.5), "pitches": 96 + 2*m.IntN(14)})
	m.often(parts, "hub", object{"over_locknut_mm": 142, "smallest_cog_inset_mm": m.between(4, 9)})
	m.often(parts, "wheel", object{"bead_seat_mm": 622, "tyre_width_mm": 40})
	name := []string{fmt.Sprintf("Made %d", m.n), strings.Repeat("A very long name of a bicycle ", 6), strings.Repeat("Endless", 26)}[m.n%3]
	return object{"mix": name, "parts": parts}
}

package picture_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/compat/picture"
)

var sharedChecker = sync.OnceValues(func() (*compat.Checker, error) { return compat.New(compat.Config{}) })

func outline(t testing.TB, m compat.Mix) compat.Outline {
	t.Helper()
	c, err := sharedChecker()
	if err != nil {
		t.Fatal(err)
	}
	return c.Check(m).Outline()
}

// demoOutline is that of a mix of the demo.
func demoOutline(t testing.TB, name string) compat.Outline {
	t.Helper()
	text, ok := demo.Mix(name)
	if !ok {
		t.Fatalf("the demo has no mix %q", name)
	}
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	m, err := compat.ReadMix(name, text, parts)
	if err != nil {
		t.Fatal(err)
	}
	return outline(t, m)
}

// everything draws all that there is of an outline.
func everything(o compat.Outline) []picture.Picture {
	out := picture.All(o, picture.Options{})
	gauge, _ := picture.Draw("gauge", o, picture.Options{})
	return append(out, gauge)
}

// sharedOutlines are made once; nobody writes to them.
var sharedOutlines struct {
	sync.Once
	of map[string]compat.Outline
}

// outlines are those of the demo, of the zero report, of mixes made for drawings, and of
// mixes of any parts with any fields.
func outlines(t testing.TB) map[string]compat.Outline {
	t.Helper()
	sharedOutlines.Do(func() { sharedOutlines.of = madeOutlines(t) })
	return sharedOutlines.of
}

func madeOutlines(t testing.TB) map[string]compat.Outline {
	t.Helper()
	out := map[string]compat.Outline{"nothing": (compat.Report{}).Outline()}
	for _, name := range demo.Mixes() {
		out[name] = demoOutline(t, name)
	}
	r := rand.New(rand.NewPCG(31, 7))
	for i := range 90 {
		out[fmt.Sprintf("made %d", i)] = outline(t, madeMix(t, r, i))
	}
	any := random.Seeded(77)
	for i := range 60 {
		m, err := compat.NewMix("any", compat.ScopeCart, random.New(any).Parts()...)
		if err != nil {
			t.Fatal(err)
		}
		out[fmt.Sprintf("any %d", i)] = outline(t, m)
	}
	return out
}

// madeMix makes a mix that has most of what is drawn: 1 to 13 cogs, 1 to 3 rings, odd
// pitches, long names, and here and there a part or a fact too few.
func madeMix(t testing.TB, r *rand.Rand, i int) compat.Mix {
	t.Helper()
	between := func(low, high float64) float64 { return float64(int((low+(high-low)*r.Float64())*100)) / 100 }
	cogs := 1 + i%13
	var teeth, pitches []string
	at := 9 + r.IntN(4)
	for k := range cogs {
		teeth = append(teeth, fmt.Sprint(at))
		at += 1 + r.IntN(1+min(5, 1+k/2))
		if k > 0 {
			pitches = append(pitches, fmt.Sprint(between(3.2, 5.2)))
		}
	}
	rings := []string{"50"}
	offsets := []string{"0"}
	if n := r.IntN(3); n > 0 {
		rings, offsets = [][]string{{"50", "34"}, {"48", "36", "26"}}[n-1], [][]string{{"2.5", "-2.5"}, {"5", "0", "-5"}}[n-1]
	}
	spacing := "pitch_mm: " + fmt.Sprint(between(3.3, 5.2))
	if cogs > 1 && r.IntN(3) == 0 {
		spacing = "pitches_mm: [" + strings.Join(pitches, ", ") + "]"
	}
	fact := func(text string, chance float64) string {
		if r.Float64() > chance {
			return ""
		}
		return ", " + text
	}
	cassette := "cassette: {cogs_t: [" + strings.Join(teeth, ", ") + "], " + spacing +
		fact(fmt.Sprintf("cog_thickness_mm: %v", between(1.5, 2.2)), 0.7) + "}"
	lines := []string{cassette}
	part := func(chance float64, text string) {
		if r.Float64() < chance {
			lines = append(lines, strings.Replace(text, "{, ", "{", 1))
		}
	}
	part(0.95, "crankset: {rings_t: ["+strings.Join(rings, ", ")+"]"+fact(fmt.Sprintf("chainline_mm: %v", between(40, 58)), 0.9)+
		fact("ring_offset_mm: ["+strings.Join(offsets, ", ")+"]", 0.9)+"}")
	part(0.95, fmt.Sprintf("frame: {chainstay_mm: %v, chain_growth_mm: %v}", between(395, 480), between(0, 25)*float64(r.IntN(2))))
	part(0.9, fmt.Sprintf("chain: {outer_width_mm: %v, inner_width_mm: %v, pitches: %d}",
		between(4.9, 7.4), between(2.1, 2.5), 96+2*r.IntN(14)))
	part(0.9, fmt.Sprintf("hub: {over_locknut_mm: 142, smallest_cog_inset_mm: %v}", between(4, 9)))
	part(0.9, fmt.Sprintf("rear_derailleur: {actuation: motor, made_for_cogs: %d, made_for_pitch_mm: %v",
		max(2, cogs-r.IntN(2)), between(3.3, 5.2))+
		fact(fmt.Sprintf("b_gap_mm: %v", between(4, 22)), 0.85)+fact("guide_pulley_t: 12", 0.85)+"}")
	part(0.8, "wheel: {bead_seat_mm: 622, tyre_width_mm: 40}")
	name := []string{"short", strings.Repeat("A very long name of a bicycle ", 6),
		`<script>alert("1")</script>` + "\u202e\u0007]]>&amp;"}[r.IntN(3)]
	m, err := compat.ReadMix("made.yaml", []byte(fmt.Sprintf("mix: %q\nparts:\n  %s\n", name, strings.Join(lines, "\n  "))), nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, strings.Join(lines, "\n"))
	}
	return m
}

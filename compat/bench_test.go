package compat

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"example.org/cogcourt/catalog"
)

// lakeParts are ten parts as a catalogue states them (invented): a motor
// derailleur with a cassette that is a little wider than it is made for.
var lakeParts = []struct {
	kind   string
	fields map[string]any
}{
	{"cassette", map[string]any{
		"id": "pier-12", "name": "Pier twelve 10-51", "cogs_t": []int{10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51},
		"pitch_mm": 3.75, "cog_thickness_mm": 1.6, "mount_height_mm": 31.5, "freehub": "lake-body", "index_family": "pier",
	}},
	{"chain", map[string]any{
		"id": "tow-12", "name": "Tow rope twelve", "speeds": 12, "inner_width_mm": 2.18, "outer_width_mm": 5.25, "pitches": 126, "strength_n": 9200,
	}},
	{"rear_derailleur", map[string]any{
		"id": "heron-motor", "name": "Heron motor", "actuation": "motor", "made_for_pitch_mm": 3.65, "made_for_cogs": 12, "steps_selectable": []int{9, 10, 11},
		"trim_step_mm": 0.2, "trim_range_mm": 2, "index_family": "heron", "max_cog_t": 52, "min_largest_cog_t": 42, "capacity_t": 42,
		"guide_pulley_t": 12, "b_gap_mm": 13, "add_pitches": 2, "add_pitches_rest": 5, "mount": "hanger", "hanger": "universal", "radio": "heron",
	}},
	{"rear_shifter", map[string]any{
		"id": "heron-button", "name": "Heron buttons", "actuation": "motor", "indexed": true, "index_family": "heron", "radio": "heron", "clamp_diameter_mm": 22.2,
	}},
	{"crankset", map[string]any{
		"id": "oar-32", "name": "Oar 32", "rings_t": []int{32}, "chainline_mm": 52, "ring_offset_mm": []float64{0}, "ring_thickness_mm": 2.1, "spindle": "through-24",
	}},
	{"bottom_bracket", map[string]any{"id": "keel", "name": "Keel", "shell": "threaded-73", "spindle": "through-24"}},
	{"hub", map[string]any{
		"id": "capstan", "name": "Capstan", "kind_of_hub": "cassette", "freehub": "lake-body", "body_length_mm": 31, "over_locknut_mm": 148,
		"axle": "through", "smallest_cog_inset_mm": 7.3, "shoulder_inset_mm": 38.5,
	}},
	{"frame", map[string]any{
		"id": "lake-trail", "name": "Lake trail", "chainstay_mm": 435, "chain_growth_mm": 20, "growth_at_sag_mm": 6, "rear_suspension": "sprung",
		"hanger": "universal", "over_locknut_mm": 148, "axle": "through", "shell": "threaded-73", "max_ring_t": 34,
	}},
	{"cockpit", map[string]any{"id": "tiller", "name": "Tiller", "clamp_diameter_mm": 22.2, "free_bar_mm": 40}},
	{"wheel", map[string]any{"id": "fender-622", "name": "Fender 622", "bead_seat_mm": 622, "tyre_width_mm": 57}},
}

// lakeBike is the mix of the ten parts, without some of their fields where any
// are named.
func lakeBike(t testing.TB, without ...string) Mix {
	t.Helper()
	m := Mix{name: "Lake trail bike (invented)", scope: ScopeBike}
	for _, p := range lakeParts {
		fields := map[string]any{}
		for name, v := range p.fields {
			fields[name] = v
		}
		for _, name := range without {
			delete(fields, name)
		}
		m = m.With(newPart(t, p.kind, fields))
	}
	return m
}

// benchMixes are what the benchmarks judge: all known; four facts missing; only
// four parts in the cart.
func benchMixes(t testing.TB) map[string]Mix {
	cart := lakeBike(t)
	for _, kind := range []string{"crankset", "bottom_bracket", "hub", "frame", "cockpit", "wheel"} {
		cart = cart.Without(kind)
	}
	return map[string]Mix{
		"known":   lakeBike(t),
		"missing": lakeBike(t, "pitch_mm", "max_cog_t", "capacity_t", "chain_growth_mm"),
		"cart":    cart,
	}
}

var benchNames = []string{"known", "missing", "cart"}

func BenchmarkCheck(b *testing.B) {
	c := standardChecker(b)
	mixes := benchMixes(b)
	for _, name := range benchNames {
		m := mixes[name]
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.Check(m)
			}
		})
	}
}

// The figures alone, which rules are not needed for.
func BenchmarkMeasure(b *testing.B) {
	mixes := benchMixes(b)
	for _, name := range benchNames {
		m := mixes[name]
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Measure(m)
			}
		})
	}
}

// mostAllocations bounds a check. Of a cart that lacks whole parts, the engine
// itself has to say which of them a rule is about, and that costs a little more.
var mostAllocations = map[string]float64{"known": 16, "missing": 16, "cart": 40}

// A check allocates the report, its figures and findings, and little else: it
// must stay cheap enough to be made for every candidate of a search.
func TestCheckAllocates(t *testing.T) {
	c := standardChecker(t)
	mixes := benchMixes(t)
	for _, name := range benchNames {
		m := mixes[name]
		got := testing.AllocsPerRun(200, func() { c.Check(m) })
		t.Logf("%s: %.0f allocations a check", name, got)
		if name == "missing" && underRace {
			continue // what is tried over the spread of usual values lies in pools, which forget then
		}
		if most := mostAllocations[name]; got > most {
			t.Errorf("%s: %.0f allocations a check, at most %.0f are wanted", name, got, most)
		}
	}
}

func TestLakeBikeIsWhole(t *testing.T) {
	m := lakeBike(t)
	if len(m.Parts()) != len(lakeParts) || len(lakeParts) != 10 {
		t.Errorf("%d parts of %d", len(m.Parts()), len(lakeParts))
	}
	for _, p := range m.Parts() {
		if p.Kind() == "" || p.Name() == "" {
			t.Errorf("%s has no name", p.Kind())
		}
	}
	if _, ok := catalog.Kind("cockpit"); !ok {
		t.Error("the kind cockpit is gone")
	}
}

// BenchmarkTolerances asks what facts with a tolerance cost: none, one and eight of
// them on a bicycle that is all known. x is the time over that of none, the medians
// of rounds timed in turn.
func BenchmarkTolerances(b *testing.B) {
	c := standardChecker(b)
	facts := []string{"pitch_mm", "cog_thickness_mm", "outer_width_mm", "inner_width_mm", "ring_thickness_mm", "body_length_mm", "chain_growth_mm", "mount_height_mm"}
	mixes := []Mix{toleranced(b, nil), toleranced(b, facts[:1]), toleranced(b, facts)}
	times := make([][]float64, len(mixes))
	for b.Loop() {
		for i, m := range mixes {
			times[i] = append(times[i], float64(inGoroutines(1, 100, func() { c.Check(m) })))
		}
	}
	median := func(list []float64) float64 {
		slices.Sort(list)
		return list[len(list)/2]
	}
	none := median(times[0])
	b.ReportMetric(median(times[1])/none, "x-one")
	b.ReportMetric(median(times[2])/none, "x-eight")
}

// toleranced is the lake bike with a tolerance on some of its numbers.
func toleranced(t testing.TB, facts []string) Mix {
	t.Helper()
	m := lakeBike(t)
	stated := 0
	for _, p := range lakeParts {
		fields := map[string]any{}
		for name, v := range p.fields {
			if slices.Contains(facts, name) {
				v, stated = fmt.Sprintf("%v ± 0.02", v), stated+1
			}
			fields[name] = v
		}
		m = m.With(newPart(t, p.kind, fields))
	}
	if stated != len(facts) {
		t.Fatalf("%d facts of %d carry a tolerance", stated, len(facts))
	}
	return m
}

// inGoroutines times n goroutines that each call f so many times.
func inGoroutines(n, times int, f func()) time.Duration {
	start := time.Now()
	var wg sync.WaitGroup
	for range n {
		wg.Go(func() {
			for range times {
				f()
			}
		})
	}
	wg.Wait()
	return time.Since(start)
}

// usualBike is the whole bicycle with eight usual facts in place of stated ones.
func usualBike(t testing.TB) Mix {
	m := lakeBike(t, "pitch_mm", "cog_thickness_mm", "outer_width_mm", "inner_width_mm", "ring_thickness_mm", "max_cog_t", "capacity_t", "body_length_mm")
	for kind, id := range map[string]string{"rear_derailleur": "usual-cage-single-51", "hub": "usual-body-s9-31"} {
		class, ok := Usual().Part(id)
		if !ok {
			t.Fatalf("there is no class %s", id)
		}
		p, _ := m.Part(kind)
		fields := map[string]any{}
		for i, f := range p.Record().Object().Table().Fields() {
			if v := p.Record().Value(i); v.Known && f.Default == nil && !class.Record().Value(i).Known {
				fields[f.Name] = v.Plain(f.Type)
			}
		}
		over, err := class.With(fields)
		if err != nil {
			t.Fatal(err)
		}
		m = m.With(over)
	}
	return m
}

// What eight usual facts cost, beside the same bicycle with all stated.
func BenchmarkCheckUsual(b *testing.B) {
	c, m := standardChecker(b), usualBike(b)
	b.Logf("%d usual facts with a spread", len(usualFacts(c.Check(m))))
	for name, m := range map[string]Mix{"stated": lakeBike(b), "usual": m} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.Check(m)
			}
		})
	}
}

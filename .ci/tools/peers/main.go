// Command peers puts cogcourt beside hand-written Go and three general engines:
// the same rules on the same mixes in one process, with the findings compared.
// Times are ratios to hand-written Go of the same run; machines are noisy.
package main

import (
	"fmt"
	"log"
	"os"
	"slices"
	"testing"
	"text/tabwriter"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// engine judges a mix: the verdicts in the order of the checks. judge works out
// the figures first, as a shop's call does; decide is given them and applies the
// rules alone.
type engine struct {
	name   string
	judge  func(m mixed) []string
	decide func(m mixed) []string
	load   time.Duration // from rule texts to ready
}

// mixed is one mix with what each engine wants made beforehand: the facts of its
// parts, as a catalogue would hold them.
type mixed struct {
	mix   compat.Mix
	facts map[string]any

	figures compat.Figures // worked out beforehand, for decide
	all     map[string]any // facts and figures
	records []*rules.Record
}

func main() {
	log.SetFlags(0)
	mixes := variants()
	engines := []engine{handwritten(), cogcourt(), naiveCEL(), exprLang(), rego()}
	differ := 0
	for _, m := range mixes {
		want := engines[0].judge(m)
		for _, e := range engines[1:] {
			for _, got := range [][]string{e.judge(m), e.decide(m)} {
				if !slices.Equal(got, want) {
					differ++
					log.Printf("%s differs on %s:\n got %v\nwant %v", e.name, m.mix.Name(), got, want)
				}
			}
		}
	}
	fmt.Println("a whole check, figures included")
	table(engines, mixes, func(e engine) func(mixed) []string { return e.judge })
	fmt.Println("\nthe rules alone, on figures worked out beforehand")
	table(engines, mixes, func(e engine) func(mixed) []string { return e.decide })
	if differ > 0 {
		log.Fatalf("%d findings differ", differ)
	}
	fmt.Printf("all engines give the same findings on %d mixes\n", len(mixes))
}

// table times each engine over all mixes.
func table(engines []engine, mixes []mixed, of func(engine) func(mixed) []string) {
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "engine\tratio\tallocations\tbytes\tload ms\t")
	var first float64
	for i, e := range engines {
		run := of(e)
		r := testing.Benchmark(func(b *testing.B) {
			b.ReportAllocs()
			for n := 0; b.Loop(); n++ {
				run(mixes[n%len(mixes)])
			}
		})
		ns := float64(r.NsPerOp())
		if i == 0 {
			first = ns
		}
		fmt.Fprintf(w, "%s\t%.1f\t%d\t%d\t%.1f\t\n", e.name, ns/first, r.AllocsPerOp(), r.AllocedBytesPerOp(), float64(e.load.Microseconds())/1000)
	}
	w.Flush()
}

// variants makes 40 mixes from the demo's motor bicycle: every check passes in
// some and does not in others.
func variants() []mixed {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		log.Fatal(err)
	}
	text, _ := demo.Mix("ferry-motor")
	base, err := compat.ReadMix("ferry-motor", text, parts)
	if err != nil {
		log.Fatal(err)
	}
	changes := []map[string]map[string]any{
		{}, {"rear_shifter": {"radio": "other"}}, {"rear_derailleur": {"max_cog_t": 49.0}}, {"rear_derailleur": {"max_cog_t": 46.0}},
		{"rear_derailleur": {"capacity_t": 39.0}}, {"rear_derailleur": {"capacity_t": 30.0}}, {"cassette": {"pitch_mm": 3.65}},
		{"chain": {"outer_width_mm": 5.9}}, {"chain": {"outer_width_mm": 6.4}}, {"chain": {"roller_class": "large"}},
		{"frame": {"over_locknut_mm": 150.0}}, {"frame": {"over_locknut_mm": 157.0}}, {"hub": {"freehub": "spline-9"}},
		{"crankset": {"chainline_mm": 56.0}}, {"chain": {"pitches": 112.0}}, {"chain": {"pitches": 114.0}}, {"rear_shifter": {"actuation": "cable"}},
		{"rear_derailleur": {"trim_range_mm": 0.8}}, {"cassette": {"pitch_mm": 3.7}, "chain": {"pitches": 113.0}},
		{"rear_derailleur": {"max_cog_t": 50.0}, "hub": {"freehub": "spline-9"}, "crankset": {"chainline_mm": 57.0}},
	}
	var out []mixed
	for i, change := range changes {
		m, facts := base, map[string]any{}
		for _, p := range base.Parts() {
			f := factsOf(p)
			for name, v := range change[p.Kind()] {
				f[name] = v
			}
			made, err := catalog.New(p.Kind(), without(f))
			if err != nil {
				log.Fatal(i, err)
			}
			m = m.With(made)
			facts[p.Kind()] = f
		}
		x := mixed{mix: m, facts: facts, figures: compat.Measure(m)}
		x.all = withFigures(x, x.figures)
		x.records = recordsOf(x)
		out = append(out, x)
	}
	return out
}

// recordsOf gives the facts in the order of cogcourt's vocabulary.
func recordsOf(m mixed) []*rules.Record {
	v, err := compat.Vocabulary()
	if err != nil {
		log.Fatal(err)
	}
	out := make([]*rules.Record, len(v.Objects()))
	for i, o := range v.Objects() {
		if p, ok := m.mix.Part(o.Name()); ok {
			out[i] = p.Record()
		}
		if o.Name() == "figures" {
			out[i] = m.figures.Record()
		}
	}
	return out
}

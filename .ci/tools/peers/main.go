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
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/tools/twin"
)

// engine judges a mix: the verdicts in the order of the checks, written to out.
// judge works out the figures first, as a shop's call does; decide is given them
// and applies the rules alone.
type engine struct {
	name   string
	judge  judge
	decide judge
	line   judge         // from the bytes of a line to those of an answer, and what that says
	timed  judge         // the same, but that nobody looks at the answer
	maps   bool          // it wants facts as maps
	load   time.Duration // from rule texts to ready
}

type judge func(m mixed, out []string)

// mixed is one mix with what each engine wants made beforehand: the facts of its
// parts, as a catalogue would hold them.
type mixed struct {
	mix   compat.Mix
	facts map[string]any
	line  []byte // the mix as JSON

	figures figures.Figures // worked out beforehand, for decide
	all     map[string]any  // facts and figures
	records []*rules.Record
}

func main() {
	log.SetFlags(0)
	mixes := variants()
	engines := []engine{handwritten(), cogcourt(), naiveCEL(), exprLang(), rego()}
	for i := range engines {
		if e := engines[i]; e.line == nil {
			engines[i].line, engines[i].timed = e.bytesToBytes, e.bytesToBytes
		}
	}
	differ := 0
	for _, m := range mixes {
		want := make([]string, len(checks))
		engines[0].judge(m, want)
		for _, e := range engines[1:] {
			for _, run := range []judge{e.judge, e.decide} {
				got := make([]string, len(checks))
				if run(m, got); !agree(got, want) {
					differ++
					log.Printf("%s differs on %s:\n got %v\nwant %v", e.name, m.mix.Name(), got, want)
				}
			}
		}
	}
	fmt.Println("a whole check, figures included")
	table(engines, mixes, func(e engine) judge { return e.judge })
	fmt.Println("\nthe rules alone, on figures worked out beforehand")
	table(engines, mixes, func(e engine) judge { return e.decide })
	fmt.Println("\na whole line, bytes to bytes")
	differ += lines(engines, mixes)
	fmt.Println("\nhow large a program becomes")
	weights()
	if differ > 0 {
		log.Fatalf("%d findings differ", differ)
	}
	fmt.Printf("all engines give the same findings on %d mixes\n", len(mixes))
}

// agree compares verdicts. Of a check whose figure is not known cogcourt alone says
// nothing; the others take what is missing for 0.
func agree(got, want []string) bool {
	for i := range want {
		if got[i] != want[i] && got[i] != "" {
			return false
		}
	}
	return true
}

// rounds is how often the engines are timed in turn. What else the machine does
// changes from second to second, so each round is compared within itself, and
// the median of the rounds is what counts.
const rounds = 31

// table times each engine over all mixes.
func table(engines []engine, mixes []mixed, of func(engine) judge) {
	ratios := make([][]float64, len(engines))
	times := make([]int, len(engines)) // over the mixes, for about 20 milliseconds a round
	for i, e := range engines {
		times[i] = max(1, int(20*time.Millisecond/pass(mixes, of(e), 10)))
	}
	for range rounds {
		first := 0.0
		for i, e := range engines {
			took := float64(pass(mixes, of(e), times[i]))
			if i == 0 {
				first = took
			}
			ratios[i] = append(ratios[i], took/first)
		}
	}
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "engine\tratio\tallocations\tbytes\tload ms\t")
	for i, e := range engines {
		slices.Sort(ratios[i])
		allocs, bytes := memory(mixes, of(e))
		fmt.Fprintf(w, "%s\t%.2f\t%d\t%d\t%.1f\t\n", e.name, ratios[i][rounds/2], allocs, bytes, float64(e.load.Microseconds())/1000)
	}
	w.Flush()
}

// pass is the time of going over all mixes once, from so many times.
func pass(mixes []mixed, run judge, times int) time.Duration {
	out := make([]string, len(checks))
	start := time.Now()
	for range times {
		for _, m := range mixes {
			run(m, out)
		}
	}
	return time.Since(start) / time.Duration(times)
}

// memory is what one mix costs on average, in pieces and bytes.
func memory(mixes []mixed, run judge) (allocs, bytes int64) {
	out := make([]string, len(checks))
	r := testing.Benchmark(func(b *testing.B) {
		for n := 0; b.Loop(); n++ {
			run(mixes[n%len(mixes)], out)
		}
	})
	return r.AllocsPerOp(), r.AllocedBytesPerOp()
}

// variants makes 20 mixes from the demo's motor bicycle: every check passes in
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
	hand := twin.New()
	for i, change := range changes {
		m, facts := base, map[string]any{}
		for _, p := range base.Parts() {
			f := factsOf(p)
			switch p.Kind() {
			case "cassette", "chain", "crankset": // which the demo leaves open, and one check is about
				f["roller_class"] = "standard"
			}
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
		x.line = lineOf(x)
		x.all = withFigures(x, x.figures)
		x.records = hand.Records(x.mix)
		hand.Put(x.records, compat.Measure(x.mix))
		out = append(out, x)
	}
	return out
}

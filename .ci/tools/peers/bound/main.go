// Command bound puts what a shop does all day beside a lower bound: encoding/json
// reads the same bytes into structs and writes the same bytes from structs, and
// judges nothing. A mix a line, a cart, and 10,000 parts of a catalogue.
//
//	go run ./peers/bound
//
// Times are processor time on one core, which what else the machine does changes
// little: the two take turns, and the median of the rounds' ratios counts.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"runtime"
	"runtime/pprof"
	"slices"
	"strings"
	"syscall"
	"text/tabwriter"
	"time"
)

// work is one job, done by the library and by encoding/json.
type work struct {
	name        string
	count       int                 // of lines, carts or parts in one round
	ours, bound func() (int, error) // do all of it, and give how many bytes came out
}

func main() {
	log.SetFlags(0)
	rounds := flag.Int("rounds", 15, "how often the two take turns")
	only := flag.String("only", "", "measure the jobs alone whose name holds these words")
	profile := flag.String("profile", "", "write what the library's side of them takes to this file, for go tool pprof")
	flag.Parse()
	runtime.GOMAXPROCS(1)
	var all []work
	for _, prepare := range []func() ([]work, error){lineWork, cartWork, loadWork} {
		works, err := prepare()
		if err != nil {
			log.Fatal(err)
		}
		all = append(all, works...)
	}
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "each\tratio\tours us\tbound us\tallocations\tbound's\tkB\tbound's\tkB out\t")
	all = slices.DeleteFunc(all, func(j work) bool { return !strings.Contains(j.name, *only) })
	for _, job := range all {
		if err := job.measure(w, *rounds); err != nil {
			log.Fatalf("%s: %v", job.name, err)
		}
	}
	w.Flush()
	if *profile != "" {
		if err := profiled(*profile, all, *rounds); err != nil {
			log.Fatal(err)
		}
	}
}

// profiled writes a profile of the library's side alone.
func profiled(file string, jobs []work, rounds int) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	if err := pprof.StartCPUProfile(f); err != nil {
		return err
	}
	for range rounds {
		for _, job := range jobs {
			if _, err := job.ours(); err != nil {
				return err
			}
		}
	}
	pprof.StopCPUProfile()
	return f.Close()
}

// measure prints one line of the table.
func (j work) measure(w *tabwriter.Writer, rounds int) error {
	var ratios, mine, theirs []float64
	for range rounds {
		ours, err := taken(j.ours)
		if err != nil {
			return err
		}
		bound, err := taken(j.bound)
		if err != nil {
			return err
		}
		ratios = append(ratios, float64(ours)/float64(bound))
		mine, theirs = append(mine, float64(ours)), append(theirs, float64(bound))
	}
	each := func(x float64) float64 { return x / float64(j.count) }
	a, err := memory(j.ours)
	if err != nil {
		return err
	}
	b, err := memory(j.bound)
	if err != nil {
		return err
	}
	us := func(list []float64) float64 { return each(median(list)) / float64(time.Microsecond) }
	fmt.Fprintf(w, "%s\t%.2f\t%.1f\t%.1f\t%.0f\t%.0f\t%.1f\t%.1f\t%.1f\t\n", j.name, median(ratios), us(mine), us(theirs),
		each(a.pieces), each(b.pieces), each(a.bytes)/1e3, each(b.bytes)/1e3, each(a.out)/1e3)
	return nil
}

func median(list []float64) float64 {
	list = slices.Clone(list)
	slices.Sort(list)
	return list[len(list)/2]
}

// taken is the processor time of this process that a run takes, its collector's
// among it.
func taken(run func() (int, error)) (time.Duration, error) {
	before, err := processor()
	if err != nil {
		return 0, err
	}
	if _, err := run(); err != nil {
		return 0, err
	}
	after, err := processor()
	return after - before, err
}

func processor() (time.Duration, error) {
	var u syscall.Rusage
	err := syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()), err
}

// allocated is what one run takes of the heap, and how many bytes it gives.
type allocated struct{ pieces, bytes, out float64 }

func memory(run func() (int, error)) (allocated, error) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	out, err := run()
	runtime.ReadMemStats(&after)
	return allocated{float64(after.Mallocs - before.Mallocs), float64(after.TotalAlloc - before.TotalAlloc), float64(out)}, err
}

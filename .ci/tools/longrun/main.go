// Command longrun does everything at once for a long time, and plants faults in it: checks,
// sheets, comparisons, carts, fits and exchanges on shared rules and parts, while other
// rules and parts are swapped in; observers and clocks that break down, outputs that are
// full or break down, disks that are slow, fail or break down, contexts that end, a full
// disk and a closed pipe for the command. Every answer is held byte for byte against one
// that was worked out alone.
//
//	go run -race ./longrun -for 1h
//
// The heap is measured at each tenth, while nothing works and what is in use is what the
// run began with; -profiles writes what holds it then.
//
// Status 1: an answer was another, a line was lost, a panic came from elsewhere, a swap
// took or refused what it should not, a goroutine was left, or the heap grew by more than
// two percent from the first tenth to the last, which a run of less than a minute only
// tells. Status 66: a race, which the detector prints. How long a swap of parts waited
// while readers were busy is told; with -quiet, on a machine with nothing else to do, more
// than a second is a fault.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"time"
)

func main() {
	length := flag.Duration("for", 10*time.Second, "how long")
	readers := flag.Int("readers", 4, "how many readers work at once")
	quiet := flag.Bool("quiet", false, "the machine has nothing else to do: a swap waits a second at most")
	profiles := flag.String("profiles", "", "a `folder` for a profile of the heap at each tenth")
	flag.Parse()
	if !work(os.Stdout, options{*length, *readers, *quiet, *profiles}) {
		os.Exit(1)
	}
}

// options is how a run is done.
type options struct {
	length   time.Duration
	readers  int
	quiet    bool
	profiles string
}

// work does a whole run, and says whether all was well.
func work(out io.Writer, o options) bool {
	dir, err := os.MkdirTemp("", "longrun")
	if err != nil {
		fmt.Fprintln(out, err)
		return false
	}
	defer os.RemoveAll(dir)
	if o.profiles != "" {
		if err := os.MkdirAll(o.profiles, 0o755); err != nil { // told now, and not an hour later
			fmt.Fprintln(out, err)
			return false
		}
	}
	program, err := build(dir)
	if err != nil {
		fmt.Fprintln(out, err)
		return false
	}
	r, err := newRun(program)
	if err != nil {
		fmt.Fprintln(out, err)
		return false
	}
	r.profiles = o.profiles
	r.goOn(o.length, o.readers)
	return r.tell(out, o)
}

const (
	mostDrift = 2.0         // percent of the heap
	mostWait  = time.Second // of a swap
	settled   = time.Minute // behind which the heap should stand still
)

// tell prints what came of a run, and says whether it was well.
func (r *run) tell(out io.Writer, o options) bool {
	status := r.w.live.Status()
	fmt.Fprintf(out, "%s with %d readers, race detector %t\n", o.length, o.readers, raced)
	for k, kind := range r.kinds() {
		fmt.Fprintf(out, "%9d %s\n", r.done[k].Load(), kind.name)
		if r.done[k].Load() == 0 {
			r.fault("nothing was done of %s", kind.name)
		}
	}
	fmt.Fprintf(out, "%9d swaps, of which %d were refused or ended; in use are %d rules and %d parts\n", r.swaps.Load(), r.refused.Load(), status.Rules, status.Parts)
	fmt.Fprintf(out, "%9d faults came where they were planted\n", r.planted.Load())
	fmt.Fprintf(out, "%9d answers are others than those worked out alone, %d lines are lost, %d goroutines are left\n", r.mixed.Load(), r.lost.Load(), max(r.leftOver, 0))
	longest := time.Duration(r.longest.Load())
	fmt.Fprintf(out, "the longest swap of parts waited %s\n", longest.Round(time.Microsecond))
	drift := r.drift()
	fmt.Fprintf(out, "the heap at each tenth, MB:")
	for _, size := range r.heap {
		fmt.Fprintf(out, " %.2f", float64(size)/1e6)
	}
	fmt.Fprintf(out, ", %+.2f percent from the first to the last\n", drift)
	if o.length >= settled && drift > mostDrift {
		r.fault("the heap has grown by %.2f percent", drift)
	}
	if o.quiet && longest > mostWait {
		r.fault("a swap waited %s", longest)
	}
	if r.leftOver > 0 {
		r.fault("%d goroutines are left", r.leftOver)
	}
	for _, f := range r.faults {
		fmt.Fprintln(out, "FAULT", f)
	}
	return len(r.faults) == 0
}

// drift is by how many percent the heap has grown from the first tenth to the last.
func (r *run) drift() float64 {
	first, last := float64(r.heap[0]), float64(r.heap[len(r.heap)-1])
	return 100 * (last - first) / first
}

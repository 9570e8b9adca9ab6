package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/runners"

	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/core/runtime/exec/optimized"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem/local"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/prism"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/universal"

	"example.org/cogcourt/rules/source"
)

// Exit statuses are those of cogcourt check: a line that did not load beats a fail, and a
// fail beats an unknown.
const (
	exitOK      = 0
	exitFail    = 1
	exitUsage   = 2
	exitLoad    = 3
	exitUnknown = 4
)

// ownRunner judges in this process, with the engine's own way from one step to the next.
const ownRunner = "prism"

// mostShards is how many files are written at most, which five digits count.
const mostShards = 10_000

// options are the flags; what the judges need of them goes to every worker.
type options struct {
	input, output string
	shards        int
	settings      settings
}

// flags declares the flags. Those of the engine stand beside them.
func flags(set *flag.FlagSet) *options {
	o := &options{}
	set.StringVar(&o.input, "input", "", "a file of mixes, one a line as JSON, or a pattern of several")
	set.StringVar(&o.output, "output", "", "what the names of the written files begin with")
	set.IntVar(&o.shards, "shards", 16, fmt.Sprintf("how many files are written, each by one worker; at most %d", mostShards))
	set.Var((*names)(&o.settings.Rules), "rules", "a folder of more rule files, where the workers find it; repeat it for several")
	set.Var((*names)(&o.settings.Parts), "parts", "a folder of part files in place of the demo, where the workers find it; repeat it for several")
	set.BoolVar(&o.settings.NoStandard, "no-standard", false, "leave the standard rules out")
	set.BoolVar(&o.settings.NoUsual, "no-usual", false, "take nothing as usual")
	set.BoolVar(&o.settings.Full, "full", false, "with the findings that pass")
	return o
}

// names is a flag that may be repeated.
type names []string

// String implements flag.Value.
func (n *names) String() string { return fmt.Sprint([]string(*n)) }

// Set implements flag.Value.
func (n *names) Set(name string) error {
	*n = append(*n, name)
	return nil
}

func main() {
	o := flags(flag.CommandLine)
	flag.Parse()
	registered()
	beam.Init() // a worker judges here, and never comes back
	runner := *runners.Runner
	if runner == "" {
		runner = ownRunner
	}
	os.Exit(run(context.Background(), o, runner, os.Stderr))
}

// run carries the pipeline out and gives the exit status.
func run(ctx context.Context, o *options, runner string, stderr io.Writer) int {
	if o.input == "" || o.output == "" || o.shards < 1 || o.shards > mostShards || flag.NArg() > 0 {
		fmt.Fprintf(stderr, "cogbatch: give --input and --output, 1 to %d --shards, and nothing but flags\n", mostShards)
		return exitUsage
	}
	// Faults of rules and parts are told here, before anything is sent anywhere.
	if _, err := o.settings.load(); err != nil {
		tell(stderr, err)
		return exitLoad
	}
	if err := emptied(ctx, o); err != nil {
		tell(stderr, err)
		return exitLoad
	}
	p, s := beam.NewPipelineWithRoot()
	judged(s, o)
	result, err := beam.Run(ctx, runner, p)
	if err != nil {
		tell(stderr, err)
		return exitLoad
	}
	counts := map[string]int64{}
	if result != nil {
		for _, c := range result.Metrics().AllMetrics().Counters() {
			if c.Namespace() == counters {
				counts[c.Name()] += c.Result()
			}
		}
	}
	return summed(counts, stderr)
}

// emptied begins every shard as an empty file: one that no line falls to is not written,
// and what an earlier run left must not stand for this one's reports.
func emptied(ctx context.Context, o *options) error {
	for shard := range o.shards {
		if err := written(ctx, shardName(o.output, shard, o.shards), func(*bufio.Writer) {}); err != nil {
			return err
		}
	}
	return nil
}

// summed tells what came of the lines. Where the runner counts nothing, or there was
// nothing, nothing is known.
func summed(counts map[string]int64, stderr io.Writer) int {
	if len(counts) == 0 {
		fmt.Fprintln(stderr, "cogbatch: no line was counted")
		return exitUnknown
	}
	fmt.Fprintf(stderr, "%d pass, %d warn, %d unknown, %d fail, %d bad lines\n",
		counts["pass"], counts["warn"], counts["unknown"], counts["fail"], counts[badLines])
	switch {
	case counts[badLines] > 0:
		return exitLoad
	case counts["fail"] > 0:
		return exitFail
	case counts["unknown"] > 0:
		return exitUnknown
	}
	return exitOK
}

// tell says what is wrong, one fault a line.
func tell(stderr io.Writer, err error) {
	var ps source.Problems
	if !errors.As(err, &ps) {
		fmt.Fprintln(stderr, "cogbatch:", err)
		return
	}
	for _, p := range ps {
		fmt.Fprintln(stderr, p)
	}
}

// Command mixes prints generated mixes, one JSON object a line, for the batch
// mode of cogcourt check: most name parts of the demo by id, some describe parts
// in place or hold bench facts, and some are maps of parts alone. The same flags
// give the same lines.
//
//	mixes -n 100000 | cogcourt check --format jsonl - > reports.jsonl
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"os"

	"example.org/cogcourt/tools/draw"
)

func main() {
	n := flag.Int("n", 1000, "how many mixes")
	seed := flag.Uint64("seed", 1, "another seed gives other mixes")
	flag.Parse()
	if err := run(*n, *seed); err != nil {
		fmt.Fprintln(os.Stderr, "mixes:", err)
		os.Exit(1)
	}
}

func run(n int, seed uint64) error {
	listed, err := draw.NewListed(seed)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(os.Stdout)
	enc := json.NewEncoder(out)
	for range n {
		if err := enc.Encode(listed.Next()); err != nil {
			return err
		}
	}
	return out.Flush()
}

// Command long holds the library against the second evaluator on any number of pairs of
// a rule and a mix.
//
//	go run ./second/long -pairs 20000000 -seed 1
//
// Its exit status is 1 where the two differ.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/tools/second"
)

func main() {
	log.SetFlags(0)
	pairs := flag.Int("pairs", 20_000_000, "how many pairs of a rule and a mix")
	seed := flag.Uint64("seed", 1, "of the mixes")
	most := flag.Int("most", 5, "give up after so many mixes on which the two differ")
	share := flag.Int("share", 4, "one of so many pairs has a random rule")
	flag.Parse()
	run := func(what string, c *compat.Checker, adjusted map[string]second.Adjustment, pairs int) bool {
		j, err := second.New(c.Rules(), second.Day, adjusted)
		if err != nil {
			log.Fatal(err)
		}
		count, differ, err := second.Run(j, c, second.NewMixes(*seed), pairs, *most)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %s", what, count.Text())
		for _, d := range differ {
			fmt.Println(d)
		}
		return len(differ) == 0
	}
	c, adjusted, err := second.Shipped(*seed)
	if err != nil {
		log.Fatal(err)
	}
	ok := run("the shipped rules", c, adjusted, *pairs - *pairs / *share)
	// Rules are written anew for every so many pairs.
	for left, from := *pairs / *share, *seed*1000; left > 0 && ok; left, from = left-each, from+1 {
		if c, adjusted, err = second.Rules(from, 150, false); err != nil {
			log.Fatal(err)
		}
		ok = run("random rules", c, adjusted, min(left, each))
	}
	if !ok {
		os.Exit(1)
	}
}

// each is how many pairs one set of random rules is tried on.
const each = 100_000

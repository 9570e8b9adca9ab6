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
	"time"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/tools/second"
)

func main() {
	log.SetFlags(0)
	pairs := flag.Int("pairs", 20_000_000, "how many pairs of a rule and a mix")
	seed := flag.Uint64("seed", 1, "of the mixes")
	most := flag.Int("most", 5, "give up after so many mixes on which the two differ")
	flag.Parse()
	day := time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC)
	c, err := compat.New(compat.Config{Clock: func() time.Time { return day }})
	if err != nil {
		log.Fatal(err)
	}
	j, err := second.New(c.Rules(), day, nil)
	if err != nil {
		log.Fatal(err)
	}
	count, differ, err := second.Run(j, c, second.NewMixes(*seed), *pairs, *most)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(count.Text())
	for _, d := range differ {
		fmt.Println(d)
	}
	if len(differ) > 0 {
		os.Exit(1)
	}
}

// Command long holds the library against the second evaluator on any number of pairs of
// a rule and a mix.
//
//	go run ./second/long -pairs 20000000 -seed 1
//
// Of so many pairs most have a shipped rule, and the rest a random one of some family.
// It ends with what was seen all together. Its exit status is 1 where the two differ.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/tools/second"
)

// families are the kinds of random rules: of each so many pairs are tried before others are
// written, and there are so many rules at a time, for which a set has room.
var families = []struct {
	what  string
	write func(seed uint64, n int) (*compat.Checker, map[string]second.Adjustment, error)
	pairs int
	rules int
}{
	{"random rules", second.Rules, 10_000, 150},
	{"rules that aim at the numbers of mixes", second.Aimed, 12_000, 150},
	{"rules of loops", second.Loops, 3_000, 25},
}

func main() {
	log.SetFlags(0)
	pairs := flag.Int("pairs", 20_000_000, "how many pairs of a rule and a mix")
	seed := flag.Uint64("seed", 1, "of mixes and random rules")
	most := flag.Int("most", 5, "give up after so many mixes on which the two differ")
	share := flag.Int("share", 4, "one of so many pairs has a random rule")
	flag.Parse()
	l := long{most: *most, all: second.Count{Seen: map[string]int{}}}
	l.run("the shipped rules", *seed, *pairs - *pairs / *share, judged(second.Shipped(*seed)))
	for left, from := *pairs / *share, *seed*1000; left > 0; from++ {
		for _, f := range families {
			if left > 0 {
				l.run(f.what, from, min(left, f.pairs), judged(f.write(from, f.rules)))
			}
			left -= f.pairs
		}
	}
	fmt.Printf("all together: %s%9d differ\n", l.all.Text(), l.all.Differ)
	if l.all.Differ > 0 {
		os.Exit(1)
	}
}

// long is what was compared so far.
type long struct {
	most int // how many mixes may still differ
	all  second.Count
}

// both are the two that judge by the same rules.
type both struct {
	checker *compat.Checker
	judge   *second.Judge
}

func judged(c *compat.Checker, adjusted map[string]second.Adjustment, err error) both {
	if err != nil {
		log.Fatal(err)
	}
	j, err := second.New(c.Rules(), second.Day, adjusted)
	if err != nil {
		log.Fatal(err)
	}
	return both{c, j}
}

// run compares on so many pairs, with the mixes of a seed.
func (l *long) run(what string, seed uint64, pairs int, b both) {
	if l.most <= 0 {
		return
	}
	count, differ, err := second.Run(b.judge, b.checker, second.NewMixes(seed), pairs, l.most)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s of seed %d: %s", what, seed, count.Text())
	for _, d := range differ {
		fmt.Println(d)
	}
	l.most -= count.Mixes
	l.all.Add(count)
}

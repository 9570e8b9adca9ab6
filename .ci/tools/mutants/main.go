package main

import (
	"cmp"
	"flag"
	"fmt"
	"hash/fnv"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

// asked is what the arguments ask for.
type asked struct {
	root, only, in, named    string
	list, missed, anew, full bool
	n                        int
	most                     time.Duration
	seed                     uint64
}

func arguments() asked {
	var a asked
	flag.StringVar(&a.root, "root", "../..", "the module whose code is changed")
	flag.BoolVar(&a.list, "list", false, "print every change and stop")
	flag.IntVar(&a.n, "n", 400, "how many changes are tried")
	flag.Uint64Var(&a.seed, "seed", 1, "which are drawn")
	flag.StringVar(&a.only, "only", "", "numbers of changes to try, and no others")
	flag.StringVar(&a.in, "in", strings.Join(testedPackages, ","), "the packages whose tests are asked")
	flag.StringVar(&a.named, "run", "", "the tests that are asked, by an expression; all where it is empty")
	flag.BoolVar(&a.missed, "unmet", false, "print the changes that no test meets and stop")
	flag.BoolVar(&a.anew, "known", false, "what is known to survive is tried as well, and not only counted")
	flag.DurationVar(&a.most, "most", 0, "how long one change is tried; what no test has noticed by then survives as SLOW")
	flag.BoolVar(&a.full, "full", false, "what survives the quick tests meets all of them")
	flag.Parse()
	return a
}

func run() error {
	a := arguments()
	to, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return err
	}
	defer os.RemoveAll(to)
	if to, err = filepath.EvalSymlinks(to); err != nil {
		return err
	}
	all, err := copied(a.root, to)
	if err != nil {
		return err
	}
	if a.list {
		fmt.Print(told(all))
		return nil
	}
	sample, err := drawn(all, a.n, a.seed, a.only)
	if err != nil {
		return err
	}
	reasons, err := known(knownText)
	if err != nil {
		return err
	}
	names, err := regexp.Compile(a.named)
	if err != nil {
		return err
	}
	tests, err := met(to, strings.Split(a.in, ","), names)
	if err != nil {
		return err
	}
	unmet := slices.DeleteFunc(slices.Clone(all), func(m mutant) bool { return len(m.trials(tests)) > 0 })
	fmt.Printf("# %d of all %d changes are met by none of these tests\n", len(unmet), len(all))
	if a.missed {
		fmt.Print(told(unmet))
		return nil
	}
	sum := &tally{known: reasons, files: map[string][2]int{}}
	sum.try(sample, func(m mutant) string {
		if reasons[m.key()] != "" && !a.anew {
			return isKnown
		}
		return m.tried(tests, a.full, a.most)
	})
	fmt.Printf("\n%s", sum)
	for _, entry := range stale(reasons, all) {
		fmt.Println("known.txt has an entry for what is no change any more:", entry)
	}
	return nil
}

// told prints changes, a line each.
func told(list []mutant) string {
	var b strings.Builder
	for _, m := range list {
		fmt.Fprintln(&b, m)
	}
	return b.String()
}

// drawn takes a sample, in the order of their numbers.
func drawn(all []mutant, n int, seed uint64, only string) ([]mutant, error) {
	if only != "" {
		var out []mutant
		for word := range strings.SplitSeq(only, ",") {
			id, err := strconv.Atoi(word)
			if err != nil || id < 1 || id > len(all) {
				return nil, fmt.Errorf("there is no change %q; they go from 1 to %d", word, len(all))
			}
			out = append(out, all[id-1])
		}
		return out, nil
	}
	order := slices.Clone(all)
	slices.SortStableFunc(order, func(a, b mutant) int { return cmp.Compare(a.lot(seed), b.lot(seed)) })
	out := order[:min(n, len(order))]
	slices.SortFunc(out, func(a, b mutant) int { return a.id - b.id })
	return out, nil
}

// lot is by what a change is drawn: by what the code says there, so that a seed draws the
// same changes while other code moves.
func (m mutant) lot(seed uint64) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%d\n%s", seed, m.key())
	x := h.Sum64()
	x ^= x >> 33 // what differs at its end alone lies near each other else
	x *= 0xff51afd7ed558ccd
	return x ^ x>>33
}

// testedPackages are those whose tests are asked, those first that notice most in the
// least time.
var testedPackages = []string{
	"compat/geometry", "rules", "compat/figures", "rules/standard", "compat/cart", "rules/prove", "compat/fit", "compat", "cmd/cogcourt",
}

// met builds all tests and finds out which changes each meets.
func met(root string, names []string, only *regexp.Regexp) ([]*test, error) {
	var out []*test
	for _, name := range names {
		begun := time.Now()
		tests, err := built(root, name, only)
		if err != nil {
			return nil, err
		}
		fmt.Printf("# %s: %d tests, built and each run alone in %.0f s\n", name, len(tests), time.Since(begun).Seconds())
		out = append(out, tests...)
	}
	return out, nil
}

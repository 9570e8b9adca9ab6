package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
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

func run() error {
	root := flag.String("root", "../..", "the module whose code is changed")
	list := flag.Bool("list", false, "print every change and stop")
	n := flag.Int("n", 400, "how many changes are tried; as many of each file as it has a share of all")
	seed := flag.Uint64("seed", 1, "which are drawn")
	only := flag.String("only", "", "numbers of changes to try, and no others")
	full := flag.Bool("full", false, "what survives the quick tests meets all of them")
	flag.Parse()

	to, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return err
	}
	defer os.RemoveAll(to)
	if to, err = filepath.EvalSymlinks(to); err != nil {
		return err
	}
	all, err := copied(*root, to)
	if err != nil {
		return err
	}
	if *list {
		for _, m := range all {
			fmt.Println(m)
		}
		return nil
	}
	tests, err := built(to)
	if err != nil {
		return err
	}
	sample, err := drawn(all, *n, *seed, *only)
	if err != nil {
		return err
	}
	return tried(tests, sample, *full)
}

// drawn takes a sample, of each file its share, in the order of their numbers.
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
	// Sorted by file and drawn at even distances, each with a place of its own by chance.
	r := rand.New(rand.NewPCG(seed, 0))
	n = min(n, len(all))
	var out []mutant
	for k := range n {
		from, to := k*len(all)/n, (k+1)*len(all)/n
		out = append(out, all[from+r.IntN(to-from)])
	}
	return out, nil
}

// test is the tests of a package, built once.
type test struct {
	program, folder string
	name            string
	takes           time.Duration // its quick tests, with nothing changed
}

// packagesOf the tests, those first that notice most in the least time.
var testedPackages = []string{
	"compat/geometry", "rules", "compat/figures", "rules/standard", "compat/cart", "rules/prove", "compat/fit", "compat", "cmd/cogcourt",
}

// built builds the tests and runs them without a change: they must hold.
func built(root string) ([]test, error) {
	var out []test
	for _, name := range testedPackages {
		t := test{program: filepath.Join(root, strings.ReplaceAll(name, "/", "-")+".test"), folder: filepath.Join(root, name), name: name}
		build := exec.Command("go", "test", "-c", "-o", t.program, "./"+name)
		build.Dir = root
		if said, err := build.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("the tests of %s do not build: %w\n%s", name, err, said)
		}
		begun := time.Now()
		if said, ok := t.holds(0, false, time.Hour); !ok {
			return nil, fmt.Errorf("the tests of %s fail with nothing changed:\n%s", name, said)
		}
		t.takes = time.Since(begun)
		fmt.Printf("# %s: %.1f s\n", name, t.takes.Seconds())
		out = append(out, t)
	}
	return out, nil
}

// laidOut are the tests of how the code is written, which see the copy and nothing of a
// change.
const laidOut = "^Test(FilesAreShort|LinesAreShort|FunctionsAreShort|ExportedNamesAreDocumented|NothingRunsByItself|" +
	"PackageVariablesNeverChange|ImportsFollowTheArrows|DevelopersShowTheArrows|NoForeignTypeIsShown|ProblemsHaveCodes|" +
	"Document.*|ReadmeGoRuns|ReadmeNamesTheWeight|TextsAreReadBack|Modules.*)$"

// holds runs the tests with one change made.
func (t test) holds(id int, full bool, patience time.Duration) (said string, ok bool) {
	in, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	args := []string{"-test.failfast", "-test.timeout", "2h", "-test.skip", laidOut}
	if !full {
		args = append(args, "-test.short")
	}
	c := exec.CommandContext(in, t.program, args...)
	c.Dir = t.folder
	c.Env = append(os.Environ(), "COGCOURT_MUTANT="+strconv.Itoa(id))
	out, err := c.CombinedOutput()
	if len(out) > 3000 {
		out = out[len(out)-3000:]
	}
	return string(out), err == nil
}

// tried makes each change and tells what came of it, then what survived.
func tried(tests []test, sample []mutant, full bool) error {
	var survivors []mutant
	of := map[string][2]int{} // by file: tried, survived
	for _, m := range sample {
		by := m.noticed(tests, full)
		count := of[m.file]
		count[0]++
		if by == "" {
			count[1]++
			survivors = append(survivors, m)
			by = "SURVIVES"
		}
		of[m.file] = count
		fmt.Printf("%-16s %s\n", by, m)
	}
	fmt.Printf("\n%d changes, %d noticed, %.1f %%\n", len(sample), len(sample)-len(survivors),
		100*float64(len(sample)-len(survivors))/float64(max(len(sample), 1)))
	files := make([]string, 0, len(of))
	for f := range of {
		files = append(files, f)
	}
	slices.Sort(files)
	for _, f := range files {
		fmt.Printf("  %-32s %3d tried, %2d survive\n", f, of[f][0], of[f][1])
	}
	for _, m := range survivors {
		fmt.Println(m)
	}
	return nil
}

// noticed names the package whose tests fail; none where the change survives. The tests
// of its own package come first. One that hangs is noticed.
func (m mutant) noticed(tests []test, full bool) string {
	order := slices.Clone(tests)
	slices.SortStableFunc(order, func(a, b test) int { return m.far(a) - m.far(b) })
	for _, whole := range []bool{false, true}[:1+boolean(full)] {
		for _, t := range order {
			patience := 4*t.takes + 20*time.Second
			if whole {
				patience = time.Hour
			}
			if _, ok := t.holds(m.id, whole, patience); !ok {
				return t.name
			}
		}
	}
	return ""
}

// far is 0 for tests of the change's own package, else 1.
func (m mutant) far(t test) int { return 1 - boolean(filepath.Dir(m.file) == t.name) }

func boolean(is bool) int {
	if is {
		return 1
	}
	return 0
}

// Command first measures the first check of a process: processor time of the built
// command, fresh each time, on one core. Beside it runs the same command without what is
// prepared of the shipped files, which parses and checks them as it starts; the
// two take turns, so that the machine is the same to both.
//
//	go run ./first [-runs 20] [-most 35ms] [-share 0.5] [check demo:ferry-motor]
//
// With -most and -share it ends with status 1 where the median of the first is more than
// that, or more than that share of the second.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

// prepared are the embedded files that make the difference.
var prepared = []string{"rules/standard/expressions.txt", "rules/standard/trees.txt", "catalog/demo/trees.txt", "catalog/usual/trees.txt"}

func main() {
	runs := flag.Int("runs", 20, "how often each is run")
	most := flag.Duration("most", 0, "the most processor time that the first check may take; 0 for any")
	share := flag.Float64("share", 0, "the most of what it takes without what is prepared; 0 for any")
	flag.Parse()
	args := flag.Args()
	if len(args) == 0 {
		args = []string{"check", "demo:ferry-motor"}
	}
	with, without, err := measure(*runs, args)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	ratio := with.Seconds() / without.Seconds()
	fmt.Printf("first check: %.1f ms, without what is prepared %.1f ms, ratio %.2f\n", ms(with), ms(without), ratio)
	if *most > 0 && with > *most || *share > 0 && ratio > *share {
		os.Exit(1)
	}
}

func ms(d time.Duration) float64 { return d.Seconds() * 1000 }

// measure gives the medians of both commands.
func measure(runs int, args []string) (with, without time.Duration, err error) {
	dir, err := os.MkdirTemp("", "first")
	if err != nil {
		return 0, 0, err
	}
	defer os.RemoveAll(dir)
	overlay, err := emptied(dir)
	if err != nil {
		return 0, 0, err
	}
	commands := []string{filepath.Join(dir, "with"), filepath.Join(dir, "without")}
	for i, more := range [][]string{nil, {"-overlay", overlay}} {
		build := exec.Command("go", append(append([]string{"build", "-trimpath", "-ldflags", "-s -w", "-o", commands[i]}, more...), "./cmd/cogcourt")...)
		build.Dir = filepath.Join("..", "..")
		if out, err := build.CombinedOutput(); err != nil {
			return 0, 0, fmt.Errorf("%w: %s", err, out)
		}
	}
	spent := [2][]time.Duration{}
	for range runs {
		for i, command := range commands {
			d, err := once(command, args)
			if err != nil {
				return 0, 0, err
			}
			spent[i] = append(spent[i], d)
		}
	}
	return median(spent[0]), median(spent[1]), nil
}

// emptied writes an overlay in which the prepared files are empty.
func emptied(dir string) (string, error) {
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		return "", err
	}
	nothing := filepath.Join(dir, "nothing")
	replace := map[string]string{}
	for _, name := range prepared {
		name = filepath.Join(root, filepath.FromSlash(name))
		if _, err := os.Stat(name); err != nil {
			return "", err
		}
		replace[name] = nothing
	}
	text, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	overlay := filepath.Join(dir, "overlay.json")
	return overlay, errors.Join(os.WriteFile(nothing, nil, 0o600), os.WriteFile(overlay, text, 0o600))
}

// once gives the processor time of one process. That a mix fails is no error.
func once(command string, args []string) (time.Duration, error) {
	child := exec.Command(command, args...)
	child.Env = append(os.Environ(), "GOMAXPROCS=1")
	err := child.Run()
	if state := child.ProcessState; state != nil && state.Exited() && state.ExitCode() != 2 && state.ExitCode() != 3 {
		return state.UserTime() + state.SystemTime(), nil
	}
	return 0, fmt.Errorf("%v: %w", args, err)
}

func median(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}

// Command faults puts one fault after another into a copy of the verdict path, and counts
// which of them the second evaluator finds.
//
//	go run ./second/faults            # all, in the folder .ci/tools
//	go run ./second/faults -only 3
//
// The library itself is not written to: the compiler is given the faulty file in the place
// of the sound one. Its exit status is 1 where fewer than nine of ten are found.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// wanted is how many of ten faults must be found.
const wanted = 9

func main() {
	log.SetFlags(0)
	pairs := flag.Int("pairs", 400_000, "how many pairs of a rule and a mix each fault is looked for on")
	only := flag.Int("only", 0, "one of them, counted from 1")
	flag.Parse()
	folder, err := os.MkdirTemp("", "faults")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(folder)
	tried, found := 0, 0
	for i, f := range faults {
		if *only > 0 && i != *only-1 {
			continue
		}
		tried++
		what, err := f.try(folder, *pairs)
		if err != nil {
			log.Fatalf("%d, %s: %v", i+1, f.file, err)
		}
		if what != "" {
			found++
		}
		fmt.Printf("%2d %-22s %-60s %s\n", i+1, f.file, f.what, word(what))
	}
	fmt.Printf("%d of %d are found\n", found, tried)
	if found*10 < tried*wanted {
		os.Exit(1)
	}
}

func word(what string) string {
	if what == "" {
		return "NOT FOUND"
	}
	return "found: " + what
}

// try builds the comparison with one fault, runs it, and gives what it says first.
func (f fault) try(folder string, pairs int) (string, error) {
	at, err := filepath.Abs(filepath.Join("..", "..", f.file))
	if err != nil {
		return "", err
	}
	text, err := os.ReadFile(at)
	if err != nil {
		return "", err
	}
	if n := strings.Count(string(text), f.sound); n != 1 {
		return "", fmt.Errorf("%q stands there %d times", f.sound, n)
	}
	faulty := filepath.Join(folder, "faulty.go")
	if err := os.WriteFile(faulty, []byte(strings.Replace(string(text), f.sound, f.faulty, 1)), 0o600); err != nil {
		return "", err
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{at: faulty}})
	if err != nil {
		return "", err
	}
	list, program := filepath.Join(folder, "overlay.json"), filepath.Join(folder, "long")
	if err := os.WriteFile(list, overlay, 0o600); err != nil {
		return "", err
	}
	if out, err := exec.Command("go", "build", "-overlay", list, "-o", program, "./second/long").CombinedOutput(); err != nil {
		return "", fmt.Errorf("it does not compile: %s", out)
	}
	out, err := exec.Command(program, "-pairs", fmt.Sprint(pairs), "-most", "1").Output()
	var failed *exec.ExitError
	if err == nil || !errors.As(err, &failed) {
		return "", err
	}
	for line := range strings.Lines(string(out)) {
		if rule, rest, ok := strings.Cut(line, ": "); ok && strings.Contains(rule, "/") {
			says, _, _ := strings.Cut(rest, ";")
			return rule + ": " + says, nil
		}
	}
	return "", fmt.Errorf("it fails without saying why: %s%s", out, failed.Stderr)
}

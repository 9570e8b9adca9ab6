// Package blind runs the fuzz targets of this module in one of two ways: guided by Go's
// engine, as any fuzz target, or blindly, by changing inputs at random without looking at
// what code they reach. The second needs no build of its own, and nothing but the target
// takes time.
//
//	func FuzzMix(f *testing.F) {
//		blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
//			...
//		})
//	}
//
//	go test ./compat -run '^$' -fuzz '^FuzzMix$'           # guided
//	COGCOURT_BLIND=10m go test ./compat -run '^FuzzMix$' -v   # blindly
//
// It serves tests alone, and knows nothing of what it runs.
package blind

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Body holds one input against what must be true of it: a text, and a choice for what
// else there is to choose, such as the format. It says whether the input came far, such
// as to be read without a fault: those are changed further.
type Body func(t testing.TB, text []byte, choice byte) (far bool)

// Fuzz runs a target over its seeds and over what testdata/fuzz holds of it: guided where
// go test is called with -fuzz; for as long as COGCOURT_BLIND says, as in 10s, where that is
// set; else each input once, and under -short few of the seeds. A blind run starts from
// COGCOURT_BLIND_SEED, a whole number, or from the time, and says how many inputs it tried
// and which took longest. The first input that fails is written to testdata/fuzz.
func Fuzz(f *testing.F, seeds []string, body Body) {
	f.Helper()
	length := os.Getenv("COGCOURT_BLIND")
	if length == "" {
		step := 1
		if testing.Short() {
			step = fewSeeds
		}
		for i := 0; i < len(seeds); i += step {
			f.Add([]byte(seeds[i]), byte(i/step))
		}
		f.Fuzz(func(t *testing.T, text []byte, choice byte) { body(t, text, choice) })
		return
	}
	d, err := time.ParseDuration(length)
	if err != nil {
		f.Fatalf("COGCOURT_BLIND: %v", err)
	}
	r := run{f: f, body: body, dir: filepath.Join("testdata", "fuzz", f.Name())}
	kept, err := readKept(r.dir)
	if err != nil {
		f.Fatal(err)
	}
	r.blindly(newMutator(startSeed(f), append(seeds, kept...)), d)
	f.Fuzz(func(t *testing.T, text []byte, choice byte) { body(t, text, choice) }) // what is kept, as it was
}

// fewSeeds: of so many seeds one is run under -short.
const fewSeeds = 8

// startSeed is where the random numbers begin.
func startSeed(f *testing.F) uint64 {
	text := os.Getenv("COGCOURT_BLIND_SEED")
	if text == "" {
		return uint64(time.Now().UnixNano())
	}
	seed, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		f.Fatalf("COGCOURT_BLIND_SEED: %v", err)
	}
	return seed
}

// run is a blind run of one target.
type run struct {
	f    testing.TB
	body Body
	dir  string

	input     // in the making
	tried     int
	far       int
	slowest   input
	slowestBy time.Duration
}

// input is what a body is given.
type input struct {
	text   []byte
	choice byte
}

// fewChoices are how many choices each seed is tried with at first, until one comes far.
const fewChoices = 16

// blindly tries the seeds, of which one must come far at least, and then other inputs until the time is over or one fails.
func (r *run) blindly(m *mutator, length time.Duration) {
	defer r.conclude()
	if !r.reaches(m.pool) {
		return
	}
	for start := time.Now(); time.Since(start) < length && !r.f.Failed(); r.tried++ {
		r.text, r.choice = m.next(), byte(m.rnd.IntN(256))
		begin := time.Now()
		if r.body(r.f, r.text, r.choice) {
			r.far++
			m.keep(r.text)
		}
		if took := time.Since(begin); took > r.slowestBy {
			r.slowest, r.slowestBy = r.input, took
		}
	}
	r.f.Logf("blind: %d executions, %d of them far, slowest %s: %.300q", r.tried, r.far, r.slowestBy.Round(time.Microsecond), r.slowest.text)
}

// reaches tries the seeds until one comes far, and says whether any does: a target in which none does finds
// nothing, and nobody would see it.
func (r *run) reaches(seeds [][]byte) bool {
	for _, text := range seeds {
		for choice := range byte(fewChoices) {
			r.text, r.choice = slices.Clone(text), choice
			if far := r.body(r.f, r.text, r.choice); far || r.f.Failed() {
				return far && !r.f.Failed()
			}
		}
	}
	r.text = nil
	r.f.Errorf("no seed came far: the target does not reach what it is for")
	return false
}

// conclude keeps the input that failed, whichever way it did.
func (r *run) conclude() {
	if cause := recover(); cause != nil {
		r.f.Errorf("a panic: %v\n%s", cause, debug.Stack())
	}
	if !r.f.Failed() || r.text == nil {
		return
	}
	path, err := r.input.write(r.dir)
	if err != nil {
		r.f.Error(err)
	}
	r.f.Errorf("execution %d failed on the choice %d and the text %q, which is kept as %s", r.tried, r.choice, r.text, path)
}

// newMutator begins with the seeds, which stay.
func newMutator(seed uint64, seeds []string) *mutator {
	m := &mutator{rnd: rand.New(rand.NewPCG(seed, 1)), seeds: len(seeds)}
	for _, text := range seeds {
		m.pool = append(m.pool, []byte(text))
		m.words = append(m.words, wordsOf(text)...)
	}
	if len(seeds) == 0 {
		m.pool, m.seeds = [][]byte{{}}, 1
	}
	m.words = append(m.words, oddities...)
	return m
}

// header is the first line of Go's own files of inputs.
const header = "go test fuzz v1\n"

// write keeps an input as Go's engine does.
func (in input) write(dir string) (string, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	path := filepath.Join(dir, fmt.Sprintf("blind-%08x", sumOf(in.text)))
	return path, os.WriteFile(path, fmt.Appendf(nil, "%s[]byte(%q)\nbyte(%q)\n", header, in.text, rune(in.choice)), 0o644)
}

// readKept reads the texts that were kept of a target.
func readKept(dir string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil {
		return nil, err
	}
	var out []string
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		for line := range strings.Lines(strings.TrimPrefix(string(data), header)) {
			inner, ok := strings.CutPrefix(strings.TrimSpace(line), "[]byte(")
			if !ok {
				continue
			}
			text, err := strconv.Unquote(strings.TrimSuffix(inner, ")"))
			if err != nil {
				return nil, fmt.Errorf("%s: %w", file, err)
			}
			out = append(out, text)
		}
	}
	return out, nil
}

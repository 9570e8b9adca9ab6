package compat

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"testing"

	"example.org/cogcourt/compat/internal/random"
)

// wholeJSON is a report as files hold it.
func wholeJSON(t testing.TB, r Report) []byte {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// Same mix, same rules, same bytes: a thousand times, by a checker of its own
// and by one that eight goroutines share while they judge other mixes too.
func TestReportsAreTheSameBytes(t *testing.T) {
	const goroutines = 8
	rounds := fewer(125)
	shared := standardChecker(t)
	rng := random.Seeded(7)
	mixes := []Mix{lakeBike(t)}
	for range 7 {
		mixes = append(mixes, mixOf(random.New(rng)))
	}
	want := make([][]byte, len(mixes))
	for i, m := range mixes {
		own, err := New(Config{})
		if err != nil {
			t.Fatal(err)
		}
		want[i] = wholeJSON(t, own.Check(m))
	}
	faults := make(chan error, goroutines)
	var all sync.WaitGroup
	for g := range goroutines {
		all.Go(func() {
			for round := range rounds {
				i := (g + round) % len(mixes)
				text, err := json.Marshal(shared.Check(mixes[i]))
				if err != nil || !bytes.Equal(text, want[i]) {
					faults <- errors.Join(err, fmt.Errorf("goroutine %d, round %d: mix %d gives\n%s\nwant\n%s", g, round, i, text, want[i]))
					return
				}
			}
		})
	}
	all.Wait()
	close(faults)
	for err := range faults {
		t.Error(err)
	}
}

// One report serves many readers: its texts are made when asked for.
func TestReportsAreReadByMany(t *testing.T) {
	r := standardChecker(t).Check(lakeBike(t))
	want := wholeJSON(t, r)
	var all sync.WaitGroup
	same := make([]bool, 8)
	for g := range same {
		all.Go(func() {
			for range 20 {
				text, err := json.Marshal(r)
				same[g] = err == nil && bytes.Equal(text, want)
			}
		})
	}
	all.Wait()
	for g, ok := range same {
		if !ok {
			t.Errorf("reader %d reads another report", g)
		}
	}
}

// Reading the same file twice gives the same report.
func TestReadingIsTheSame(t *testing.T) {
	const file = `
mix: The ferry fleet's third bike (invented)
scope: bike
parts:
  rear_derailleur: {actuation: motor, made_for_pitch_mm: 3.65, max_cog_t: 52, capacity_t: 42, radio: heron, trim_step_mm: 0.2}
  cassette: {cogs_t: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], pitch_mm: 3.75}
  rear_shifter: {actuation: motor, radio: heron}
`
	c := standardChecker(t)
	var first []byte
	for range 50 {
		m, err := ReadMix("ferry.yaml", []byte(file), nil)
		if err != nil {
			t.Fatal(err)
		}
		text := wholeJSON(t, c.Check(m))
		if first == nil {
			first = text
		}
		if !bytes.Equal(text, first) {
			t.Fatalf("another report:\n%s\n%s", text, first)
		}
	}
}

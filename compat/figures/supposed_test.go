package figures_test

import (
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
)

var update = flag.Bool("update", false, "write the golden file anew")

// Every figure says what it takes for granted, and takes what it says: the list that
// people read, and that tells in which direction being wrong does no harm, is that of
// the program.
func TestWhatIsSupposed(t *testing.T) {
	taken := map[string]bool{}
	r := random.Seeded(12)
	for range fewer(4000) {
		random.New(r).Facts().MeasureSupposing(func(figure, what string) { taken[figure+": "+what] = true })
	}
	listed := figures.Suppositions()
	for _, s := range listed {
		if s.What == "" || s.Safe == "" || s.Why == "" || len(s.Figures) == 0 {
			t.Errorf("not all is said of it: %+v", s)
		}
		for _, name := range s.Figures {
			if !taken[name+": "+s.What] && !testing.Short() {
				t.Errorf("%s says that it takes %s, and never does", name, s.What)
			}
			delete(taken, name+": "+s.What)
		}
	}
	for what := range taken {
		t.Errorf("not listed: %s", what)
	}
}

// The list is printed, so that a change of it is seen.
func TestSupposedIsPrinted(t *testing.T) {
	const file = "testdata/supposed.txt"
	got := strings.Join(figures.Supposed(), "\n") + "\n"
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil || string(want) != got {
		t.Errorf("%s is not what the figures suppose (%v): run with -update and look at the difference", file, err)
	}
	for line := range strings.Lines(got) {
		name, _, _ := strings.Cut(line, " ")
		if !slices.Contains(figures.Object.Table().Names(), name) {
			t.Errorf("%s is no figure", name)
		}
	}
}

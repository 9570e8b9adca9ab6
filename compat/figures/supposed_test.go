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
	// Too few random bicycles have what these are of for a short run to meet one.
	seldom := []string{"hub_input_nm", "motor_input_nm", "b_gap_measured_mm", "least_cog_t", "least_cog_kind_t"}
	for _, s := range listed {
		if s.What == "" || s.Safe == "" || s.Why == "" || len(s.Figures) == 0 {
			t.Errorf("not all is said of it: %+v", s)
		}
		for _, name := range s.Figures {
			if !taken[name+": "+s.What] && !(testing.Short() && slices.Contains(seldom, name)) {
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

// A finding that only warns says what nobody stated: what a figure supposes, and not
// what it is, which nobody could state.
func TestWhatNobodyStated(t *testing.T) {
	assumed := map[string]bool{}
	for _, line := range figures.Supposed() {
		name, _, _ := strings.Cut(line, " ")
		assumed[name] = assumed[name] || strings.HasPrefix(line, name+" (assumed)")
	}
	fields := figures.Object.Table().Fields()
	for _, f := range fields {
		if assumed[f.Name] && f.Supposes == "" {
			t.Errorf("%s supposes something and does not say what nobody stated then", f.Name)
		}
		for _, start := range []string{"The same", "By ", "The part of it"} {
			if strings.HasPrefix(f.Doc, start) {
				t.Errorf("%s: %q begins with no thing that a sentence could name", f.Name, f.Doc)
			}
		}
	}
	for name, want := range map[string]string{
		"spacer_off_mm":        "whether a spacer stands behind the cassette",
		"chain_spare_pitches":  "how many half-inch links the derailleur's pulleys want", // through what it is made from
		"chain_pull_n":         "how long the cranks are, or how often the ring turns for a turn of the cranks",
		"neighbour_gap_mm":     "",
		"index_residual_share": "the steps of the motor", // two suppositions, said once
	} {
		if i, _ := figures.Object.Table().Index(name); fields[i].Supposes != want {
			t.Errorf("%s says that nobody stated %q, want %q", name, fields[i].Supposes, want)
		}
	}
}

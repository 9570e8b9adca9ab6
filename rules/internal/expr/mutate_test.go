package expr

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestMutants holds the list of small changes for expressions that have one of
// each.
func TestMutants(t *testing.T) {
	s := boatLanguage(t).NewScope()
	for text, want := range map[string][]string{
		"sail.area_m2 > 1.5": {
			"sail.area_m2 >= 1.5", "sail.area_m2 > 1.4", "sail.area_m2 > 1.6",
		},
		"sail.reefs == 3 && !sail.wet": {
			"sail.reefs == 3 || !sail.wet", "sail.reefs == 3", "!sail.wet",
			"sail.reefs != 3 && !sail.wet", "sail.reefs == 2 && !sail.wet", "sail.reefs == 4 && !sail.wet", "sail.reefs == 3 && sail.wet",
		},
		"sail.cloth == 'canvas'": {`sail.cloth != "canvas"`, `sail.cloth == "nylon"`},
		"sail.area_m2 - mast.height_m < 0.0": {
			"sail.area_m2 - mast.height_m <= 0.0", "sail.area_m2 + mast.height_m < 0.0",
			"mast.height_m - sail.area_m2 < 0.0",
		},
		"max(sail.knots) > first(sail.knots)": {
			"max(sail.knots) >= first(sail.knots)", "min(sail.knots) > first(sail.knots)", "max(sail.knots) > last(sail.knots)",
		},
		"stated(sail.reefs)":                    nil,
		"stated(sail.reefs) && sail.wet":        {"stated(sail.reefs)"},
		"sail.panels_m2.exists(p, p > 9)":       {"sail.panels_m2.exists(p, p >= 9)", "sail.panels_m2.exists(p, p > 8)", "sail.panels_m2.exists(p, p > 10)"},
		"near(sail.area_m2, mast.height_m, 10)": {"near(sail.area_m2, mast.height_m, 9)", "near(sail.area_m2, mast.height_m, 11)"},
	} {
		mutants, err := s.Mutants(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		var got []string
		for _, m := range mutants {
			got = append(got, m.Text)
			if m.At < 0 || m.At >= len([]rune(text)) || m.Change == "" {
				t.Errorf("%s: %+v has no place or no words", text, m)
			}
		}
		for _, w := range want {
			if !slices.Contains(got, w) {
				t.Errorf("%s: no mutant %s among %q", text, w, got)
			}
		}
		if want == nil && len(got) > 0 {
			t.Errorf("%s: mutants %q", text, got)
		}
		if slices.Contains(got, text) {
			t.Errorf("%s is a mutant of itself", text)
		}
	}
	if _, err := s.Mutants("sail.area_m2 >"); err == nil {
		t.Error("half an expression has mutants")
	}
}

// TestMutantsLeaveTheTree holds that each change is taken back before the next:
// no mutant differs from the original in two places.
func TestMutantsLeaveTheTree(t *testing.T) {
	s := boatLanguage(t).NewScope()
	text := "sail.area_m2 > 15.0 && (mast.height_m < 25.0 || sail.reefs == 35)"
	mutants, err := s.Mutants(text)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range mutants {
		kept := 0
		for _, part := range []string{"15.0", "25.0", "35"} {
			if slices.Contains(Literals(m.Text), Literals(part)[0]) {
				kept++
			}
		}
		if kept < 1 || len(mutants) < 10 {
			t.Errorf("%s keeps %d of three numbers", m.Text, kept)
		}
		if p, issues := s.Compile(m.Text, Condition); p == nil {
			t.Errorf("%s: %v", m.Text, issues)
		}
	}
}

func TestAtoms(t *testing.T) {
	s := boatLanguage(t).NewScope()
	for text, want := range map[string][]Atom{
		"sail.wet":           {{"sail.wet", 0}},
		"stated(sail.reefs)": {},
		"stated(sail.reefs) && !(sail.wet || sail.reefs + 1 > 3)":    {{"sail.wet", 24}, {"sail.reefs + 1 > 3", 36}},
		"sail.cloth.startsWith('c') && sail.knots.all(k, k > 0)":     {{`sail.cloth.startsWith("c")`, 0}, {"sail.knots.all(k, k > 0)", 30}},
		"(sail.wet ? 1 : 2) > sail.reefs || 1 in [1, 2] || sail.wet": {{"(sail.wet ? 1 : 2) > sail.reefs", 1}, {"1 in [1, 2]", 35}, {"sail.wet", 50}},
	} {
		got, err := s.Atoms(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
	}
	if _, err := s.Atoms("&&"); err == nil {
		t.Error("nothing can be taken apart")
	}
}

func TestLiteralsAndNames(t *testing.T) {
	if got := Literals("sail.area_m2 > 1.5 && max(sail.knots) in [2, 3] && sail.cloth == '4'"); !slices.Equal(got, []float64{1.5, 2, 3}) {
		t.Errorf("got %v", got)
	}
	if got := Literals("1 +"); got != nil {
		t.Errorf("got %v", got)
	}
}

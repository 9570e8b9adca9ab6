package compat_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
)

func demoMix(t testing.TB, name string) compat.Mix {
	t.Helper()
	text, ok := demo.Mix(name)
	if !ok {
		t.Fatalf("there is no demo %s", name)
	}
	m, err := compat.ReadMix(name, text, demoParts(t))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// units are what a number of a sheet may stand before.
var units = regexp.MustCompile(`[0-9](,? to [0-9.]+)?( of a turn| ?mm| N m| half-inch links| cogs?| clicks?| hang in the cage| at rest| where the axle| are left| to spare| of them| °C| percent| km|\.$|, | and | from the smallest|: )`)

// TestSheets holds the sheets of all demo mixes: golden files, every step with a
// reason and a way to see that it is right, every number with its unit.
func TestSheets(t *testing.T) {
	c := checker(t)
	for _, name := range demo.Mixes() {
		t.Run(name, func(t *testing.T) {
			s := c.Sheet(demoMix(t, name))
			seen := map[string]bool{}
			for _, step := range s.Steps {
				if step.Do == "" || step.Check == "" || step.Because == "" {
					t.Errorf("%s: a step says what, right when and because", step.ID)
				}
				if said := step.Do + step.Value + step.Check; strings.Contains(said, "(not stated)") || step.Value != "" && len(step.Missing) > 0 {
					t.Errorf("%s: %q, and missing are %v", step.ID, said, step.Missing)
				}
				if strings.ContainsAny(step.Value, "0123456789") && !units.MatchString(step.Value) {
					t.Errorf("%s: a number without its unit: %q", step.ID, step.Value)
				}
				for _, m := range step.Missing {
					if m.How == "" && m.Doc == "" {
						t.Errorf("%s: %s is missing, and nothing says how to get it", step.ID, m.Name)
					}
				}
				seen[step.ID] = true
			}
			golden(t, "sheet-"+name+".json", s)
		})
	}
}

// golden compares with a file under testdata/sheets, or writes it anew.
func golden(t *testing.T, name string, v any) {
	t.Helper()
	b, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	got := regexp.MustCompile(`sha256:[0-9a-f]{64}`).ReplaceAll(b, []byte("sha256:..."))
	got = regexp.MustCompile(`"count": [0-9]+`).ReplaceAll(got, []byte(`"count": 0`))
	file := filepath.Join("testdata", "sheets", name)
	if flag.Lookup("update").Value.String() == "true" { // of golden_test.go
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, append(got, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.TrimSpace(string(want)) != string(got) {
		t.Errorf("%s differs; .ci/update writes it anew\n%s", file, got)
	}
}

// TestSheetOrder holds what must come before what, in the order of the trade.
func TestSheetOrder(t *testing.T) {
	c := checker(t)
	for _, tt := range []struct {
		mix   string
		order []string
		not   []string
	}{
		{"ferry-motor", []string{"cells", "hanger", "lockring", "pair", "outermost", "mount", "chain-measure", "chain-cut", "connector", "two-looks",
			"rough-trim", "b-gap", "b-gap-gauge", "fine-trim", "stops", "shift-through", "back-pedal", "suspension", "torques", "noise", "stop-rules", "recheck"},
			[]string{"high-stop", "low-stop", "cable", "fine-index", "recheck-cable", "friction"}},
		{"club-two-ring", []string{"hanger", "lockring", "mount", "shifter", "high-stop", "low-stop", "chain-measure-rigid", "chain-cut", "connector",
			"cable", "rough-index", "b-gap", "fine-index", "barrel", "low-stop-again", "front", "shift-through", "torques", "recheck", "recheck-cable"},
			[]string{"cells", "pair", "outermost", "stops", "fine-trim", "suspension", "empty-cell"}},
	} {
		var ids []string
		for _, s := range c.Sheet(demoMix(t, tt.mix)).Steps {
			ids = append(ids, s.ID)
		}
		at := -1
		for _, id := range tt.order {
			i := slices.Index(ids, id)
			if i <= at {
				t.Errorf("%s: %s stands at %d, after place %d is wanted: %v", tt.mix, id, i, at, ids)
			}
			at = i
		}
		for _, id := range tt.not {
			if slices.Contains(ids, id) {
				t.Errorf("%s: %s has no place here", tt.mix, id)
			}
		}
	}
}

// TestSheetValues holds the worked numbers of the motor mix: common practice.
func TestSheetValues(t *testing.T) {
	values := map[string]string{}
	for _, s := range checker(t).Sheet(demoMix(t, "ferry-motor")).Steps {
		values[s.ID] = s.Value
	}
	for id, want := range map[string]string{
		"hanger": "3.0 mm", "mount": "11 N m", "chain-measure": "109.5 half-inch links at rest and 112.6", "chain-cut": "116 half-inch links",
		"b-gap": "40.4 mm", "b-gap-gauge": "12.1 mm, the gauge needs 20.2 mm", "fine-trim": "3 clicks towards the spokes",
		"two-looks": "3.4 half-inch links", "back-pedal": "0.78 mm", "rough-trim": "Cog 6", "controller-spacer": "5.0 mm",
	} {
		if !strings.Contains(values[id], want) {
			t.Errorf("%s says %q, want %q in it", id, values[id], want)
		}
	}
}

// TestReversedSpring holds that a derailleur which rests on the largest cog is set
// up the other way round: the low limit first, and the barrel turned the other way
// for the same move. Common practice.
func TestReversedSpring(t *testing.T) {
	p, ok := demoParts(t).Part("donated-rd-reversed")
	if !ok {
		t.Fatal("the demo has no reversed spring any more")
	}
	said := func(m compat.Mix) map[string]string {
		out := map[string]string{}
		for i, s := range checker(t).Sheet(m).Steps {
			out[s.ID] = fmt.Sprintf("%02d %s %s", i, s.Do, s.Value)
		}
		return out
	}
	usual := demoMix(t, "club-two-ring")
	smallest, largest := said(usual), said(usual.With(p))
	for _, id := range []string{"high-stop", "low-stop", "low-stop-again"} {
		if smallest[id] == "" || largest[id] != "" {
			t.Errorf("%s: %q, with a reversed spring %q", id, smallest[id], largest[id])
		}
	}
	for _, id := range []string{"low-stop-at-rest", "high-stop-by-hand", "stops-again"} {
		if smallest[id] != "" || largest[id] == "" {
			t.Errorf("%s: %q, with a reversed spring %q", id, smallest[id], largest[id])
		}
	}
	if !(largest["low-stop-at-rest"] < largest["high-stop-by-hand"] &&
		largest["high-stop-by-hand"] < largest["chain-measure-rigid"] && largest["fine-index"] < largest["stops-again"] && largest["stops-again"] < largest["front"]) {
		t.Errorf("the order is wrong: %v", largest)
	}
	for _, c := range []struct{ barrel, turned, moved string }{
		{smallest["barrel"], "out", "spokes"}, {largest["barrel"], "in", "spokes"},
	} {
		if !strings.Contains(c.barrel, "the barrel "+c.turned+".") || !strings.Contains(c.barrel, "towards the "+c.moved) {
			t.Errorf("%q: turned %s it moves towards the %s", c.barrel, c.turned, c.moved)
		}
	}
}

// TestRestCount holds what is said of the chain where nobody knows how far the
// axle moves away: 51 on 32 at 430 mm take 109.49 half-inch links at rest, and
// five more come to 116. Common practice.
func TestRestCount(t *testing.T) {
	for _, c := range []struct {
		frame, rear string
		known       bool
		num         float64
	}{
		{`"rear_suspension": "sprung"`, `"add_pitches_rest": 5`, true, 116},
		{`"rear_suspension": "sprung"`, `"add_pitches_rest": 3`, true, 114},
		{`"rear_suspension": "sprung"`, `"add_pitches": 2`, false, 0},
		{`"rear_suspension": "sprung", "chain_growth_mm": 20`, `"add_pitches_rest": 5`, false, 0},
		{`"rear_suspension": "none"`, `"add_pitches_rest": 5`, false, 0},
	} {
		m, err := compat.ReadMix("rest.json", []byte(`{"mix": "rest", "parts": {"cassette": {"cogs_t": [10, 51]}, "crankset": {"rings_t": [32]},
			"chain": {"speeds": 12}, "frame": {"chainstay_mm": 430, `+c.frame+`}, "rear_derailleur": {`+c.rear+`}}}`), nil)
		if err != nil {
			t.Fatal(err)
		}
		s := checker(t).Sheet(m)
		v, _ := compat.Measure(m).Value("chain_pitches_rest")
		if v.Known != c.known || v.Num != c.num {
			t.Errorf("%s, %s: %+v, want %v", c.frame, c.rear, v, c.num)
		}
		if slices.ContainsFunc(s.Steps, func(s compat.SheetStep) bool { return s.ID == "chain-rest" }) != c.known {
			t.Errorf("%s, %s: the step for an unknown travel: wanted %v", c.frame, c.rear, c.known)
		}
	}
}

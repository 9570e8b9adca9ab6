package compat_test

import (
	"encoding/json"
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
				if strings.Contains(step.Value, "(not stated)") != (len(step.Missing) > 0) {
					t.Errorf("%s: %q, and missing are %v", step.ID, step.Value, step.Missing)
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

// golden compares with a file under testdata/sheets, or writes it where the
// environment says so.
func golden(t *testing.T, name string, v any) {
	t.Helper()
	b, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	got := regexp.MustCompile(`sha256:[0-9a-f]{64}`).ReplaceAll(b, []byte("sha256:..."))
	got = regexp.MustCompile(`"count": [0-9]+`).ReplaceAll(got, []byte(`"count": 0`))
	file := filepath.Join("testdata", "sheets", name)
	if os.Getenv("UPDATE") != "" {
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
		t.Errorf("%s differs; UPDATE=1 go test ./compat -run TestSheets writes it anew\n%s", file, got)
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

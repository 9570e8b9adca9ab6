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
var units = regexp.MustCompile(`[0-9](,? to [0-9.]+)?( of a turn| ?mm| percent| to spare| N m| half-inch links| cogs?| clicks?| hang in the cage| at rest| where the axle| are left| to spare| of them| °C| percent| km|\.$|, | and | from the smallest|: )`)

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
				said := step.Do + step.Value + step.Check + step.Because + step.Caution
				if strings.Contains(said, "(not stated)") || strings.Contains(said, "figures.") {
					t.Errorf("%s: %q, and missing are %v", step.ID, said, step.Missing)
				}
				for _, name := range step.Measured {
					if !strings.HasPrefix(name, "bench.") {
						t.Errorf("%s measures %s, which no bench: block can hold", step.ID, name)
					}
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

// TestSheetOrder holds what must come before what, in the order of the trade: one
// order for motor, cable and no derailleur.
func TestSheetOrder(t *testing.T) {
	order := []string{"look", "assist-off", "cells", "hanger", "bearing", "ring", "crank", "ring-line", "front-on", "spacer", "lockring", "driver",
		"freewheel", "fixed-cog", "wheel", "wheel-slots", "wheel-full", "brake-back", "pair", "controller", "outermost", "outermost-free", "mount",
		"mount-full", "spokes", "shifter", "high-stop", "low-stop", "housing", "chain-measure-rigid", "chain-measure", "chain-cut", "thread",
		"cage-lock", "connector", "mount-full-tight", "suspension", "tension", "tension-fixed", "axle-nuts", "cable", "rough-trim", "rough-index",
		"friction", "two-looks", "b-gap", "b-gap-sag", "b-gap-gauge", "fine-trim", "fine-trim-matched", "fine-index", "spare-click",
		"low-stop-again", "low-stop-by-ear", "stops", "front", "hub-gear", "shift-through", "back-pedal", "torques", "pedals", "brakes-first"}
	const (
		wheel  = `"wheel": {"bead_seat_mm": 622}, "hub": {"kind_of_hub": "cassette", "freehub": "spline-9", "axle": "quick"}, "bottom_bracket": {"shell": "threaded-68"}`
		cogs   = `"cassette": {"cogs_t": [11, 13, 15, 17], "freehub": "spline-9"}, "chain": {"speeds": 9}, "crankset": {"rings_t": [40]}`
		single = `"cassette": {"cogs_t": [17]}, "chain": {"speeds": 1}, "crankset": {"rings_t": [44]}`
	)
	for name, c := range map[string]struct{ parts, has, not string }{
		"cable, rigid": {`"frame": {"rear_suspension": "none"}, "rear_derailleur": {"actuation": "cable"}, "rear_shifter": {"actuation": "cable"}, ` + wheel + ", " + cogs,
			"look hanger bearing ring crank spacer lockring wheel brake-back mount shifter high-stop low-stop housing chain-measure-rigid chain-cut thread " +
				"connector cable rough-index two-looks b-gap fine-index low-stop-again shift-through back-pedal torques pedals brakes-first recheck-cable",
			"assist-off cells pair stops fine-trim suspension chain-measure b-gap-sag tension empty-cell one-click front"},
		"motor, sprung": {`"frame": {"rear_suspension": "sprung"}, "rear_derailleur": {"actuation": "motor"}, "rear_shifter": {"actuation": "motor"}, ` + wheel + ", " + cogs,
			"cells hanger pair controller outermost mount spokes chain-measure suspension rough-trim b-gap-sag fine-trim-matched stops one-click empty-cell",
			"high-stop low-stop cable housing rough-index fine-index b-gap recheck-cable shifter"},
		"motor, full mount": {`"frame": {"rear_suspension": "sprung"}, "rear_derailleur": {"actuation": "motor", "mount": "full"}, ` + wheel + ", " + cogs,
			"wheel-full outermost-free mount-full mount-full-tight b-gap-full", "hanger wheel mount stops outermost b-gap b-gap-sag after-a-knock recheck-gap"},
		"by ear": {`"rear_derailleur": {"actuation": "cable"}, "rear_shifter": {"actuation": "cable", "indexed": false}, ` + wheel + ", " + cogs,
			"cable friction low-stop-by-ear", "rough-index fine-index recheck-cable spare-click low-stop-again"},
		"single speed": {`"frame": {"dropout": "track", "rear_suspension": "none"}, "hub": {"kind_of_hub": "freewheel", "freehub": "thread-1.375"}, ` + single,
			"freewheel wheel-slots chain-cut tension axle-nuts stop-rules-single recheck-play", "hanger spacer lockring wheel two-looks b-gap shift-through " +
				"back-pedal stop-rules thread mount tension-fixed keep-off recheck-gap fixed-cog"},
		"fixed": {`"frame": {"dropout": "track"}, "hub": {"kind_of_hub": "fixed"}, ` + single,
			"fixed-cog tension-fixed", "freewheel tension back-pedal lockring"},
		"hub gear": {`"frame": {"dropout": "slotted"}, "hub": {"kind_of_hub": "internal"}, "rear_shifter": {"actuation": "cable"}, ` + single,
			"lug-cog hub-gear shifter tension", "freewheel spacer lockring shift-through back-pedal b-gap hanger"},
		"motor at the crank": {`"frame": {"assist": "mid", "rear_suspension": "none"}, "rear_derailleur": {"actuation": "cable"}, "rear_shifter": {"actuation": "cable"}, ` + wheel + ", " + cogs,
			"assist-off crank", "bearing bearing-press cells"},
		"belt": {`"frame": {"drive": "belt", "dropout": "sliding"}, "hub": {"kind_of_hub": "internal"}, ` + single,
			"hub-gear belt torques", "ring-line chain-measure-rigid chain-cut connector tension wear"},
		"moved by nobody knows what": {`"rear_derailleur": {"mount": "hanger"}, ` + wheel + ", " + cogs, "moved-by hanger mount two-looks b-gap", "cable stops low-stop pair"},
		"coaster":                    {`"hub": {"kind_of_hub": "internal", "brake": "coaster"}, "rear_derailleur": {"actuation": "cable"}, ` + cogs, "brake-back", "back-pedal"},
	} {
		t.Run(name, func(t *testing.T) {
			ids := stepIDs(t, c.parts)
			at := -1
			for _, id := range order {
				i := slices.Index(ids, id)
				if i >= 0 && i < at {
					t.Errorf("%s stands at %d, behind place %d: %v", id, i, at, ids)
				}
				at = max(at, i)
			}
			for _, id := range strings.Fields(c.has) {
				if !slices.Contains(ids, id) {
					t.Errorf("%s is wanted: %v", id, ids)
				}
			}
			for _, id := range strings.Fields(c.not) {
				if slices.Contains(ids, id) {
					t.Errorf("%s has no place here: %v", id, ids)
				}
			}
		})
	}
}

// stepIDs gives the steps that stand for these parts, whatever fails.
func stepIDs(t *testing.T, parts string) []string {
	t.Helper()
	m, err := compat.ReadMix("steps.json", []byte(`{"mix": "steps", "parts": {`+parts+`}}`), nil)
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, d := range checker(t).Rules().Sheet(compat.Measure(m).Records()) {
		ids = append(ids, d.Step.ID)
	}
	return ids
}

// TestSheetValues holds the worked numbers of the motor mix: common practice.
func TestSheetValues(t *testing.T) {
	values := map[string]string{}
	for _, s := range checker(t).Sheet(demoMix(t, "ferry-motor")).Steps {
		values[s.ID] = s.Value
	}
	for id, want := range map[string]string{
		"hanger": "3.0 mm", "mount": "11 N m", "chain-measure": "109.5 half-inch links at rest. Where the axle is farthest away they use 112.6", "chain-cut": "116 half-inch links",
		"b-gap-sag": "40.4 mm", "b-gap-gauge": "12.1 mm, the gauge needs 20.2 mm", "fine-trim": "3 clicks towards the spokes from where cog 1 is exactly right",
		"two-looks": "3.4 half-inch links", "back-pedal": "0.78 mm", "rough-trim": "Cog 6", "controller-spacer": "5.0 mm", "suspension": "3.4 half-inch links",
		"look": "0.5 percent longer than new, 306.3 mm", "bearing": "40 N m at the cups",
	} {
		if !strings.Contains(values[id], want) {
			t.Errorf("%s says %q, want %q in it", id, values[id], want)
		}
	}
	if !strings.Contains(values["fine-trim"], "1.0 mm would be left") {
		t.Errorf("the usual way is not reckoned: %q", values["fine-trim"])
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
		{smallest["fine-index"], "out", "spokes"}, {largest["fine-index"], "in", "spokes"},
	} {
		if !strings.Contains(c.barrel, "of the barrel "+c.turned+",") || !strings.Contains(c.barrel, "towards the "+c.moved+".") {
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
		if slices.ContainsFunc(s.Steps, func(s compat.SheetStep) bool { return strings.Contains(s.Value, "links by the bicycle at rest") }) != c.known {
			t.Errorf("%s, %s: the count for an unknown travel: wanted %v", c.frame, c.rear, c.known)
		}
	}
}

package rules_test

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules"
)

// soundRules name every part of a rule that a sound file leaves for later.
const soundRules = `
pack: boats
rules:
  - id: sail/area
    title: The sail suits the mast
    why: A tall sail capsizes the boat.
    when: mast.height_m > 1
    let: {most: 2 * mast.height_m, over: sail.area_m2 - most}
    fail_if: over > 10
    warn_if: over > 0
    say: "{over:.1} m2 over {most}."
    pass: "{-over} m2 below {most}."
    remedy: "At most {most} m2."
    caution: "Heel {over / 2}."
    needs: [{what: "canvas of {most}", value: over, unit: m2, when: over > 5}]
    basis: {practice: invented}
    examples:
      - {name: fits, given: {sail: {area_m2: 9}, mast: {height_m: 5}}, want: pass}
steps:
  - {id: hoist, when: sail.area_m2 > 0, do: "Hoist {sail.area_m2} m2.", check: it stands, because: wind pulls}
`

// soundAndWhole load the same text both ways.
func soundAndWhole(t *testing.T, text string) (sound, whole *rules.Set) {
	t.Helper()
	sound, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Sound: files("boats.yaml", text)})
	if err != nil {
		t.Fatal(err)
	}
	return sound, mustLoad(t, text)
}

// everything is all that a set says of facts.
func everything(s *rules.Set, f facts) []any {
	res := s.Evaluate(records(f))
	var out []any
	for _, finding := range res.Findings {
		out = append(out, finding.Verdict, finding.Err, finding.Missing, res.Text(finding), res.Remedy(finding), res.Caution(finding), res.Needs(finding))
		for _, used := range res.Used(finding) {
			out = append(out, used.Name)
		}
	}
	for _, n := range res.NotApplied {
		out = append(out, n.Rule.ID, n.Reason, n.Names)
	}
	for _, d := range s.Sheet(records(f)) {
		out = append(out, d.Do, d.Check, d.Because)
	}
	return out
}

// TestSoundFilesSayTheSame holds that what is left for later says what it would
// say at once, whichever part is asked for first, and by how many at a time.
func TestSoundFilesSayTheSame(t *testing.T) {
	for _, f := range []facts{
		{"sail.area_m2": 40, "mast.height_m": 5}, {"sail.area_m2": 11, "mast.height_m": 5}, {"sail.area_m2": 9, "mast.height_m": 5},
		{"mast.height_m": 5, "sail": nil}, {"sail.area_m2": 9, "mast.height_m": 1}, {"mast.height_m": 5},
	} {
		sound, whole := soundAndWhole(t, soundRules)
		want := everything(whole, f)
		var wg sync.WaitGroup
		for range 8 {
			wg.Go(func() {
				if diff := cmp.Diff(want, everything(sound, f)); diff != "" {
					t.Error(diff)
				}
			})
		}
		wg.Wait()
		if diff := cmp.Diff(whole.Rules()[0].Lets(), sound.Rules()[0].Lets()); diff != "" {
			t.Error(diff)
		}
	}
	sound, whole := soundAndWhole(t, soundRules)
	if got, want := fmt.Sprint(sound.Reads(sound.Rules()[0])), fmt.Sprint(whole.Reads(whole.Rules()[0])); got != want || !strings.Contains(got, "sail.area_m2") {
		t.Errorf("reads %s, not %s", got, want)
	}
	if wrong, ran := sound.Prove(); len(wrong) > 0 || ran != 1 {
		t.Errorf("%d examples ran, %d wrong", ran, len(wrong))
	}
}

// TestSoundFileWithFault holds that a file which was wrongly called sound makes
// its rules errors, never passes, and leaves the others alone.
func TestSoundFileWithFault(t *testing.T) {
	for at, change := range map[string][2]string{
		"boats.yaml:8:": {"2 * mast.height_m", "2 * mast.hight_m"}, "boats.yaml:7:": {"mast.height_m > 1", "mast.height > 1"},
		"boats.yaml:9:": {"over > 10", "over >"}, "boats.yaml:10:": {"over > 0", "over"},
	} {
		text := strings.Replace(soundRules, change[0], change[1], 1)
		text = strings.Replace(text, "steps:", "  - {id: a/next, title: T, why: W, fail_if: sail.area_m2 > 3, say: S, remedy: R, basis: {practice: P}}\nsteps:", 1)
		if _, err := load(t, text); err == nil || !strings.Contains(err.Error(), at) {
			t.Errorf("%q: as a stranger's file: %v", change[1], err)
		}
		set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Sound: files("boats.yaml", text)})
		if err != nil {
			t.Fatal(err)
		}
		res := set.Evaluate(records(facts{"sail.area_m2": 9, "mast.height_m": 5}))
		if len(res.Findings) != 2 || res.Findings[0].Verdict != rules.Unknown || !strings.Contains(res.Findings[0].Err, at) || res.Findings[1].Verdict != rules.Fail {
			t.Errorf("%q: %+v", change[1], res.Findings)
		}
	}
}

// TestShippedId holds that a rule of one's own under the id of a shipped one is told
// how to change that one.
func TestShippedId(t *testing.T) {
	_, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Sound: files("boats.yaml", soundRules),
		Files: files("own.yaml", pack("id: sail/area", "warn_if: sail.wet"))})
	if err == nil || !strings.Contains(err.Error(), "own.yaml") || !strings.Contains(err.Error(), "that one is shipped; change what it gives with adjust:") {
		t.Errorf("got %v", err)
	}
}

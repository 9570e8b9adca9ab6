package rules_test

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

const smoke = `
pack: boats
rules:
  - id: sail/area
    title: The sail is not too large for the mast
    why: A tall sail on a short mast capsizes the boat.
    when: stated(sail.reefs) && sail.cloth != 'nylon'
    let:
      over: sail.area_m2 - 2 * mast.height_m
    fail_if: over > 10
    warn_if: over > 0 || sail.panels_m2.exists(p, p > 9)
    say: "The sail is {over:.1} m2 over, with {sail.reefs} reefs."
    remedy: A smaller sail.
    basis: {practice: invented}
    examples:
      - {name: fine, given: {sail: {area_m2: 10, reefs: 1, cloth: canvas, panels_m2: [1]}, mast: {height_m: 8}}, want: pass}
      - {name: over, given: {sail: {area_m2: 20, reefs: 1, cloth: canvas}, mast: {height_m: 8}}, want: warn}
      - {name: far over, given: {sail: {area_m2: 40, reefs: 1, cloth: canvas}, mast: {height_m: 8}}, want: fail}
      - {name: no mast, given: {sail: {area_m2: 40, reefs: 1, cloth: canvas}}, want: not_applied}
      - {name: no area, given: {sail: {reefs: 1, cloth: canvas}, mast: {height_m: 8}}, want: unknown, missing: [sail.area_m2]}
      - {name: no reefs, given: {sail: {cloth: canvas}, mast: {height_m: 8}}, want: not_applied}
`

func TestProve(t *testing.T) {
	wrong, ran := mustLoad(t, smoke).Prove()
	if ran != 6 {
		t.Errorf("ran %d examples", ran)
	}
	for _, w := range wrong {
		t.Errorf("%s: want %s, got %s (%s)", w.Example.Name, w.Example.Want, w.Got, w.Detail)
	}
}

// TestProveFindsWrong holds that an example which does not give what it says is
// found, with what it gave and why.
func TestProveFindsWrong(t *testing.T) {
	set := mustLoad(t, pack("when: mast.stays > 0", "fail_if: sail.area_m2 / sail.reefs > 10", "examples:", strings.Join([]string{
		"  - {name: right, given: {sail: {area_m2: 30, reefs: 2}, mast: {stays: 1}}, want: fail}",
		"  - {name: passes, given: {sail: {area_m2: 10, reefs: 2}, mast: {stays: 1}}, want: fail}",
		"  - {name: fails, given: {sail: {area_m2: 30, reefs: 2}, mast: {stays: 1}}, want: warn}",
		"  - {name: unknown, given: {sail: {reefs: 2}, mast: {stays: 1}}, want: pass}",
		"  - {name: lacks another, given: {sail: {reefs: 2}, mast: {stays: 1}}, want: unknown, missing: [sail.reefs]}",
		"  - {name: lacks it, given: {sail: {reefs: 2}, mast: {stays: 1}}, want: unknown, missing: [sail.area_m2]}",
		"  - {name: not applied, given: {sail: {reefs: 2}, mast: {stays: 0}}, want: pass}",
		"  - {name: absent, given: {sail: {reefs: 2}}, want: unknown}",
		"  - {name: an error is no unknown, given: {sail: {area_m2: 1, reefs: 0}, mast: {stays: 1}}, want: unknown}",
	}, "\n")))
	wrong, ran := set.Prove()
	if ran != 9 {
		t.Errorf("ran %d examples", ran)
	}
	var got []string
	for _, w := range wrong {
		got = append(got, w.Example.Name+": "+w.Got.String()+": "+w.Detail)
		if w.Rule != set.Rules()[0] || w.Example.Pos.Line == 0 {
			t.Errorf("%s is of %s at %s", w.Example.Name, w.Rule.ID, w.Example.Pos)
		}
	}
	want := []string{
		"passes: pass: mast.stays = 1, sail.area_m2 = 10, sail.reefs = 2",
		"fails: fail: mast.stays = 1, sail.area_m2 = 30, sail.reefs = 2",
		"unknown: unknown: missing sail.area_m2",
		"lacks another: unknown: missing sail.area_m2",
		"not applied: not_applied: when",
		"absent: not_applied: absent mast",
		"an error is no unknown: error: division by zero",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// TestProveDerives holds that examples are completed with what is computed, and
// that a figure which is given is left as it is given.
func TestProveDerives(t *testing.T) {
	speed, area := rig.Ref("speed_kn"), sail.Ref("area_m2")
	derive := func(given []*rules.Record) []*rules.Record {
		values, lacks := make([]fact.Value, 2), make([]fact.Lack, 2)
		if v := area.In(given[0]); v.Known {
			values[speed.Index] = fact.Num(v.Num / 2)
		} else {
			lacks[speed.Index] = fact.Lack{Missing: []string{"sail.area_m2"}}
		}
		if v := speed.In(given[2]); v.Known {
			values[speed.Index] = v
		}
		return []*rules.Record{given[0], given[1], rig.NewRecord(values, lacks)}
	}
	set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Derive: derive, Files: files("a.yaml", pack("fail_if: rig.speed_kn > 9",
		"examples:", "  - {name: computed, given: {sail: {area_m2: 20}}, want: fail}",
		"  - {name: given, given: {sail: {area_m2: 20}, rig: {speed_kn: 3}}, want: pass}",
		"  - {name: neither, given: {sail: {reefs: 1}}, want: unknown, missing: [sail.area_m2]}"))})
	if err != nil {
		t.Fatal(err)
	}
	wrong, ran := set.Prove()
	if len(wrong) != 0 || ran != 3 {
		t.Errorf("%d examples, wrong are %+v", ran, wrong)
	}
}

// TestDocumentedFile holds that the file in the package comment loads and that
// its examples are right.
func TestDocumentedFile(t *testing.T) {
	text, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	var file []string
	for _, line := range strings.Split(string(text), "\n") {
		if code, ok := strings.CutPrefix(line, "//\t"); ok {
			file = append(file, code)
		} else if len(file) > 0 {
			break
		}
	}
	wrong, ran := mustLoad(t, strings.Join(file, "\n")+"\n").Prove()
	if ran != 4 || len(wrong) > 0 {
		t.Errorf("%d examples, wrong are %+v", ran, wrong)
	}
}

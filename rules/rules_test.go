package rules_test

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// A small world of its own, so that these tests say what the package does and
// not what bicycles do.
var (
	sail = rules.NewObject("sail", "A sail.",
		source.Field{Name: "area_m2", Type: source.Fraction, Unit: "m2", Min: 0, Max: 100, Doc: "Its area.", How: "Measure it."},
		source.Field{Name: "reefs", Type: source.Whole, Min: 0, Max: 9, Doc: "Rows of reef points.", How: "Count them."},
		source.Field{Name: "panels_m2", Type: source.Fractions, Unit: "m2", Min: 0, Max: 100, Cap: 8, Doc: "Panels.", How: "Measure."},
		source.Field{Name: "cloth", Type: source.Choice, Choices: []string{"canvas", "nylon"}, Doc: "Cloth.", How: "Feel."},
		source.Field{Name: "wet", Type: source.Flag, Doc: "Wet.", How: "Feel."})
	mast = rules.NewObject("mast", "A mast.",
		source.Field{Name: "height_m", Type: source.Fraction, Unit: "m", Min: 0, Max: 50, Doc: "Height.", How: "Measure."})
)

func vocabulary(t testing.TB) *rules.Vocabulary {
	t.Helper()
	v, err := rules.NewVocabulary(sail, mast)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func load(t testing.TB, text string) (*rules.Set, error) {
	t.Helper()
	return rules.Load(rules.Config{
		Vocabulary: vocabulary(t),
		Files:      fstestFiles(text),
	})
}

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

func fstestFiles(text string) fsList { return fsList{fstest.MapFS{"boats.yaml": {Data: []byte(text)}}} }

func TestSmoke(t *testing.T) {
	set, err := load(t, smoke)
	if err != nil {
		t.Fatal(err)
	}
	wrong, ran := set.Prove()
	if ran != 6 {
		t.Errorf("ran %d examples", ran)
	}
	for _, w := range wrong {
		t.Errorf("%s: want %s, got %s (%s)", w.Example.Name, w.Example.Want, w.Got, w.Detail)
	}
}

type fsList = []fs.FS

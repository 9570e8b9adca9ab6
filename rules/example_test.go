package rules_test

import (
	"fmt"
	"io/fs"
	"testing/fstest"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// harbour is a rule file.
const harbour = `
pack: harbour
rules:
  - id: sail/area
    title: The sail suits the mast
    why: A tall sail on a short mast capsizes the boat.
    let:
      over: sail.area_m2 - 2 * mast.height_m
    fail_if: over > 10
    warn_if: over > 0
    say: "The sail is {over:.1} m2 over what a mast of {mast.height_m} m bears."
    remedy: "A sail of at most {2 * mast.height_m:.0} m2."
    basis: {practice: the harbour's own}
    examples:
      - {name: fits, given: {sail: {area_m2: 9}, mast: {height_m: 5}}, want: pass}
`

// Rules are loaded against a vocabulary, and evaluated on one record an object.
// What nobody stated leaves a rule open and is named.
func ExampleLoad() {
	sail := rules.NewObject("sail", "What the wind blows into.", fact.Field{
		Name: "area_m2", Type: fact.Fraction, Unit: "m2", Min: 0, Max: 500, Doc: "Its area.", How: "Measure it on the quay."})
	mast := rules.NewObject("mast", "What holds the sail.", fact.Field{
		Name: "height_m", Type: fact.Fraction, Unit: "m", Min: 0, Max: 50, Doc: "Its height.", How: "Measure its shadow."})
	vocabulary, err := rules.NewVocabulary(sail, mast)
	if err != nil {
		fmt.Println(err)
		return
	}
	set, err := rules.Load(rules.Config{
		Vocabulary: vocabulary,
		Files:      []fs.FS{fstest.MapFS{"harbour.yaml": {Data: []byte(harbour)}}},
	})
	if err != nil {
		fmt.Println(err) // every fault of every file, with its place
		return
	}
	height := mast.NewRecord([]fact.Value{fact.Num(6)}, nil)
	for _, area := range []fact.Value{fact.Num(11), fact.Num(15), fact.Num(30), {}} {
		result := set.Evaluate([]*rules.Record{sail.NewRecord([]fact.Value{area}, nil), height})
		for _, f := range result.Findings {
			fmt.Println(f.Verdict, f.Rule.ID, result.Text(f), f.Missing)
		}
	}
	wrong, ran := set.Prove()
	fmt.Println(ran, "examples,", len(wrong), "wrong")
	// Output:
	// pass sail/area The sail suits the mast. []
	// warn sail/area The sail is 3.0 m2 over what a mast of 6 m bears. []
	// fail sail/area The sail is 18.0 m2 over what a mast of 6 m bears. []
	// unknown sail/area Not decided, for nobody stated its area (sail). [sail.area_m2]
	// 1 examples, 0 wrong
}

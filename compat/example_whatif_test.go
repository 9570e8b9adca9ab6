package compat_test

import (
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// ferry reads one of the demo's mixes.
func ferry(parts *catalog.Catalog) (compat.Mix, error) {
	text, _ := demo.Mix("ferry-motor")
	return compat.ReadMix("ferry-motor.yaml", text, parts)
}

// What if another cassette were bought? The mix that was asked about stays as it
// is.
func ExampleMix_With() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		fmt.Println(err)
		return
	}
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	mix, err := ferry(parts)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, part := range parts.OfKind("cassette") {
		if report := checker.Check(mix.With(part)); report.Verdict == rules.Pass || report.Verdict == rules.Warn {
			fmt.Println(part.Name()+":", report.Verdict)
		}
	}
	fmt.Println("as it is:", checker.Check(mix).Verdict)
	// Output:
	// Reedbed twelve, 11-45: warn
	// Reedbed twelve, 11-50: warn
	// Reedbed twelve, 10-51: warn
	// Lantern twelve, 10-51: warn
	// Lantern twelve, 10-52: warn
	// Lantern twelve, 10-50: warn
	// Foghorn twelve with a screwed-in smallest cog, 10-51: warn
	// Donated eleven, only the stack is known, 11-34: warn
	// as it is: warn
}

// Which of the parts is to blame for what got worse.
func ExampleCompare() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		fmt.Println(err)
		return
	}
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	mix, err := ferry(parts)
	if err != nil {
		fmt.Println(err)
		return
	}
	chain, err := catalog.New("chain", map[string]any{"name": "Chain from the donation box", "speeds": 9, "pitches": 118})
	if err != nil {
		fmt.Println(err)
		return
	}
	change := compat.Compare(checker.Check(mix), checker.Check(mix.With(chain)))
	fmt.Println(change.Before.Verdict, "to", change.After.Verdict)
	for _, f := range change.Worse {
		fmt.Println(f.Rule, f.Causes)
	}
	// Output:
	// warn to fail
	// chain/neighbour-gap [[chain]]
	// chain/connector [[chain]]
}

// A step of a setup sheet, with the value of this mix.
func ExampleChecker_Sheet() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		fmt.Println(err)
		return
	}
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	mix, err := ferry(parts)
	if err != nil {
		fmt.Println(err)
		return
	}
	sheet := checker.Sheet(mix)
	for _, step := range sheet.Steps {
		if step.ID == "chain-cut" {
			fmt.Println(step.Value)
			fmt.Println("right when:", step.Check)
			fmt.Println("because:", step.Because)
		}
	}
	// Output:
	// 116 half-inch links, connector included.
	// right when: the count is even.
	// because: inner and outer half-inch links take turns, so an odd count cannot be closed
}

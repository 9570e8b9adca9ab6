package compat_test

import (
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
)

// A mix of two parts: what applies to them is judged, with the numbers.
func ExampleChecker_Check() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		fmt.Println(err)
		return
	}
	cassette, err := catalog.New("cassette", map[string]any{"cogs_t": []int{11, 13, 15, 18, 21, 24, 28, 32, 36}, "pitch_mm": 4.34})
	if err != nil {
		fmt.Println(err)
		return
	}
	derailleur, err := catalog.New("rear_derailleur", map[string]any{"actuation": "cable", "max_cog_t": 34})
	if err != nil {
		fmt.Println(err)
		return
	}
	mix, err := compat.NewMix("Touring club, a donated derailleur", compat.ScopeCart, cassette, derailleur)
	if err != nil {
		fmt.Println(err)
		return
	}
	report := checker.Check(mix)
	fmt.Println(report.Verdict, report.Complete)
	for _, f := range report.Findings() {
		fmt.Println(f.Verdict, f.Rule+":", f.Text)
	}
	// Output:
	// warn true
	// warn cassette/largest-cog: The largest cog has 36 teeth, 2 over the 34 that the rear derailleur is rated for.
}

package fact_test

import (
	"fmt"

	"example.org/cogcourt/rules/fact"
)

// A table is what facts are read, checked and documented by.
func ExampleTable() {
	cogs := fact.NewTable(
		fact.Field{Name: "cogs_t", Type: fact.Wholes, Unit: "t", Min: 7, Max: 60, Cap: 16, Rising: true},
		fact.Field{Name: "pitch_mm", Type: fact.Fraction, Unit: "mm", Min: 2, Max: 8},
	)
	values := []fact.Value{fact.Nums([]float64{11, 13, 15}), {}}
	for i, f := range cogs.Fields() {
		fmt.Println(f.Name, values[i], f.Unit)
	}
	fmt.Println(fact.Suggest("pich_mm", cogs.Names()))
	// Output:
	// cogs_t [11, 13, 15] t
	// pitch_mm (not stated) mm
	// did you mean "pitch_mm"?
}

// The nearest name is the one that was probably meant.
func ExampleNearest() {
	known := []string{"pitch_mm", "pitches_mm", "stack_height_mm"}
	for _, wrong := range []string{"Pitch-mm", "pitch", "stack_hieght_mm", "torque_nm"} {
		fmt.Printf("%s: %q\n", wrong, fact.Nearest(wrong, known))
	}
	// Output:
	// Pitch-mm: "pitch_mm"
	// pitch: "pitch_mm"
	// stack_hieght_mm: "stack_height_mm"
	// torque_nm: ""
}

package source_test

import (
	"errors"
	"fmt"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// boats is the table of what a file may state of a boat.
func boats() *fact.Table {
	return fact.NewTable(
		fact.Field{Name: "mast_m", Type: fact.Fraction, Unit: "m", Min: 1, Max: 50},
		fact.Field{Name: "berths", Type: fact.Whole, Min: 0, Max: 20},
	)
}

// A file is parsed, and taken apart by its readers.
func ExampleParse() {
	root, err := source.Parse("fleet.yaml", []byte("boat: Heron\nmast_m: 12.5 ± 0.1\nberths: 4\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	var ps source.Problems
	name, _ := root.Get("boat").ReadText("boat", &ps)
	values := root.ReadRecord(boats(), "", []string{"boat"}, &ps)
	if err := ps.Err(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(name, values[0].Num, "within", values[0].Tol, "and", values[1].Num, "berths")
	fmt.Println(root.Get("mast_m").Pos)
	// Output:
	// Heron 12.5 within 0.1 and 4 berths
	// fleet.yaml:2:9
}

// All faults come at once, each with its place and what would mend it.
func ExampleProblems() {
	root, err := source.Parse("fleet.yaml", []byte("boat: Heron\nmast_cm: 1250\nberths: four\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	var ps source.Problems
	root.ReadRecord(boats(), "", []string{"boat"}, &ps)
	err = ps.Err()
	fmt.Println(err)
	var found source.Problems
	if errors.As(err, &found) {
		fmt.Println(len(found), "problems, the first in line", found[0].Pos.Line)
	}
	// Output:
	// fleet.yaml:2:1: unknown entry "mast_cm" (did you mean "mast_m"?)
	// fleet.yaml:3:9: berths: must be a whole number, is a text (write a whole number from 0 to 20)
	// 2 problems, the first in line 2
}

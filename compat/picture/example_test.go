package picture_test

import (
	"fmt"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/picture"
)

// A page shows each drawing with its sentence and its table; what cannot be drawn says
// why.
func ExampleAll() {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		fmt.Println(err)
		return
	}
	const club = `{mix: Club bike, parts: {cassette: {cogs_t: [11, 13, 15, 18]}, crankset: {rings_t: [42]}}}`
	mix, err := compat.ReadMix("mix.yaml", []byte(club), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range picture.All(checker.Check(mix).Outline(), picture.Options{}) {
		if p.Drawn {
			fmt.Printf("%s: %s %d rows\n", p.Title, p.Caption, len(p.Table.Rows))
		}
	}
	// Output:
	// Gear ladder: From 3.82 down to 2.33, a range of 164 percent. The largest step is 20 percent, between the 15 and the 18. 4 rows
}

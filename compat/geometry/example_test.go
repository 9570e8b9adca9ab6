package geometry_test

import (
	"fmt"

	"example.org/cogcourt/compat/geometry"
)

// A motor derailleur whose steps are made for a cassette 1.1 mm narrower.
func ExampleMeasureIndex() {
	cogs := geometry.EvenPositions(nil, 12, 3.75)
	steps := geometry.EvenPositions(nil, 12, 3.65)
	ix := geometry.MeasureIndex(steps, cogs)
	clicks, left := geometry.TrimClicks(steps, cogs, 0.2)
	fmt.Printf("offset %+.2f mm, residual %.2f mm, %.1f percent of the pitch\n", ix.Offset, ix.Residual, 100*ix.Share)
	fmt.Printf("align cog %d; %.0f clicks leave %.2f mm\n", ix.Align, clicks, left)
	// Output:
	// offset +0.55 mm, residual 0.55 mm, 14.7 percent of the pitch
	// align cog 6; 3 clicks leave 0.60 mm
}

// A suspended bicycle: what the chain must reach, and what is left when it was
// cut with the suspension at rest.
func ExampleChainLength() {
	rest := geometry.ChainLength(geometry.Pitch, 435, 32, 51)
	longest := geometry.ChainLength(geometry.Pitch, 435+20, 32, 51)
	fmt.Printf("%.2f pitches at rest, %.2f at the longest\n", rest, longest)
	fmt.Printf("cut at rest: %.0f, margin %.2f\n", geometry.EvenUp(rest+2), geometry.ChainSpare(geometry.EvenUp(rest+2), longest))
	fmt.Printf("cut right: %.0f\n", geometry.EvenUp(longest+2))
	// Output:
	// 110.27 pitches at rest, 113.41 at the longest
	// cut at rest: 114, margin 0.59
	// cut right: 116
}

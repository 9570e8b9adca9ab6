package fit_test

import (
	"context"
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
)

// Which cassettes of the shop go on a bicycle, and what would mend one that fails.
func Example() {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	checker, err := compat.New(compat.Config{})
	if err != nil {
		fmt.Println(err)
		return
	}
	text, _ := demo.Mix("fleet-three-faults")
	bike, err := compat.ReadMix("bike.yaml", text, parts)
	if err != nil {
		fmt.Println(err)
		return
	}
	ix := fit.NewIndex(checker, parts)
	answer, err := ix.Fit(context.Background(), fit.Query{Mix: bike, Kinds: []string{"cassette"}, Limit: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range answer.Choices {
		fmt.Println(c.Parts[0].ID(), c.Cents, c.Warns)
	}
	mending, err := ix.Swap(context.Background(), bike, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(mending.Parts, "parts mend", mending.Fails)
	// Output:
	// reedbed-11-11-32 5200 [b-gap/gauge cassette/smallest-largest-cog hub/freehub index/residual]
	// duckboard-11-11-46 6900 [hub/freehub]
	// 2 parts mend [chain/length drive/radio hub/freehub]
}

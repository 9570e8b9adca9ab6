// Package fit finds the parts that make a mix work: those of a catalog that go on a
// bicycle, the smallest exchange that mends one that fails, and what in a catalog goes
// with what.
//
//	ix := fit.NewIndex(checker, parts) // once; it serves any number of goroutines
//	answer, err := ix.Fit(ctx, fit.Query{Mix: bike, Kinds: []string{"cassette", "chain"}})
//	if err != nil {
//		return err // a kind that there is not, or ctx's error
//	}
//	for _, c := range answer.Choices {
//		fmt.Println(c.Parts, c.Cents, checker.Check(c.Mix(bike)).Verdict)
//	}
//
// The rules decide, and nothing else: what Fit chooses is what a [compat.Checker] says
// of every combination, found without asking for all of them. A [Query] bounds the work
// by steps and not by time, so that equal questions have equal answers; an answer that
// the bound ended says so.
package fit

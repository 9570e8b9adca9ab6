// Package compat judges whether the drivetrain parts of one bicycle go together.
//
// A [Mix] is at most one part of each kind, and what was measured on the
// bicycle. From it, [Measure] works out the [Figures]: positions of the cogs and
// of the steps that should meet them, chain lengths, gaps, lines and angles. A
// [Checker] holds parts and figures against compiled rules and gives a [Report].
// A whole use:
//
//	checker, err := compat.New(compat.Config{})
//	if err != nil {
//		return err
//	}
//	cassette, err := catalog.New("cassette", map[string]any{"cogs_t": []int{11, 13, 15}, "pitch_mm": 5.0})
//	if err != nil {
//		return err
//	}
//	derailleur, err := catalog.New("rear_derailleur", map[string]any{"max_cog_t": 28})
//	if err != nil {
//		return err
//	}
//	mix, err := compat.NewMix("Club bike", compat.ScopeCart, cassette, derailleur)
//	if err != nil {
//		return err
//	}
//	report := checker.Check(mix)
//	fmt.Println(report.Verdict)
//	for _, f := range report.Findings() {
//		fmt.Println(f.Verdict, f.Text)
//	}
//
// A Checker compiles once, is immutable and serves many goroutines. Check never
// fails: what cannot be decided is Unknown, says which facts are missing, and
// keeps the report from passing. Texts are made when they are asked for.
//
// The words: a part is of a kind and states facts; a figure is computed, and has
// a value, or lacks facts, or is about parts that are not there, or would mean
// nothing for this mix; a rule gives a finding or is not applied; a report's
// verdict is fail over unknown over warn over pass.
//
// Measured goes before stated, and stated before assumed: the few usual widths
// and counts that stand in for unstated ones are marked, and a fail that hangs
// on one is given as a warning.
//
// The package judges half-inch chains on derailleur bicycles. Belts, gears in
// the hub, tandems of two chains and frames with an idler are not judged.
package compat

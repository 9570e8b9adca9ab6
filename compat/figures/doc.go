// Package figures works out what the parts of a bicycle come to together:
// positions of cogs and of the steps that should meet them, chain lengths, gaps,
// lines and angles.
//
//	var facts figures.Facts // of one bicycle; the zero Facts know of no part
//	facts = facts.With(cassette.Record(), derailleur.Record(), shifter.Record())
//	figs := facts.Measure()
//	if v, lack := figs.Value("index_residual_mm"); v.Known {
//		fmt.Println(v.Num)
//	} else {
//		fmt.Println(lack.Missing, lack.Absent, lack.Reason, lack.Fault)
//	}
//
// [Facts] are the records of the parts and of what was measured on the bicycle,
// [Bench]. A figure is one line of a table: its name, unit and formula, the facts
// and the other figures that it reads, and one function. It has a value, or lacks
// facts, or is about parts that are not there, or would mean nothing for this
// bicycle, which a sentence says. Measured goes before stated, stated before
// assumed; an assumed value marks every figure that hangs on it. Values are
// rounded to six decimals.
//
// The formulas are those of package geometry. The package judges nothing: limits
// stand in rules.
package figures

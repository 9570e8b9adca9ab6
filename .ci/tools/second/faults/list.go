package main

// fault is one change of the library that makes it say something else.
type fault struct{ file, what, sound, faulty string }

var faults = []fault{
	{"rules/evaluate.go", "a fail never asks what is assumed", "if verdict == Fail {", "if false {"},
	{"rules/evaluate.go", "an adjustment is in force for ever", "res.set.inForce(a) {", "true {"},
	{"rules/evaluate.go", "an adjustment changes a pass too", "(ruled == Warn || ruled == Fail) && ", ""},
	{"rules/evaluate.go", "tolerances decide nothing", "\tres.margins(rules, again)\n", ""},
	{"rules/evaluate.go", "the spread of usual values decides nothing", "\tres.lean(rules, again)\n", ""},
	{"rules/evaluate.go", "of two kinds with one count the first decides", "\tres.among(rules)\n", ""},
	{"rules/assumed.go", "what when reads may be assumed", "conds = append(conds, when)\n", "_ = when\n"},
	{"rules/assumed.go", "what is assumed is not hidden", "hidden[read.Object].Values[read.Field] = fact.Value{}", "_ = fact.Value{}"},
	{"rules/assumed.go", "stated facts are named as assumed", "rec != nil && rec.Values[read.Field].Assumed {", "rec != nil {"},
	{"rules/judge.go", "a condition that is not decided is passed over", "\t\tcase expr.Undecided:\n\t\t\treturn res.undecided(o.Lacks, f)\n\t\tcase expr.Faulty:\n\t\t\treturn judgement{err: o.Err}\n\t\t}\n\t}\n\treturn judgement{verdict: Pass}", "\t\tcase expr.Faulty:\n\t\t\treturn judgement{err: o.Err}\n\t\t}\n\t}\n\treturn judgement{verdict: Pass}"},
	{"rules/judge.go", "missing facts go before absent parts", "case len(absent) > 0:", "case len(absent) > 0 && len(missing) == 0:"},
	{"rules/judge.go", "a figure that went wrong only lacks facts", "\tcase fault != \"\":\n\t\treturn judgement{err: fault}\n", ""},
	{"rules/judge.go", "an error passes", "\t\tcase expr.Faulty:\n\t\t\treturn judgement{err: o.Err}\n\t\t}\n\t}\n\treturn judgement{verdict: Pass}", "\t\t}\n\t}\n\treturn judgement{verdict: Pass}"},
	{"rules/judge.go", "an unstated fact is told as a false when", "if len(open) == 0 {", "if len(open) < 2 {"},
	{"rules/corners.go", "of a tolerance only the upper end is tried", "float64(corner>>i&1)*2 - 1}", "1}"},
	{"rules/corners.go", "only three toleranced facts are tried", "const mostCorners = 4", "const mostCorners = 3"},
	{"rules/corners.go", "a rule that is not applied has failed", "c.verdicts[at[i]] = Pass //", "c.verdicts[at[i]] = Fail //"},
	{"rules/margin.go", "a finding that only just holds keeps its verdict", "\truled := Warn\n\tif m.Open", "\truled := m.Nominal\n\tif m.Open"},
	{"rules/margin.go", "a fail whose worst case is open warns", "if m.Open && m.Nominal == Fail {", "if false {"},
	{"rules/lean.go", "a fail over the spread is clear where it is assumed", "case f.Ruled == Fail || len(f.Assumed) > 0:", "case f.Ruled == Fail:"},
	{"rules/lean.go", "what is open at a place is passed over", "\tcase f.Ruled == Unknown:\n\t\tc.open = true\n", "\tcase f.Ruled == Unknown:\n"},
	{"rules/lean.go", "an open answer never warns", "\tif r.warnsWhereOpen() {", "\tif false {"},
	{"rules/lean.go", "the tolerances are left out of the spread", "\t\tif f.Margin == nil {", "\t\tif false {"},
	{"rules/path.go", "only one end of a spread is tried", "at := -1 + 2*float64(k)/float64(points-1)", "at := max(0, -1+2*float64(k)/float64(points-1))"},
	{"rules/others.go", "of two kinds the better verdict stands", "if mine.Ruled == Pass && theirs.Ruled == Warn {", "if false {"},
	{"rules/object.go", "a list moves by the tolerance of its first entry", "v.List[k] += to * v.Tols()[k]", "v.List[k] += to * v.Tols()[0]"},
	{"compat/usual.go", "a word does not tell the kind of a cassette", "if slices.ContainsFunc(l.told, func(w string) bool { return slices.Contains(words, w) }) {\n\t\treturn false", "if true {\n\t\treturn false"},
	{"compat/figures/facts.go", "figures stay where facts have moved", "if stale[i] && !(f.pinned && usual)", "if stale[i] && i%2 == 0 && !(f.pinned && usual)"},
	{"rules/internal/expr/numbers.go", "a number counts as a fraction only", "case types.Int:\n\t\treturn float64(x), true", "case types.Int:\n\t\treturn float64(x), x != 0"},
	{"rules/internal/expr/functions.go", "limits belong to the other side", "operators.Greater:       func(a, b float64) bool { return a > b },", "operators.Greater:       func(a, b float64) bool { return a >= b },"},
}

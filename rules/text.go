package rules

import (
	"strings"

	"example.org/cogcourt/rules/internal/expr"
)

// Speaks says whether a finding has a sentence of its own. Where it has none, its
// Text is the good state.
func (f Finding) Speaks() bool {
	return f.Verdict == Unknown || f.Ruled != Pass || f.Err != "" || f.Rule.passing != nil || f.Margin != nil
}

// Text says what a finding found, with its numbers: the rule's own sentence for
// a warning or a fail, the good state for a pass, what is missing for an Unknown.
func (res *Result) Text(f Finding) string {
	switch {
	case f.Err != "":
		return "This could not be worked out: " + f.Err + "."
	case f.Verdict == Unknown:
		return "Not decided: " + join(f.Missing) + notStated(len(f.Missing))
	case f.Margin != nil:
		return res.said(f, f.Margin.Nominal) + " " + f.Margin.sentence()
	}
	return res.said(f, f.Ruled)
}

// said is the sentence for the numbers as stated, which give a verdict.
func (res *Result) said(f Finding, nominal Verdict) string {
	if nominal == Pass && f.Rule.passing == nil || f.Margin != nil && f.Margin.apart {
		return f.Rule.Title + "."
	}
	frame := res.set.open(res.records)
	defer frame.Close()
	if nominal == Pass {
		return f.Rule.passing.render(frame)
	}
	text := f.Rule.say.render(frame)
	if len(f.Assumed) > 0 {
		text += " This rests on assumed values (" + join(f.Assumed) + "), so it only warns: measure to be sure."
	}
	return text
}

// Remedy says what would mend a warning or a fail; empty for other findings.
func (res *Result) Remedy(f Finding) string {
	if f.Ruled != Warn && f.Ruled != Fail {
		return ""
	}
	frame := res.set.open(res.records)
	defer frame.Close()
	return f.Rule.remedy.render(frame)
}

// Caution says what to beware of with a finding that does not pass; empty where
// the rule has nothing to say. An Unknown is told only what needs none of the
// facts that it lacks.
func (res *Result) Caution(f Finding) string {
	if f.Rule.caution == nil || f.Ruled == Pass {
		return ""
	}
	frame := res.set.open(res.records)
	defer frame.Close()
	text, ok := f.Rule.caution.said(frame)
	if unknown := f.Verdict == Unknown || f.Err != ""; unknown && !ok {
		return ""
	}
	return strings.TrimSpace(text)
}

func join(names []string) string {
	switch len(names) {
	case 0:
		return ""
	case 1:
		return names[0]
	}
	out := names[0]
	for _, n := range names[1 : len(names)-1] {
		out += ", " + n
	}
	return out + " and " + names[len(names)-1]
}

func notStated(n int) string {
	if n == 1 {
		return " is not stated."
	}
	return " are not stated."
}

// Decimal prints a number for people: with so many decimals, or with -1 in at
// most two, without trailing zeros.
func Decimal(x float64, decimals int) string { return expr.Decimal(x, decimals) }

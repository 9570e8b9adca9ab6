package rules

import (
	"strings"

	"example.org/cogcourt/rules/internal/expr"
)

// Speaks says whether a finding has a sentence of its own. Where it has none, its
// Text is the good state.
func (f Finding) Speaks() bool {
	return f.Verdict == Unknown || f.Ruled != Pass || f.Err != "" || f.Rule.passing != nil || f.Margin != nil || f.Lean != nil
}

// Text says what a finding found, with its numbers: the rule's own sentence for
// a warning or a fail, the good state for a pass, what is missing for an Unknown.
func (res *Result) Text(f Finding) string {
	switch {
	case f.Err != "":
		return "This could not be worked out: " + f.Err + "."
	case f.Lean != nil:
		return res.leaningText(f)
	case f.Verdict == Unknown:
		return "Not decided, for nobody stated " + res.set.vocabulary.inWords(f.Missing) + "."
	case f.Margin != nil:
		return res.said(f, f.Margin.Nominal) + " " + f.Margin.sentence(res.set.vocabulary)
	}
	return res.said(f, f.Ruled)
}

// said is the sentence for the numbers as stated, which give a verdict.
func (res *Result) said(f Finding, nominal Verdict) string {
	if nominal == Pass && f.Rule.passing == nil || f.Margin != nil && f.Margin.apart {
		return f.Rule.Title + "."
	}
	frame := res.set.open(res.about(f))
	defer frame.Close()
	if nominal == Pass {
		return f.Rule.passing.render(frame)
	}
	text := f.Rule.say.render(frame)
	if len(f.Assumed) > 0 {
		text += " Nobody stated " + res.unstated(f) + ", so it only warns: measure to be sure."
	}
	return text
}

// Remedy says what would mend a warning or a fail; empty for other findings.
func (res *Result) Remedy(f Finding) string {
	if f.Ruled != Warn && f.Ruled != Fail {
		return ""
	}
	frame := res.set.open(res.about(f))
	defer frame.Close()
	return f.Rule.remedy.render(frame)
}

// Caution says what to beware of with a warning or a fail; empty where the rule has
// nothing to say. What nobody has decided is no danger yet: an Unknown has none.
func (res *Result) Caution(f Finding) string {
	if f.Rule.caution == nil || f.Ruled == Pass || f.Verdict == Unknown || f.Err != "" {
		return ""
	}
	frame := res.set.open(res.about(f))
	defer frame.Close()
	text := strings.TrimSpace(f.Rule.caution.render(frame))
	if text == expr.NotStated { // of a part that is not there, which is no danger
		return ""
	}
	return text
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

// Decimal prints a number for people: with so many decimals, or with -1 in at
// most two, without trailing zeros.
func Decimal(x float64, decimals int) string { return expr.Decimal(x, decimals) }

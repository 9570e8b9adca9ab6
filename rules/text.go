package rules

import "example.org/cogcourt/rules/internal/expr"

// Speaks says whether a finding has a sentence of its own. Where it has none, its
// Text is the good state.
func (f Finding) Speaks() bool {
	return f.Verdict == Unknown || f.Ruled != Pass || f.Err != "" || f.Rule.passing != nil || f.Margin != nil || f.Lean != nil
}

// Text says what a finding found, with its numbers: the rule's own sentence for
// a warning or a fail, the good state for a pass, what is missing for an Unknown.
func (res *Result) Text(f Finding) string { return res.spoken(f, (*Speaker).AppendText) }

// Remedy says what would mend a warning or a fail; empty for other findings.
func (res *Result) Remedy(f Finding) string { return res.spoken(f, (*Speaker).AppendRemedy) }

// Caution says what to beware of with a warning or a fail; empty where the rule has
// nothing to say. What nobody has decided is no danger yet: an Unknown has none.
func (res *Result) Caution(f Finding) string { return res.spoken(f, (*Speaker).AppendCaution) }

// spoken is one text alone.
func (res *Result) spoken(f Finding, text func(*Speaker, []byte, Finding) []byte) string {
	s := res.Speak()
	defer s.Close()
	return string(text(s, nil, f))
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

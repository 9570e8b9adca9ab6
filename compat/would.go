package compat

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Would is values of one fact with which a rule would pass that does not.
type Would struct {
	Name     string   // the fact
	From, To float64  // the range of a number
	Words    []string // the words, of a fact that is none
	Text     string   // in words, such as "chain.outer_width_mm up to 5.86 mm"
}

// How much is told of what would help, and how closely it is looked for: so many values of
// a number are tried before the ends are found exactly that no range as wide as a
// hundredth of all that it may be lies between two of them.
const (
	mostWoulds  = 3
	wouldPoints = 1000
)

// Would tells with which values a finding that warns, fails or stays open would pass:
// of three facts at most, those first that are the easiest to change, what is missing
// or only usual before what is stated. The nearest range that passes is told, and both
// of its ends pass in a whole check; nothing is told of a fact with none. A range narrower
// than a hundredth of what the field may hold may be passed over.
func (r Report) Would(f Finding) []Would {
	if r.checker == nil || r.set == nil || f.Verdict == rules.Pass {
		return nil
	}
	rule, ok := r.set.Rule(f.Rule)
	if !ok {
		return nil
	}
	var out []Would
	for _, ref := range r.changeable(rule, f) {
		if len(out) == mostWoulds {
			break
		}
		if w, ok := r.would(ref, rule.ID); ok {
			out = append(out, w)
		}
	}
	return out
}

// changeable lists the facts that a rule hangs on and that can be changed, the easiest
// first. A measurement is asked for where it is missing, and not to be changed.
func (r Report) changeable(rule *rules.Rule, f Finding) []rules.Ref {
	var out []rules.Ref
	rank := map[rules.Ref]int{}
	named := slices.Clone(f.Missing)
	if f.Lean != nil {
		named = append(named, f.Lean.By...)
	}
	if f.Margin != nil {
		named = append(named, f.Margin.By...)
	}
	for _, ref := range r.set.Facts(rule) {
		asked := slices.Contains(named, ref.String())
		v := r.known(ref)
		switch {
		case asked:
		case ref.Object == figures.Bench || ref.Object == figures.Object || !v.Known:
			continue
		case v.Usual != fact.NotUsual || v.Assumed:
			rank[ref] = 10
		default:
			rank[ref] = 20
		}
		rank[ref] += costOf(ref.Field().Effort)
		out = append(out, ref)
	}
	slices.SortStableFunc(out, func(a, b rules.Ref) int { return cmp.Compare(rank[a], rank[b]) })
	return out
}

// known is a fact as the mix was judged by, usual values among them.
func (r Report) known(ref rules.Ref) fact.Value {
	if i, ok := r.set.Vocabulary().Index(ref.Object.Name()); ok {
		return ref.In(r.Figures.Records()[i])
	}
	return fact.Value{}
}

// would finds the nearest values of one fact with which one rule passes.
func (r Report) would(ref rules.Ref, rule string) (Would, bool) {
	v, err := r.checker.varied(r.Mix, ref.String(), []string{rule})
	if err != nil {
		return Would{}, false
	}
	w := Would{Name: ref.String()}
	all := v.between(ref.Field().Min, ref.Field().Max, wouldPoints)
	now := r.known(ref)
	spans, _ := v.spans(all)
	var near float64 // of what is told
	for _, s := range spans {
		switch far := distanceTo(s, now.Num); {
		case s.Alone != rules.Pass || !r.passes(v, rule, s):
		case v.grid == 0:
			w.Words = append(w.Words, s.Word)
		case w.Text != "" && near <= far:
		default:
			near, w.From, w.To = far, s.From, s.To
			w.Text = w.Name + spanText(ref.Field(), s, v.number(all.first), v.number(all.last))
		}
	}
	if len(w.Words) > 0 {
		w.Text = w.Name + " " + strings.Join(w.Words, " or ")
	}
	return w, w.Text != ""
}

// distanceTo is how far a number is from a range.
func distanceTo(s Span, x float64) float64 { return max(s.From-x, x-s.To, 0) }

// passes makes sure by whole checks that a rule passes at the ends of a range.
func (r Report) passes(v *varied, rule string, s Span) bool {
	for _, i := range v.ends(s) {
		m, err := v.state(v.value(i))
		if err != nil || !slices.Contains(r.checker.Check(m).Verdicts(), RuleVerdict{rule, rules.Pass}) {
			return false
		}
	}
	return true
}

// ends are the places of both ends of a span.
func (v *varied) ends(s Span) []int {
	if v.grid > 0 {
		return []int{v.place(s.From), v.place(s.To)}
	}
	return []int{slices.Index(v.words, s.Word)}
}

// spanText says a range of numbers; what reaches to the end of what can be is open on
// that side.
func spanText(f fact.Field, s Span, least, most float64) string {
	unit := strings.TrimRight(" "+f.Unit, " ")
	from, to := inFull(s.From), inFull(s.To)
	switch {
	case s.From <= least && s.To >= most:
		return ", whatever it is"
	case s.From <= least:
		return " up to " + to + unit
	case s.To >= most:
		return " from " + from + unit
	case s.From == s.To:
		return " " + from + unit
	}
	return " from " + from + " to " + to + unit
}

// inFull prints a number of a grid as it is.
func inFull(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

package rules

import (
	"cmp"
	"context"
	"slices"
	"strings"
)

// Failure is an example that did not give what it says.
type Failure struct {
	Rule    *Rule
	Example Example
	Got     Outcome
	Detail  string // values read, missing facts or the error
}

// Prove runs every example of every rule and returns those that do not give what
// they say, in file order, with the number that were run.
func (s *Set) Prove() (failures []Failure, ran int) {
	failures, ran, _ = s.ProveContext(context.Background())
	return failures, ran
}

// ProveContext is Prove that ends with ctx's error once ctx is done, which is looked at
// between two rules; what was found until then comes with it and is not all.
func (s *Set) ProveContext(ctx context.Context) (failures []Failure, ran int, err error) {
	for _, r := range s.rules {
		if err := ctx.Err(); err != nil {
			return failures, ran, err
		}
		for _, ex := range r.examples() {
			ran++
			if f, ok := s.proveOne(r, ex); !ok {
				failures = append(failures, f)
			}
		}
	}
	return failures, ran, nil
}

func (s *Set) proveOne(r *Rule, ex Example) (Failure, bool) {
	res := s.oneBy(r, s.Complete(ex.given), s.completeMoved(ex.given))
	out := Failure{Rule: r, Example: ex}
	if len(res.NotApplied) > 0 {
		na := res.NotApplied[0]
		out.Got = OutcomeNotApplied
		out.Detail = strings.TrimSpace(string(na.Reason) + " " + join(na.Names))
		return out, ex.Want == out.Got
	}
	got := res.Findings[0]
	out.Got = got.outcome()
	out.Detail = cmp.Or(got.Err, res.usedLine(got))
	if out.Got == OutcomeUnknown {
		out.Detail = "missing " + join(got.Missing)
	}
	if out.Got != ex.Want {
		return out, false
	}
	for _, m := range ex.Missing {
		if !slices.Contains(got.Missing, m) {
			return out, false
		}
	}
	return out, true
}

// completeMoved works out anew what hangs on moved facts of an example, from all
// that it gives: a figure that it states itself stays as stated.
func (s *Set) completeMoved(given []*Record) again {
	return func(records []*Record, moved, _ []Ref, use func([]*Record)) {
		out := slices.Clone(given)
		for _, ref := range moved {
			i, _ := s.vocabulary.Index(ref.Object.Name())
			out[i] = records[i]
		}
		use(s.Complete(out))
	}
}

// usedLine prints the facts that a finding rests on.
func (res *Result) usedLine(f Finding) string {
	var parts []string
	for _, fact := range res.Used(f) {
		parts = append(parts, fact.Name+" = "+fact.Value.String())
	}
	return strings.Join(parts, ", ")
}

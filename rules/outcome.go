package rules

import (
	"fmt"
	"slices"
	"strings"
)

// Outcome is what a rule comes to for facts, in the words of an example's want:
// a verdict, or not_applied. What went wrong is an outcome of its own, which no
// example can want. The zero value is the unknown of facts that are missing.
type Outcome uint8

// The outcomes.
const (
	OutcomeUnknown    Outcome = iota // facts are missing
	OutcomePass                      // it has nothing against the facts
	OutcomeWarn                      // it warns
	OutcomeFail                      // it fails
	OutcomeNotApplied                // it is not about these facts
	OutcomeError                     // something went wrong in the rule
)

var outcomeNames = [...]string{"unknown", "pass", "warn", "fail", "not_applied", "error"}

// wants are the outcomes that an example may want, in the order of a hint.
var wants = []string{"pass", "warn", "fail", "unknown", "not_applied"}

// String gives the word that files use.
func (o Outcome) String() string {
	if int(o) < len(outcomeNames) {
		return outcomeNames[o]
	}
	return fmt.Sprintf("outcome %d", o)
}

// MarshalText writes the word.
func (o Outcome) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// UnmarshalText reads the word that MarshalText writes.
func (o *Outcome) UnmarshalText(text []byte) error {
	i := slices.Index(outcomeNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("%q is no outcome; known are %s", text, strings.Join(outcomeNames[:], ", "))
	}
	*o = Outcome(i)
	return nil
}

// Gives says what a rule comes to for facts as an example gives them, without
// adjustments, and what went wrong in an OutcomeError. The second list is what Complete
// makes of them.
func (s *Set) Gives(r *Rule, given, complete []*Record) (Outcome, string) {
	res := s.oneBy(r, complete, s.completeMoved(given))
	if len(res.NotApplied) > 0 {
		return OutcomeNotApplied, ""
	}
	return res.Findings[0].outcome(), res.Findings[0].Err
}

// outcome is what the rule came to, before an adjustment.
func (f Finding) outcome() Outcome {
	switch {
	case f.Err != "":
		return OutcomeError
	case f.Ruled == Pass:
		return OutcomePass
	case f.Ruled == Warn:
		return OutcomeWarn
	case f.Ruled == Fail:
		return OutcomeFail
	}
	return OutcomeUnknown
}

// Complete derives what can be computed from given facts, as it is done for an
// example.
func (s *Set) Complete(given []*Record) []*Record {
	if s.derive == nil {
		return given
	}
	return s.derive(given)
}

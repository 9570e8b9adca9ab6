package rules

import "example.org/cogcourt/rules/fact"

// Verdict is what a rule says of the facts; see [fact.Verdict].
type Verdict = fact.Verdict

// The verdicts. The zero value is Unknown.
const (
	Unknown = fact.Unknown // facts are missing, or something went wrong
	Pass    = fact.Pass
	Warn    = fact.Warn
	Fail    = fact.Fail
)

// Reason says why a rule was not applied.
type Reason string

// The reasons.
const (
	ReasonWhen     Reason = "when"     // its when is false
	ReasonUnstated Reason = "unstated" // it asks for facts that nobody stated
	ReasonAbsent   Reason = "absent"   // it is about parts that are not there
	ReasonFigure   Reason = "figure"   // it is about a figure that would mean nothing here
)

// Words lists all reasons.
func (r Reason) Words() []string {
	return []string{string(ReasonWhen), string(ReasonUnstated), string(ReasonAbsent), string(ReasonFigure)}
}

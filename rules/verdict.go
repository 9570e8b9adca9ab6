package rules

import "fmt"

// Verdict is what a rule says of the facts. The zero value is Unknown, so that
// nothing passes by being forgotten.
type Verdict uint8

// The verdicts.
const (
	Unknown Verdict = iota // facts are missing, or something went wrong
	Pass
	Warn
	Fail
)

var verdictNames = [...]string{"unknown", "pass", "warn", "fail"}

// String gives the word that files and reports use.
func (v Verdict) String() string {
	if int(v) < len(verdictNames) {
		return verdictNames[v]
	}
	return fmt.Sprintf("verdict %d", v)
}

// MarshalText writes the word.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// Rank orders verdicts by how much they matter: fail, unknown, warn, pass.
func (v Verdict) Rank() int { return [...]int{Unknown: 1, Pass: 3, Warn: 2, Fail: 0}[v] }

// Reason says why a rule was not applied.
type Reason string

// The reasons.
const (
	ReasonWhen     Reason = "when"     // its when is false
	ReasonUnstated Reason = "unstated" // it asks for facts that nobody stated
	ReasonAbsent   Reason = "absent"   // it is about parts that are not there
	ReasonFigure   Reason = "figure"   // it is about a figure that would mean nothing here
)

package view

import (
	"errors"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// Faults is why something did not load, as JSON has it.
type Faults struct {
	SchemaVersion int             `json:"schema_version"`
	Tool          string          `json:"tool"`
	Problems      source.Problems `json:"problems"`
}

// FaultsOf gives the faults that an error holds.
func FaultsOf(err error) Faults {
	return Faults{SchemaVersion: 1, Tool: "cogcourt " + compat.Version, Problems: ProblemsOf(err)}
}

// ProblemsOf gives the problems of an error; one that has no place of its own is
// one problem.
func ProblemsOf(err error) source.Problems {
	var ps source.Problems
	if !errors.As(err, &ps) {
		ps = source.Problems{{Code: source.Internal, Text: err.Error()}}
	}
	return ps
}

package fact

import (
	"fmt"
	"slices"
	"strings"
)

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

// Words lists the words of all verdicts.
func (v Verdict) Words() []string { return slices.Clone(verdictNames[:]) }

// MarshalText writes the word.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads the word that MarshalText writes.
func (v *Verdict) UnmarshalText(text []byte) error {
	i := slices.Index(verdictNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("%q is no verdict; known are %s", text, strings.Join(verdictNames[:], ", "))
	}
	*v = Verdict(i)
	return nil
}

// Rank orders verdicts by how much they matter: fail 0, unknown 1, warn 2, pass
// 3. What is no verdict ranks with unknown.
func (v Verdict) Rank() int {
	switch v {
	case Fail:
		return 0
	case Warn:
		return 2
	case Pass:
		return 3
	}
	return 1
}

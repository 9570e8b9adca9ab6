package fact

import (
	"fmt"
	"slices"
	"strings"
)

// Effort is what it takes to measure a field or to find it out. The zero value
// says that nobody has thought about it, so that nothing counts as easy by being
// forgotten.
type Effort uint8

// The efforts.
const (
	NotSaid Effort = iota
	Low            // read off or counted: under two minutes, no tool beyond a ruler
	Some           // a caliper, or a wheel out: up to ten minutes
	Much           // parts off, a gauge or a question to the maker: more than ten minutes
)

var effortNames = [...]string{"", "low", "some", "much"}

// String gives the word for an effort; it is empty for one that is not said.
func (e Effort) String() string {
	if int(e) < len(effortNames) {
		return effortNames[e]
	}
	return ""
}

// Words lists the words of all efforts; the first, of what is not said, is empty.
func (e Effort) Words() []string { return slices.Clone(effortNames[:]) }

// MarshalText writes the word.
func (e Effort) MarshalText() ([]byte, error) { return []byte(e.String()), nil }

// UnmarshalText reads the word that MarshalText writes.
func (e *Effort) UnmarshalText(text []byte) error {
	i := slices.Index(effortNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("%q is no effort; known are %s", text, strings.Join(effortNames[1:], ", "))
	}
	*e = Effort(i)
	return nil
}

package compat

import (
	"fmt"
	"slices"
	"strings"
)

// Extent says how much of a report a line of JSON holds. What stands in a line whatever
// was found is dear where millions are stored or sent: who has the rules has it already.
type Extent uint8

// The extents. The zero Extent leaves nothing out.
const (
	ExtentFull     Extent = iota // all, as Report.MarshalJSON
	ExtentBrief                  // without the findings that pass, as Report.Brief
	ExtentFindings               // the findings that do not pass alone: text, remedy, and the values behind them
	ExtentVerdict                // the verdict alone, and the ids of the rules that do not pass
)

var extentNames = [...]string{"full", "brief", "findings", "verdict"}

// Words lists the words of all extents.
func (e Extent) Words() []string { return slices.Clone(extentNames[:]) }

// String gives the word for it.
func (e Extent) String() string {
	if int(e) < len(extentNames) {
		return extentNames[e]
	}
	return fmt.Sprintf("extent %d", e)
}

// MarshalText writes the word.
func (e Extent) MarshalText() ([]byte, error) { return []byte(e.String()), nil }

// UnmarshalText reads the word that MarshalText writes.
func (e *Extent) UnmarshalText(text []byte) error {
	i := slices.Index(extentNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("%q is no extent; known are %s", text, strings.Join(extentNames[:], ", "))
	}
	*e = Extent(i)
	return nil
}

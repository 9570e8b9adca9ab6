package compat

import (
	"slices"

	"example.org/cogcourt/compat/internal/wire"
)

// The JSON of a report, a change and a sheet has a form of its own, which other
// types hold. A JSON Schema is made from those: Shape gives one without values, to
// be looked at by reflection. Each field is a key that is always there. Beside
// json: its tags are doc:, a sentence; const:, format: and pattern: as JSON Schema
// has them; words: and facts: name a list of words or of facts.

// Shape gives the form of a report's JSON.
func (r Report) Shape() any { return reportJSON{} }

// Shape gives the form of a change's JSON.
func (c Change) Shape() any { return changeJSON{} }

// outlineJSON is an outline without its methods, which has the same keys.
type outlineJSON Outline

// Shape gives the form of an outline's JSON.
func (o Outline) Shape() any { return outlineJSON{} }

// MarshalJSON writes the outline with lists that are never null.
func (o Outline) MarshalJSON() ([]byte, error) {
	o.Cogs, o.Rings, o.Lacks = wire.Some(o.Cogs), wire.Some(slices.Clone(o.Rings)), wire.Some(o.Lacks)
	for i := range o.Rings {
		o.Rings[i].Ratios = wire.Some(o.Rings[i].Ratios)
	}
	o.Index.Taken, o.Guide.Taken = wire.Some(o.Index.Taken), wire.Some(o.Guide.Taken)
	o.Chain.Taken, o.Chain.WidthTaken = wire.Some(o.Chain.Taken), wire.Some(o.Chain.WidthTaken)
	return wire.Encode(outlineJSON(o))
}

// Shape gives the form of a sheet's JSON.
func (s Sheet) Shape() any { return sheetJSON{} }

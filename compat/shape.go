package compat

// The JSON of a report, a change and a sheet has a form of its own, which other
// types hold. A JSON Schema is made from those: Shape gives one without values, to
// be looked at by reflection. Each field is a key that is always there. Beside
// json: its tags are doc:, a sentence; const:, format: and pattern: as JSON Schema
// has them; words: and facts: name a list of words or of facts.

// Shape gives the form of a report's JSON.
func (r Report) Shape() any { return reportJSON{} }

// Shape gives the form of a change's JSON.
func (c Change) Shape() any { return changeJSON{} }

// Shape gives the form of a sheet's JSON.
func (s Sheet) Shape() any { return sheetJSON{} }

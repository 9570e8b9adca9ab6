package compat

import (
	"slices"

	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/compat/report"
)

// The JSON of a report, a change and a sheet has a form of its own, which other
// types hold: those of package compat/report. A JSON Schema is made from them: Shape
// gives one without values, to be looked at by reflection.

// Shape gives the form of a report's JSON.
func (r Report) Shape() any { return report.Report{} }

// Shape gives the form of a change's JSON.
func (c Change) Shape() any { return report.Change{} }

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
func (s Sheet) Shape() any { return report.Sheet{} }

// What is printed as it stands is a type of package compat/report.
type (
	RuleSet    = report.RuleSet    // names the rules that made a report
	Missing    = report.Missing    // is a fact that nobody stated and that would decide something
	NotJudged  = report.NotJudged  // is something that a mix has and no rule judges
	Stop       = report.Stop       // is a fault that ends the work of a sheet, and where
	SheetStep  = report.Step       // is one step of a sheet
	Bolt       = report.Bolt       // is a bolt of a mix and what is wanted of it
	Assumption = report.Assumption // is a value that stands in for one that nobody stated
)

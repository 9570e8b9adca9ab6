package compat

import "example.org/cogcourt/rules"

// Drawings lists what can be drawn of a report, in the order in which one is looked
// at. A rule points to one by its draw: key, and its limits are drawn there: those of
// error are shares of the distance to the next cog, those of gap mm of room, those of
// length half-inch links to spare.
func Drawings() []rules.Drawing {
	limits := []string{limitWarn, limitFail}
	return []rules.Drawing{
		{Name: "views", Doc: "Side and top view of rings, cogs, chain and guide pulley, on one scale."},
		{Name: "error", Doc: "The error that is left at each cog, with its limits as shares of the distance to the next cog.", Limits: limits},
		{Name: "gears", Doc: "The gears as rungs of a ladder, with the step between them."},
		{Name: "length", Doc: "What the largest pair leaves of the chain, with its limits in half-inch links.", Limits: limits},
		{Name: "gap", Doc: "The chain cut through between three cogs, with its limits in mm of room to the next larger one.", Limits: limits},
		{Name: "gauge", Doc: "A paper gauge of the B-gap in life size."},
	}
}

// The names of limits.
const (
	limitWarn = "warn"
	limitFail = "fail"
)

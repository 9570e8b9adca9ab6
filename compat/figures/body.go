package figures

import (
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// goesWith lists which cogs go on a body or thread that is not their own: the pairs
// of the trade's table, the first made for one thing and going on the second.
var goesWith = [][2]string{
	{"spline-9-deep", "spline-9"}, {"driver-10", "driver-10-long"}, {"spline-road-12", "spline-9"}, {"spline-8-deep", "spline-8-short"},
	{"thread-1.375", "thread-italian-35"}, {"thread-italian-35", "thread-1.375"}, {"thread-1.375", "track-1.375"},
}

// goesOn says whether cogs that are made for one of these go on a body, with a ring or
// a spacer perhaps.
func goesOn(made []string, body string) bool {
	if slices.Contains(made, body) {
		return true
	}
	return slices.ContainsFunc(goesWith, func(pair [2]string) bool { return pair[1] == body && slices.Contains(made, pair[0]) })
}

// neverGoes says whether the table knows that cogs do not go on a body: of a name that
// is in no table nobody knows it.
func neverGoes(made []string, body string) bool {
	field := hubFreehub.Field()
	known := func(name string) bool { _, ok := field.KnownName(name); return ok }
	return !goesOn(made, body) && known(body) && !slices.ContainsFunc(made, func(name string) bool { return !known(name) })
}

// screws says whether cogs of that family are screwed on or held by a ring of their own.
func screws(family string) bool {
	return strings.HasPrefix(family, "thread-") || strings.HasPrefix(family, "track-") || strings.HasPrefix(family, "lug-")
}

// byClass says whether cassettes of that family stand as high as their class says: the
// classes are those of nine splines and of what was made to go on them.
func byClass(family string) bool {
	return family == "spline-9" || family == "spline-9-deep" || family == "spline-road-12"
}

var figBodyOffered = &figure{
	Field: fact.Field{Name: "body_offered", Type: fact.Flag, Doc: "Whether the hub's maker is stated to sell a freehub body for it on which the cassette goes."},
	reads: []input{hubBodies, cogFreehub},
	kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		if m.bodySold() != "" {
			v.Num = 1
		}
	},
}

var figBodySold = &figure{
	Field: fact.Field{Name: "body_sold", Type: fact.Name, Doc: "The freehub body that the hub's maker is stated to sell for it and on which the cassette goes: " +
		"the one that the cassette is made for, else one that also takes it."},
	reads: []input{hubBodies, cogFreehub},
	kinds: []wanted{theHub, theCassette},
	measure: func(m *measuring, v *fact.Value) {
		if v.Text = m.bodySold(); v.Text == "" && !m.lacking() {
			m.needless("no body that takes the cassette is stated to be sold for the hub")
		}
	},
}

// bodySold gives the body to buy; empty where none is stated.
func (m *measuring) bodySold() string {
	bodies, cog := m.peek(&hubBodies), m.need(&cogFreehub)
	if m.lacking() || bodies == nil {
		return ""
	}
	other := ""
	for _, body := range bodies.Words() {
		switch {
		case slices.Contains(cog.Words(), body):
			return body
		case other == "" && goesOn(cog.Words(), body):
			other = body
		}
	}
	return other
}

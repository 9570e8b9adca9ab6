package fit

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/compat/report"
)

// The JSON of what a search says, schema_version 1. Every key is always there, and no
// list is null.

// choicesJSON is the JSON of choices.
func choicesJSON(list []Choice) []report.Choice {
	out := []report.Choice{}
	for _, c := range list {
		j := report.Choice{Cents: c.Cents, Unpriced: c.Unpriced, Warnings: c.Warnings, Unknowns: c.Unknowns, Passes: c.Passes,
			Warns: wire.Some(c.Warns), Open: wire.Some(c.Open), Usual: wire.Some(c.Usual()), Alike: [][]string{}}
		for i, p := range c.Parts {
			j.Parts = append(j.Parts, report.Chosen{Kind: p.Kind(), ID: p.ID(), Name: p.Name(), Price: p.Price(), Kept: c.Kept(i)})
			j.Alike = append(j.Alike, ids(c.Alike[i]))
		}
		out = append(out, j)
	}
	return out
}

func ids(parts []catalog.Part) []string {
	out := []string{}
	for _, p := range parts {
		out = append(out, p.ID())
	}
	return out
}

type refusalJSON struct {
	Rule  string `json:"rule" doc:"The rule." pattern:"\\S"`
	Kind  string `json:"kind" doc:"The kind." pattern:"\\S"`
	Parts int    `json:"parts" doc:"How many of its parts it refuses, each counted with the first rule that does."`
	Open  int    `json:"unknowns" doc:"So many of them only because the rule is left open."`
}

type answerJSON struct {
	SchemaVersion int             `json:"schema_version" const:"1"`
	Tool          string          `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Mix           string          `json:"mix" doc:"What the mix is called."`
	Kinds         []string        `json:"kinds" doc:"The kinds that were to be chosen."`
	Parts         []int           `json:"parts" doc:"How many there are of each."`
	Choices       []report.Choice `json:"choices" doc:"What fits, the best first."`
	Standing      []string        `json:"standing" doc:"Rules that fail or are open whatever is chosen."`
	Refused       []refusalJSON   `json:"refused" doc:"Parts that go with nothing, by the rules that refuse them."`
	Blocked       []string        `json:"blocked" doc:"Where nothing fits: rules that leave nothing together."`
	Cut           bool            `json:"cut" doc:"The budget ended the search: there may be better choices, or any at all."`
}

// Shape gives the form of its JSON; see compat.Report.Shape.
func (a Answer) Shape() any { return answerJSON{} }

// MarshalJSON writes the answer. Equal questions, equal bytes.
func (a Answer) MarshalJSON() ([]byte, error) {
	out := answerJSON{SchemaVersion: 1, Tool: "cogcourt " + compat.Version, Mix: a.Mix, Kinds: wire.Some(a.Kinds), Parts: wire.Some(a.Parts),
		Choices: choicesJSON(a.Choices), Standing: []string{}, Refused: []refusalJSON{}, Blocked: wire.Some(a.Blocked), Cut: a.Cut}
	for _, f := range a.Standing {
		out.Standing = append(out.Standing, f.Rule)
	}
	for _, r := range a.Refused {
		out.Refused = append(out.Refused, refusalJSON(r))
	}
	return wire.Encode(out)
}

// Shape gives the form of its JSON; see compat.Report.Shape.
func (m Mending) Shape() any { return report.Mending{} }

// MarshalJSON writes the mending. Equal questions, equal bytes.
func (m Mending) MarshalJSON() ([]byte, error) {
	return wire.Encode(report.Mending{SchemaVersion: 1, Tool: "cogcourt " + compat.Version, Mix: m.Mix, Fails: wire.Some(m.Fails),
		Choices: choicesJSON(m.Swaps), Replaced: m.Parts, Fixed: wire.Some(m.Fixed), None: m.None, Most: m.Most,
		Blocked: wire.Some(m.Blocks), Cut: m.Cut})
}

type auditJSON struct {
	SchemaVersion int           `json:"schema_version" const:"1"`
	Tool          string        `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Parts         int           `json:"parts" doc:"How many parts the catalogue has."`
	Pairs         []Pairs       `json:"pairs" doc:"Pairs of parts by their kinds."`
	Alone         []aloneJSON   `json:"alone" doc:"Parts that fail with every part of a kind."`
	Facts         []Stated      `json:"facts" doc:"What to state, to decide the most open pairs, the most useful first."`
	Partners      []partnerJSON `json:"partners" doc:"What goes with each part."`
}

type aloneJSON struct {
	ID    string `json:"id" doc:"The part." pattern:"\\S"`
	Kind  string `json:"kind" doc:"Its kind." pattern:"\\S"`
	With  string `json:"with" doc:"The kind with which it fails." pattern:"\\S"`
	Parts int    `json:"parts" doc:"How many parts of that there are."`
}

type partnerJSON struct {
	ID   string    `json:"id" doc:"The part." pattern:"\\S"`
	Kind string    `json:"kind" doc:"Its kind." pattern:"\\S"`
	With []Partner `json:"with" doc:"By the other kinds."`
}

// Shape gives the form of its JSON; see compat.Report.Shape.
func (a Audit) Shape() any { return auditJSON{} }

// MarshalJSON writes the audit. Equal catalogs, equal bytes.
func (a Audit) MarshalJSON() ([]byte, error) {
	out := auditJSON{SchemaVersion: 1, Tool: "cogcourt " + compat.Version, Parts: a.Parts, Pairs: wire.Some(a.Pairs), Alone: []aloneJSON{},
		Facts: wire.Some(a.Facts), Partners: []partnerJSON{}}
	for _, p := range a.Alone {
		out.Alone = append(out.Alone, aloneJSON{p.Part.ID(), p.Part.Kind(), p.With, p.Parts})
	}
	for _, p := range a.Partners {
		out.Partners = append(out.Partners, partnerJSON{p.Part.ID(), p.Part.Kind(), p.With})
	}
	return wire.Encode(out)
}

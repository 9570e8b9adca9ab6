package fit

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/internal/wire"
)

// The JSON of what a search says, schema_version 1. Every key is always there, and no
// list is null.

type partJSON struct {
	Kind  string `json:"kind" doc:"Its kind." pattern:"\\S"`
	ID    string `json:"id" doc:"Its id; empty for one that is described in the mix."`
	Name  string `json:"name" doc:"What people call it."`
	Price string `json:"price" doc:"Its price as it states it; empty where it states none."`
	Kept  bool   `json:"kept" doc:"It is the part that the mix has already, and costs nothing."`
}

type choiceJSON struct {
	Parts    []partJSON `json:"parts" doc:"One of each kind, in their order."`
	Cents    int64      `json:"cents" doc:"What those cost together that have a price, in hundredths."`
	Unpriced int        `json:"unpriced" doc:"How many have none."`
	Warnings int        `json:"warnings" doc:"Findings that warn, of the rules that the choice can change."`
	Unknowns int        `json:"unknowns" doc:"And that are open."`
	Passes   int        `json:"passes" doc:"And that pass; where there is none of the three, no rule has anything to say of the choice."`
	Warns    []string   `json:"warns" doc:"The rules that warn."`
	Open     []string   `json:"open" doc:"The rules that are open."`
	Usual    []string   `json:"usual" doc:"Facts that nobody stated and that it rests on as they are usual."`
	Alike    [][]string `json:"alike" doc:"For each part the ids of others that do as well in its place, the cheapest first."`
}

// choicesJSON is the JSON of choices.
func choicesJSON(list []Choice) []choiceJSON {
	out := []choiceJSON{}
	for _, c := range list {
		j := choiceJSON{Cents: c.Cents, Unpriced: c.Unpriced, Warnings: c.Warnings, Unknowns: c.Unknowns, Passes: c.Passes,
			Warns: wire.Some(c.Warns), Open: wire.Some(c.Open), Usual: wire.Some(c.Usual()), Alike: [][]string{}}
		for i, p := range c.Parts {
			j.Parts = append(j.Parts, partJSON{p.Kind(), p.ID(), p.Name(), p.Price(), c.Kept(i)})
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
	SchemaVersion int           `json:"schema_version" const:"1"`
	Tool          string        `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Mix           string        `json:"mix" doc:"What the mix is called."`
	Kinds         []string      `json:"kinds" doc:"The kinds that were to be chosen."`
	Parts         []int         `json:"parts" doc:"How many there are of each."`
	Choices       []choiceJSON  `json:"choices" doc:"What fits, the best first."`
	Standing      []string      `json:"standing" doc:"Rules that fail or are open whatever is chosen."`
	Refused       []refusalJSON `json:"refused" doc:"Parts that go with nothing, by the rules that refuse them."`
	Blocked       []string      `json:"blocked" doc:"Where nothing fits: rules that leave nothing together."`
	Cut           bool          `json:"cut" doc:"The budget ended the search: there may be better choices, or any at all."`
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

type mendingJSON struct {
	SchemaVersion int          `json:"schema_version" const:"1"`
	Tool          string       `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Mix           string       `json:"mix" doc:"What the mix is called."`
	Fails         []string     `json:"fails" doc:"The rules that fail now."`
	Choices       []choiceJSON `json:"choices" doc:"The exchanges that mend it, the cheapest first."`
	Replaced      int          `json:"replaced" doc:"How many parts each of them exchanges; 0 where there is none."`
	Fixed         []string     `json:"fixed" doc:"Kinds of the mix that were not for exchange."`
	None          bool         `json:"none" doc:"It is proven that no exchange mends it."`
	Most          int          `json:"most" doc:"Where more parts would have to be exchanged: how many were at most; else 0."`
	Blocked       []string     `json:"blocked" doc:"Where it is proven: rules that cannot hold together."`
	Cut           bool         `json:"cut" doc:"The budget ended a search: there may be an exchange that was not found, or a cheaper one."`
}

// Shape gives the form of its JSON; see compat.Report.Shape.
func (m Mending) Shape() any { return mendingJSON{} }

// MarshalJSON writes the mending. Equal questions, equal bytes.
func (m Mending) MarshalJSON() ([]byte, error) {
	return wire.Encode(mendingJSON{SchemaVersion: 1, Tool: "cogcourt " + compat.Version, Mix: m.Mix, Fails: wire.Some(m.Fails),
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

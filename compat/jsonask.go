package compat

import (
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
)

// Valued is what Values says of a mix, to be marshalled by itself.
type Valued struct {
	Mix   Mix
	Fact  string
	Spans []Span
}

// valuedJSON is its JSON form, schema_version 1.
type valuedJSON struct {
	SchemaVersion int    `json:"schema_version" const:"1"`
	Tool          string `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Mix           string `json:"mix" doc:"What the mix is called."`
	Fact          string `json:"fact" doc:"The fact." pattern:"\\S"`
	Unit          string `json:"unit" doc:"Its unit; empty where it has none."`
	Spans         []Span `json:"spans" doc:"Ranges of numbers that rise, or the words."`
}

// Shape gives the form of its JSON; see Report.Shape.
func (v Valued) Shape() any { return valuedJSON{} }

// MarshalJSON writes it.
func (v Valued) MarshalJSON() ([]byte, error) {
	out := valuedJSON{SchemaVersion: 1, Tool: "cogcourt " + Version, Mix: v.Mix.name, Fact: v.Fact, Spans: wire.Some(v.Spans)}
	if ref, err := findFact(v.Fact); err == nil {
		out.Unit = ref.Field().Unit
	}
	return wire.Encode(out)
}

// Asked is what a Report asks, to be marshalled by itself.
type Asked struct{ Report Report }

// askedJSON is its JSON form, schema_version 1.
type askedJSON struct {
	SchemaVersion int           `json:"schema_version" const:"1"`
	Tool          string        `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Mix           string        `json:"mix" doc:"What the mix is called."`
	Verdict       rules.Verdict `json:"verdict" doc:"The verdict while nothing is answered."`
	Questions     []Question    `json:"questions" doc:"The open facts, the most useful first."`
}

// Shape gives the form of its JSON; see Report.Shape.
func (a Asked) Shape() any { return askedJSON{} }

// MarshalJSON writes it.
func (a Asked) MarshalJSON() ([]byte, error) {
	return wire.Encode(askedJSON{SchemaVersion: 1, Tool: "cogcourt " + Version, Mix: a.Report.Mix.name,
		Verdict: a.Report.Verdict, Questions: wire.Some(a.Report.Ask())})
}

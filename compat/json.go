package compat

import "example.org/cogcourt/rules"

// The JSON form of a report, schema_version 1. Every key is always there and no
// list is null; keys may be added, but none changes its meaning. The tags are what
// the JSON Schema says of it: see Report.Shape.
type reportJSON struct {
	SchemaVersion int                   `json:"schema_version" const:"1"`
	Tool          string                `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Rules         RuleSet               `json:"rules" doc:"The rules that were used."`
	Catalog       string                `json:"catalog" doc:"What the catalogue is called."`
	Mix           string                `json:"mix" doc:"What the mix is called."`
	Scope         Scope                 `json:"scope" words:"scope" doc:"A cart is judged by what is in it, a bike lacks what is not there."`
	Parts         []partJSON            `json:"parts" doc:"The parts of the mix."`
	Verdict       rules.Verdict         `json:"verdict" doc:"The verdict."`
	Complete      bool                  `json:"complete" doc:"Nothing is undecided, not judged of the drive or, of a bike, absent."`
	Absent        []string              `json:"absent" doc:"Kinds of parts that a whole bicycle would need."`
	Findings      []findingJSON         `json:"findings" doc:"Fails, unknowns, warnings and passes, in this order."`
	Figures       orderedValues         `json:"figures" facts:"figures" doc:"What was worked out; what has no value is left out."`
	Usual         []usualJSON           `json:"usual" doc:"Values that nobody stated, usual ones of a class or of a count, with their spread."`
	Worst         map[string][2]float64 `json:"worst" doc:"Bounds of figures that rest on toleranced facts."`
	NotApplied    []notAppliedJSON      `json:"not_applied" doc:"Rules that had nothing to say."`
	NotJudged     []NotJudged           `json:"not_judged" doc:"What the mix has and no rule judges."`
	Missing       []Missing             `json:"missing" doc:"Facts that would decide something."`
	Needs         []needJSON            `json:"needs" doc:"What to order."`
	Cautions      []string              `json:"cautions" doc:"What to keep in mind, whatever the verdict."`
}

type partJSON struct {
	Kind  string `json:"kind" words:"kind" doc:"The kind of part."`
	ID    string `json:"id" doc:"The word that mixes refer to; empty for a part that is described in place."`
	Name  string `json:"name" doc:"What people call the part."`
	Basis string `json:"basis" words:"basis" doc:"Where the values come from."`
}

type findingJSON struct {
	Rule     string            `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Verdict  rules.Verdict     `json:"verdict" doc:"The verdict."`
	Adjusted *adjustJSON       `json:"adjusted" doc:"The decision that changed the verdict."`
	Text     string            `json:"text" doc:"What was found, with its numbers." pattern:"\\S"`
	Why      string            `json:"why" doc:"Why it matters." pattern:"\\S"`
	Remedy   string            `json:"remedy" doc:"What would mend it; empty for a pass."`
	Caution  string            `json:"caution" doc:"What to beware of; empty for most."`
	Safety   bool              `json:"safety" doc:"Whether it must not be adjusted below warn."`
	Basis    map[string]string `json:"basis" doc:"What the rule rests on."`
	Parts    []string          `json:"parts" doc:"The kinds of parts that it is about."`
	Used     []usedJSON        `json:"used" doc:"The stated facts that the rule's conditions read."`
	Assumed  []string          `json:"assumed" doc:"What these hang on that nobody stated."`
	Usual    []string          `json:"usual" doc:"The usual facts that these rest on."`
	Leans    *rules.Lean       `json:"leans" doc:"That it does not hold over all that is usual of them."`
	Missing  []string          `json:"missing" doc:"The facts that would decide an unknown."`
	Marginal *rules.Margin     `json:"marginal" doc:"That it hangs on tolerances."`
	Error    string            `json:"error" doc:"What went wrong; empty for most."`
}

type adjustJSON struct {
	From   rules.Verdict `json:"from" doc:"The verdict before."`
	Reason string        `json:"reason" doc:"Why."`
	By     string        `json:"by" doc:"Who decided."`
	Until  string        `json:"until" doc:"The last day, UTC." format:"date"`
}

type usedJSON struct {
	Name    string `json:"name" doc:"Its name." pattern:"\\S"`
	Value   any    `json:"value" doc:"Its value."`
	Unit    string `json:"unit" doc:"Its unit; empty where it has none."`
	Assumed bool   `json:"assumed" doc:"Nobody stated it: a convention stands in."`
	Usual   bool   `json:"usual" doc:"Nobody stated it: it is usual, or rests on what is."`
}

type usualJSON struct {
	Name   string  `json:"name" doc:"The fact." pattern:"\\S"`
	Value  any     `json:"value" doc:"The usual value."`
	Least  float64 `json:"least" doc:"The least that is published; 0 of what is no number."`
	Most   float64 `json:"most" doc:"The most that is published; 0 of what is no number."`
	Unit   string  `json:"unit" doc:"Its unit; empty where it has none."`
	Source string  `json:"source" doc:"The id of a source, or memory; empty of what a class is by its name."`
}

type notAppliedJSON struct {
	Rule   string       `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Reason rules.Reason `json:"reason" doc:"Why it was not applied."`
	Names  []string     `json:"names" doc:"Parts or facts that are not there, or the sentence of a figure."`
}

type needJSON struct {
	What  string  `json:"what" doc:"The thing." pattern:"\\S"`
	Value float64 `json:"value" doc:"Its measure; 0 for a thing without one."`
	Unit  string  `json:"unit" doc:"The unit of the measure."`
	Thing string  `json:"thing" doc:"Needs of one thing are one line of an order; empty for a line of its own."`
}

// orderedValues are the figures that have a value, in the order of their table.
type orderedValues []usedJSON

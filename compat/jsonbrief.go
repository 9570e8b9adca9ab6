package compat

import "example.org/cogcourt/rules"

// The JSON of a line that holds less than a report, schema_version 1; see Extent.

// VerdictLine describes the line of ExtentVerdict.
type VerdictLine struct{}

// Shape gives the form of its JSON; see Report.Shape.
func (VerdictLine) Shape() any { return verdictJSON{} }

// FindingsLine describes the line of ExtentFindings.
type FindingsLine struct{}

// Shape gives the form of its JSON; see Report.Shape.
func (FindingsLine) Shape() any { return findingsJSON{} }

type verdictJSON struct {
	SchemaVersion int           `json:"schema_version" const:"1"`
	Brief         Extent        `json:"brief" const:"verdict" doc:"How much of a report it is."`
	Line          int           `json:"line" doc:"The number of the mix's line, from 1; 0 where it was none."`
	Mix           string        `json:"mix" doc:"What the mix is called."`
	Verdict       rules.Verdict `json:"verdict" doc:"The verdict."`
	Complete      bool          `json:"complete" doc:"Nothing is undecided, not judged of the drive or, of a bike, absent."`
	Counts        countsJSON    `json:"counts" doc:"How many findings there are, by verdict."`
	Fails         []string      `json:"fails" doc:"The ids of the rules that fail."`
	Unknowns      []string      `json:"unknowns" doc:"The ids of the rules that are open."`
	Warns         []string      `json:"warns" doc:"The ids of the rules that warn."`
	Rules         string        `json:"rules" doc:"The hash of the rules: another one where any rule is." pattern:"^sha256:[0-9a-f]{64}$"`
}

type countsJSON struct {
	Fail    int `json:"fail" doc:"So many fail."`
	Unknown int `json:"unknown" doc:"So many are open."`
	Warn    int `json:"warn" doc:"So many warn."`
	Pass    int `json:"pass" doc:"So many pass."`
}

type findingsJSON struct {
	SchemaVersion int                `json:"schema_version" const:"1"`
	Brief         Extent             `json:"brief" const:"findings" doc:"How much of a report it is."`
	Line          int                `json:"line" doc:"The number of the mix's line, from 1; 0 where it was none."`
	Mix           string             `json:"mix" doc:"What the mix is called."`
	Verdict       rules.Verdict      `json:"verdict" doc:"The verdict."`
	Complete      bool               `json:"complete" doc:"Nothing is undecided, not judged of the drive or, of a bike, absent."`
	Counts        countsJSON         `json:"counts" doc:"How many findings there are, by verdict."`
	Findings      []briefFindingJSON `json:"findings" doc:"Fails, unknowns and warnings, in this order."`
	Rules         string             `json:"rules" doc:"The hash of the rules: another one where any rule is." pattern:"^sha256:[0-9a-f]{64}$"`
}

type briefFindingJSON struct {
	Rule    string          `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Verdict rules.Verdict   `json:"verdict" doc:"The verdict."`
	Text    string          `json:"text" doc:"What was found, with its numbers." pattern:"\\S"`
	Remedy  string          `json:"remedy" doc:"What would mend it; empty of an unknown."`
	Used    []briefUsedJSON `json:"used" doc:"The facts that the rule's conditions read."`
	Values  map[string]any  `json:"values" doc:"The let-names of the rule that are a number, a word or a flag here."`
	Missing []string        `json:"missing" doc:"The facts that would decide an unknown."`
}

type briefUsedJSON struct {
	Name  string `json:"name" doc:"Its name." pattern:"\\S"`
	Value any    `json:"value" doc:"Its value."`
	Unit  string `json:"unit" doc:"Its unit; empty where it has none."`
}

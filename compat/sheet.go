package compat

import (
	"slices"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Sheet is how to set a mix up: the steps in bench order with the values that
// were worked out for it, what to look for on the first ride, and what to check
// again later. It is immutable.
type Sheet struct {
	Mix     Mix
	Verdict rules.Verdict // of the mix: a sheet for one that fails helps nobody
	Steps   []SheetStep
	Assumed []Assumption // values that nobody stated, to be looked at first
	report  Report
}

// SheetStep is one step.
type SheetStep struct {
	ID      string    `json:"id" doc:"The word that other steps refer to."`
	Part    string    `json:"part" words:"step part" doc:"When it is done."`
	Do      string    `json:"do" doc:"What to do." pattern:"\\S"`
	Value   string    `json:"value" doc:"The value for this mix; empty for a step without one."`
	Check   string    `json:"check" doc:"How to see that it is right."`
	Because string    `json:"because" doc:"Why, in one clause."`
	Caution string    `json:"caution" doc:"What to beware of; empty for most."`
	Missing []Missing `json:"missing" doc:"Facts without which the value cannot be said."`
}

// Assumption is a value that stands in for one that nobody stated.
type Assumption struct {
	Name  string `json:"name" doc:"The fact or figure." pattern:"\\S"`
	Value any    `json:"value" doc:"Its value."`
	Unit  string `json:"unit" doc:"Its unit; empty where it has none."`
	Doc   string `json:"doc" doc:"What it is."`
}

// Sheet makes the setup sheet of a mix. That of a zero Checker has no steps.
func (c *Checker) Sheet(m Mix) Sheet {
	r := c.Check(m)
	s := Sheet{Mix: m, Verdict: r.Verdict, report: r, Assumed: assumptions(r.Figures)}
	if c.set == nil {
		return s
	}
	for _, d := range c.set.Sheet(r.Figures.Records()) {
		step := SheetStep{ID: d.Step.ID, Part: d.Step.Section, Do: d.Do, Value: d.Value,
			Check: d.Check, Because: d.Because, Caution: d.Caution, Missing: []Missing{}}
		for _, name := range d.Missing {
			missing := describe(c.set.Vocabulary(), name)
			missing.Rules = []string{}
			step.Missing = append(step.Missing, missing)
		}
		s.Steps = append(s.Steps, step)
	}
	return s
}

// assumptions lists the figures that rest on usual values directly, and the facts
// of parts that are assumed, so that a mechanic reads them before the first step.
func assumptions(figs figures.Figures) []Assumption {
	out := []Assumption{}
	roots := figs.Roots()
	for _, rec := range figs.Records() {
		if rec == nil {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			v := *rec.At(i)
			name := rec.Object().Name() + "." + f.Name
			if !v.Known || !v.Assumed || rec.Object() == figures.Object && !slices.Contains(roots[i], name) {
				continue
			}
			out = append(out, Assumption{name, plainValue(v, f), f.Unit, f.Doc})
		}
	}
	return out
}

// Cautions gives what to keep in mind with every sheet.
func (s Sheet) Cautions() []string { return s.report.Cautions() }

// sheetJSON is the JSON form of a sheet.
type sheetJSON struct {
	SchemaVersion int           `json:"schema_version" const:"1"`
	Tool          string        `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Rules         RuleSet       `json:"rules" doc:"The rules that were used."`
	Mix           string        `json:"mix" doc:"What the mix is called."`
	Verdict       rules.Verdict `json:"verdict" doc:"The verdict of the mix."`
	Assumed       []Assumption  `json:"assumed" doc:"Values that nobody stated, to be looked at first."`
	Steps         []SheetStep   `json:"steps" doc:"The steps, in the order in which they are done."`
	Cautions      []string      `json:"cautions" doc:"What to keep in mind, whatever the verdict."`
}

// MarshalJSON writes the sheet. Same mix, same rules: same bytes.
func (s Sheet) MarshalJSON() ([]byte, error) {
	return wire.Encode(sheetJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Rules: s.report.RuleSet(),
		Mix: s.Mix.name, Verdict: s.Verdict, Assumed: wire.Some(s.Assumed), Steps: wire.Some(s.Steps), Cautions: wire.Some(s.Cautions()),
	})
}

// Measurable describes what can be measured at the bench, with what the mix
// already states and, where a figure tells what is wanted, the wanted value: the
// block of an as-built record.
func (s Sheet) Measurable() []BenchLine {
	rec := s.Mix.facts.Bench()
	var out []BenchLine
	for i, f := range figures.Bench.Table().Fields() {
		line := BenchLine{Field: f, Value: *rec.At(i)}
		if fig, ok := wantedFigures[f.Name]; ok {
			line.Wanted, _ = s.report.Figures.Value(fig)
		}
		out = append(out, line)
	}
	return out
}

// BenchLine is one line of an as-built record.
type BenchLine struct {
	Field  fact.Field
	Value  fact.Value // as the mix states it
	Wanted fact.Value // as it was worked out; unknown for most
}

// wantedFigures tells which figure says what a measurement should come to.
var wantedFigures = map[string]string{
	"chain_pitches":        "chain_pitches",
	"guide_bolt_to_cog_mm": "guide_bolt_to_cog_mm",
	"trim_clicks_used":     "trim_clicks",
	"hanger_error_mm":      "hanger_limit_mm",
}

package compat

import (
	"slices"

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
	ID      string    `json:"id"`
	Part    string    `json:"part"`    // bench, ride or later
	Do      string    `json:"do"`      // what to do
	Value   string    `json:"value"`   // the value for this mix; empty for a step without one
	Check   string    `json:"check"`   // right when
	Because string    `json:"because"` // one clause
	Caution string    `json:"caution"` // empty for most
	Missing []Missing `json:"missing"` // facts without which the value cannot be said
}

// Assumption is a value that stands in for one that nobody stated.
type Assumption struct {
	Name  string `json:"name"`
	Value any    `json:"value"`
	Unit  string `json:"unit"`
	Doc   string `json:"doc"`
}

// Sheet makes the setup sheet of a mix.
func (c *Checker) Sheet(m Mix) Sheet {
	r := c.Check(m)
	records := m.facts()
	records[figuresPlace] = &r.Figures.data.record // measured by Check
	s := Sheet{Mix: m, Verdict: r.Verdict, report: r, Assumed: assumptions(records)}
	for _, d := range c.set.Sheet(records) {
		step := SheetStep{ID: d.Step.ID, Part: d.Step.Part, Do: d.Do, Value: d.Value, Check: d.Check, Because: d.Because, Caution: d.Caution, Missing: []Missing{}}
		for _, name := range d.Missing {
			step.Missing = append(step.Missing, c.fact(name))
		}
		s.Steps = append(s.Steps, step)
	}
	return s
}

// fact describes a fact by its name, or a part that is not there.
func (c *Checker) fact(name string) Missing {
	m := Missing{Name: name, Rules: []string{}}
	if ref, ok := c.set.Vocabulary().Find(name); ok {
		f := ref.Field()
		m.Doc, m.How, m.Unit = f.Doc, f.How, f.Unit
	} else if i, ok := c.set.Vocabulary().Index(name); ok {
		m.Doc = c.set.Vocabulary().Objects()[i].Doc()
	}
	return m
}

// assumptions lists the figures that rest on usual values directly, and the facts
// of parts that are assumed, so that a mechanic reads them before the first step.
func assumptions(records []*rules.Record) []Assumption {
	out := []Assumption{}
	roots := assumedRoots(slices.Clone(records))
	for place, rec := range records {
		if rec == nil {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			v := *rec.At(i)
			name := rec.Object().Name() + "." + f.Name
			if !v.Known || !v.Assumed || place == figuresPlace && !slices.Contains(roots[i], name) {
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
	SchemaVersion int           `json:"schema_version"`
	Tool          string        `json:"tool"`
	Rules         ruleSetJSON   `json:"rules"`
	Mix           string        `json:"mix"`
	Verdict       rules.Verdict `json:"verdict"`
	Assumed       []Assumption  `json:"assumed"`
	Steps         []SheetStep   `json:"steps"`
	Cautions      []string      `json:"cautions"`
}

// MarshalJSON writes the sheet. Same mix, same rules: same bytes.
func (s Sheet) MarshalJSON() ([]byte, error) {
	packs, hash, count := s.report.RuleSet()
	return encode(sheetJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Rules: ruleSetJSON{packs, hash, count},
		Mix: s.Mix.name, Verdict: s.Verdict, Assumed: s.Assumed, Steps: some(s.Steps), Cautions: some(s.Cautions()),
	})
}

// Measurable describes what can be measured at the bench, with what the mix
// already states and, where a figure tells what is wanted, the wanted value: the
// block of an as-built record.
func (s Sheet) Measurable() []BenchLine {
	rec := s.Mix.facts()[benchPlace]
	var out []BenchLine
	for i, f := range bench.Table().Fields() {
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

package compat

import (
	"bytes"
	"encoding/json"
	"time"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// The JSON form of a report, schema_version 1. Every key is always there and no
// list is null; keys may be added, but none changes its meaning.
type reportJSON struct {
	SchemaVersion int                   `json:"schema_version"`
	Tool          string                `json:"tool"`
	Rules         ruleSetJSON           `json:"rules"`
	Catalog       string                `json:"catalog"`
	Mix           string                `json:"mix"`
	Scope         string                `json:"scope"`
	Parts         []partJSON            `json:"parts"`
	Verdict       rules.Verdict         `json:"verdict"`
	Complete      bool                  `json:"complete"`
	Absent        []string              `json:"absent"`
	Findings      []findingJSON         `json:"findings"`
	Figures       orderedValues         `json:"figures"`
	Worst         map[string][2]float64 `json:"worst"`
	NotApplied    []notAppliedJSON      `json:"not_applied"`
	Missing       []Missing             `json:"missing"`
	Needs         []needJSON            `json:"needs"`
	Cautions      []string              `json:"cautions"`
}

type ruleSetJSON struct {
	Packs []rules.Pack `json:"packs"`
	Hash  string       `json:"hash"`
	Count int          `json:"count"`
}

type partJSON struct {
	Kind  string `json:"kind"`
	ID    string `json:"id"`
	Name  string `json:"name"`
	Basis string `json:"basis"`
}

type findingJSON struct {
	Rule     string            `json:"rule"`
	Verdict  rules.Verdict     `json:"verdict"`
	Adjusted *adjustJSON       `json:"adjusted"`
	Text     string            `json:"text"`
	Why      string            `json:"why"`
	Remedy   string            `json:"remedy"`
	Caution  string            `json:"caution"`
	Safety   bool              `json:"safety"`
	Basis    map[string]string `json:"basis"`
	Parts    []string          `json:"parts"`
	Used     []usedJSON        `json:"used"`
	Assumed  []string          `json:"assumed"`
	Missing  []string          `json:"missing"`
	Marginal *Marginal         `json:"marginal"`
	Error    string            `json:"error"`
}

type adjustJSON struct {
	From   rules.Verdict `json:"from"`
	Reason string        `json:"reason"`
	By     string        `json:"by"`
	Until  string        `json:"until"`
}

type usedJSON struct {
	Name    string `json:"name"`
	Value   any    `json:"value"`
	Unit    string `json:"unit"`
	Assumed bool   `json:"assumed"`
}

type notAppliedJSON struct {
	Rule   string       `json:"rule"`
	Reason rules.Reason `json:"reason"`
	Names  []string     `json:"names"`
}

type needJSON struct {
	What  string  `json:"what"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

// orderedValues are the figures that have a value, in the order of their table.
type orderedValues []usedJSON

// MarshalJSON writes an object in the given order.
func (o orderedValues) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, v := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		val, err := json.Marshal(v.Value)
		if err != nil {
			return nil, err
		}
		b.WriteString(`"` + v.Name + `":`)
		b.Write(val)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// MarshalJSON writes the report. Same mix, same rules: same bytes.
func (r Report) MarshalJSON() ([]byte, error) { return r.asJSON(true) }

// Brief is MarshalJSON without the findings that pass. Everything else is there.
func (r Report) Brief() ([]byte, error) { return r.asJSON(false) }

func (r Report) asJSON(passes bool) ([]byte, error) {
	packs, hash, count := r.RuleSet()
	out := reportJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version,
		Rules:   ruleSetJSON{Packs: packs, Hash: hash, Count: count},
		Catalog: r.Mix.catalog, Mix: r.Mix.name, Scope: r.Mix.scope.String(),
		Verdict: r.Verdict, Complete: r.Complete,
		Absent: some(r.Absent()), Missing: some(r.Missing()), Cautions: some(r.Cautions()),
		Parts: []partJSON{}, Findings: []findingJSON{}, Figures: orderedValues{},
		Worst: r.worst, NotApplied: []notAppliedJSON{}, Needs: []needJSON{},
	}
	if out.Worst == nil {
		out.Worst = map[string][2]float64{}
	}
	for _, p := range r.Mix.Parts() {
		out.Parts = append(out.Parts, partJSON{p.Kind(), p.ID(), p.Name(), p.Basis()})
	}
	finding := r.finder()
	for _, f := range r.result.Findings {
		if passes || f.Verdict != rules.Pass {
			out.Findings = append(out.Findings, finding(f).json())
		}
	}
	for i, f := range figureTable {
		if v := r.Figures.data.values[i]; v.Known {
			out.Figures = append(out.Figures, usedJSON{Name: f.Name, Value: plainValue(v, f.Field)})
		}
	}
	for _, na := range r.result.NotApplied {
		out.NotApplied = append(out.NotApplied, notAppliedJSON{na.Rule.ID, na.Reason, some(na.Names)})
	}
	for _, n := range r.Needs() {
		out.Needs = append(out.Needs, needJSON(n))
	}
	return encode(out)
}

// encode writes JSON without turning < and > of texts into escapes.
func encode(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimRight(b.Bytes(), "\n"), nil
}

func (f Finding) json() findingJSON {
	out := findingJSON{
		Rule: f.Rule, Verdict: f.Verdict, Text: f.Text, Why: f.Why, Remedy: f.Remedy,
		Caution: f.Caution, Safety: f.Safety, Basis: map[string]string{},
		Parts: some(f.Parts), Used: []usedJSON{}, Assumed: some(f.Assumed), Missing: some(f.Missing), Error: f.Error,
	}
	for _, b := range f.Basis {
		if out.Basis[string(b.Kind)] != "" {
			out.Basis[string(b.Kind)] += ", "
		}
		out.Basis[string(b.Kind)] += b.Text
	}
	for _, u := range f.Used {
		out.Used = append(out.Used, usedJSON{u.Name, plainValue(u.Value, u.Field), u.Field.Unit, u.Value.Assumed})
	}
	out.Marginal = f.Margin
	if f.Adjust != nil {
		out.Adjusted = &adjustJSON{f.Ruled, f.Adjust.Reason, f.Adjust.By, f.Adjust.Until.Format(time.DateOnly)}
	}
	return out
}

// plainValue gives a value as JSON has it.
func plainValue(v fact.Value, f fact.Field) any {
	switch f.Type {
	case fact.Flag:
		return v.Num != 0
	case fact.Choice, fact.Name:
		return v.Text
	case fact.Fractions, fact.Wholes:
		return some(v.List)
	}
	return v.Num
}

// some turns a nil list into an empty one.
func some[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

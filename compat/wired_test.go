package compat

import (
	"bytes"
	"encoding/json"
	"time"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// What is written by hand is the same as what encoding/json makes of the structs from
// which the JSON Schemas come: here is the long way, from findings to structs.

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

// wired is the report by way of the structs.
func (r Report) wired(passes bool) ([]byte, error) {
	out := reportJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version,
		Rules:   r.RuleSet(),
		Catalog: r.Mix.catalog, Mix: r.Mix.name, Scope: r.Mix.scope,
		Verdict: r.Verdict, Complete: r.Complete,
		Absent: wire.Some(r.Absent()), NotJudged: wire.Some(r.NotJudged()), Missing: wire.Some(r.Missing()), Cautions: wire.Some(r.Cautions()),
		Parts: []partJSON{}, Findings: []findingJSON{}, Figures: orderedValues{},
		Usual: usualWire(r), Worst: r.Figures.Worst(), NotApplied: []notAppliedJSON{}, Needs: []needJSON{},
	}
	for _, p := range r.Mix.Parts() {
		out.Parts = append(out.Parts, partJSON{p.Kind(), p.ID(), p.Name(), p.Basis()})
	}
	finder := r.finder()
	defer finder.close()
	for _, f := range r.findings {
		if passes || f.Verdict != rules.Pass {
			out.Findings = append(out.Findings, finder.finding(f).json())
		}
	}
	if rec := r.Figures.Record(); rec != nil {
		for i, f := range figures.Object.Table().Fields() {
			if v := rec.At(i); v.Known {
				out.Figures = append(out.Figures, usedJSON{Name: f.Name, Value: v.Plain(f.Type)})
			}
		}
	}
	for _, na := range r.NotApplied() {
		out.NotApplied = append(out.NotApplied, notAppliedJSON{na.Rule.ID, na.Reason, wire.Some(na.Names)})
	}
	for _, n := range r.Needs() {
		out.Needs = append(out.Needs, needJSON(n))
	}
	return wire.Encode(out)
}

func (f Finding) json() findingJSON {
	out := findingJSON{
		Rule: f.Rule, Verdict: f.Verdict, Text: f.Text, Why: f.Why, Remedy: f.Remedy,
		Caution: f.Caution, Safety: f.Safety, Basis: map[string]string{},
		Parts: wire.Some(f.Parts),
		Used:  []usedJSON{}, Assumed: wire.Some(f.Assumed), Usual: wire.Some(f.Usual), Leans: f.Lean,
		Missing: wire.Some(f.Missing), Error: f.Error,
	}
	for _, b := range f.Basis {
		if out.Basis[string(b.Kind)] != "" {
			out.Basis[string(b.Kind)] += ", "
		}
		out.Basis[string(b.Kind)] += b.Text
	}
	for _, u := range f.Used {
		out.Used = append(out.Used, usedJSON{
			u.Name, u.Value.Plain(u.Field.Type), u.Field.Unit, u.Value.Assumed, u.Value.Usual != fact.NotUsual,
		})
	}
	out.Marginal = f.Margin
	if f.Adjust != nil {
		out.Adjusted = &adjustJSON{f.Ruled, f.Adjust.Reason, f.Adjust.By, f.Adjust.Until.Format(time.DateOnly)}
	}
	return out
}

// usualWire lists the usual values that stand in the facts.
func usualWire(r Report) []usualJSON {
	out := []usualJSON{}
	for _, rec := range r.Figures.Records() {
		if rec == nil || rec.Object() == figures.Object {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			v := rec.At(i)
			if !v.Known || v.Usual == fact.NotUsual {
				continue
			}
			u := usualJSON{Name: rec.Object().Name() + "." + f.Name, Value: v.Plain(f.Type), Unit: f.Unit}
			if f.Type == fact.Fraction || f.Type == fact.Whole {
				u.Least, u.Most = v.Num, v.Num
			}
			if s := v.Spread; s != nil {
				u.Least, u.Most, u.Source = s.Least, s.Most, s.Source
			}
			out = append(out, u)
		}
	}
	return out
}

// wired is the change by way of the structs.
func (c Change) wired() ([]byte, error) {
	return wire.Encode(changeJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Before: side(c.Before), After: side(c.After),
		New: changed(c.New), Worse: changed(c.Worse), Better: changed(c.Better), Gone: changed(c.Gone), Same: changed(c.Same),
	})
}

func side(r Report) sideJSON {
	return sideJSON{r.Mix.name, r.Mix.scope, r.Verdict, r.Complete, r.RuleSet()}
}

func changed(list []ChangedFinding) []changedJSON {
	out := make([]changedJSON, len(list))
	for i, f := range list {
		out[i] = changedJSON{f.Rule, f.Was, f.Now, f.Text, f.Remedy, f.Caution, f.Safety, wire.Some(f.Causes), wire.Some(f.Lines)}
	}
	return out
}

// wired is the sheet by way of the structs.
func (s Sheet) wired() ([]byte, error) {
	return wire.Encode(sheetJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Rules: s.report.RuleSet(),
		Mix: s.Mix.name, Verdict: s.Verdict, Assumed: wire.Some(s.Assumed), Stops: wire.Some(s.Stops),
		Steps: wire.Some(s.Steps), Bolts: wire.Some(s.Bolts()), Cautions: wire.Some(s.Cautions()),
	})
}

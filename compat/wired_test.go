package compat

import (
	"time"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// What is written by hand is the same as what encoding/json makes of the structs from
// which the JSON Schemas come: here is the long way, from findings to structs.

// wired is the report by way of the structs.
func (r Report) wired(passes bool) ([]byte, error) {
	out := report.Report{
		SchemaVersion: 1, Tool: "cogcourt " + Version,
		Rules:   r.RuleSet(),
		Catalog: r.Mix.catalog, Mix: r.Mix.name, Scope: r.Mix.scope.String(),
		Verdict: r.Verdict, Complete: r.Complete,
		Absent: wire.Some(r.Absent()), NotJudged: wire.Some(r.NotJudged()), Missing: wire.Some(r.Missing()), Cautions: wire.Some(r.Cautions()),
		Parts: []report.Part{}, Findings: []report.Finding{}, Figures: report.Figures{},
		Usual: usualWire(r), Worst: r.Figures.Worst(), NotApplied: []report.NotApplied{}, Needs: []report.Need{},
	}
	for _, p := range r.Mix.Parts() {
		out.Parts = append(out.Parts, report.Part{Kind: p.Kind(), ID: p.ID(), Name: p.Name(), Basis: p.Basis()})
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
				out.Figures = append(out.Figures, report.Figure{Name: f.Name, Value: v.Plain(f.Type)})
			}
		}
	}
	for _, na := range r.NotApplied() {
		out.NotApplied = append(out.NotApplied, report.NotApplied{Rule: na.Rule.ID, Reason: string(na.Reason), Names: wire.Some(na.Names)})
	}
	for _, n := range r.Needs() {
		out.Needs = append(out.Needs, report.Need(n))
	}
	return wire.Encode(out)
}

// valuesOf is what encoding/json sorts by itself.
func valuesOf(f Finding) map[string]any {
	out := map[string]any{}
	for _, n := range f.Values {
		out[n.Name] = n.Value()
	}
	return out
}

func (f Finding) json() report.Finding {
	out := report.Finding{
		Rule: f.Rule, Verdict: f.Verdict, Text: f.Text, Why: f.Why, Remedy: f.Remedy,
		Caution: f.Caution, Safety: f.Safety, Basis: map[string]string{},
		Parts: wire.Some(f.Parts),
		Used:  []report.Used{}, Values: valuesOf(f), Assumed: wire.Some(f.Assumed), Usual: wire.Some(f.Usual), Leans: lean(f.Lean),
		Missing: wire.Some(f.Missing), Error: f.Error,
	}
	for _, b := range f.Basis {
		if out.Basis[string(b.Kind)] != "" {
			out.Basis[string(b.Kind)] += ", "
		}
		out.Basis[string(b.Kind)] += b.Text
	}
	for _, u := range f.Used {
		out.Used = append(out.Used, report.Used{
			Name: u.Name, Value: u.Value.Plain(u.Field.Type), Unit: u.Field.Unit, Assumed: u.Value.Assumed, Usual: u.Value.Usual != fact.NotUsual,
		})
	}
	if m := f.Margin; m != nil {
		out.Marginal = &report.Margin{Nominal: m.Nominal, By: m.By, Open: m.Open}
	}
	if f.Adjust != nil {
		out.Adjusted = &report.Adjusted{From: f.Ruled, Reason: f.Adjust.Reason, By: f.Adjust.By, Until: f.Adjust.Until.Format(time.DateOnly)}
	}
	return out
}

// lean is a finding's lean, where it has one.
func lean(l *rules.Lean) *report.Lean {
	if l == nil {
		return nil
	}
	points := func(list []rules.Point) []report.Point {
		out := []report.Point{}
		for _, p := range list {
			out = append(out, report.Point(p))
		}
		return out
	}
	return &report.Lean{Nominal: l.Nominal, By: l.By, Open: l.Open, Ask: l.Ask, FailsAt: points(l.FailsAt), HoldsAt: points(l.HoldsAt)}
}

// usualWire lists the usual values that stand in the facts.
func usualWire(r Report) []report.Usual {
	out := []report.Usual{}
	for _, rec := range r.Figures.Records() {
		if rec == nil || rec.Object() == figures.Object {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			v := rec.At(i)
			if !v.Known || v.Usual == fact.NotUsual {
				continue
			}
			u := report.Usual{Name: rec.Object().Name() + "." + f.Name, Value: v.Plain(f.Type), Unit: f.Unit}
			if f.Type == fact.Fraction || f.Type == fact.Whole {
				u.Least, u.Most = v.Num, v.Num
			}
			if s := v.Spread(); s != nil {
				u.Least, u.Most, u.Source = s.Least, s.Most, s.Source
			}
			out = append(out, u)
		}
	}
	return out
}

// wired is the change by way of the structs.
func (c Change) wired() ([]byte, error) {
	return wire.Encode(report.Change{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Before: side(c.Before), After: side(c.After),
		New: changed(c.New), Worse: changed(c.Worse), Better: changed(c.Better), Gone: changed(c.Gone), Same: changed(c.Same),
	})
}

func side(r Report) report.Side {
	return report.Side{Mix: r.Mix.name, Scope: r.Mix.scope.String(), Verdict: r.Verdict, Complete: r.Complete, Rules: r.RuleSet()}
}

func changed(list []ChangedFinding) []report.Changed {
	out := make([]report.Changed, len(list))
	for i, f := range list {
		out[i] = report.Changed{Rule: f.Rule, Before: f.Was.String(), After: f.Now.String(), Text: f.Text, Remedy: f.Remedy, Caution: f.Caution,
			Safety: f.Safety, Causes: wire.Some(f.Causes), Lines: wire.Some(f.Lines)}
	}
	return out
}

// wired is the sheet by way of the structs.
func (s Sheet) wired() ([]byte, error) {
	return wire.Encode(report.Sheet{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Rules: s.report.RuleSet(),
		Mix: s.Mix.name, Verdict: s.Verdict, Assumed: wire.Some(s.Assumed), Stops: wire.Some(s.Stops),
		Steps: wire.Some(s.Steps), Bolts: wire.Some(s.Bolts()), Cautions: wire.Some(s.Cautions()),
	})
}

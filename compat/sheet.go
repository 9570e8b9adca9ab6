package compat

import (
	"slices"
	"strings"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Sheet is how to set a mix up: the steps in bench order with the values that
// were worked out for it, what to look for on the first ride, and what to check
// again later. That of a mix that fails ends where a fault stops the work. It is
// immutable.
type Sheet struct {
	Mix     Mix
	Verdict rules.Verdict // of the mix: a sheet for one that fails helps nobody
	Steps   []SheetStep
	Stops   []Stop       // the faults of a mix that fails, the one at which the sheet ends first
	Assumed []Assumption // values that nobody stated, to be looked at first
	report  Report
}

// Report gives the report that the sheet was made of.
func (s Sheet) Report() Report { return s.report }

// Sheet makes the setup sheet of a mix. That of a zero Checker has no steps.
func (c *Checker) Sheet(m Mix) Sheet {
	r := c.Check(m)
	s := Sheet{Mix: m, Verdict: r.Verdict, report: r, Assumed: []Assumption{}}
	if c.set == nil {
		return s
	}
	filled := c.set.Sheet(r.Figures.Records())
	s.Stops = r.stops(filled)
	left := r.untilStopped(filled, s.Stops)
	s.Assumed = r.assumptions(left)
	for _, d := range left {
		step := SheetStep{ID: d.Step.ID, Part: d.Step.Section, Do: d.Do, Value: d.Value,
			Check: d.Check, Because: d.Because, Caution: d.Caution, Missing: []Missing{}, Measured: wire.Some(d.Step.Measured)}
		for _, name := range d.Missing {
			missing := describe(c.set.Vocabulary(), name)
			missing.Rules = []string{}
			step.Missing = append(step.Missing, missing)
		}
		s.Steps = append(s.Steps, step)
	}
	return s
}

// stops tells of each fault at which step it ends the work, the earliest first.
func (r Report) stops(sheet []rules.FilledStep) []Stop {
	var out []Stop
	order := map[string]int{}
	for i, step := range r.set.Steps() {
		order[step.ID] = i
	}
	for _, f := range r.findings {
		if f.Verdict != rules.Fail {
			continue
		}
		stop := Stop{Rule: f.Rule.ID, Text: r.result.Text(f)}
		if step := r.set.Stop(f.Rule.ID, sheet); step != nil {
			stop.Step = step.ID
		}
		out = append(out, stop)
	}
	slices.SortStableFunc(out, func(a, b Stop) int { return order[a.Step] - order[b.Step] })
	return out
}

// untilStopped leaves of a sheet what is done before the first fault. Nothing is
// left of the ride.
func (r Report) untilStopped(sheet []rules.FilledStep, stops []Stop) []rules.FilledStep {
	if len(stops) == 0 {
		return sheet
	}
	var before []*rules.Step
	for _, step := range r.set.Steps() {
		if step.ID == stops[0].Step {
			break
		}
		before = append(before, step)
	}
	return slices.DeleteFunc(sheet, func(d rules.FilledStep) bool {
		return d.Step.Section != rules.Sections()[0] || !slices.Contains(before, d.Step)
	})
}

// assumptions lists the figures behind the steps that rest on usual values directly,
// and the facts of parts that are assumed, so that a mechanic reads them before the
// first step. What no step prints is for the report.
func (r Report) assumptions(sheet []rules.FilledStep) []Assumption {
	out := []Assumption{}
	taken, behind := r.taking(), map[int]bool{}
	defer taken.close()
	for _, d := range sheet {
		for _, ref := range r.set.StepReads(d.Step) {
			for _, place := range figures.MadeFrom(ref) {
				behind[place] = true
			}
		}
	}
	for _, rec := range r.Figures.Records() {
		if rec == nil {
			continue
		}
		for i, f := range rec.Object().Table().Fields() {
			v := *rec.At(i)
			name := rec.Object().Name() + "." + f.Name
			if !v.Known || !v.Assumed || rec.Object() == figures.Object && !behind[i] {
				continue
			}
			if said := taken.of(name); len(said) > 0 {
				out = append(out, Assumption{Name: name, Value: v.Plain(f.Type), Unit: f.Unit, Doc: f.Doc, Said: strings.Join(said, "; ")})
			}
		}
	}
	return out
}

// Cautions gives what to keep in mind with every sheet; of the ride nothing where the
// mix fails, for the sheet ends before it.
func (s Sheet) Cautions() []string { return s.report.cautions(s.Verdict != rules.Fail) }

// Measurable describes what is measured in the steps of the sheet, in their order,
// with what the mix already states and the value that the step gives: the block of
// an as-built record. What the mix states beside is kept at the end.
func (s Sheet) Measurable() []BenchLine {
	rec := s.Mix.facts.Bench()
	var out []BenchLine
	done := map[string]bool{}
	add := func(i int, wanted string) {
		f := figures.Bench.Table().Fields()[i]
		if !done[f.Name] {
			done[f.Name] = true
			out = append(out, BenchLine{Field: f, Value: *rec.At(i), Wanted: wanted})
		}
	}
	for _, step := range s.Steps {
		said := map[string]bool{} // the units of which the step's value spoke already
		for _, name := range step.Measured {
			field, isBench := strings.CutPrefix(name, figures.Bench.Name()+".")
			i, ok := figures.Bench.Table().Index(field)
			if !ok || !isBench {
				continue
			}
			wanted := ""
			if unit := saidUnit(figures.Bench.Table().Fields()[i]); unit != "" && !said[unit] && strings.Contains(step.Value, unit) {
				wanted, said[unit] = step.Value, true
			}
			add(i, wanted)
		}
	}
	for i := range figures.Bench.Table().Fields() {
		if rec.At(i).Known {
			add(i, "")
		}
	}
	return out
}

// saidUnit is how texts say the unit of a measured fact; a count of clicks has none.
func saidUnit(f fact.Field) string {
	switch {
	case f.Unit == "pitches":
		return "half-inch links"
	case f.Unit == "" && f.Type == fact.Whole:
		return "click"
	}
	return f.Unit
}

// BenchLine is one line of an as-built record.
type BenchLine struct {
	Field  fact.Field
	Value  fact.Value // as the mix states it
	Wanted string     // what the step says that measures it; empty for most
}

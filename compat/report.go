package compat

import (
	"slices"
	"strings"
	"sync"

	"example.org/cogcourt/rules"
)

// Report is what a Checker says of a mix. It is immutable; its texts are made
// when they are asked for.
type Report struct {
	Mix      Mix
	Figures  Figures
	Verdict  rules.Verdict // fail over unknown over warn over pass
	Complete bool          // nothing was left undecided and, for a bike, nothing is absent

	checker  *Checker
	result   *rules.Result
	marginal map[string]*Marginal // by rule; nil for a mix without tolerances
	worst    map[string][2]float64
}

// Finding is what one rule says of the mix.
type Finding struct {
	Rule    string // its id
	Title   string // the good state
	Verdict rules.Verdict
	Text    string // what was found, with the numbers
	Why     string
	Remedy  string // what would mend it; empty for a pass
	Caution string
	Safety  bool
	Basis   []rules.Basis
	Parts   []string     // the kinds that it is about
	Used    []rules.Fact // the stated facts that its conditions read
	Assumed []string     // what these hang on that nobody stated: facts, and figures that take usual values
	Missing []string     // the facts that would decide an unknown
	Error   string
	Adjust  *rules.Adjust // the adjustment that changed it, nil for most
	Ruled   rules.Verdict // the verdict before the adjustment
	Margin  *Marginal     // that it hangs on tolerances, nil for most
}

// Findings gives what every applied rule says: fails first, then unknowns,
// warnings and passes, each in the order of the rule files.
func (r Report) Findings() []Finding {
	out := make([]Finding, len(r.result.Findings))
	finding := r.finder()
	for i, f := range r.result.Findings {
		out[i] = finding(f)
	}
	return out
}

// finder makes findings; what makes figures assumed is worked out once for all.
func (r Report) finder() func(rules.Finding) Finding {
	roots := sync.OnceValue(func() [][]string { return assumedRoots(r.Mix.facts()) })
	return func(f rules.Finding) Finding { return r.finding(f, roots) }
}

func (r Report) finding(f rules.Finding, roots func() [][]string) Finding {
	out := Finding{
		Rule: f.Rule.ID, Title: f.Rule.Title, Verdict: f.Verdict, Ruled: f.Ruled,
		Text: r.result.Text(f), Why: f.Rule.Why, Remedy: r.result.Remedy(f),
		Safety: f.Rule.Safety, Basis: f.Rule.Basis, Parts: r.kinds(f.Rule),
		Used: r.result.Used(f), Missing: slices.Clone(f.Missing), Error: f.Err,
		Caution: r.result.Caution(f), Adjust: r.checker.set.Adjusted(f),
		Margin: r.marginal[f.Rule.ID],
	}
	out.Assumed = assumedNames(out.Used, roots)
	if m := out.Margin; m != nil {
		out.Text += " " + m.sentence()
	}
	return out
}

// assumedNames names what used facts hang on that nobody stated.
func assumedNames(used []rules.Fact, roots func() [][]string) []string {
	var names []string
	for _, u := range used {
		if !u.Value.Assumed {
			continue
		}
		of := []string{u.Name}
		if name, is := strings.CutPrefix(u.Name, figureObject.Name()+"."); is {
			i, _ := figureObject.Table().Index(name)
			of = roots()[i]
		}
		for _, n := range of {
			if !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	return names
}

// kinds gives the kinds in the mix that a rule reads, through the figures.
func (r Report) kinds(rule *rules.Rule) []string {
	var marks [64]bool
	for _, ref := range r.checker.set.Reads(rule) {
		if ref.Object == figureObject {
			markFigure(&marks, ref.Index)
			continue
		}
		i, _ := r.checker.set.Vocabulary().Index(ref.Object.Name())
		marks[i] = true
	}
	var out []string
	for i := range kindCount {
		if marks[i] && r.Mix.records != nil && r.Mix.records[i] != nil {
			out = append(out, r.Mix.parts[i].Kind())
		}
	}
	return out
}

func markFigure(marks *[64]bool, i int) {
	for _, in := range figureTable[i].reads {
		marks[in.place] = true
	}
	for _, j := range figureTable[i].figures {
		markFigure(marks, j)
	}
}

// NotApplied gives the rules that had nothing to say, and why.
func (r Report) NotApplied() []rules.NotApplied {
	out := slices.Clone(r.result.NotApplied)
	for i := range out {
		out[i].Names = slices.Clone(out[i].Names)
	}
	return out
}

// Missing is a fact that nobody stated and that would decide something.
type Missing struct {
	Name  string   `json:"name"`
	Doc   string   `json:"doc"`
	How   string   `json:"how"`
	Unit  string   `json:"unit"`
	Rules []string `json:"rules"`
}

// Missing ranks the facts that would decide an unknown finding, by how many.
func (r Report) Missing() []Missing { return r.missing() }

// Needs gives what to order because of the findings, each thing once.
func (r Report) Needs() []rules.FilledNeed {
	var out []rules.FilledNeed
	for _, f := range r.result.Findings {
		for _, t := range r.result.Needs(f) {
			if !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// Absent gives the kinds that a whole bicycle would need and the mix has not;
// none for a cart.
func (r Report) Absent() []string {
	if r.Mix.scope != ScopeBike {
		return nil
	}
	return r.Mix.absentKinds()
}

// Cautions gives what a mechanic must keep in mind with this mix, whatever the
// verdict.
func (r Report) Cautions() []string {
	out := slices.Clone(usualCautions)
	if r.powered() {
		out = append(out, lithiumCautions...)
	}
	return out
}

// usualCautions go with every report: a wrong mix can hurt the rider.
var usualCautions = []string{
	"The makers' instructions and local rules come first; a part's own marking wins over any value here.",
	"Use a torque wrench, and look for limits marked on carbon parts before clamping them.",
	"Try every gear in the stand first, then ride away from traffic before relying on it.",
	"Ask a qualified mechanic when unsure.",
}

var lithiumCautions = []string{
	"Lithium cells: charge only what is made to be charged, inside its temperature range; keep button cells from children.",
}

// powered says whether anything in the mix takes a cell.
func (r Report) powered() bool {
	if r.Mix.records == nil {
		return false
	}
	for _, in := range []input{rearActuation, shifterActuation} {
		if rec := r.Mix.records[in.place]; rec != nil && rec.At(in.field).Text == "motor" {
			return true
		}
	}
	for _, kind := range []string{"cell", "charger"} {
		if _, ok := r.Mix.Part(kind); ok {
			return true
		}
	}
	return false
}

// RuleSet names the rules that made the report: the packs, their hash and count.
func (r Report) RuleSet() (packs []rules.Pack, hash string, count int) {
	s := r.checker.set
	return s.Packs(), s.Hash(), len(s.Rules())
}

// RuleVerdict is what one applied rule comes to.
type RuleVerdict struct {
	Rule    string
	Verdict rules.Verdict
}

// Verdicts gives the verdict of every applied rule in the order of Findings, for
// who needs no texts: nothing is rendered.
func (r Report) Verdicts() []RuleVerdict {
	out := make([]RuleVerdict, len(r.result.Findings))
	for i, f := range r.result.Findings {
		out[i] = RuleVerdict{f.Rule.ID, f.Verdict}
	}
	return out
}

package view

import (
	"encoding/json"
	"fmt"
	"io"
	"time"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/prove"
)

// Proof is what the examples of a set of rules showed.
type Proof struct {
	Rules int
	Ran   int
	Wrong []rules.Failure

	Bare      []*rules.Rule // rules without an example
	BarePacks []string      // packs in which no rule has one

	WithCoverage bool
	Coverage     []prove.Cover

	WithMutants bool
	Mutants     prove.Report

	Took time.Duration
}

// Share is the percentage of outcomes and conditions that the examples reach.
func (p Proof) Share() float64 {
	total, covered := 0, 0
	for _, c := range p.Coverage {
		total, covered = total+c.Total, covered+c.Covered
	}
	if total == 0 {
		return 100
	}
	return 100 * float64(covered) / float64(total)
}

// Faults gives what the searches came by at which a rule goes wrong, each once.
func (p Proof) Faults() []prove.Fault {
	all := p.Mutants.Faults
	for _, c := range p.Coverage {
		all = append(all, c.Faults...)
	}
	seen := map[string]bool{}
	var out []prove.Fault
	for _, f := range all {
		if key := f.Rule.ID + f.Text; !seen[key] {
			seen[key] = true
			out = append(out, f)
		}
	}
	return out
}

// Prove prints a proof: what is wrong, what is not reached, what survives, and a
// summary.
func Prove(w io.Writer, p Proof, asJSON bool) error {
	if asJSON {
		return proofJSON(w, p)
	}
	for _, wrong := range p.Wrong {
		wrongExample(w, wrong)
	}
	for _, r := range p.Bare {
		wrap(w, fmt.Sprintf("%s: %s: ", r.Pos, r.ID), 4, "has no example")
	}
	for _, f := range p.Faults() {
		wrap(w, fmt.Sprintf("%s: %s: ", f.Pos, f.Rule.ID), 4, f.Text)
	}
	for _, c := range p.Coverage {
		for _, g := range c.Gaps {
			wrap(w, fmt.Sprintf("%s: %s: ", g.Pos, c.Rule.ID), 4, g.Text)
			closing(w, "To close it, an example", g.Closing)
		}
	}
	for _, m := range p.Mutants.Survivors() {
		wrap(w, fmt.Sprintf("%s: %s: ", m.Pos, m.Rule.ID), 4, fmt.Sprintf("in %s no example notices when %s", m.In, m.Change))
		closing(w, "To kill it, an example", m.Closing)
	}
	for _, stale := range p.Mutants.Stale {
		wrap(w, fmt.Sprintf("%s: ", stale.Pos), 4, fmt.Sprintf("nothing survives that this waiver lets live (%s, %s)", stale.In, stale.Change))
	}
	p.summary(w)
	fmt.Fprintf(w, "took %.2f s\n", p.Took.Seconds())
	return nil
}

// summary prints the counts.
func (p Proof) summary(w io.Writer) {
	fmt.Fprintf(w, "%s of %s ran, %d wrong\n", counted(p.Ran, "example", "examples"), counted(p.Rules, "rule", "rules"), len(p.Wrong))
	if p.WithCoverage {
		gaps, full := 0, 0
		for _, c := range p.Coverage {
			gaps += len(c.Gaps)
			if len(c.Gaps) == 0 {
				full++
			}
		}
		fmt.Fprintf(w, "coverage %.1f percent: %d of %d rules whole, %s\n", p.Share(), full, len(p.Coverage), counted(gaps, "gap", "gaps"))
	}
	if p.WithMutants {
		waived := 0
		for _, m := range p.Mutants.Mutants {
			if m.Waived != "" {
				waived++
			}
		}
		alive := len(p.Mutants.Survivors())
		fmt.Fprintf(w, "mutants %d: %d killed, %d waived, %d survive\n", len(p.Mutants.Mutants), len(p.Mutants.Mutants)-alive-waived, waived, alive)
	}
}

func closing(w io.Writer, lead string, example *prove.Proposal) {
	if example == nil {
		wrap(w, "    ", 6, "No small change of an example does it: it may want a fact or a part left out, or the condition says something twice.")
		return
	}
	wrap(w, "    "+lead+" ", 6, example.String())
}

// wrongExample prints one failed example in at most a dozen lines.
func wrongExample(w io.Writer, x rules.Failure) {
	wrap(w, fmt.Sprintf("%s: %s: ", x.Example.Pos, x.Rule.ID), 4, x.Example.Name)
	got := x.Got.String()
	if x.Got == rules.OutcomeError {
		got = "an error"
	}
	fmt.Fprintf(w, "    wanted %s, got %s\n", x.Example.Want, got)
	if x.Detail != "" {
		wrap(w, "    Because: ", 6, x.Detail)
	}
	for _, c := range [][2]string{{"when", x.Rule.WhenText}, {"fail_if", x.Rule.FailIf}, {"warn_if", x.Rule.WarnIf}} {
		if c[1] != "" && decides(c[0], x.Got) {
			wrap(w, "    "+c[0]+": ", 6, c[1])
		}
	}
}

// decides says whether an expression had a say in what an example gave.
func decides(expression string, got rules.Outcome) bool {
	switch got {
	case rules.OutcomeNotApplied:
		return expression == "when"
	case rules.OutcomeFail:
		return expression == "fail_if"
	case rules.OutcomeWarn:
		return expression == "warn_if"
	}
	return true
}

func proofJSON(w io.Writer, p Proof) error {
	type entry map[string]any
	wrong, gaps, alive, faults := []entry{}, []entry{}, []entry{}, []entry{}
	add := func(e entry, example *prove.Proposal) entry {
		if e["closing"] = ""; example != nil {
			e["closing"], e["want"], e["example"] = example.Text, example.Want, example.YAML
		}
		return e
	}
	for _, x := range p.Wrong {
		wrong = append(wrong, entry{"rule": x.Rule.ID, "example": x.Example.Name, "at": x.Example.Pos.String(),
			"want": x.Example.Want, "got": x.Got, "because": x.Detail})
	}
	for _, c := range p.Coverage {
		for _, g := range c.Gaps {
			gaps = append(gaps, add(entry{"rule": c.Rule.ID, "at": g.Pos.String(), "text": g.Text}, g.Closing))
		}
	}
	for _, m := range p.Mutants.Mutants {
		if !m.Killed {
			e := entry{"rule": m.Rule.ID, "at": m.Pos.String(), "in": m.In, "change": m.Change, "text": m.Text, "waived": m.Waived}
			alive = append(alive, add(e, m.Closing))
		}
	}
	for _, f := range p.Faults() {
		faults = append(faults, entry{"rule": f.Rule.ID, "at": f.Pos.String(), "text": f.Text})
	}
	out := entry{"schema_version": 1, "rules": p.Rules, "examples": p.Ran, "wrong": wrong}
	if len(p.Bare) > 0 {
		var ids []string
		for _, r := range p.Bare {
			ids = append(ids, r.ID)
		}
		out["without_example"] = ids
	}
	if p.WithCoverage || p.WithMutants {
		out["faults"] = faults
	}
	if p.WithCoverage {
		out["coverage"] = entry{"percent": p.Share(), "gaps": gaps}
	}
	if p.WithMutants {
		out["mutants"] = entry{"made": len(p.Mutants.Mutants), "alive": alive}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}

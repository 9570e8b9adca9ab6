package prove

import (
	"fmt"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Mutant is one small change of a rule, as a slip of its author might make it.
type Mutant struct {
	Rule    *rules.Rule
	Pos     source.Pos
	In      string    // the expression that is changed: when, fail_if, warn_if or let.NAME
	Change  string    // what is changed, such as "> becomes >="
	Text    string    // the changed expression
	Killed  bool      // an example gives something else, and no error
	Waived  string    // the reason why it may survive; empty without one
	Closing *Proposal // for a survivor, an example that would kill it; nil where none was found
}

// Report is what became of the mutants of all rules.
type Report struct {
	Mutants []Mutant
	Stale   []rules.Waiver // waivers that no surviving mutant needs
	Faults  []Fault        // what the search for killing examples came by
}

// Survivors gives the mutants that no example kills and no waiver lets live.
func (m Report) Survivors() []Mutant {
	var out []Mutant
	for _, mu := range m.Mutants {
		if !mu.Killed && mu.Waived == "" {
			out = append(out, mu)
		}
	}
	return out
}

// Mutants changes every rule of a set in each small way and runs its examples:
// where none gives something else, the examples do not pin the rule down there.
func Mutants(set *rules.Set) (Report, error) {
	p, err := newProver(set)
	if err != nil {
		return Report{}, err
	}
	each := make([]Report, len(set.Rules()))
	errs := make([]error, len(each))
	inParallel(len(each), func(i int) { each[i], errs[i] = p.mutants(set.Rules()[i]) })
	var out Report
	for i := range each {
		if errs[i] != nil {
			return out, errs[i]
		}
		out.Mutants = append(out.Mutants, each[i].Mutants...)
		out.Stale = append(out.Stale, each[i].Stale...)
		out.Faults = append(out.Faults, each[i].Faults...)
	}
	return out, nil
}

// mutants makes the mutants of one rule, and looks for what would kill those that
// survive.
func (p *prover) mutants(r *rules.Rule) (Report, error) {
	var out Report
	var goals []*goal
	var alive []int // the mutant of each goal
	examples := p.examples(r)
	for _, e := range r.Deciding() {
		found, err := p.lang.NewScope().Mutants(e.Text)
		if err != nil {
			return out, fmt.Errorf("%s: %s: %w", e.At(0), r.ID, err)
		}
		for _, m := range found {
			changed, ok := p.set.Variant(r, map[string]string{e.Key: m.Text})
			if !ok {
				continue // it would not load, so nobody can have written it
			}
			mu := Mutant{Rule: r, Pos: e.At(m.At), In: e.Key, Change: m.Change, Text: m.Text}
			if mu.Killed = p.killed(r, changed, examples); !mu.Killed {
				alive = append(alive, len(out.Mutants))
				goals = append(goals, &goal{hit: func(t probe) bool { return p.tells(changed, t, t.got) }})
			}
			out.Mutants = append(out.Mutants, mu)
		}
	}
	if len(goals) > 0 {
		out.Faults = newExplorer(p, r).search(goals)
	}
	for i, g := range goals {
		out.Mutants[alive[i]].Closing = g.found
	}
	out.waive(r)
	return out, nil
}

// waive lets those live that a waiver names, and finds the waivers that none needs.
func (m *Report) waive(r *rules.Rule) {
	for _, w := range r.Waivers() {
		used := false
		for i := range m.Mutants {
			if mu := &m.Mutants[i]; !mu.Killed && mu.Waived == "" && mu.In == w.In && mu.Change == w.Change {
				mu.Waived, used = w.Reason, true
			}
		}
		if !used {
			m.Stale = append(m.Stale, w)
		}
	}
}

// killed says whether an example gives something else for the changed rule.
func (p *prover) killed(r, changed *rules.Rule, examples []probe) bool {
	for i, ex := range r.Examples() {
		if p.tells(changed, examples[i], ex.Want) {
			return true
		}
	}
	return false
}

// tells says whether the changed rule gives something else than is wanted. A
// change that only goes wrong is told by nobody: the example was written for
// another slip, and an author who made this one would see no verdict at all.
func (p *prover) tells(changed *rules.Rule, facts probe, want rules.Outcome) bool {
	got, _ := p.set.Gives(changed, facts.given, facts.facts)
	return got != rules.OutcomeError && got != want
}

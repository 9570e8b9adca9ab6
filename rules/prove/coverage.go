package prove

import (
	"slices"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Cover says how much of one rule its examples reach.
type Cover struct {
	Rule    *rules.Rule
	Reached []rules.Outcome // but for errors, which are none
	Total   int             // outcomes that the rule can give, and both ways of each condition
	Covered int
	Gaps    []Gap
	Faults  []Fault // what the search for closing examples came by
}

// Gap is something that no example reaches.
type Gap struct {
	Pos     source.Pos
	Text    string
	Closing *Proposal // an example that would reach it; nil where none was found
}

// Coverage measures, for every rule of a set, which outcomes its examples reach
// and whether each condition between && and || comes out both ways.
func Coverage(set *rules.Set) ([]Cover, error) {
	p, err := newProver(set)
	if err != nil {
		return nil, err
	}
	out := make([]Cover, len(set.Rules()))
	inParallel(len(out), func(i int) { out[i] = p.coverage(set.Rules()[i]) })
	return out, nil
}

// coverer gathers the coverage of one rule.
type coverer struct {
	*prover
	Cover
	examples []probe
	goals    []*goal // one for each gap that an example can close
	gaps     []int   // the index in Gaps of each goal
}

func (p *prover) coverage(r *rules.Rule) Cover {
	c := &coverer{prover: p, Cover: Cover{Rule: r}, examples: p.examples(r)}
	for _, ex := range c.examples {
		if ex.got != rules.OutcomeError && !slices.Contains(c.Reached, ex.got) {
			c.Reached = append(c.Reached, ex.got)
		}
	}
	for _, outcome := range c.possible() {
		c.ask(Gap{Pos: r.Pos, Text: "no example gives " + outcome.String()}, func(t probe) bool { return t.got == outcome })
	}
	for _, e := range r.Expressions() {
		if !strings.HasPrefix(e.Key, "let.") {
			c.atoms(e)
		}
	}
	if len(c.goals) > 0 {
		c.Faults = newExplorer(p, r).search(c.goals)
	}
	for i, g := range c.goals {
		c.Gaps[c.gaps[i]].Closing = g.found
	}
	return c.Cover
}

// ask counts one thing that examples should reach, and keeps the gap where none
// does.
func (c *coverer) ask(g Gap, reached func(probe) bool) {
	c.Total++
	if slices.ContainsFunc(c.examples, func(t probe) bool { return t.got != rules.OutcomeError && reached(t) }) {
		c.Covered++
		return
	}
	c.gaps = append(c.gaps, len(c.Gaps))
	c.goals = append(c.goals, &goal{hit: reached})
	c.Gaps = append(c.Gaps, g)
}

// possible lists the outcomes that a rule can give. Unknown is possible where
// taking a stated fact away from an example gives it.
func (c *coverer) possible() []rules.Outcome {
	out := []rules.Outcome{rules.OutcomePass, rules.OutcomeNotApplied}
	if c.Rule.FailIf != "" {
		out = append(out, rules.OutcomeFail)
	}
	if c.Rule.WarnIf != "" {
		out = append(out, rules.OutcomeWarn)
	}
	if c.canBeUnknown() {
		out = append(out, rules.OutcomeUnknown)
	}
	return out
}

// canBeUnknown tries every example without each of its facts.
func (c *coverer) canBeUnknown() bool {
	if slices.Contains(c.Reached, rules.OutcomeUnknown) {
		return true
	}
	for _, ex := range c.Rule.Examples() {
		for ref := range stated(ex.Given()) {
			if ref.Field().Default != nil {
				continue
			}
			less := with(c.set, ex.Given(), change{ref: ref, value: fact.Value{}})
			if c.probe(c.Rule, less).got == rules.OutcomeUnknown {
				return true
			}
		}
	}
	return false
}

// atoms looks at each condition of one expression both ways: as a rule of its
// own that warns where the condition holds.
func (c *coverer) atoms(e rules.Expression) {
	atoms, err := c.lang.NewScope().Atoms(e.Text)
	if err != nil {
		c.Gaps = append(c.Gaps, Gap{Pos: e.At(0), Text: err.Error()})
		return
	}
	for _, a := range atoms {
		alone, ok := c.set.Variant(c.Rule, map[string]string{"when": "", "fail_if": "", "warn_if": a.Text})
		if !ok {
			c.Gaps = append(c.Gaps, Gap{Pos: e.At(a.At), Text: "the condition cannot be taken apart"})
			continue
		}
		for _, way := range []struct {
			word    string
			outcome rules.Outcome
		}{{"true", rules.OutcomeWarn}, {"false", rules.OutcomePass}} {
			c.ask(Gap{Pos: e.At(a.At), Text: "in no example is " + a.Text + " " + way.word}, func(t probe) bool {
				got, _ := c.set.Gives(alone, t.given, t.facts)
				return got == way.outcome
			})
		}
	}
}

package fit

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Fit finds parts of the kinds that a query names which go on its mix, each combination
// judged as Check judges the mix with them: by the rules that they can change. What
// fails whatever is chosen stands apart, for a bicycle with another fault is to have
// its answer too.
//
// The error is one of the query, or ctx's. One Index answers any number of goroutines.
func (ix *Index) Fit(ctx context.Context, q Query) (Answer, error) {
	switch err := q.fault(); {
	case err != nil:
		return Answer{}, err
	case len(q.Kinds) == 0:
		return Answer{}, fmt.Errorf("fit: no kind is named to choose; known are %s", strings.Join(catalog.KindNames(), ", "))
	case len(ix.rules) == 0:
		return Answer{}, errNoRules
	}
	q = q.bounded()
	s := ix.searching(ctx, &q, true)
	defer s.close()
	answer := Answer{Mix: q.Mix.Name(), Kinds: slices.Clone(q.Kinds)}
	for i := range s.vars {
		answer.Parts = append(answer.Parts, s.vars[i].parts())
	}
	s.all()
	if s.err != nil {
		return Answer{}, s.err
	}
	answer.Cut = s.cut
	for _, f := range s.found {
		answer.Choices = append(answer.Choices, s.choice(f))
	}
	answer.Standing = s.standing()
	answer.Refused = s.refused()
	if len(answer.Choices) == 0 && !answer.Cut {
		answer.Blocked = s.blocking()
	}
	return answer, s.err
}

// all searches within one allowance after another until enough is found.
func (s *search) all() {
	for _, allow := range s.query.passes() {
		if s.run(allow); s.err != nil || len(s.found) >= s.query.Limit {
			return
		}
	}
}

// parts counts how many there are to choose from.
func (v *variable) parts() int {
	n := 0
	for _, c := range v.all {
		n += c.count
	}
	return n
}

// choice makes a choice of what was found.
func (s *search) choice(f found) Choice {
	c := Choice{
		Cents: f.cost.cents, Unpriced: f.cost.unpriced, Warnings: len(f.warns), Unknowns: len(f.open),
		Warns: s.named(f.warns), Open: s.named(f.open), Passes: f.passes, on: s.base, checker: s.ix.checker,
	}
	for i := range s.vars {
		v := &s.vars[i]
		of := &v.all[f.parts[i]]
		if of.fitted {
			c.kept |= 1 << v.place
		}
		c.Parts = append(c.Parts, of.part)
		c.Alike = append(c.Alike, s.alike(v, of.at, f.alike[i]))
	}
	return c
}

// named gives the ids of rules, in their order.
func (s *search) named(tables []int) []string {
	var out []string
	for _, i := range tables {
		out = append(out, s.ix.rules[s.tables[i].rule].id)
	}
	return out
}

// alike gives the parts that do as well as a candidate, the cheapest first.
func (s *search) alike(v *variable, at int, others []int) []catalog.Part {
	type priced struct {
		part catalog.Part
		cost cost
	}
	var list []priced
	for _, i := range append([]int{at}, others...) {
		c := &v.all[i]
		if c.fitted { // the cheapest of all, it is never among the others
			continue
		}
		for _, m := range s.ix.kinds[v.place].classes[c.class].members {
			p := s.ix.kinds[v.place].parts[m]
			if price, ok := s.query.priced(p); ok && p != v.same && (i != at || p != c.part) {
				list = append(list, priced{p, price})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b priced) int { return a.cost.compare(b.cost) })
	var out []catalog.Part
	for _, p := range list {
		out = append(out, p.part)
	}
	return out
}

// standing gives the fails and unknowns of rules that no choice can change.
func (s *search) standing() []compat.Finding {
	m, kinds := s.base, uint64(0)
	for i := range s.vars {
		kinds |= 1 << s.vars[i].place
		if all := s.vars[i].all; len(all) > 0 {
			m = m.With(all[0].part)
		}
	}
	fixed := map[string]bool{}
	for _, r := range s.ix.rules {
		fixed[r.id] = r.reach&kinds == 0
	}
	report := s.ix.checker.Check(m)
	if !slices.ContainsFunc(report.Verdicts(), func(v compat.RuleVerdict) bool { return stands(v.Verdict) && fixed[v.Rule] }) {
		return nil // texts take longer than the search
	}
	return slices.DeleteFunc(report.Findings(), func(f compat.Finding) bool { return !stands(f.Verdict) || !fixed[f.Rule] })
}

// stands says whether a verdict is in the way of an order.
func stands(v rules.Verdict) bool { return v == rules.Fail || v == rules.Unknown }

// refused counts the parts that a rule refuses whatever else is chosen, within the
// widest allowance of the query.
func (s *search) refused() []Refusal {
	passes := s.query.passes()
	s.allow = passes[len(passes)-1]
	var out []Refusal
	for i := range s.vars {
		v := &s.vars[i]
		counts := map[int]*Refusal{}
		var met []int
		for k := range v.all {
			at, says := s.refusing(v, &v.all[k])
			if at < 0 {
				continue
			}
			if counts[at] == nil {
				counts[at] = &Refusal{Rule: s.ix.rules[s.tables[at].rule].id, Kind: v.kind}
				met = append(met, at)
			}
			counts[at].Parts += v.all[k].count
			if says == open {
				counts[at].Open += v.all[k].count
			}
		}
		slices.SortFunc(met, func(a, b int) int {
			if n := counts[b].Parts - counts[a].Parts; n != 0 {
				return n
			}
			return a - b
		})
		for _, at := range met {
			out = append(out, *counts[at])
		}
	}
	return out
}

// refusing gives the first rule that refuses a candidate by itself; -1 for none.
func (s *search) refusing(v *variable, c *candidate) (table int, says verdict) {
	for _, i := range v.tables {
		if t := &s.tables[i]; len(t.vars) == 1 {
			if says := s.alone(t, c); !s.allows(t, says) {
				return i, says
			}
		}
	}
	return -1, unasked
}

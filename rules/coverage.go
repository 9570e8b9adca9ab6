package rules

import (
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Coverage says how much of one rule its examples reach.
type Coverage struct {
	Rule    *Rule
	Reached []string // of pass, warn, fail, unknown and not_applied
	Total   int      // outcomes that the rule can give, and both ways of each condition
	Covered int
	Gaps    []Gap
}

// Gap is something that no example reaches.
type Gap struct {
	Pos     source.Pos
	Text    string
	Closing string // the facts of an example that would reach it; empty where none was found
}

// Coverage measures, for every rule, which outcomes its examples reach and whether
// each condition between && and || comes out both ways.
func (s *Set) Coverage() []Coverage {
	out := make([]Coverage, len(s.rules))
	inParallel(len(s.rules), func(i int) { out[i] = s.coverage(s.rules[i]) })
	return out
}

func (s *Set) coverage(r *Rule) Coverage {
	c := Coverage{Rule: r}
	var all [][]*Record
	for _, ex := range r.examples() {
		records := s.complete(ex.given)
		all = append(all, records)
		if got := s.gives(r, records); !slices.Contains(c.Reached, got) {
			c.Reached = append(c.Reached, got)
		}
	}
	x := newExplorer(s, r)
	for _, outcome := range s.possible(r, x) {
		c.Total++
		if slices.Contains(c.Reached, outcome) {
			c.Covered++
			continue
		}
		closing, _ := x.search(func(records []*Record) bool { return s.gives(r, records) == outcome })
		c.Gaps = append(c.Gaps, Gap{r.Pos, "no example gives " + outcome, closing})
	}
	for _, e := range r.logic().exprs {
		if e.role != expr.Value {
			s.atomsCovered(&c, x, e, all)
		}
	}
	return c
}

// possible lists the outcomes that a rule can give. Unknown is possible where
// taking a stated fact away from an example gives it.
func (s *Set) possible(r *Rule, x *explorer) []string {
	out := []string{"pass", "not_applied"}
	if r.FailIf != "" {
		out = append(out, "fail")
	}
	if r.WarnIf != "" {
		out = append(out, "warn")
	}
	if s.canBeUnknown(r) {
		out = append(out, "unknown")
	}
	return out
}

// canBeUnknown tries every example without each of its facts.
func (s *Set) canBeUnknown(r *Rule) bool {
	for _, ex := range r.examples() {
		if s.gives(r, s.complete(ex.given)) == "unknown" {
			return true
		}
		for i, rec := range ex.given {
			if rec == nil {
				continue
			}
			for j, v := range rec.inner.Values {
				if v.Known && s.vocabulary.objects[i].Table().Fields()[j].Default == nil && s.gives(r, s.complete(s.without(ex.given, i, j))) == "unknown" {
					return true
				}
			}
		}
	}
	return false
}

// without gives records in which one fact is not stated.
func (s *Set) without(records []*Record, object, field int) []*Record {
	out := slices.Clone(records)
	values := slices.Clone(out[object].inner.Values)
	values[field] = fact.Value{}
	out[object] = s.vocabulary.objects[object].NewRecord(values, nil)
	return out
}

// gives is the word for what a rule gives for facts: an error counts as unknown.
func (s *Set) gives(r *Rule, records []*Record) string {
	res := s.one(r, records)
	if len(res.NotApplied) > 0 {
		return "not_applied"
	}
	return res.Findings[0].Ruled.String()
}

// atomsCovered looks at each condition of one expression both ways.
func (s *Set) atomsCovered(c *Coverage, x *explorer, e ruleExpr, all [][]*Record) {
	scope := s.scope(c.Rule)
	atoms, err := scope.Atoms(e.text)
	if err != nil {
		c.Gaps = append(c.Gaps, Gap{e.node.Pos, err.Error(), ""})
		return
	}
	for _, a := range atoms {
		prog, issues := scope.Compile(a.Text, expr.Condition)
		if len(issues) > 0 || prog == nil {
			c.Gaps = append(c.Gaps, Gap{e.node.At(a.At), "the condition cannot be taken apart", ""})
			continue
		}
		for _, want := range []expr.State{expr.True, expr.False} {
			c.Total++
			hit := func(records []*Record) bool { return s.decides(prog, records) == want }
			if slices.ContainsFunc(all, hit) {
				c.Covered++
				continue
			}
			closing, _ := x.search(hit)
			way := map[expr.State]string{expr.True: "true", expr.False: "false"}[want]
			c.Gaps = append(c.Gaps, Gap{e.node.At(a.At), "in no example is " + a.Text + " " + way, closing})
		}
	}
}

func (s *Set) decides(p *expr.Program, records []*Record) expr.State {
	f := s.open(records)
	defer f.Close()
	return p.Decide(f).State
}

// scope makes the scope of a rule's let-names again.
func (s *Set) scope(r *Rule) *expr.Scope {
	scope := s.vocabulary.lang.NewScope()
	for _, l := range r.logic().lets {
		// It was declared once already, so it can be declared again.
		_ = scope.Let(l.name, l.slot, l.prog)
	}
	return scope
}

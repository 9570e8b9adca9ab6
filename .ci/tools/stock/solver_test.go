package stock

import (
	"context"
	"slices"
	"testing"

	"github.com/crillab/gophersat/solver"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// puzzle is the question of Fit as clauses for a solver of propositions: a variable for
// each article, of which one of each kind is true, and one for all articles of a kind in
// which a rule sees the same. What goes together it learns by whole checks: each that
// fails gives a clause, until a solution passes.
type puzzle struct {
	t       *testing.T
	checker *compat.Checker
	mix     compat.Mix
	kinds   []string
	parts   []catalog.Part // by their variables, from 1; an alike one has none
	seen    map[string]int // the variables of what rules see, by rule, kind and facts
	rows    [][]int
	last    int
}

func newPuzzle(t *testing.T, c *compat.Checker, m compat.Mix, from *catalog.Catalog, kinds []string) *puzzle {
	p := &puzzle{t: t, checker: c, mix: m, kinds: kinds, seen: map[string]int{}}
	for _, kind := range kinds {
		var of []int
		for _, part := range from.OfKind(kind) {
			p.parts = append(p.parts, part)
			of = append(of, len(p.parts))
		}
		p.rows = append(p.rows, of)
		for i, x := range of {
			for _, y := range of[:i] {
				p.rows = append(p.rows, []int{-x, -y})
			}
		}
	}
	p.last = len(p.parts)
	return p
}

// weight is a price in few steps: sums of large numbers are what such a solver is slow
// at.
func weight(p catalog.Part) int {
	cents, _ := p.Cents()
	return int(cents/6000) + 1
}

// solve gives articles that go together and cost at most so much, nil where none do, and
// how often it had to learn.
func (p *puzzle) solve(most int) (chosen []catalog.Part, rounds int) {
	var lits, weights []int
	for i, part := range p.parts {
		lits, weights = append(lits, i+1), append(weights, weight(part))
	}
	for rounds = 1; ; rounds++ {
		rows := []solver.PBConstr{solver.LtEq(slices.Clone(lits), slices.Clone(weights), most)}
		for _, row := range p.rows {
			rows = append(rows, solver.PropClause(row...))
		}
		s := solver.New(solver.ParsePBConstrs(rows))
		if s.Solve() != solver.Sat {
			return nil, rounds
		}
		chosen = nil
		for i, holds := range s.Model()[:len(p.parts)] {
			if holds {
				chosen = append(chosen, p.parts[i])
			}
		}
		if p.learn(chosen) == 0 {
			return chosen, rounds
		}
	}
}

// learn forbids what fails of a choice, and says how many rules that were.
func (p *puzzle) learn(chosen []catalog.Part) int {
	n := 0
	for _, v := range p.checker.Check(p.mix.Refit(chosen...)).Verdicts() {
		rule, _ := p.checker.Rules().Rule(v.Rule)
		if v.Verdict != rules.Fail && v.Verdict != rules.Unknown || !p.concerns(rule) {
			continue
		}
		var clause []int
		for _, part := range chosen {
			if y := p.sees(rule, part); y > 0 {
				clause = append(clause, -y)
			}
		}
		p.rows = append(p.rows, clause)
		n++
	}
	return n
}

// concerns says whether a rule reads a kind that is to be chosen.
func (p *puzzle) concerns(rule *rules.Rule) bool {
	for _, ref := range p.checker.RuleReads(rule) {
		for _, kind := range p.kinds {
			if ref.Object.Name() == kind {
				return true
			}
		}
	}
	return false
}

// sees gives the variable of what a rule sees in a part: true where one of the articles
// with the same facts is chosen; 0 where it reads nothing of it.
func (p *puzzle) sees(rule *rules.Rule, part catalog.Part) int {
	key := func(of catalog.Part) (string, bool) {
		out, some := []byte(rule.ID+" "+of.Kind()+" "), false
		for _, ref := range p.checker.RuleReads(rule) {
			if ref.Object.Name() == of.Kind() {
				out, some = of.Record().At(ref.Index).AppendKey(out), true
			}
		}
		return string(out), some
	}
	mine, some := key(part)
	if !some {
		return 0
	}
	if y := p.seen[mine]; y > 0 {
		return y
	}
	p.last++
	p.seen[mine] = p.last
	for i, other := range p.parts {
		if other.Kind() != part.Kind() {
			continue
		}
		if theirs, _ := key(other); theirs == mine {
			p.rows = append(p.rows, []int{-(i + 1), p.last})
		}
	}
	return p.last
}

// Where Fit finds nothing, a solver of propositions finds nothing either, which knows
// nothing of how Fit searches; else it finds something for the price of the cheapest
// choice, and nothing for less.
func TestSolverAgrees(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	solved, none := 0, 0
	for seed := range 20 {
		parts, err := Make(Options{Seed: uint64(seed) + 100, Each: 12, Kinds: Kinds(), Price: Hurting})
		if err != nil {
			t.Fatal(err)
		}
		from, err := catalog.Of(parts...)
		if err != nil {
			t.Fatal(err)
		}
		m := bare(t, seed)
		answer, err := fit.NewIndex(c, from).Fit(context.Background(), fit.Query{Mix: m, Kinds: Kinds(), Limit: 1, Budget: 1 << 30,
			Price: func(p catalog.Part) (int64, bool) { return int64(weight(p)), true }})
		if err != nil || answer.Cut {
			t.Fatalf("problem %d: %v, cut %t", seed, err, answer.Cut)
		}
		p := newPuzzle(t, c, m, from, Kinds())
		if len(answer.Choices) == 0 {
			none++
			if chosen, _ := p.solve(1 << 20); chosen != nil {
				t.Errorf("problem %d: Fit finds nothing, the solver %v", seed, chosen)
			}
			continue
		}
		solved++
		best := int(answer.Choices[0].Cents)
		same, first := p.solve(best)
		less, second := p.solve(best - 1)
		if same == nil || less != nil {
			t.Errorf("problem %d: Fit pays %d; the solver finds %v for that, and %v for less", seed, best, same, less)
		}
		t.Logf("problem %d: %d after %d rounds, nothing for less after %d", seed, best, first, second)
	}
	t.Logf("%d solved, %d without an answer", solved, none)
	if solved < 10 {
		t.Errorf("only %d problems have an answer", solved)
	}
}

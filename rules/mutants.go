package rules

import (
	"fmt"
	"runtime"
	"slices"
	"sync"

	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Mutant is one small change of a rule, as a slip of its author might make it.
type Mutant struct {
	Rule    *Rule
	Pos     source.Pos
	In      string // the expression that is changed: when, fail_if, warn_if or let.NAME
	Change  string // what is changed, such as "> becomes >="
	Text    string // the changed expression
	Killed  bool   // an example gives something else
	Waived  string // the reason why it may survive; empty without one
	Closing string // for a survivor, the facts of an example that would kill it
}

// Waiver lets one mutant survive, for a reason.
type Waiver struct {
	In, Change, Reason string
	Pos                source.Pos
}

// MutantReport is what became of the mutants of all rules.
type MutantReport struct {
	Mutants []Mutant
	Stale   []Waiver // waivers that no surviving mutant needs
}

// Survivors gives the mutants that no example kills and no waiver lets live.
func (m MutantReport) Survivors() []Mutant {
	var out []Mutant
	for _, mu := range m.Mutants {
		if !mu.Killed && mu.Waived == "" {
			out = append(out, mu)
		}
	}
	return out
}

// Mutants changes every rule in each small way and runs its examples: where none
// gives something else, the examples do not pin the rule down there.
func (s *Set) Mutants() (MutantReport, error) {
	each := make([]MutantReport, len(s.rules))
	errs := make([]error, len(s.rules))
	inParallel(len(s.rules), func(i int) { each[i], errs[i] = s.mutants(s.rules[i]) })
	var out MutantReport
	for i := range each {
		if errs[i] != nil {
			return out, errs[i]
		}
		out.Mutants = append(out.Mutants, each[i].Mutants...)
		out.Stale = append(out.Stale, each[i].Stale...)
	}
	return out, nil
}

// deciding marks the expressions that the verdict depends on: the conditions, and
// the let-names that they read, through others too.
func (r *Rule) deciding() map[string]bool {
	marks := map[string]bool{}
	for _, e := range slices.Backward(r.logic().exprs) {
		if e.role == expr.Value && !marks[e.key] {
			continue
		}
		marks[e.key] = true
		for _, name := range expr.Names(e.text) {
			marks["let."+name] = true
		}
	}
	return marks
}

// inParallel calls f for 0 to n-1 on all cores.
func inParallel(n int, f func(i int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}

func (s *Set) mutants(r *Rule) (MutantReport, error) {
	var out MutantReport
	completed := make([][]*Record, len(r.examples()))
	for i, ex := range r.examples() {
		completed[i] = s.complete(ex.given)
	}
	var x *explorer
	used := map[int]bool{}
	decides := r.deciding()
	for at, e := range r.logic().exprs {
		if !decides[e.key] {
			continue // only texts read it
		}
		found, err := s.scope(r).Mutants(e.text)
		if err != nil {
			return out, fmt.Errorf("%s: %s: %w", e.node.Pos, r.ID, err)
		}
		for _, m := range found {
			changed, ok := s.changed(r, at, m.Text)
			if !ok {
				continue // it would not load, so nobody can have written it
			}
			mu := Mutant{Rule: r, Pos: e.node.At(m.At), In: e.key, Change: m.Change, Text: m.Text}
			mu.Killed = s.killed(r, changed, completed)
			if !mu.Killed {
				if x == nil {
					x = newExplorer(s, r)
				}
				mu.Closing, _ = x.search(func(records []*Record) bool { return s.gives(r, records) != s.gives(changed, records) })
				if i := slices.IndexFunc(r.waivers, func(w Waiver) bool { return w.In == mu.In && w.Change == mu.Change }); i >= 0 {
					mu.Waived, used[i] = r.waivers[i].Reason, true
				}
			}
			out.Mutants = append(out.Mutants, mu)
		}
	}
	for i, w := range r.waivers {
		if !used[i] {
			out.Stale = append(out.Stale, w)
		}
	}
	return out, nil
}

// killed says whether an example gives something else for the changed rule.
func (s *Set) killed(r, changed *Rule, completed [][]*Record) bool {
	for i, ex := range r.examples() {
		if s.gives(changed, completed[i]) != ex.Want {
			return true
		}
	}
	return false
}

// changed compiles a rule in which one expression has another text. Only that
// expression and the let-names below it are compiled again.
func (s *Set) changed(r *Rule, at int, text string) (*Rule, bool) {
	old, g := r.logic(), &logic{}
	scope := s.vocabulary.lang.NewScope()
	stale := false // a let-name was changed, so what reads it must be compiled again
	lets := 0
	for i, e := range old.exprs {
		prog := e.prog
		if i == at || stale {
			body := e.text
			if i == at {
				body = text
			}
			var issues []expr.Issue
			if prog, issues = scope.Compile(body, e.role); prog == nil || len(issues) > 0 {
				return nil, false
			}
		}
		switch e.key {
		case "when":
			g.when = prog
		case "fail_if":
			g.conds = append(g.conds, condition{prog, Fail})
		case "warn_if":
			g.conds = append(g.conds, condition{prog, Warn})
		default:
			l := old.lets[lets]
			lets++
			stale = stale || i == at
			l.prog = prog
			if scope.Let(l.name, l.slot, prog) != nil {
				return nil, false
			}
			g.lets = append(g.lets, l)
		}
	}
	out := *r
	out.logic = func() *logic { return g }
	return &out, true
}

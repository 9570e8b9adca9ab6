package prove

import (
	"runtime"
	"sync"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Fault is a rule that went wrong at facts which the search came by.
type Fault struct {
	Rule *rules.Rule
	Pos  source.Pos
	Text string // the facts, and what went wrong

	says string // what went wrong alone
}

// prover is what the measuring of one set shares.
type prover struct {
	set  *rules.Set
	lang *expr.Language
}

func newProver(set *rules.Set) (*prover, error) {
	var objects []*expr.Object
	for _, o := range set.Vocabulary().Objects() {
		objects = append(objects, expr.NewObject(o.Name(), o.Doc(), o.Table()))
	}
	lang, err := expr.NewLanguage(objects...)
	return &prover{set, lang}, err
}

// examples gives the examples of a rule, tried.
func (p *prover) examples(r *rules.Rule) []probe {
	var out []probe
	for _, ex := range r.Examples() {
		out = append(out, p.probe(r, ex.Given()))
	}
	return out
}

// probe is facts that are tried, and what the rule comes to for them.
type probe struct {
	given []*rules.Record // as an example states them
	facts []*rules.Record // with what is computed of them
	got   rules.Outcome
	fault string // of an OutcomeError
}

func (p *prover) probe(r *rules.Rule, given []*rules.Record) probe {
	out := probe{given: given, facts: p.set.Complete(given)}
	out.got, out.fault = p.set.Gives(r, given, out.facts)
	return out
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

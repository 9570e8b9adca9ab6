package rules

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules/internal/expr"
)

// Result is what a set of rules says of one set of facts. It keeps the records,
// so that texts are made only when asked for. It is immutable.
type Result struct {
	Findings   []Finding // in file order
	NotApplied []NotApplied

	set      *Set
	records  []*Record
	frame    *expr.Frame // of these, while they are for use alone
	memory   *arena      // nil where every rule passes
	onlyFail bool        // rules that can fail are asked for that alone, and not whether they warn
}

// arena is the memory that the names and details of a Result lie in: a few
// allocations in place of one for each rule that does not pass.
type arena struct {
	names   []string
	details []Detail
}

// Evaluate applies every rule to the facts: one record for each object of the
// vocabulary in its order, nil for an object that is not there. It never fails;
// what cannot be decided is Unknown and says why.
func (s *Set) Evaluate(records []*Record) *Result {
	both := new(struct { // in one piece of memory
		res    Result
		memory arena
	})
	res := &both.res
	*res = Result{set: s, records: records, Findings: make([]Finding, 0, len(s.rules)), memory: &both.memory}
	f := s.open(records)
	defer f.Close()
	res.applyAll(s.rules, f)
	res.hold(s.rules, s.again)
	return res
}

// EvaluateOnce is Evaluate for use alone: neither the Result nor what hangs on it may be
// kept beyond it, for their memory serves again.
func (s *Set) EvaluateOnce(records []*Record, use func(*Result)) { s.SomeOnce(s.rules, records, use) }

// SomeOnce is Some for use alone, as EvaluateOnce is Evaluate.
func (s *Set) SomeOnce(some []*Rule, records []*Record, use func(*Result)) {
	res := s.results.Get().(*Result)
	defer res.release()
	res.set, res.records = s, records // a set of some rules alone shares its memory
	f := s.open(records)
	defer f.Close()
	res.applyAll(some, f)
	res.hold(some, s.again)
	res.frame = f
	use(res)
}

// newResult makes one whose memory serves again.
func (s *Set) newResult() any {
	n := len(s.rules)
	return &Result{set: s, Findings: make([]Finding, 0, n), NotApplied: make([]NotApplied, 0, n),
		memory: &arena{names: make([]string, 0, 2*n), details: make([]Detail, 0, n/4)}}
}

// release gives the memory back without holding on to anybody's facts.
func (res *Result) release() {
	m := res.memory
	clear(res.Findings)
	clear(res.NotApplied)
	clear(m.names)
	clear(m.details)
	res.records, res.frame, res.Findings, res.NotApplied = nil, nil, res.Findings[:0], res.NotApplied[:0]
	m.names, m.details = m.names[:0], m.details[:0]
	res.set.results.Put(res)
}

// hold holds what rules say against tolerances, against what is usual, and against the
// other kinds of parts that a count may stand for.
func (res *Result) hold(rules []*Rule, again again) {
	res.margins(rules, again)
	res.lean(rules, again)
	res.among(rules)
}

// open gives a frame in which expressions read these records; the caller closes it.
func (s *Set) open(records []*Record) *expr.Frame {
	f := s.frames.Open()
	for i, r := range records {
		if r != nil {
			f.Put(i, &r.inner)
		}
	}
	return f
}

// applyAll adds what the rules say. A panic in a function of the language becomes
// the error of its rule, and the next is applied.
func (res *Result) applyAll(rules []*Rule, f *expr.Frame) {
	for done := 0; done < len(rules); {
		done += res.applySome(rules[done:], f)
	}
}

// applySome applies rules up to the last, or to one that panics, and counts them.
func (res *Result) applySome(rules []*Rule, f *expr.Frame) (done int) {
	defer func() {
		if p := recover(); p != nil {
			res.Findings = append(res.Findings, Finding{Rule: rules[done], Detail: &Detail{Err: fmt.Sprintf("internal error: %v", p)}})
			done++
		}
	}()
	for ; done < len(rules); done++ {
		res.apply(rules[done], f)
	}
	return done
}

// apply adds what one rule says. Closures decide most rules; only where they cannot
// is the engine asked, which also knows why.
func (res *Result) apply(r *Rule, f *expr.Frame) {
	g := r.logic()
	verdict, state, open := g.quickly(res.conds(g), f)
	detail := noDetail
	if state != expr.True {
		var o judgement
		if state == expr.False {
			o = res.whenFalse(g, f)
		} else {
			o = res.judge(g, f, open)
		}
		if o.reason != "" {
			res.notApplied(NotApplied{Rule: r, Reason: o.reason, Names: o.names, Quiet: o.quiet})
			return
		}
		if verdict = o.verdict; verdict == Unknown {
			detail = res.detail(Detail{Missing: o.names, Err: o.err})
		}
	}
	if verdict == Fail {
		if assumed := res.set.hangsOnAssumed(r, f); len(assumed) > 0 {
			verdict, detail = Warn, res.detail(Detail{Assumed: assumed})
		}
	}
	finding := Finding{Rule: r, Detail: detail}
	res.give(&finding, verdict) // before it is kept: the clock is not this package's code
	res.Findings = append(res.Findings, finding)
}

// give puts a verdict into a finding, and what an adjustment in force makes of it.
func (res *Result) give(f *Finding, ruled Verdict) {
	f.Verdict, f.Ruled = ruled, ruled
	if a := f.Rule.adjust; a != nil && (ruled == Warn || ruled == Fail) && res.set.inForce(a) {
		f.Verdict = a.To
	}
}

// notApplied keeps a rule that has nothing to say.
func (res *Result) notApplied(n NotApplied) {
	if res.NotApplied == nil {
		// There are at most as many as findings are still to come.
		res.NotApplied = make([]NotApplied, 0, cap(res.Findings)-len(res.Findings))
	}
	res.NotApplied = append(res.NotApplied, n)
}

// arena gives the memory of a result.
func (res *Result) arena() *arena {
	if res.memory == nil {
		res.memory = &arena{}
	}
	return res.memory
}

// detail keeps what a finding says beyond its verdict, in memory that several share.
func (res *Result) detail(d Detail) *Detail {
	m := res.arena()
	if len(m.details) == cap(m.details) {
		m.details = make([]Detail, 0, 8)
	}
	m.details = append(m.details, d)
	return &m.details[len(m.details)-1]
}

// list keeps a list of names, in memory that several share. It cannot be appended
// to without being copied, so that no list writes into the next.
func (res *Result) list(names ...string) []string { return res.longer(names) }

// longer is list of names behind others.
func (res *Result) longer(names []string, more ...string) []string {
	m := res.arena()
	if need := len(names) + len(more); cap(m.names)-len(m.names) < need {
		m.names = make([]string, 0, max(96, need))
	}
	start := len(m.names)
	m.names = append(append(m.names, names...), more...)
	return slices.Clip(m.names[start:])
}

// addNew appends the names that are not there yet.
func addNew(to, names []string) []string {
	for _, n := range names {
		if !slices.Contains(to, n) {
			to = append(to, n)
		}
	}
	return to
}

// Some applies some of the set's rules alone, as Evaluate applies all. They stand in
// the order of the set.
func (s *Set) Some(some []*Rule, records []*Record) *Result { return s.someBy(some, records, s.again) }

// oneBy applies one rule alone, as Evaluate applies all, where facts that have moved are told otherwise what
// hangs on them.
func (s *Set) oneBy(r *Rule, records []*Record, again again) *Result {
	return s.someBy([]*Rule{r}, records, again)
}

func (s *Set) someBy(some []*Rule, records []*Record, again again) *Result {
	res := &Result{set: s, records: records, Findings: make([]Finding, 0, len(some))}
	f := s.open(records)
	defer f.Close()
	res.applyAll(some, f)
	res.hold(some, again)
	return res
}

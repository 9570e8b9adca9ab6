package rules

import "example.org/cogcourt/rules/internal/expr"

// Decider decides single rules over records that change one at a time, as a search
// over many parts does. Each answer is that of Set.Evaluate for the rule alone, with
// its adjustment, its tolerances and what is usual. It is for one goroutine.
type Decider struct {
	res   Result
	frame *expr.Frame
	one   [1]*Rule
}

// Decider makes one for records as Evaluate takes them: one for each object of the
// vocabulary in its order, nil for one that is not there. The list is copied.
func (s *Set) Decider(records []*Record) *Decider {
	d := &Decider{res: Result{set: s, records: append([]*Record(nil), records...)}}
	d.frame = s.open(d.res.records)
	return d
}

// Put exchanges the record of the i-th object, nil for none. A computed record whose
// values have changed in place is put again.
func (d *Decider) Put(i int, r *Record) {
	d.res.records[i] = r
	if r == nil {
		d.frame.Put(i, nil)
	} else {
		d.frame.Put(i, &r.inner)
	}
	d.frame.Renew()
}

// Decide decides one rule, by its place in Set.Rules. It is false where the rule is not
// applied: where it has nothing to say of these records.
func (d *Decider) Decide(rule int) (Finding, bool) {
	res := &d.res
	res.Findings, res.NotApplied = res.Findings[:0], res.NotApplied[:0]
	d.one[0] = res.set.rules[rule]
	res.applyAll(d.one[:], d.frame)
	res.hold(d.one[:], res.set.again)
	if len(res.Findings) == 0 {
		return Finding{}, false
	}
	return res.Findings[0], true
}

// Close gives the memory of a Decider back, which is not to be used afterwards.
func (d *Decider) Close() { d.frame.Close() }

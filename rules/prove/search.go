package prove

import (
	"iter"
	"slices"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// explorer looks for facts at which something holds, near the examples of a
// rule: it changes one fact, then two, to values at which the rule's conditions
// may turn. It finds the example that an author would have to write.
type explorer struct {
	*prover
	rule    *rules.Rule
	changes [][]change // what to try, for each fact apart
	faults  []Fault
}

// searchBudget bounds the facts that are tried for all goals of one rule together.
const searchBudget = 12_000

// goal is something that an example is wanted for.
type goal struct {
	hit   func(probe) bool
	found *Proposal
}

// change puts one value into one fact, or takes it away where the value is not
// known. Without a field it takes the whole object away.
type change struct {
	ref   rules.Ref
	value fact.Value
}

// wholeObject is the index of a change that takes an object away.
const wholeObject = -1

// search tries facts until every goal has its example, or the budget is used up:
// each is completed once and held against all goals that are open. Facts at which
// the rule goes wrong close nothing, and are given back, one for each fault.
func (x *explorer) search(goals []*goal) []Fault {
	open := slices.Clone(goals)
	tries := 0
	for like, given := range x.attempts() {
		if tries++; tries > searchBudget || len(open) == 0 {
			break
		}
		t := x.probe(x.rule, given)
		if t.got == rules.OutcomeError {
			x.fault(like, t)
			continue
		}
		open = slices.DeleteFunc(open, func(g *goal) bool {
			if g.hit(t) {
				g.found = x.close(g, like, t)
			}
			return g.found != nil
		})
	}
	return x.faults
}

// close makes the example of facts that hit a goal, where it would load and still
// hits when it is read.
func (x *explorer) close(g *goal, like rules.Example, t probe) *Proposal {
	p, read := x.propose(like, t.given)
	if p == nil {
		return nil
	}
	if again := x.probe(x.rule, read); again.got != t.got || !g.hit(again) {
		return nil
	}
	return p
}

// fault keeps facts at which the rule goes wrong, once for each way to go wrong.
// A figure that says of itself that the facts do not fit each other is no fault of
// the rule.
func (x *explorer) fault(like rules.Example, t probe) {
	for _, rec := range t.facts {
		if rec == nil {
			continue
		}
		for i := range rec.Object().Table().Fields() {
			if rec.Lack(i).Fault == t.fault {
				return
			}
		}
	}
	says := "this rule goes wrong: " + t.fault
	if slices.ContainsFunc(x.faults, func(f Fault) bool { return f.says == says }) {
		return
	}
	if p, _ := x.propose(like, t.given); p == nil {
		return // nobody could state these facts
	}
	at := ""
	for i, d := range differences(x.set, like.Given(), t.given) {
		switch {
		case i > 0:
			at += " and "
		case !d.gone:
			at = "at "
		}
		at += d.String()
	}
	x.faults = append(x.faults, Fault{Rule: x.rule, Pos: x.rule.Pos, Text: at + " " + says, says: says})
}

// attempts gives facts to try, each with the example that it is near: with one
// fact changed, then with two, the likelier values of all facts first.
func (x *explorer) attempts() iter.Seq2[rules.Example, []*rules.Record] {
	return func(yield func(rules.Example, []*rules.Record) bool) {
		try := func(changes ...change) bool {
			for _, ex := range x.rule.Examples() {
				given := ex.Given()
				for _, c := range changes {
					given = with(x.set, given, c)
				}
				if !yield(ex, given) {
					return false
				}
			}
			return true
		}
		// An example that states something says more than one that leaves it out.
		for _, states := range []bool{true, false} {
			for c := range x.singles(states) {
				if !try(c) {
					return
				}
			}
		}
		for a, b := range x.pairs() {
			if !try(a, b) {
				return
			}
		}
	}
}

// singles gives the changes that state a value, or those that take one away.
func (x *explorer) singles(states bool) iter.Seq[change] {
	return func(yield func(change) bool) {
		for _, one := range x.changes {
			for _, c := range one {
				if c.value.Known == states && !yield(c) {
					return
				}
			}
		}
	}
}

// pairs gives two changes of different facts, by how far down they stand in their
// lists together.
func (x *explorer) pairs() iter.Seq2[change, change] {
	longest := 0
	for _, one := range x.changes {
		longest = max(longest, len(one))
	}
	return func(yield func(a, b change) bool) {
		for depth := range 2 * longest {
			for i, first := range x.changes {
				if !diagonals(first, x.changes[i+1:], depth, yield) {
					return
				}
			}
		}
	}
}

// diagonals gives the pairs of one fact with each of others whose indexes in their
// lists make this depth together. It is false where there was enough.
func diagonals(first []change, others [][]change, depth int, yield func(a, b change) bool) bool {
	for _, second := range others {
		for at := max(0, depth-len(second)+1); at <= min(depth, len(first)-1); at++ {
			if !yield(first[at], second[depth-at]) {
				return false
			}
		}
	}
	return true
}

// with gives records in which one fact is changed. What cannot be stated beside
// the new value is no longer stated: another field that says the same, a list
// whose length goes with this one.
func with(set *rules.Set, records []*rules.Record, c change) []*rules.Record {
	out := slices.Clone(records)
	index := slices.Index(set.Vocabulary().Objects(), c.ref.Object)
	if c.ref.Index == wholeObject {
		out[index] = nil
		return out
	}
	fields := c.ref.Object.Table().Fields()
	values := make([]fact.Value, len(fields))
	if rec := out[index]; rec != nil {
		for i := range values {
			values[i] = rec.Value(i)
		}
	}
	values[c.ref.Index] = c.value
	for i, f := range fields {
		for _, other := range []string{f.Excludes, f.OneLess} {
			j, ok := c.ref.Object.Table().Index(other)
			if !ok || i != c.ref.Index && j != c.ref.Index || !values[i].Known || !values[j].Known {
				continue
			}
			if other == f.Excludes || len(values[i].List) != len(values[j].List)-1 {
				values[i+j-c.ref.Index] = fact.Value{}
			}
		}
	}
	out[index] = c.ref.Object.NewRecord(values, nil)
	return out
}

// stated gives the facts that records state, in the order of the vocabulary.
func stated(records []*rules.Record) iter.Seq[rules.Ref] {
	return func(yield func(rules.Ref) bool) {
		for _, rec := range records {
			if rec == nil {
				continue
			}
			for i := range rec.Object().Table().Fields() {
				if rec.At(i).Known && !yield(rules.Ref{Object: rec.Object(), Index: i}) {
					return
				}
			}
		}
	}
}

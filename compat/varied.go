package compat

import (
	"cmp"
	"fmt"
	"slices"
	"sync"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// varied judges a mix with one fact at one value after another. Of the rules only
// those that hang on the fact are asked each time: what the others say stays.
type varied struct {
	checker *Checker
	ref     rules.Ref
	grid    float64  // of a number; 0 for what is none
	words   []string // what a fact may be that is no number
	state   func(v fact.Value) (Mix, error)

	hangs *rules.Set
	reads []rules.Ref // by the rules that hang on it
	rest  tally
	ready bool // rest is counted
}

// tally is what an overall verdict is made of.
type tally struct {
	count int
	worst rules.Verdict
	open  bool // one is Unknown
}

func (t *tally) add(v rules.Verdict) {
	if t.count == 0 || v.Rank() < t.worst.Rank() {
		t.worst = v
	}
	t.count++
	t.open = t.open || v == rules.Unknown
}

// varied makes ready to vary one fact; of the rules, where any are wanted by their
// ids, those alone are asked.
func (c *Checker) varied(m Mix, name string, wanted []string) (*varied, error) {
	ref, err := varies(m, name)
	if err != nil {
		return nil, err
	}
	v := &varied{checker: c, ref: ref, grid: ref.Field().Grid(), words: wordsOf(ref.Field())}
	if v.state, err = stater(m, ref); err != nil {
		return nil, err
	}
	if c.set == nil {
		return v, nil
	}
	hangs := map[string]bool{}
	for _, r := range c.set.Rules() {
		if slices.Contains(c.set.Facts(r), ref) && (wanted == nil || slices.Contains(wanted, r.ID)) {
			hangs[r.ID] = true
			v.reads = append(v.reads, c.set.Reads(r)...)
		}
	}
	v.hangs = c.set.Only(func(id string) bool { return hangs[id] })
	return v, nil
}

// stater gives what states a fact of the mix.
func stater(m Mix, ref rules.Ref) (func(v fact.Value) (Mix, error), error) {
	if ref.Object == figures.Bench {
		return func(v fact.Value) (Mix, error) {
			rec := m.facts.Bench().Clone()
			rec.Put(ref.Index, v)
			m := m
			m.facts = m.facts.With(rec)
			return m, nil
		}, nil
	}
	part, _ := m.Part(ref.Object.Name())
	with, err := part.Varying(ref.Field().Name)
	if err != nil {
		return nil, err
	}
	return func(v fact.Value) (Mix, error) {
		p, err := with(v)
		if err != nil {
			return Mix{}, err
		}
		return m.With(p), nil
	}, nil
}

// varies finds a fact by its name and makes sure that it can be varied in this mix.
func varies(m Mix, name string) (rules.Ref, error) {
	ref, err := findFact(name)
	if err != nil {
		return ref, err
	}
	f := ref.Field()
	_, there := m.Part(ref.Object.Name())
	switch {
	case f.Type == fact.Fractions || f.Type == fact.Wholes:
		return ref, noFact(name, source.WrongKind, "is a list, and only one number or word can be varied", otherNumbers(ref))
	case ref.Object != figures.Bench && !there:
		return ref, noPart(name, ref.Object.Name())
	case f.Grid() == 0 && len(wordsOf(f)) == 0:
		return ref, noFact(name, source.WrongKind, "is a free word, and none is known to try", "")
	}
	return ref, nil
}

// otherNumbers names the numbers of the same part that may be meant in place of a list.
func otherNumbers(ref rules.Ref) string {
	field := ref.Field()
	for _, f := range ref.Object.Table().Fields() {
		if f.Excludes == field.Name || f.Name == field.Excludes {
			if f.Grid() > 0 && f.Cap == 0 {
				return "name a number in its place, such as " + ref.Object.Name() + "." + f.Name
			}
		}
	}
	for _, f := range ref.Object.Table().Fields() {
		if f.Grid() > 0 && f.Cap == 0 {
			return "name a number, such as " + ref.Object.Name() + "." + f.Name
		}
	}
	return "name a number"
}

// sharedVocabulary is Vocabulary, made once.
var sharedVocabulary = sync.OnceValues(Vocabulary)

// findFact finds a fact that parts or the bench may state.
func findFact(name string) (rules.Ref, error) {
	v, err := sharedVocabulary()
	if err != nil {
		return rules.Ref{}, err
	}
	ref, ok := v.Find(name)
	switch {
	case ok && ref.Object == figures.Object:
		return ref, noFact(name, source.WrongKind, "is worked out, and cannot be stated", "name what it is worked out from; "+
			"cogcourt words "+name+" tells")
	case ok:
		return ref, nil
	}
	var known []fact.Named
	for _, o := range append(catalog.Kinds(), figures.Bench) {
		for _, f := range o.Table().Fields() {
			n := fact.Named{Name: o.Name() + "." + f.Name}
			for _, also := range f.Also {
				n.Also = append(n.Also, o.Name()+"."+also)
			}
			known = append(known, n)
		}
	}
	hint := cmp.Or(fact.SuggestNamed(name, known), "write kind.field, such as chain.outer_width_mm; cogcourt words lists them")
	return ref, noFact(name, source.UnknownEntry, "there is no such fact", hint)
}

func noPart(name, kind string) error {
	return noFact(name, source.Missing, fmt.Sprintf("the mix has no %s", kind), "add the part: "+kind+", by its id or described in place")
}

func noFact(name string, code source.Code, text, hint string) error {
	return source.Problems{{Pos: source.Pos{File: name}, Code: code, Text: text, Hint: hint}}
}

// reasonOf says in a line why a value is refused.
func reasonOf(err error) string {
	if ps, ok := err.(source.Problems); ok {
		return ps[0].Text
	}
	return err.Error()
}

// evaluated gives use the mix with the fact at a place and what the rules that hang on it
// say of that. Only the figures that these read are worked out, and nothing of the result
// may be kept.
func (v *varied) evaluated(i int, use func(Mix, *rules.Result)) error {
	m, err := v.state(v.value(i))
	if err != nil || v.hangs == nil { // without rules nothing is said
		return err
	}
	m.facts.MeasureFor(v.reads, v.checker.filling(), func(records []*rules.Record) {
		v.hangs.EvaluateOnce(records, func(res *rules.Result) { use(m, res) })
	})
	return nil
}

// answer is what is said of the mix with the fact at a place.
func (v *varied) answer(i int) (a answer) {
	a.refused = v.evaluated(i, func(m Mix, res *rules.Result) {
		if !v.ready {
			v.count(m)
		}
		sum, alone := v.rest, tally{}
		for _, f := range res.Findings {
			sum.add(f.Verdict)
			alone.add(f.Verdict)
		}
		a.alone = alone.worst
		a.verdict, _ = m.summed(sum)
		for _, f := range res.Findings {
			if f.Verdict == alone.worst {
				a.rules = append(a.rules, f.Rule.ID)
			}
		}
	})
	return a
}

// count counts what the rules say that do not hang on the fact. They say it of every
// value alike, and of one that was stated: what the fact takes the place of is gone.
func (v *varied) count(m Mix) {
	v.ready = true
	if v.hangs == nil {
		return
	}
	rest := v.checker.set.Only(func(id string) bool { _, hangs := v.hangs.Rule(id); return !hangs })
	for _, f := range rest.Evaluate(v.checker.measure(m).Records()).Findings {
		v.rest.add(f.Verdict)
	}
}

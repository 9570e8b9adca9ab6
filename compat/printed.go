package compat

import (
	"slices"
	"sync/atomic"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// printed is what the JSON says the same of every mix that one set of rules judges.
// What a rule says is made when it is first printed.
type printed struct {
	set   *rules.Set
	rules []atomic.Pointer[printedRule] // by their places
	kinds []string                      // their names with quotes
	head  string                        // of a report, to the name of its catalogue
	size  atomic.Int64                  // of the last report: what the next will need
}

func newPrinted(set *rules.Set) *printed {
	p := &printed{set: set, rules: make([]atomic.Pointer[printedRule], len(set.Rules()))}
	p.head = string(ruleSet(set).AppendJSON(append(appendVersion(nil), `,"rules":`...)))
	for _, kind := range catalog.KindNames() {
		p.kinds = append(p.kinds, quoted(kind))
	}
	return p
}

// printedRule is the JSON of a finding that is the same whatever was found: what
// stands between its texts.
type printedRule struct {
	head  string // to its verdict
	why   string // from behind its text to its remedy
	basis string // from behind its caution to its parts
	kinds uint64 // that it is about, by their places
	reads []printedRead

	touched uint64 // the kinds of parts that can change its verdict
	bench   bool   // and whether what was measured can

	idle atomic.Pointer[[]printedIdle] // why it was not applied so far
}

// printedIdle is the entry of a rule that was not applied, for a reason with its names.
// Nearly all have one, which lies in it: a list would have to be fetched for each.
type printedIdle struct {
	reason rules.Reason
	count  int
	name   string   // the first,
	more   []string // and the others
	entry  string
}

// is says whether an entry is this rule's.
func (p *printedIdle) is(n *rules.NotApplied) bool {
	if p.reason != n.Reason || p.count != len(n.Names) {
		return false
	}
	return p.count == 0 || p.name == n.Names[0] && slices.Equal(p.more, n.Names[1:])
}

// mostIdle is how many entries of a rule are kept. It has few: a figure's sentence may
// have numbers in it.
const mostIdle = 8

// appendIdle appends the entry of a rule that was not applied. They are a quarter of a
// report, and nearly all are in the last one too. Of two goroutines that add one at the
// same time, one adds it again later.
func (r *printedRule) appendIdle(dst []byte, n *rules.NotApplied) []byte {
	known := r.idle.Load()
	for i := range *known {
		if p := &(*known)[i]; p.is(n) {
			return append(dst, p.entry...)
		}
	}
	start := len(dst)
	dst = wire.AppendString(append(dst, `{"rule":`...), n.Rule.ID)
	dst = append(append(append(dst, `,"reason":"`...), n.Reason...), `","names":`...)
	dst = append(wire.AppendStrings(dst, n.Names), '}')
	if len(*known) < mostIdle {
		p := printedIdle{reason: n.Reason, count: len(n.Names), entry: string(dst[start:])}
		if len(n.Names) > 0 {
			p.name, p.more = n.Names[0], slices.Clone(n.Names[1:])
		}
		more := append(slices.Clip(*known), p)
		r.idle.Store(&more)
	}
	return dst
}

// printedRead is a fact that a rule's conditions read.
type printedRead struct {
	rules.Ref
	name   string
	object int    // its place in the vocabulary
	head   string // of what was used, to its value
	unit   string // from behind its value to whether it is assumed
	typ    fact.Type
}

// rule gives what is printed of a rule. Two goroutines may make the same at once, and
// either serves.
func (p *printed) rule(r *rules.Rule) *printedRule {
	at := &p.rules[r.Place]
	if known := at.Load(); known != nil {
		return known
	}
	made := p.make(r)
	at.Store(made)
	return made
}

func (p *printed) make(r *rules.Rule) *printedRule {
	out := &printedRule{
		head: `{"rule":` + quoted(r.ID) + `,"verdict":"`,
		why:  `,"why":` + quoted(r.Why) + `,"remedy":`,
	}
	basis := append([]byte(`,"safety":`), truth(r.Safety)...)
	out.basis = string(appendBasis(append(basis, `,"basis":`...), r.Basis)) + `,"parts":[`
	out.idle.Store(&[]printedIdle{})
	out.touches(p.set.Facts(r))
	for _, ref := range p.set.Reads(r) {
		i, _ := p.set.Vocabulary().Index(ref.Object.Name())
		out.reads = append(out.reads, printedRead{
			Ref: ref, name: ref.String(), object: i,
			head: `{"name":` + quoted(ref.String()) + `,"value":`,
			unit: `,"unit":` + quoted(ref.Field().Unit) + `,"assumed":`, typ: ref.Field().Type,
		})
	}
	return out
}

// touches notes which parts a rule is about, and which can change its verdict: through
// the facts that it hangs on, and through what was measured on the parts.
func (r *printedRule) touches(facts []rules.Ref) {
	for _, ref := range facts {
		if ref.Object == figures.Bench {
			r.bench = true
			r.touched |= figures.MeasuredOn(ref.Index)
			continue
		}
		if i, ok := catalog.KindIndex(ref.Object.Name()); ok {
			r.touched |= 1 << i
			if !figures.OfDrive(ref) {
				r.kinds |= 1 << i
			}
		}
	}
}

// appendBasis appends what a rule rests on, by kinds in the order of their names.
func appendBasis(dst []byte, basis []rules.Basis) []byte {
	texts := map[rules.BasisKind]string{}
	var kinds []rules.BasisKind
	for _, b := range basis {
		if texts[b.Kind] != "" {
			texts[b.Kind] += ", "
		}
		texts[b.Kind] += b.Text
		if !slices.Contains(kinds, b.Kind) {
			kinds = append(kinds, b.Kind)
		}
	}
	slices.Sort(kinds)
	dst = append(dst, '{')
	for i, kind := range kinds {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = append(wire.AppendString(dst, string(kind)), ':')
		dst = wire.AppendString(dst, texts[kind])
	}
	return append(dst, '}')
}

func quoted(text string) string { return string(wire.AppendString(nil, text)) }

func truth(b bool) string {
	if b {
		return "true"
	}
	return "false"
}

// appendValue appends a value of a field's type: a flag as one, a list that is never
// null.
func appendValue(dst []byte, v *fact.Value, t fact.Type) []byte {
	switch t {
	case fact.Flag:
		return append(dst, truth(v.Num != 0)...)
	case fact.Choice, fact.Name:
		return wire.AppendString(dst, v.Text)
	case fact.Fractions, fact.Wholes:
		return wire.AppendFloats(dst, v.List)
	case fact.Names:
		return wire.AppendStrings(dst, v.Words())
	}
	return wire.AppendFloat(dst, v.Num)
}

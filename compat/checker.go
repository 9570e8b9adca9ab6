package compat

import (
	"io/fs"
	"slices"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/standard"
)

// Version is the version of the tool that reports name.
const Version = "0.1.0"

// Config says which rules a Checker uses. The zero value is the standard rules.
type Config struct {
	Rules      []fs.FS          // more rule files, after the standard ones
	NoStandard bool             // leave the standard rules out
	Clock      func() time.Time // tells the day for adjustments; nil is time.Now
}

// Checker judges mixes by a compiled set of rules. It is immutable and safe for
// use by many goroutines.
type Checker struct {
	set *rules.Set
}

// New compiles the rules. It fails, with source.Problems, where any rule file has
// a fault.
func New(cfg Config) (*Checker, error) {
	vocabulary, err := Vocabulary()
	if err != nil {
		return nil, err
	}
	// The shipped rules are sound: a test loads them with every text and example.
	var sound []fs.FS
	if !cfg.NoStandard {
		sound = append(sound, standard.Files())
	}
	set, err := rules.Load(rules.Config{Vocabulary: vocabulary, Sound: sound, Files: cfg.Rules, Derive: derive, Clock: cfg.Clock})
	if err != nil {
		return nil, err
	}
	return &Checker{set: set}, nil
}

// Vocabulary is what rules may speak of: every kind of part, the figures, and
// what was measured at the bench.
func Vocabulary() (*rules.Vocabulary, error) {
	return rules.NewVocabulary(append(catalog.Kinds(), figureObject, bench)...)
}

// derive completes the facts of a rule's example: it works out the figures, but
// for those that the example states itself.
func derive(given []*rules.Record) []*rules.Record {
	records := slices.Clone(given)
	stated := records[figuresPlace]
	records[figuresPlace] = nil
	if records[benchPlace] == nil {
		records[benchPlace] = emptyBench
	}
	data := measureAll(records, nil)
	if stated == nil {
		return records
	}
	lacks := slices.Clone(data.lacks)
	for i := range data.values {
		if v := stated.At(i); v.Known {
			data.values[i] = *v
			if lacks != nil {
				lacks[i] = fact.Lack{}
			}
		}
	}
	values := slices.Clone(data.values[:])
	records[figuresPlace] = figureObject.NewRecord(values, lacks)
	return records
}

// Rules gives the compiled set, for listing and proving.
func (c *Checker) Rules() *rules.Set { return c.set }

// Check judges a mix. It never fails: what cannot be decided is Unknown and says
// what is missing.
func (c *Checker) Check(m Mix) Report {
	records := m.facts()
	data := measureAll(records, nil)
	res := c.set.Evaluate(records)
	r := Report{Mix: m, Figures: Figures{data}, checker: c, result: res}
	if m.loose != nil {
		r.judgeMargins(records, m.loose)
		r.worst = bounds(records, data, m.loose)
	}
	slices.SortStableFunc(res.Findings, func(a, b rules.Finding) int { return a.Verdict.Rank() - b.Verdict.Rank() })
	r.Verdict, r.Complete = overall(m, res.Findings)
	return r
}

// needed are the kinds that a whole bicycle must have to be judged.
var needed = []string{"cassette", "chain", "rear_derailleur", "rear_shifter", "crankset", "hub", "frame"}

// overall is fail over unknown over warn over pass. Findings stand in that order.
func overall(m Mix, findings []rules.Finding) (v rules.Verdict, complete bool) {
	if len(findings) == 0 {
		return rules.Unknown, false
	}
	v, complete = findings[0].Verdict, true
	for i := range findings {
		complete = complete && findings[i].Verdict != rules.Unknown
	}
	if m.scope == ScopeBike && len(m.absentKinds()) > 0 {
		complete = false
	}
	if !complete && v != rules.Fail {
		v = rules.Unknown
	}
	return v, complete
}

// absentKinds lists what a whole bicycle would need and the mix has not.
func (m Mix) absentKinds() []string {
	var out []string
	for _, kind := range needed {
		if _, ok := m.Part(kind); !ok {
			out = append(out, kind)
		}
	}
	if crank, ok := m.Part("crankset"); ok && len(crank.Record().At(crankRings.field).List) > 1 {
		if _, ok := m.Part("front_derailleur"); !ok {
			out = append(out, "front_derailleur")
		}
	}
	return out
}

// missing ranks the facts that would decide something, by how many rules.
func (r Report) missing() []Missing {
	var out []Missing
	for _, f := range r.result.Findings {
		if f.Verdict != rules.Unknown {
			continue
		}
		for _, name := range f.Missing {
			i := slices.IndexFunc(out, func(m Missing) bool { return m.Name == name })
			if i < 0 {
				field := fact.Field{}
				if ref, ok := r.checker.set.Vocabulary().Find(name); ok {
					field = ref.Field()
				}
				out = append(out, Missing{Name: name, Doc: field.Doc, How: field.How, Unit: field.Unit})
				i = len(out) - 1
			}
			out[i].Rules = append(out[i].Rules, f.Rule.ID)
		}
	}
	slices.SortStableFunc(out, func(a, b Missing) int { return len(b.Rules) - len(a.Rules) })
	return out
}

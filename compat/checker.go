package compat

import (
	"context"
	"io/fs"
	"slices"
	"sync"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
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
	NoUsual    bool             // take nothing as usual, by a count or by a class
	Clock      func() time.Time // tells the day for adjustments; nil is time.Now
	Observe    func(Event)      // is told of everything that was done; nil for nobody, which costs nothing
}

// Checker judges mixes by a compiled set of rules. It is immutable and safe for
// use by many goroutines.
type Checker struct {
	set     *rules.Set
	printed *printed // nil where set is
	noUsual bool
	observe func(Event) // nil for nobody

	once  sync.Once
	needs [][]int // of each rule the figures that it needs; see learn
}

// New compiles the rules. It fails, with source.Problems, where any rule file has
// a fault.
func New(cfg Config) (*Checker, error) { return NewContext(context.Background(), cfg) }

// NewContext is New that ends with ctx's error alone once ctx is done, which is looked at
// between two rules.
func NewContext(ctx context.Context, cfg Config) (c *Checker, err error) {
	if cfg.Observe != nil {
		defer func(begin time.Time) {
			done := Event{Did: DidLoad, Name: "rules", Took: time.Since(begin), Err: err}
			if c != nil {
				done.Hash = c.RuleSet().Hash
			}
			cfg.Observe(done)
		}(time.Now())
	}
	vocabulary, err := Vocabulary()
	if err != nil {
		return nil, err
	}
	// The shipped rules are sound: a test loads them with every text and example.
	var sound []fs.FS
	if !cfg.NoStandard {
		sound = append(sound, standard.Files())
	}
	set, err := rules.LoadContext(ctx, rules.Config{Vocabulary: vocabulary, Sound: sound, Prepared: standard.Expressions(), Files: cfg.Rules,
		Clock: cfg.Clock, Derive: derive, Again: figures.Again, Behind: behind, Ways: figures.Ways, Mark: figures.Mark, Others: others,
		Drawings: Drawings()})
	if err != nil {
		return nil, err
	}
	return &Checker{set: set, printed: newPrinted(set), noUsual: cfg.NoUsual, observe: cfg.Observe}, nil
}

// Warm makes ready what is otherwise made when it is first asked for, so that the first
// check after New takes no longer than others do: about as long as that first check takes
// longer. It ends with ctx's error once ctx is done.
func (c *Checker) Warm(ctx context.Context) error {
	if c.set == nil {
		return ctx.Err()
	}
	if err := c.set.Warm(ctx); err != nil {
		return err
	}
	for _, r := range c.set.Rules() {
		c.printed.rule(r)
	}
	quiet := Checker{set: c.set, printed: c.printed, noUsual: c.noUsual}
	quiet.Check(Mix{}).AppendJSON(nil)
	return ctx.Err()
}

// Alike says whether two checkers say the same of every mix on the same day: their rules
// are of equal files, and both take usual values or neither does.
func (c *Checker) Alike(other *Checker) bool {
	return c.RuleSet().Hash == other.RuleSet().Hash && c.noUsual == other.noUsual
}

// Vocabulary is what rules may speak of: every kind of part, the figures, and
// what was measured at the bench.
func Vocabulary() (*rules.Vocabulary, error) {
	return rules.NewVocabulary(figures.Objects()...)
}

// FigureFields describes every figure, in the order in which they are worked out.
func FigureFields() []fact.Field { return slices.Clone(figures.Object.Table().Fields()) }

// Rules gives the compiled set, for listing and proving.
func (c *Checker) Rules() *rules.Set { return c.set }

// Check judges a mix. It never fails: what cannot be decided is Unknown and says
// what is missing. The zero Checker has no rules, and so decides nothing.
func (c *Checker) Check(m Mix) Report {
	begin := c.begin()
	r := Report{Mix: m, Figures: c.measure(m), checker: c, set: c.set}
	if c.set != nil {
		r.result = c.set.Evaluate(r.Figures.Records())
	}
	r.sum(nil)
	c.checked(begin, r)
	return r
}

// checkOnce is Check for use alone, which may keep nothing of the Report: its memory
// serves again.
func (c *Checker) checkOnce(m Mix, use func(Report)) {
	begin := c.begin()
	m.facts.MeasureOnce(c.filling(), func(figs figures.Figures) {
		r := Report{Mix: m, Figures: figs, checker: c, set: c.set}
		if c.set == nil { // it decides nothing, and a Report is Unknown until it does
			c.checked(begin, r)
			use(r)
			return
		}
		c.set.EvaluateOnce(figs.Records(), func(res *rules.Result) {
			list := ordered.Get().(*[]rules.Finding)
			r.result = res
			r.sum((*list)[:0])
			c.checked(begin, r)
			use(r)
			*list = r.findings
			clear(*list)
			ordered.Put(list)
		})
	})
}

// ordered is memory for the findings of checkOnce in the order of a report.
var ordered = sync.Pool{New: func() any { return new([]rules.Finding) }}

// sum puts the findings in the order of a report, into memory that is given, and finds
// out what they come to.
func (r *Report) sum(into []rules.Finding) {
	if r.result != nil {
		r.findings = ranked(into, r.result.Findings)
	}
	r.Verdict, r.Complete = overall(r.Mix, r.findings)
}

// ranked appends findings to an empty list, the worst first and those of one verdict as
// they stand.
func ranked(into, findings []rules.Finding) []rules.Finding {
	var next [4]int // where the next goes, by its rank
	for i := range findings {
		for rank := findings[i].Verdict.Rank() + 1; rank < len(next); rank++ {
			next[rank]++
		}
	}
	out := slices.Grow(into, len(findings))[:len(findings)]
	for i := range findings {
		at := &next[findings[i].Verdict.Rank()]
		out[*at] = findings[i]
		*at++
	}
	return out
}

// measure works out what a mix is judged by.
func (c *Checker) measure(m Mix) figures.Figures { return m.facts.MeasureFilled(c.filling()) }

// filling completes the facts of a mix with what is usual, or takes that away.
func (c *Checker) filling() figures.Fill {
	if c.noUsual {
		return drop
	}
	return fill
}

// wantable are the kinds that a whole bicycle may need to be judged, in the order in
// which reports name them.
var wantable = []string{"cassette", "chain", "rear_derailleur", "rear_shifter", "crankset", "hub", "frame", "front_derailleur"}

// wants says whether a whole bicycle needs one of these kinds to be judged: by its
// drive, its cogs and its rings. What is not known yet is taken to be usual: a
// bicycle of which nobody has named cogs or hub is wanted with several cogs.
func (m Mix) wants(kind string) bool {
	switch kind {
	case "cassette", "chain":
		return !m.belted()
	case "rear_derailleur", "rear_shifter":
		return !m.belted() && m.shifted()
	case "front_derailleur":
		return !m.belted() && len(m.facts.Value(crankRings).List) > 1
	}
	return true
}

// shifted says whether a derailleur is wanted to shift over cogs.
func (m Mix) shifted() bool {
	if n := m.cogCount(); n > 0 {
		return n > 1
	}
	hub := m.facts.Value(hubKindRef).Text
	return hub != "fixed" && hub != "internal"
}

// cogCount counts the cogs; 0 where none are in the mix.
func (m Mix) cogCount() int {
	if n := len(m.facts.Value(cogs).List); n > 0 {
		return n
	}
	return int(m.facts.Value(cogCount).Num)
}

// overall is fail over unknown over warn over pass.
func overall(m Mix, findings []rules.Finding) (v rules.Verdict, complete bool) {
	var t tally
	for i := range findings {
		t.add(findings[i].Verdict)
	}
	return m.summed(t)
}

// summed gives the verdict of a mix by what its findings come to.
func (m Mix) summed(t tally) (v rules.Verdict, complete bool) {
	if t.count == 0 {
		return rules.Unknown, false
	}
	v, complete = t.worst, !t.open
	if m.scope == ScopeBike && len(m.absentKinds()) > 0 || len(m.driveNotJudged()) > 0 {
		complete = false
	}
	if !complete && v != rules.Fail {
		v = rules.Unknown
	}
	return v, complete
}

var crankRings = catalog.Crankset.Ref("rings_t")

// absentKinds lists what a whole bicycle would need and the mix has not.
func (m Mix) absentKinds() []string {
	var out []string
	for _, kind := range wantable {
		if _, ok := m.Part(kind); !ok && m.wants(kind) {
			out = append(out, kind)
		}
	}
	return out
}

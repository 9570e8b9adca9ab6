package compat

import (
	"fmt"
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// twinFinding is what one rule of the twin says: a verdict, or the reason why it
// says nothing.
type twinFinding struct {
	verdict rules.Verdict
	reason  rules.Reason
	names   []string // missing facts, absent kinds, or the sentence of a figure
	assumed []string // what a fail hangs on, which is given as a warning
	err     string   // why the facts do not fit together
}

// twinRule is a rule of the standard files as a Go function.
type twinRule struct {
	id    string
	judge func(b *bike, f *twinFigures) twinFinding
}

// twinRules stand in the order of the rule files. A rule that is written there
// is written here too.
var twinRules = []twinRule{
	{"cassette/largest-cog", largestCog},
	{"cassette/capacity", capacity},
	{"cassette/smallest-largest-cog", smallestLargestCog},
	{"cassette/smallest-cog", smallestCog},
	{"cassette/assist-rated", cassetteAssist},
	{"chain/neighbour-gap", neighbourGap},
	{"chain/roller", roller},
	{"chain/length", chainLength},
	{"chain/on-cog", chainOnCog},
	{"chain/direction", chainDirection},
	{"chain/connector", chainConnector},
	{"chain/parity", chainParity},
	{"chain/slack", chainSlack},
	{"chain/strength", chainStrength},
	{"chain/wear", chainWear},
	{"chain/assist-rated", chainAssist},
	{"drive/actuation", actuation},
	{"drive/radio", radioFamily},
	{"drive/single-step", singleStep},
	{"cell/form", cellForm},
	{"cell/voltage", cellVoltage},
	{"cell/controller-voltage", controllerVoltage},
	{"cell/primary-charge", primaryCharge},
	{"charger/chemistry", chargerChemistry},
	{"charger/temperature", chargerTemperature},
	{"front/difference", frontDifference},
	{"hanger/mount", hangerMount},
	{"torque/plausible", torquePlausible},
	{"torque/tightened", torqueTightened},
	{"hub/freehub", freehub},
	{"hub/lockring-margin", lockringMargin},
	{"hub/spacer-tall", spacerTall},
	{"hub/over-locknut", overLocknut},
	{"index/steps", indexSteps},
	{"index/residual", indexResidual},
	{"index/family", indexFamily},
	{"index/trim-range", trimRange},
	{"line/angle-largest", angleLargest},
	{"line/angle-smallest", angleSmallest},
	{"chain/on-ring", chainOnRing},
	{"ring/extended-plates", extendedPlates},
	{"ring/narrow-wide-even", crankNarrowWide},
	{"ring/retention", retention},
	{"chainring/narrow-wide-even", ringNarrowWide},
}

// twinReport is what the twin says of a mix.
type twinReport struct {
	verdict  rules.Verdict
	complete bool
	findings []twinFinding
	figures  *twinFigures
}

// checkTwin judges a bike.
func checkTwin(b *bike) twinReport {
	r := twinReport{findings: make([]twinFinding, len(twinRules)), figures: b.measureTwin()}
	var count [4]int
	for i := range twinRules {
		f := twinRules[i].judge(b, r.figures)
		r.findings[i] = f
		if f.reason == "" {
			count[f.verdict]++
		}
	}
	r.complete = count[rules.Unknown] == 0 && count != [4]int{} && (b.scope != ScopeBike || b.whole())
	switch {
	case count[rules.Fail] > 0:
		r.verdict = rules.Fail
	case !r.complete:
	case count[rules.Warn] > 0:
		r.verdict = rules.Warn
	default:
		r.verdict = rules.Pass
	}
	return r
}

// whole says whether everything is there that a bicycle needs.
func (b *bike) whole() bool {
	front := b.present[5] || len(b.crank.rings.xs) < 2
	return b.cassette.there && b.chain.there && b.rear.there && b.shifter.there && b.crank.there && b.hub.there && b.frame.there && front
}

// saidBy gives what the checker says by a rule, in the twin's form.
func saidBy(r Report, id string) twinFinding {
	for _, f := range r.result.Findings {
		if f.Rule.ID == id {
			return twinFinding{verdict: f.Verdict, names: f.Missing, assumed: f.Assumed, err: f.Err}
		}
	}
	for _, na := range r.result.NotApplied {
		if na.Rule.ID == id {
			return twinFinding{reason: na.Reason, names: na.Names}
		}
	}
	return twinFinding{reason: "no rule"}
}

func (f twinFinding) same(g twinFinding) bool {
	return f.verdict == g.verdict && f.reason == g.reason && f.err == g.err && slices.Equal(f.names, g.names) && slices.Equal(f.assumed, g.assumed)
}

func (f twinFinding) String() string {
	if f.reason != "" {
		return fmt.Sprintf("not applied, %s %q", f.reason, f.names)
	}
	return fmt.Sprintf("%s, missing %q, assumed %q, error %q", f.verdict, f.names, f.assumed, f.err)
}

// twinLeast is how many rules the twin has at least. The rules that came later are
// of the same make, and the comparison leaves them out on both sides, so that the
// twin stays the same work.
const twinLeast = 44

// twinLater are parts that the twin knows nothing of for a rule or a figure: a
// link changes what a derailleur is rated for, a ring what the chain finds.
var twinLater = map[string]string{
	"cassette/largest-cog": "hanger_link", "hanger/mount": "hanger_link", "mount_hanger": "hanger_link", "chain/roller": "chainring",
}

// beyondTwin says whether a mix has the part that the twin leaves out of a rule or
// a figure.
func beyondTwin(m Mix, name string) bool {
	_, has := m.Part(twinLater[name])
	return has
}

// twinChecker is the checker with those rules alone that the twin has.
func twinChecker(t testing.TB) *Checker {
	t.Helper()
	return &Checker{set: standardChecker(t).set.Only(func(id string) bool {
		return slices.ContainsFunc(twinRules, func(r twinRule) bool { return r.id == id })
	})}
}

func TestTwinHasTheRules(t *testing.T) {
	var want, have []string
	for _, rule := range twinChecker(t).set.Rules() {
		want = append(want, rule.ID)
	}
	for _, rule := range twinRules {
		have = append(have, rule.id)
	}
	if !slices.Equal(want, have) || len(have) < twinLeast {
		t.Errorf("the rule files hold %q, the twin %q", want, have)
	}
	if k := catalog.Kinds(); len(k) != len(bike{}.present) || k[5] != catalog.FrontDerailleur {
		t.Errorf("the twin knows other kinds than the catalog")
	}
}

// The checker and the twin say the same of thousands of mixes: every figure with
// what it lacks, every finding with what is missing, and the verdict.
func TestTwinSaysTheSame(t *testing.T) {
	c := twinChecker(t)
	random := seeded(8)
	seen, compared := map[string]int{}, map[int]bool{}
	for range 6000 {
		d := randomDraw(random)
		m := d.mix(t)
		r, twin := c.Check(m), checkTwin(bikeOf(m))
		whole := !beyondTwin(m, "hanger/mount") && !beyondTwin(m, "chain/roller")
		if whole && (r.Verdict != twin.verdict || r.Complete != twin.complete) {
			t.Errorf("the checker gives %s, complete %v; the twin %s, %v", r.Verdict, r.Complete, twin.verdict, twin.complete)
		}
		for i, rule := range twinRules {
			seen[rule.id+" "+stateOf(r.result, rule.id)]++
			if got, want := saidBy(r, rule.id), twin.findings[i]; !beyondTwin(m, rule.id) && !got.same(want) {
				t.Errorf("%s: the checker gives %s; the twin %s", rule.id, got, want)
			}
		}
		sameFigures(t, r, twin.figures, compared)
		if t.Failed() {
			t.Fatalf("the mix: %v", d.fields)
		}
	}
	if len(compared) < twinFiguresLeast {
		t.Errorf("%d figures were compared, at least %d are wanted", len(compared), twinFiguresLeast)
	}
	// Where no mix makes a rule say something, nothing is compared.
	for _, rule := range c.set.Rules() {
		for _, state := range canSay(c.set, rule) {
			if seen[rule.ID+" "+state] == 0 {
				t.Errorf("no mix made %s say %s", rule.ID, state)
			}
		}
	}
}

// canSay lists what a rule can come to by the way it is written.
func canSay(set *rules.Set, rule *rules.Rule) []string {
	out := []string{"pass"}
	if rule.FailIf != "" {
		out = append(out, "fail")
	}
	if rule.WarnIf != "" {
		out = append(out, "warn")
	}
	asks := set.Asks(rule)
	switch {
	case len(asks) == 0:
		return append(out, "unknown", "not applied, absent")
	case slices.ContainsFunc(asks, func(ref rules.Ref) bool { return ref.Field().Default == nil }):
		return append(out, "not applied, unstated")
	}
	return append(out, "not applied, absent") // what it asks for has a default wherever there is such a part
}

// twinFiguresLeast is how many figures the twin works out at least.
const twinFiguresLeast = 60

// sameFigures holds the figures that the twin has, and marks them.
func sameFigures(t *testing.T, r Report, twin *twinFigures, compared map[int]bool) {
	t.Helper()
	for i, field := range figureTable {
		got, lack := r.Figures.Value(field.Name)
		want := twin.all[i]
		if !want.known && want.why == nil || beyondTwin(r.Mix, field.Name) {
			continue // a figure that came after the twin
		}
		compared[i] = true
		if got.Known != want.known || got.Known && (got.Num != want.x || got.Text != want.s || got.Assumed != want.assumed || !slices.Equal(got.List, want.xs)) {
			t.Errorf("%s: the checker has %+v, the twin %+v", field.Name, got, want)
		}
		if why := want.why; why != nil && (!slices.Equal(lack.Missing, why.missing) || !slices.Equal(lack.Absent, why.absent) || lack.Reason != why.reason || lack.Fault != why.fault) {
			t.Errorf("%s: the checker lacks %+v, the twin %+v", field.Name, lack, *why)
		}
	}
}

// BenchmarkTwin judges the mixes of BenchmarkCheck by the twin.
func BenchmarkTwin(b *testing.B) {
	mixes := benchMixes(b)
	for _, name := range benchNames {
		bike := bikeOf(mixes[name])
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				checkTwin(bike)
			}
		})
	}
}

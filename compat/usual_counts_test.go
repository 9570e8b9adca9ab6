package compat

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/usual"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// What is usual by count is what the classes of that count say: both are typed from the
// same published tables, apart.
func TestUsualCountsAreThoseOfClasses(t *testing.T) {
	lines, err := readUsualLines(usual.Counts())
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{"memory": true}
	for _, s := range standardChecker(t).Rules().Citations() {
		known[s.ID] = true
	}
	count := map[string]string{"cassette": "cog_count", "chain": "speeds"}
	compared := 0
	for kind, list := range lines {
		for _, line := range list {
			for _, v := range line.values {
				s := v.value.Spread()
				if !known[s.Source] {
					t.Errorf("%v %s rests on %q, which is no source", line.of, v.ref, s.Source)
				}
				if s.Least > v.value.Num || v.value.Num > s.Most {
					t.Errorf("%v %s: %v is not between %v and %v", line.of, v.ref, v.value.Num, s.Least, s.Most)
				}
			}
			if count[kind.Name()] == "" || len(line.of) == 0 || line.from > 0 { // of eleven with a large cog the classes give no spacing
				continue
			}
			compared += holdCount(t, kind.Name(), count[kind.Name()], line)
		}
	}
	if compared < 15 {
		t.Errorf("only %d lines were held against a class", compared)
	}
}

// holdCount holds a line against the classes of its counts, and says how many there are.
func holdCount(t *testing.T, kind, field string, line usualLine) (compared int) {
	for _, n := range line.of {
		class := classLike(kind, field, n, line)
		if class.ID() == "" {
			if n <= 11 {
				t.Errorf("no class of %v is as the %s of the counts says: %v", n, kind, line.values)
			}
			continue
		}
		compared++
		for _, v := range line.values {
			if n == 12 && v.ref == chainInner {
				continue // one page gives one width of twelve: their count has the spread of 9 to 11, which is the wider
			}
			if of := class.Record().Value(v.ref.Index); of.Known && !sameEnds(of, v.value) {
				t.Errorf("%v %s: %+v by count, %+v by %s", n, v.ref, *v.value.Spread(), of, class.ID())
			}
		}
	}
	return compared
}

// classLike finds the class of a kind with that count whose first value is that of a line.
func classLike(kind, field string, n float64, line usualLine) catalog.Part {
	for _, p := range Usual().OfKind(kind) {
		v := p.Record().Value(line.values[0].ref.Index)
		if p.Record().Value(p.Record().Object().Ref(field).Index).Num == n && v.Known && v.Num == line.values[0].value.Num {
			return p
		}
	}
	return catalog.Part{}
}

func sameEnds(a, b fact.Value) bool {
	ends := func(v fact.Value) (least, most float64) {
		if v.Spread() == nil {
			return v.Num, v.Num
		}
		return v.Spread().Least, v.Spread().Most
	}
	a1, a2 := ends(a)
	b1, b2 := ends(b)
	return a.Num == b.Num && a1 == b1 && a2 == b2
}

// How much a connector overlaps the next cog even at the kindest is reckoned in the
// figures by two short tables: they are what the counts give.
func TestConnectorOverlapIsThatOfTheCounts(t *testing.T) {
	lines, err := readUsualLines(usual.Counts())
	if err != nil {
		t.Fatal(err)
	}
	most, least := map[float64]float64{}, map[float64]float64{} // by count: spacing less half a cog, and the narrowest chain
	for _, l := range lines[catalog.Cassette] {
		for _, n := range l.of {
			if len(l.values) == 2 {
				most[n] = max(most[n], 2*l.values[0].value.Spread().Most-l.values[1].value.Spread().Least)
			}
		}
	}
	for _, l := range lines[catalog.Chain] {
		for _, n := range l.of {
			least[n] = l.values[0].value.Spread().Least
		}
	}
	for n := 5.0; n <= 12; n++ {
		for j := 5.0; j <= n; j++ {
			m := usualMix(t, map[string]map[string]any{
				"cassette": {"cog_count": int(n)}, "chain": {"speeds": int(n)}, "chain_connector": {"speeds": int(j)}})
			got, lack := Measure(m).Value("connector_overlap_mm")
			if want := max(0, (least[j]-most[n])/2); !got.Known || math.Abs(got.Num-want) > 1e-6 {
				t.Errorf("a connector for %v on %v cogs overlaps by %v (%+v), want %.3f", j, n, got.Num, lack, want)
			}
		}
	}
}

// A line of a kind that has no counts is a fault, and states nothing of anything; the others
// are read.
func TestCountsOfNoSuchKind(t *testing.T) {
	lines, err := readUsualLines("counts.yaml", []byte(`counts:
  - {kind: casette, of: [9], pitch_mm: [4.3, 4.3, 4.4], source: memory}
  - {kind: chain, of: [9], outer_width_mm: [6.6, 6.5, 6.7], source: memory}
`))
	if err == nil || !strings.Contains(err.Error(), "counts.yaml:2") || !strings.Contains(err.Error(), `"cassette"`) {
		t.Errorf("of a kind that is misspelt it says %v", err)
	}
	if len(lines) != 1 || len(lines[catalog.Chain]) != 1 {
		t.Errorf("the lines are %v", lines)
	}
}

// A count that is only usual is tried at every whole number of its spread: a condition
// may tell odd from even, and both ends be even.
func TestUsualCountIsTriedAtEach(t *testing.T) {
	over := map[string]map[string]any{"rear_derailleur": {"pulley_narrow_wide": true}}
	m := usualMix(t, over, "cage-single-51")
	state, f := said(standardChecker(t).Check(m), "pulley/narrow-wide-even")
	if state != "warn" || f.Lean == nil {
		t.Fatalf("%s, leaning %+v", state, f.Lean)
	}
	if at := f.Lean.FailsAt; len(at) != 1 || at[0].Name != "rear_derailleur.guide_pulley_t" || at[0].Value != 13 {
		t.Errorf("it fails at %v", at)
	}
	if want := "fails from 13 to 13"; !strings.Contains(f.Text, want) {
		t.Errorf("%q does not say that it %s", f.Text, want)
	}
	over["rear_derailleur"]["guide_pulley_t"] = 14
	if state, _ = said(standardChecker(t).Check(usualMix(t, over, "cage-single-51")), "pulley/narrow-wide-even"); state != "pass" {
		t.Errorf("counted and even it gives %s", state)
	}
}

// A rule that has nothing to say of a bicycle is not made to by usual facts that are too
// many to be tried: on a belt no figure of the chain means anything, whatever they are.
func TestTooManyUsualFactsSayNothing(t *testing.T) {
	rule := `
pack: mine
edition: 1
rules:
  - id: mine/many
    title: There is room
    why: Or it rubs.
    fail_if: figures.rub_margins_mm.exists(x, x < -9) || figures.guide_bolt_to_cog_mm > 900.0
    say: It rubs.
    remedy: Another chain.
    basis: {practice: shop}
    examples: [{name: a frame alone, given: {frame: {drive: belt}}, want: not_applied}]
`
	c := rulesOf(t, rule)
	read := func(drive string) Report {
		m, err := ReadMix("mix.yaml", []byte(`
mix: many
parts:
  cassette: {id: usual-cassette-9-434, cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34]}
  chain: usual-chain-9
  rear_derailleur: {id: [usual-rd-r17, usual-cage-range-long], b_gap_mm: 6}
  rear_shifter: usual-shifter-9-p25
  frame: {drive: `+drive+`}
`), nil)
		if err != nil {
			t.Fatal(err)
		}
		return c.Check(m)
	}
	if state, f := said(read("chain"), "mine/many"); f.Lean == nil || !f.Lean.Open {
		t.Errorf("with a chain it gives %s, leaning %+v, missing %v: there are not too many facts to try", state, f.Lean, f.Missing)
	}
	if state, f := said(read("belt"), "mine/many"); state != "not applied, figure" {
		t.Errorf("on a belt it gives %s, leaning %+v", state, f.Lean)
	}
}

// A rule that reads a usual thickness itself hangs on no other fact: the pitch that tells
// of cogs as thick as that moves them no more once they are known. The band is so narrow
// that the thickness alone is not seen to decide at nine places of its spread.
func TestUsualThicknessGoesWithNoPitch(t *testing.T) {
	rule := `
pack: mine
edition: 1
rules:
  - id: mine/thick
    title: Cogs of one thickness
    why: Or they rattle.
    fail_if: cassette.cog_thickness_mm < 1.6059 || cassette.cog_thickness_mm > 1.6209
    say: They rattle.
    remedy: Other cogs.
    basis: {practice: shop}
    examples: [{name: thick, given: {cassette: {cog_thickness_mm: 1.8}}, want: fail}]
`
	c := rulesOf(t, rule)
	if _, f := said(c.Check(usualMix(t, nil, "cassette-10-412")), "mine/thick"); f.Lean == nil || !slices.Equal(f.Lean.By, []string{"cassette.cog_thickness_mm"}) {
		t.Errorf("it leans %+v", f.Lean)
	}
}

// What is stated may contradict what is usual, and not all that is usual: a stack that cogs
// of 1.6 mm do not fit into has room for thinner ones.
func TestWhatContradictsTheUsualIsTried(t *testing.T) {
	rule := `
pack: mine
edition: 1
rules:
  - id: mine/stack
    title: The lever is not too tight
    why: Or it breaks.
    when: stated(figures.cassette_stack_mm)
    fail_if: front_shifter.clamp_torque_nm > 9.0
    say: It breaks.
    remedy: Less.
    basis: {practice: shop}
    examples: [{name: nothing known, given: {front_shifter: {clamp_torque_nm: 20}}, want: not_applied}]
`
	c := rulesOf(t, rule)
	over := map[string]map[string]any{
		"cassette":      {"cogs_t": []int{11, 14, 16, 18, 19, 20, 23, 25, 27, 31, 33, 34}, "stack_height_mm": 1.57},
		"front_shifter": {"clamp_torque_nm": 10},
	}
	if state, f := said(c.Check(usualMix(t, over)), "mine/stack"); state != "warn" || f.Lean == nil {
		t.Errorf("by thinner cogs it fails, and it gives %s, leaning %+v", state, f.Lean)
	}
}

// A cable shifter has one click fewer than the cogs that it is sold for: two cogs are one
// click, and one cog is none, of which nothing is said.
func TestClicksAreOneFewerThanCogs(t *testing.T) {
	for speeds, want := range map[int]float64{1: 0, 2: 1, 9: 8} {
		m := usualMix(t, map[string]map[string]any{"rear_shifter": {"speeds": speeds}})
		v := standardChecker(t).Check(m).known(shifterClicks)
		if v.Known != (want > 0) || v.Num != want || v.Known && v.Usual != fact.ByCount {
			t.Errorf("a shifter for %d has %v", speeds, v)
		}
	}
}

// A chain of 3.1 mm inside goes on every cog and ring: nobody need measure their teeth.
func TestWideChainGoesOnAll(t *testing.T) {
	for inner, goes := range map[float64]bool{3.0: false, 3.1: true, 3.3: true} {
		m := usualMix(t, map[string]map[string]any{"chain": {"inner_width_mm": inner}, "crankset": {"rings_t": []int{44}},
			"cassette": {"cogs_t": []int{18}}})
		figs := m.facts.Measure() // with nothing usual
		for _, name := range []string{"cog_play_mm", "ring_play_mm"} {
			v, lack := figs.Value(name)
			if v.Known || (lack.Reason == "a chain for 1/8 inch goes on every cog and ring") != goes {
				t.Errorf("%s of a chain of %v mm is %v, %+v", name, inner, v, lack)
			}
		}
	}
}

// Of five usual facts two ways are tried together as well: a connector is wider than the
// chain only where the chain is narrower than is usual, and the rings then have too much
// play only where they are thinner. None of the two makes the rule fail alone.
func TestManyUsualFactsAreTriedTogether(t *testing.T) {
	rule := `
pack: mine
edition: 1
rules:
  - id: mine/loose
    title: The connector runs quietly
    why: Or it rattles.
    when: stated(figures.connector_gap_mm)
    fail_if: figures.ring_play_mm > 0.42 && figures.neighbour_gap_mm > -5.0
    say: It rattles.
    remedy: Another connector.
    basis: {practice: shop}
    examples: [{name: no connector, given: {chain: {outer_width_mm: 7}}, want: not_applied}]
`
	c := rulesOf(t, rule)
	m := usualMix(t, map[string]map[string]any{"chain_connector": {"outer_width_mm": 7.1}}, "chain-8", "cassette-10-412", "ring-332-5to8")
	state, f := said(c.Check(m), "mine/loose")
	if state != "warn" || f.Lean == nil {
		t.Fatalf("it gives %s, leaning %+v", state, f.Lean)
	}
	for name, holds := range map[string]func(x float64) bool{
		"chain.outer_width_mm":        func(x float64) bool { return x < 7.1 },
		"chainring.ring_thickness_mm": func(x float64) bool { return x < 1.96 },
	} {
		if !slices.ContainsFunc(f.Lean.FailsAt, func(p rules.Point) bool { return p.Name == name && holds(p.Value) }) {
			t.Errorf("it fails at %v, nothing of %s", f.Lean.FailsAt, name)
		}
	}
}

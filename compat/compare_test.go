package compat

import (
	"encoding/json"
	"io/fs"
	"maps"
	"math/bits"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// rulesOf compiles one rule file alone.
func rulesOf(t testing.TB, text string) *Checker {
	t.Helper()
	c, err := New(Config{NoStandard: true, Rules: ruleFiles(text)})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// limitRules fail and warn by plain limits, so that a test can say what it wants.
const limitRules = `
pack: limits
rules:
  - id: limits/largest
    title: The largest cog is small
    why: A limit for a test.
    fail_if: last(cassette.cogs_t) > 40
    warn_if: last(cassette.cogs_t) > 30
    say: "{last(cassette.cogs_t)} teeth."
    remedy: Fewer.
    basis: {practice: none}
  - id: limits/guide
    title: The guide takes the ring
    why: A limit for a test.
    fail_if: last(crankset.rings_t) > chain_guide.ring_max_t
    say: "{last(crankset.rings_t)} teeth."
    remedy: Fewer.
    basis: {practice: none}
  - id: limits/wear
    title: The chain is not worn
    why: A limit for a test.
    when: stated(bench.chain_wear_percent)
    warn_if: bench.chain_wear_percent > 0.5
    say: "{bench.chain_wear_percent} percent."
    remedy: Another.
    basis: {practice: none}
  - id: limits/range
    title: Cogs and rings make a small range
    why: A limit for a test.
    fail_if: last(cassette.cogs_t) + first(crankset.rings_t) > 80
    say: Too much together.
    remedy: Less.
    basis: {practice: none}
`

// changesOf gives every change as rule, verdicts and causes.
func changesOf(c Change) []string {
	var out []string
	for _, l := range []struct {
		name string
		list []ChangedFinding
	}{{"new", c.New}, {"worse", c.Worse}, {"better", c.Better}, {"gone", c.Gone}, {"same", c.Same}} {
		for _, f := range l.list {
			sets := make([]string, len(f.Causes))
			for i, set := range f.Causes {
				sets[i] = strings.Join(set, "+")
			}
			out = append(out, strings.TrimRight(l.name+" "+f.Rule+" "+f.Was.String()+">"+f.Now.String()+" "+strings.Join(sets, " or "), " "))
		}
	}
	return out
}

func TestCompare(t *testing.T) {
	type fields = map[string]any
	cogs := func(largest int) fields { return fields{"cogs_t": []int{11, largest}} }
	rings := func(t int) fields { return fields{"rings_t": []int{t}} }
	worn := fields{"chain_wear_percent": 0.8}
	tests := []struct {
		name          string
		before, after map[string]fields
		want          []string
	}{
		{"nothing", map[string]fields{"cassette": cogs(42)}, map[string]fields{"cassette": cogs(42)}, []string{"same limits/largest fail>fail"}},
		{"worse", map[string]fields{"cassette": cogs(28)}, map[string]fields{"cassette": cogs(42)}, []string{"worse limits/largest pass>fail cassette"}},
		{"better", map[string]fields{"cassette": cogs(42)}, map[string]fields{"cassette": cogs(34)}, []string{"better limits/largest fail>warn cassette"}},
		{"new", map[string]fields{}, map[string]fields{"cassette": cogs(28)}, []string{"new limits/largest >pass cassette"}},
		{"gone", map[string]fields{"cassette": cogs(28)}, map[string]fields{}, []string{"gone limits/largest pass> cassette"}},
		{"a kind that no rule reads", map[string]fields{"cassette": cogs(28), "chain": {"speeds": 9}}, map[string]fields{"cassette": cogs(42), "chain": {"speeds": 10}},
			[]string{"worse limits/largest pass>fail cassette"}},
		{"only together", map[string]fields{"cassette": cogs(30), "crankset": rings(38)}, map[string]fields{"cassette": cogs(40), "crankset": rings(50)},
			[]string{"worse limits/range pass>fail cassette+crankset", "worse limits/largest pass>warn cassette"}},
		{"each alone", map[string]fields{"cassette": cogs(28), "crankset": rings(38)}, map[string]fields{"cassette": cogs(46), "crankset": rings(53)},
			[]string{"worse limits/largest pass>fail cassette", "worse limits/range pass>fail cassette or crankset"}},
		{"both must be there", map[string]fields{}, map[string]fields{"crankset": rings(38), "chain_guide": {"ring_max_t": 36}},
			[]string{"new limits/guide >fail crankset+chain_guide"}},
		{"measured anew", map[string]fields{"chain": {"speeds": 9}}, map[string]fields{"chain": {"speeds": 9}, "bench": worn},
			[]string{"new limits/wear >warn bench"}},
		{"measured on the old chain", map[string]fields{"chain": {"speeds": 9}, "bench": worn}, map[string]fields{"chain": {"speeds": 10}},
			[]string{"gone limits/wear warn> chain"}},
	}
	c := rulesOf(t, limitRules)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			before, after := c.Check(mixOf(random.Draw{Fields: test.before})), c.Check(mixOf(random.Draw{Fields: test.after}))
			if got := changesOf(Compare(before, after)); !slices.Equal(got, test.want) {
				t.Errorf("got  %q\nwant %q", got, test.want)
			}
		})
	}
}

// changedDraw gives a mix and another one with some of the parts exchanged.
func changedDraw(t *testing.T, rng *rand.Rand) (before, after Mix) {
	a, b := random.New(rng), random.New(rng)
	other := random.Draw{Fields: maps.Clone(a.Fields), Bike: a.Bike}
	for range 1 + rng.IntN(5) {
		kind := catalog.KindNames()[rng.IntN(len(catalog.KindNames()))]
		if rng.IntN(6) == 0 {
			kind = "bench"
		}
		delete(other.Fields, kind)
		if fields, ok := b.Fields[kind]; ok {
			other.Fields[kind] = fields
		}
	}
	return mixOf(a), mixOf(other)
}

// The causes are held against every set of what differs, without any knowledge
// of what a rule reads: exactly the least sets that suffice are named.
func TestCausesAreTheLeastSets(t *testing.T) {
	strict, err := New(Config{NoUsual: true})
	if err != nil {
		t.Fatal(err)
	}
	rng := random.Seeded(11)
	changes, together, several := 0, 0, 0
	for i := range fewer(400) {
		c := standardChecker(t)
		if i%4 == 3 { // what is not taken as usual in the reports causes nothing either
			c = strict
		}
		before, after := changedDraw(t, rng)
		d := differences(before, after)
		if len(d) > 6 {
			continue
		}
		change := Explain(c.Check(before), c.Check(after), d)
		b := newBlame(change.Before, change.After, d)
		check := byWholeCheck(b)
		for _, f := range slices.Concat(change.New, change.Worse, change.Better, change.Gone) {
			changes++
			want := leastByBruteForce(b, f, check)
			if !slices.Equal(inOrder(f.Causes), inOrder(want)) {
				t.Fatalf("%s %s to %s: causes %v, want %v", f.Rule, f.Was, f.Now, f.Causes, want)
			}
			several += min(len(want)-1, 1)
			together += min(len(want[0])-1, 1)
		}
	}
	if changes < fewer(500) || together == 0 || several == 0 && !testing.Short() {
		t.Errorf("%d changes, %d by several together, %d by several each: that proves little", changes, together, several)
	}
}

// leastByBruteForce tries every set of all differences.
func leastByBruteForce(b *blame, f ChangedFinding, check func(set uint64) map[string]Standing) [][]string {
	rank := map[string]int{"fail": 0, "unknown": 1, "warn": 2, "pass": 3, "": 4}
	from, to := rank[f.Was.String()], rank[f.Now.String()]
	var sets []uint64
	for size := 1; size <= len(b.parts); size++ {
		for set := uint64(1); set < 1<<len(b.parts); set++ {
			l := rank[check(set)[f.Rule].String()]
			enough := from > to && l <= to || from < to && l >= to
			if bits.OnesCount64(set) == size && enough && !slices.ContainsFunc(sets, func(s uint64) bool { return s&set == s }) {
				sets = append(sets, set)
			}
		}
	}
	var out [][]string
	for _, set := range sets {
		var names []string
		for i, d := range b.parts {
			if set&(1<<i) != 0 {
				names = append(names, d.Name)
			}
		}
		out = append(out, names)
	}
	return out
}

// byWholeCheck judges mixes between two as any other, each once.
func byWholeCheck(b *blame) func(set uint64) map[string]Standing {
	tried := map[uint64]map[string]Standing{}
	return func(set uint64) map[string]Standing {
		if tried[set] == nil {
			tried[set] = map[string]Standing{}
			for _, v := range b.checker.Check(Mix{facts: b.between(set)}).Verdicts() {
				tried[set][v.Rule] = Standing{Applied: true, Verdict: v.Verdict}
			}
		}
		return tried[set]
	}
}

// inOrder gives sets of names as sorted texts.
func inOrder(sets [][]string) []string {
	var out []string
	for _, set := range sets {
		out = append(out, strings.Join(set, "+"))
	}
	slices.Sort(out)
	return out
}

// Compared with itself nothing changes; compared the other way round, what was
// new is gone and what was worse is better.
func TestCompareBothWays(t *testing.T) {
	c := standardChecker(t)
	rng := random.Seeded(12)
	ids := func(list []ChangedFinding) string {
		out := ""
		for _, f := range list {
			out += f.Rule + " " + f.Was.String() + f.Now.String() + "\n"
		}
		return out
	}
	for range fewer(300) {
		x, y := changedDraw(t, rng)
		before, after := c.Check(x), c.Check(y)
		self := Compare(before, before)
		if len(self.New)+len(self.Worse)+len(self.Better)+len(self.Gone) > 0 {
			t.Fatalf("compared with itself: %v", changesOf(self))
		}
		bad := 0
		for _, f := range before.Findings() {
			if f.Verdict != rules.Pass {
				bad++
			}
		}
		if len(self.Same) != bad {
			t.Fatalf("%d stay the same of %d", len(self.Same), bad)
		}
		there, back := Compare(before, after), Compare(after, before)
		if ids(there.New) != ids(back.Gone) || ids(there.Gone) != ids(back.New) ||
			len(there.Worse) != len(back.Better) || len(there.Same) != len(back.Same) {
			t.Fatalf("there\n%v\nback\n%v", changesOf(there), changesOf(back))
		}
		moved := len(there.New) - len(there.Gone)
		if got := len(after.Findings()) - len(before.Findings()); got != moved {
			t.Fatalf("%d more findings, %d new less gone", got, moved)
		}
	}
}

// What two sets of rules do not agree on is not laid on the parts.
func TestNoCausesAcrossRules(t *testing.T) {
	before := standardChecker(t).Check(lakeBike(t))
	stricter, err := New(Config{Rules: ruleFiles(limitRules)})
	if err != nil {
		t.Fatal(err)
	}
	change := Compare(before, stricter.Check(lakeBike(t, "pitch_mm")))
	if len(change.New)+len(change.Worse) == 0 {
		t.Error("another set of rules changed nothing")
	}
	for _, f := range slices.Concat(change.New, change.Worse, change.Better, change.Gone) {
		if len(f.Causes) > 0 {
			t.Errorf("%s is laid on %v", f.Rule, f.Causes)
		}
	}
}

// A rule about more than eight kinds is blamed on one least set.
func TestCausesOfMany(t *testing.T) {
	const manyRules = `
pack: many
rules:
  - id: many/ends
    title: Something is short
    why: A limit for a test.
    fail_if: >-
      last(cassette.cogs_t) > 40 && first(crankset.rings_t) > 40 || chain.speeds == 99 || rear_derailleur.max_cog_t == 9 || hub.body_length_mm < 0.0 ||
      frame.chainstay_mm < 0.0 || wheel.bead_seat_mm < 0.0 || cockpit.free_bar_mm < 0.0 || chainring.bolt_circle_mm < 0.0 || hanger_link.drop_mm < 0.0
    say: It fails.
    remedy: Do not.
    basis: {practice: none}
`
	fields := func(teeth int) map[string]map[string]any {
		return map[string]map[string]any{
			"cassette": {"cogs_t": []int{11, teeth}}, "crankset": {"rings_t": []int{teeth}}, "chain": {"speeds": teeth / 4},
			"rear_derailleur": {"max_cog_t": teeth}, "hub": {"body_length_mm": teeth}, "frame": {"chainstay_mm": 400 + teeth},
			"wheel": {"bead_seat_mm": 500 + teeth}, "cockpit": {"free_bar_mm": teeth}, "chainring": {"rings_t": []int{30}, "bolt_circle_mm": 50 + teeth},
			"hanger_link": {"drop_mm": teeth / 4},
		}
	}
	c := rulesOf(t, manyRules)
	change := Compare(c.Check(mixOf(random.Draw{Fields: fields(28)})), c.Check(mixOf(random.Draw{Fields: fields(44)})))
	if got := changesOf(change); !slices.Equal(got, []string{"worse many/ends pass>fail cassette+crankset"}) {
		t.Errorf("got %q", got)
	}
}

func TestChangeAsJSON(t *testing.T) {
	c := standardChecker(t)
	rng := random.Seeded(13)
	for range 50 {
		x, y := changedDraw(t, rng)
		change := Compare(c.Check(x), c.Check(y))
		text, err := json.Marshal(change)
		if err != nil || strings.Contains(string(text), "null") {
			t.Fatalf("%v: %s", err, text)
		}
		again, _ := json.Marshal(Compare(c.Check(x), c.Check(y)))
		if string(again) != string(text) {
			t.Fatalf("not the same bytes:\n%s\n%s", text, again)
		}
		var got struct {
			SchemaVersion int `json:"schema_version"`
			Before, After struct {
				Verdict string
				Rules   struct{ Hash string }
			}
			New, Worse, Better, Gone, Same []struct {
				Rule, Before, After, Text string
				Causes                    [][]string
			}
		}
		if err := json.Unmarshal(text, &got); err != nil {
			t.Fatal(err)
		}
		if got.SchemaVersion != 1 || got.Before.Rules.Hash != c.Rules().Hash() || got.After.Verdict != change.After.Verdict.String() ||
			len(got.New) != len(change.New) || len(got.Same) != len(change.Same) {
			t.Errorf("%s", text)
		}
		for _, f := range got.Gone {
			if f.After != "" || f.Before == "" || f.Text == "" || len(f.Causes) == 0 {
				t.Errorf("gone: %+v", f)
			}
		}
	}
}

// ruleFiles makes a file system of one rule file.
func ruleFiles(text string) []fs.FS { return []fs.FS{fstest.MapFS{"rules.yaml": {Data: []byte(text)}}} }

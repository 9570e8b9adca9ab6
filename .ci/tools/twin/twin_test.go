package twin_test

import (
	"encoding/json"
	"io/fs"
	"slices"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/tools/draw"
	"example.org/cogcourt/tools/twin"
)

func checker(t testing.TB) *compat.Checker {
	t.Helper()
	c, err := compat.New(compat.Config{NoStandard: true, NoUsual: true, Rules: []fs.FS{twin.Files()}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestTwinHasTheRules(t *testing.T) {
	var have []string
	for _, r := range checker(t).Rules().Rules() {
		have = append(have, r.ID)
	}
	if !slices.Equal(have, twin.New().Rules()) {
		t.Errorf("the file has %q, the twin %q", have, twin.New().Rules())
	}
}

// TestTwinSaysTheSame holds that both say the same of 2,000 random mixes: every
// verdict, what is missing, what a fail hangs on, and why a rule is not applied.
func TestTwinSaysTheSame(t *testing.T) {
	c, hand := checker(t), twin.New()
	mixes := draw.New(1, false)
	seen := map[string]int{}
	for range 2000 {
		text, err := json.Marshal(mixes.Next())
		if err != nil {
			t.Fatal(err)
		}
		m, err := compat.ReadMix("drawn.json", text, nil)
		if err != nil {
			t.Fatal(err)
		}
		records := hand.Records(m)
		hand.Put(records, c.Check(m).Figures)
		want := hand.Judge(records)
		got := said(c.Rules().Evaluate(records))
		for i, id := range hand.Rules() {
			seen[id+" "+kind(want[i])]++
			if !same(got[id], want[i]) {
				t.Errorf("%s: the checker says %+v, the twin %+v", id, got[id], want[i])
			}
		}
		sameReport(t, c.Check(m), hand.Rules(), want)
		if t.Failed() {
			t.Fatalf("the mix: %s", text)
		}
	}
	// Where no mix makes a rule say something, nothing is compared.
	for _, r := range c.Rules().Rules() {
		for _, k := range canSay(c.Rules(), r) {
			if seen[r.ID+" "+k] == 0 {
				t.Errorf("no mix made %s say %s", r.ID, k)
			}
		}
	}
}

// said gives what the rules say, by rule. The order of names is the engine's own.
func said(res *rules.Result) map[string]twin.Finding {
	out := map[string]twin.Finding{}
	for _, f := range res.Findings {
		out[f.Rule.ID] = twin.Finding{Verdict: f.Verdict, Names: f.Missing, Assumed: f.Assumed, Err: f.Err}
	}
	for _, n := range res.NotApplied {
		out[n.Rule.ID] = twin.Finding{Reason: n.Reason, Names: n.Names}
	}
	return out
}

func same(a, b twin.Finding) bool {
	return a.Verdict == b.Verdict && a.Reason == b.Reason && a.Err == b.Err && sameNames(a.Names, b.Names) && sameNames(a.Assumed, b.Assumed)
}

func sameNames(a, b []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b)))
}

// kind is what a finding is, without its names.
func kind(f twin.Finding) string {
	switch {
	case f.Reason != "":
		return "not applied, " + string(f.Reason)
	case len(f.Assumed) > 0:
		return "warn for what is assumed"
	}
	return f.Verdict.String()
}

// canSay lists what a rule can come to by the way it is written.
func canSay(set *rules.Set, r *rules.Rule) []string {
	out := []string{"pass", "not applied, absent"}
	if r.WarnIf != "" || r.ID == "twin/length" {
		out = append(out, "warn")
	}
	if r.FailIf != "" {
		out = append(out, "warn for what is assumed")
	}
	if r.FailIf != "" && r.ID != "twin/length" { // which is adjusted
		out = append(out, "fail")
	}
	switch r.ID {
	case "twin/smallest-cog", "twin/odd-ring":
		out = append(out, "not applied, unstated")
	case "twin/roller": // each kind of roller has a default
	default:
		out = append(out, "unknown")
	}
	switch r.ID {
	case "twin/radio", "twin/odd-ring", "twin/lockring":
		out = append(out, "not applied, when")
	case "twin/neighbour-gap", "twin/residual", "twin/steps":
		out = append(out, "not applied, figure")
	}
	return out
}

// sameReport holds that a report says what its rules say.
func sameReport(t *testing.T, r compat.Report, ids []string, want []twin.Finding) {
	t.Helper()
	verdicts := map[string]rules.Verdict{}
	for _, v := range r.Verdicts() {
		verdicts[v.Rule] = v.Verdict
	}
	worst := rules.Pass
	for i, id := range ids {
		got, applied := verdicts[id]
		if applied != (want[i].Reason == "") || got != want[i].Verdict {
			t.Errorf("%s: the report says %s, applied %v; the twin %+v", id, got, applied, want[i])
		}
		if applied && got.Rank() < worst.Rank() {
			worst = got
		}
	}
	if len(verdicts) > 0 && r.Complete && r.Verdict != worst {
		t.Errorf("the report says %s, its worst finding is %s", r.Verdict, worst)
	}
}

// known is a mix of which every rule's facts are stated.
func known(t testing.TB) compat.Mix {
	t.Helper()
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	text, _ := demo.Mix("ferry-motor")
	m, err := compat.ReadMix("ferry-motor", text, parts)
	if err != nil {
		t.Fatal(err)
	}
	for kind, fields := range map[string]map[string]any{
		"crankset": {"rings_t": []int{32}, "chainline_mm": 52, "ring_offset_mm": []float64{0}, "ring_thickness_mm": 2.1, "narrow_wide": true, "roller_class": "standard"},
		// A body that is in no table, so that the heights decide.
		"cassette": {
			"cogs_t": []int{10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51}, "pitch_mm": 3.75, "cog_thickness_mm": 1.6,
			"mount_height_mm": 31.5, "freehub": "lake-body", "index_family": "pier", "roller_class": "standard",
		},
		"hub": {
			"kind_of_hub": "cassette", "freehub": "lake-body", "body_length_mm": 31, "over_locknut_mm": 148, "axle": "through",
			"smallest_cog_inset_mm": 7.3, "min_cog_t": 10,
		},
		"chain": {"speeds": 12, "roller_class": "standard", "pitches": 126, "outer_width_mm": 5.25, "inner_class": "eleven-128"},
	} {
		p, err := catalog.New(kind, fields)
		if err != nil {
			t.Fatal(err)
		}
		m = m.With(p)
	}
	return m
}

// mostAllocations bounds a check of a known mix.
const mostAllocations = 20

func TestCheckAllocates(t *testing.T) {
	c, m := checker(t), known(t)
	for _, v := range c.Check(m).Verdicts() {
		if v.Verdict == rules.Unknown {
			t.Errorf("%s is unknown: the mix is to be a known one", v.Rule)
		}
	}
	if got := testing.AllocsPerRun(200, func() { c.Check(m) }); got > mostAllocations {
		t.Errorf("%.0f allocations a check, at most %d are wanted", got, mostAllocations)
	}
}

// BenchmarkCheck and BenchmarkTwin judge one mix by the rule file and by hand,
// both with its figures.
func BenchmarkCheck(b *testing.B) {
	c, m := checker(b), known(b)
	b.ReportAllocs()
	for b.Loop() {
		c.Check(m)
	}
}

func BenchmarkTwin(b *testing.B) {
	hand, m := twin.New(), known(b)
	b.ReportAllocs()
	for b.Loop() {
		byHand(hand, m)
	}
}

func byHand(hand *twin.Twin, m compat.Mix) []twin.Finding {
	records := hand.Records(m)
	hand.Put(records, compat.Measure(m))
	return hand.Judge(records)
}

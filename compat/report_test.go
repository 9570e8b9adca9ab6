package compat

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/rules"
)

// eachReport checks some random mixes and hands each report over.
func eachReport(t *testing.T, n int, look func(t *testing.T, d random.Draw, r Report)) {
	c := standardChecker(t)
	rng := random.Seeded(2)
	for i := range fewer(n) {
		d := random.New(rng)
		if i%4 == 0 {
			d.Loosen(rng)
		}
		look(t, d, c.Check(mixOf(d)))
		if t.Failed() {
			t.Fatalf("the mix: %v", d.Fields)
		}
	}
}

// factIn finds a fact of the vocabulary in a mix: whether its part is there and
// whether the fact is.
func factIn(t *testing.T, r Report, name string) (part, stated bool) {
	ref, ok := r.set.Vocabulary().Find(name)
	if !ok {
		t.Fatalf("%s is no fact", name)
	}
	place, _ := r.set.Vocabulary().Index(ref.Object.Name())
	part = r.Mix.facts.Measure().Records()[place] != nil
	return part, r.Mix.facts.Value(ref).Known
}

// What an unknown finding names is what there is to measure: facts of parts that
// are there, and that nobody stated.
func TestUnknownNamesWhatIsMissing(t *testing.T) {
	unknown := 0
	eachReport(t, 2500, func(t *testing.T, d random.Draw, r Report) {
		for _, f := range r.result.Findings {
			if (f.Verdict == rules.Unknown) != (len(f.Missing) > 0 || f.Err != "") || len(f.Missing) > 0 && f.Err != "" {
				t.Errorf("%s gives %s and names %v as missing, and the error %q", f.Rule.ID, f.Verdict, f.Missing, f.Err)
			}
			for _, name := range f.Missing {
				unknown++
				if part, stated := factIn(t, r, name); !part || stated {
					t.Errorf("%s names %s as missing: its part is there: %v, it is stated: %v", f.Rule.ID, name, part, stated)
				}
			}
		}
		for _, m := range r.Missing() {
			if m.Doc == "" || m.How == "" || len(m.Rules) == 0 {
				t.Errorf("missing fact without doc, way to measure or rule: %+v", m)
			}
		}
	})
	if unknown == 0 {
		t.Error("no mix left anything open")
	}
}

// Facts that do not fit together make no figure, and no figure never passes: a
// derailleur's list of two ratios says nothing of a shifter of three clicks.
func TestFactsThatDoNotFit(t *testing.T) {
	m, err := NewMix("Three clicks, two ratios", ScopeCart,
		newPart(t, "cassette", map[string]any{"cogs_t": []int{11, 13, 15, 17}, "pitch_mm": 4.0}),
		newPart(t, "rear_shifter", map[string]any{"actuation": "cable", "pulls_mm": []float64{2.8, 2.8, 2.8}}),
		newPart(t, "rear_derailleur", map[string]any{"actuation": "cable", "ratios": []float64{1.7, 1.7}, "max_cog_t": 20}))
	if err != nil {
		t.Fatal(err)
	}
	r := standardChecker(t).Check(m)
	if r.Verdict != rules.Unknown || r.Complete {
		t.Errorf("the report gives %s, complete %v", r.Verdict, r.Complete)
	}
	for _, f := range r.Findings() {
		if f.Rule == "index/residual" && (f.Verdict != rules.Unknown || !strings.Contains(f.Error, "step_positions_mm")) {
			t.Errorf("index/residual gives %s, error %q", f.Verdict, f.Error)
		}
	}
	if got := stateOf(r.result, "index/residual"); got != "unknown" {
		t.Errorf("index/residual comes to %q", got)
	}
}

// A rule that is not applied says why in terms of the mix.
func TestNotAppliedSaysWhy(t *testing.T) {
	seen := map[rules.Reason]int{}
	eachReport(t, 2500, func(t *testing.T, d random.Draw, r Report) {
		if n := len(r.result.Findings) + len(r.result.NotApplied); n != len(r.set.Rules()) {
			t.Errorf("%d answers of %d rules", n, len(r.set.Rules()))
		}
		for _, na := range r.NotApplied() {
			seen[na.Reason]++
			switch na.Reason {
			case rules.ReasonAbsent:
				for _, kind := range na.Names {
					if _, there := r.Mix.Part(kind); there {
						t.Errorf("%s calls %s absent, which is there", na.Rule.ID, kind)
					}
				}
			case rules.ReasonUnstated:
				for _, name := range na.Names {
					if part, stated := factIn(t, r, name); !part || stated {
						t.Errorf("%s calls %s unstated: its part is there: %v, it is stated: %v", na.Rule.ID, name, part, stated)
					}
				}
			}
			if want := na.Reason != rules.ReasonWhen; want != (len(na.Names) > 0) {
				t.Errorf("%s is not applied by %s and names %v", na.Rule.ID, na.Reason, na.Names)
			}
		}
	})
	for _, reason := range []rules.Reason{rules.ReasonWhen, rules.ReasonAbsent, rules.ReasonFigure} {
		if seen[reason] == 0 {
			t.Errorf("no rule was not applied by %s", reason)
		}
	}
}

// The verdict of a report is worked out here a second time, from its findings
// alone.
func TestVerdictOfReports(t *testing.T) {
	seen := map[rules.Verdict]int{}
	eachReport(t, 4000, func(t *testing.T, d random.Draw, r Report) {
		count := map[rules.Verdict]int{}
		for _, f := range r.Findings() {
			count[f.Verdict]++
		}
		complete := count[rules.Unknown] == 0 && len(r.result.Findings) > 0 && len(r.Absent()) == 0 &&
			!slices.ContainsFunc(r.NotJudged(), func(n NotJudged) bool { return n.Drive })
		want := rules.Unknown
		switch {
		case count[rules.Fail] > 0:
			want = rules.Fail
		case !complete:
		case count[rules.Warn] > 0:
			want = rules.Warn
		case count[rules.Pass] > 0:
			want = rules.Pass
		}
		if r.Verdict != want || r.Complete != complete {
			t.Errorf("verdict %s, complete %v; findings %v, absent %v", r.Verdict, r.Complete, count, r.Absent())
		}
		seen[r.Verdict]++
		bikeNeeds(t, r)
	})
	for _, v := range []rules.Verdict{rules.Unknown, rules.Warn, rules.Fail} {
		if seen[v] == 0 && !testing.Short() {
			t.Errorf("no mix came to %s", v)
		}
	}
}

// bikeNeeds holds that a bike lacks each kind that it needs, and a cart none.
func bikeNeeds(t *testing.T, r Report) {
	facts := r.Mix.facts
	belt := facts.Value(catalog.Frame.Ref("drive")).Text == "belt"
	cogs, rings := facts.Value(catalog.Cassette.Ref("cogs_t")), facts.Value(catalog.Crankset.Ref("rings_t"))
	hub := facts.Value(catalog.Hub.Ref("kind_of_hub")).Text
	count := max(len(cogs.List), int(facts.Value(catalog.Cassette.Ref("cog_count")).Num))
	shifts := count > 1 || count == 0 && hub != "fixed" && hub != "internal"
	needs := map[string]bool{
		"crankset": true, "hub": true, "frame": true, "cassette": !belt, "chain": !belt,
		"rear_derailleur": !belt && shifts, "rear_shifter": !belt && shifts, "front_derailleur": !belt && len(rings.List) > 1,
	}
	for _, kind := range catalog.KindNames() {
		_, there := r.Mix.Part(kind)
		if named := slices.Contains(r.Absent(), kind); named != (needs[kind] && !there && r.Mix.Scope() == ScopeBike) {
			t.Errorf("%s %s: there %v, named as absent %v", r.Mix.Scope(), kind, there, named)
		}
	}
}

func TestFindingsStandInOrder(t *testing.T) {
	place := map[string]int{}
	for i, rule := range standardChecker(t).set.Rules() {
		place[rule.ID] = i
	}
	order := []rules.Verdict{rules.Fail, rules.Unknown, rules.Warn, rules.Pass}
	eachReport(t, 1000, func(t *testing.T, d random.Draw, r Report) {
		fs := r.Findings()
		for i := 1; i < len(fs); i++ {
			a, b := slices.Index(order, fs[i-1].Verdict), slices.Index(order, fs[i].Verdict)
			if a > b || a == b && place[fs[i-1].Rule] >= place[fs[i].Rule] {
				t.Errorf("%s (%s) stands before %s (%s)", fs[i-1].Rule, fs[i-1].Verdict, fs[i].Rule, fs[i].Verdict)
			}
		}
		ms := r.Missing()
		for i := 1; i < len(ms); i++ {
			if len(ms[i-1].Rules) < len(ms[i].Rules) {
				t.Errorf("%s decides fewer rules than %s and stands before it", ms[i-1].Name, ms[i].Name)
			}
		}
	})
}

// No figure, text or JSON ever holds what is no number.
func TestEverythingIsANumber(t *testing.T) {
	eachReport(t, 1000, func(t *testing.T, d random.Draw, r Report) {
		for _, f := range figures.Object.Table().Fields() {
			v, lack := r.Figures.Value(f.Name)
			for _, x := range append([]float64{v.Num}, v.List...) {
				if math.IsNaN(x) || math.IsInf(x, 0) || x == 0 && math.Signbit(x) {
					t.Errorf("%s is %v", f.Name, x)
				}
			}
			lacks := len(lack.Missing) + len(lack.Absent)
			if v.Known == (lacks > 0 || lack.Reason+lack.Fault != "") {
				t.Errorf("%s has a value: %v, and lacks %+v", f.Name, v.Known, lack)
			}
		}
		for _, f := range r.Findings() {
			for _, text := range []string{f.Text, f.Remedy, f.Caution} {
				if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
					t.Errorf("%s says %q", f.Rule, text)
				}
			}
			if f.Text == "" || (f.Remedy != "") != (f.Verdict == rules.Warn || f.Verdict == rules.Fail) {
				t.Errorf("%s (%s): text %q, remedy %q", f.Rule, f.Verdict, f.Text, f.Remedy)
			}
		}
		text, err := json.Marshal(r)
		if err != nil || strings.Contains(string(text), ":null,") && !onlyMayBeNull(string(text)) {
			t.Errorf("%v: %s", err, text)
		}
	})
}

// onlyMayBeNull says whether nothing but the two keys that stand for one object
// or none is null.
func onlyMayBeNull(text string) bool {
	text = strings.ReplaceAll(text, `"adjusted":null`, "")
	text = strings.ReplaceAll(text, `"marginal":null`, "")
	text = strings.ReplaceAll(text, `"leans":null`, "")
	return !strings.Contains(text, "null")
}

package rules_test

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestUsed holds which facts a finding names: the stated ones that the
// conditions read, through let-names, in the order of the text, once each.
func TestUsed(t *testing.T) {
	set := mustLoad(t, pack("when: stated(sail.reefs) && sail.cloth == 'canvas'", "let: {over: sail.area_m2 - 2 * mast.height_m}",
		"fail_if: over > 10 || rig.heel_deg > 30", "warn_if: over > 0 || sail.wet", "say: \"{sail.maker}\""))
	res := set.Evaluate(records(facts{
		"sail.reefs": 1, "sail.cloth": "canvas", "sail.area_m2": 40, "mast.height_m": assumed(fact.Num(8)), "sail.maker": "ann", "rig.heel_deg": 31,
	}))
	var got []string
	for _, u := range res.Used(res.Findings[0]) {
		got = append(got, fmt.Sprintf("%s = %s %s %t", u.Name, u.Value, u.Field.Unit, u.Value.Assumed))
	}
	want := []string{"sail.reefs = 1  false", "sail.cloth = canvas  false", "sail.area_m2 = 40 m2 false", "mast.height_m = 8 m true", "rig.heel_deg = 31 deg false"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	var reads, asks []string
	for _, r := range set.Reads(set.Rules()[0]) {
		reads = append(reads, r.String())
	}
	for _, r := range set.Asks(set.Rules()[0]) {
		asks = append(asks, r.String())
	}
	if diff := cmp.Diff([]string{"sail.reefs", "sail.cloth", "sail.area_m2", "mast.height_m", "rig.heel_deg", "sail.wet"}, reads); diff != "" {
		t.Error(diff)
	}
	if !slices.Equal(asks, []string{"sail.reefs"}) {
		t.Errorf("asks for %v", asks)
	}
}

// TestNeeds holds what findings ask to be ordered.
func TestNeeds(t *testing.T) {
	rule := pack("warn_if: sail.area_m2 > 10",
		"needs:\n  - {what: \"rope of {mast.stays} strands\", value: sail.area_m2 * 2, unit: m}\n  - {what: glue}\n"+
			"  - {what: pitch, value: sail.reefs, unit: kg, when: sail.wet}\n  - {what: tar, value: 1 / sail.reefs, unit: kg}")
	set := mustLoad(t, rule)
	for _, c := range []struct {
		facts facts
		want  []rules.FilledNeed
	}{
		{facts{"sail.area_m2": 11, "mast.stays": 3, "sail.reefs": 2, "sail.wet": true},
			[]rules.FilledNeed{{What: "rope of 3 strands", Value: 22, Unit: "m"}, {What: "glue"}, {What: "pitch", Value: 2, Unit: "kg"}, {What: "tar", Value: 0.5, Unit: "kg"}}},
		// A thing whose measure cannot be worked out is not ordered.
		{facts{"sail.area_m2": 11, "mast.stays": 3, "sail.reefs": 0, "sail.wet": false},
			[]rules.FilledNeed{{What: "rope of 3 strands", Value: 22, Unit: "m"}, {What: "glue"}}},
		{facts{"sail.area_m2": 11, "sail.wet": true}, []rules.FilledNeed{{What: "rope of (not stated) strands", Value: 22, Unit: "m"}, {What: "glue"}}},
		// Where the rule passes, only what has a condition of its own.
		{facts{"sail.area_m2": 1, "sail.reefs": 2, "sail.wet": true}, []rules.FilledNeed{{What: "pitch", Value: 2, Unit: "kg"}}},
		{facts{"sail.area_m2": 1, "sail.reefs": 2}, nil},
		{facts{"sail.reefs": 2, "sail.wet": true}, nil},
	} {
		res := set.Evaluate(records(c.facts))
		if diff := cmp.Diff(c.want, res.Needs(res.Findings[0])); diff != "" {
			t.Errorf("%v: %s", c.facts, diff)
		}
	}
	if res := mustLoad(t, pack("warn_if: true")).Evaluate(records(nil)); res.Needs(res.Findings[0]) != nil {
		t.Error("a rule without needs orders something")
	}
}

// TestSet holds what a set tells of its files.
func TestSet(t *testing.T) {
	first := pack("id: boats/one", "warn_if: sail.wet", "basis: {source: \"book, log\"}") + "sources:\n  - {id: book, what: A book., status: read}\n"
	second := strings.Replace(pack("id: other/two", "fail_if: sail.wet"), "pack: boats", "pack: others\nedition: 3", 1) +
		"sources:\n  - {id: log, what: A log., status: from memory}\n"
	load := func(namesAndTexts ...string) *rules.Set {
		set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files(namesAndTexts...)})
		if err != nil {
			t.Fatal(err)
		}
		return set
	}
	set := load("b.yaml", second, "a.yaml", first)
	if diff := cmp.Diff([]rules.Pack{{Pack: "boats", Edition: 1}, {Pack: "others", Edition: 3}}, set.Packs()); diff != "" {
		t.Error(diff)
	}
	one, ok := set.Rule("boats/one")
	if !ok || one.Pack != "boats" || one.Pos.String() != "a.yaml:4:5" || one.WarnIf != "sail.wet" || one.FailIf != "" {
		t.Errorf("the first rule is %+v", one)
	}
	if diff := cmp.Diff([]rules.Basis{{Kind: "source", Text: "book"}, {Kind: "source", Text: "log"}}, one.Basis); diff != "" {
		t.Error(diff)
	}
	if _, ok := set.Rule("boats/three"); ok || len(set.Rules()) != 2 || set.Rules()[0] != one {
		t.Error("there are two rules, in the order of the files")
	}
	if s := set.Citations(); len(s) != 2 || s[0].ID != "book" || s[1].Status != "from memory" || s[1].Pos.File != "b.yaml" {
		t.Errorf("the sources are %v", s)
	}
	if set.Vocabulary().Objects()[0] != sail {
		t.Error("the vocabulary is another one")
	}
	if h := set.Hash(); !strings.HasPrefix(h, "sha256:") || h != load("a.yaml", first, "b.yaml", second).Hash() {
		t.Errorf("equal files, other hash %s", h)
	}
	for name, other := range map[string]*rules.Set{
		"a comment more": load("a.yaml", first+"# x\n", "b.yaml", second),
		"a file more":    load("a.yaml", first, "b.yaml", second, "c.yaml", "pack: boats\n"),
	} {
		if other.Hash() == set.Hash() {
			t.Errorf("%s, same hash", name)
		}
	}
}

// TestGoroutines holds that one set serves many goroutines. The race detector
// watches.
func TestGoroutines(t *testing.T) {
	set := mustLoad(t, smoke)
	var wg sync.WaitGroup
	for g := range 8 {
		wg.Go(func() {
			for i := range 100 {
				area := float64((g*37 + i) % 60)
				res := set.Evaluate(records(facts{"sail.area_m2": area, "sail.reefs": 1, "sail.cloth": "canvas", "mast.height_m": 8, "sail.panels_m2": []float64{1}}))
				want := rules.Pass
				switch over := area - 16; {
				case over > 10:
					want = rules.Fail
				case over > 0:
					want = rules.Warn
				}
				f := res.Findings[0]
				if f.Verdict != want {
					t.Errorf("%v m2: %s", area, f.Verdict)
				}
				if over := fmt.Sprintf("%.1f m2 over", area-16); want != rules.Pass && !strings.Contains(res.Text(f), over) {
					t.Errorf("%v m2: %s", area, res.Text(f))
				}
			}
		})
	}
	wg.Wait()
}

// TestPanicIsTheRulesError holds that a breakdown within one rule is that rule's
// error, and the others are judged. A record of another object than the one it
// is given for makes one.
func TestPanicIsTheRulesError(t *testing.T) {
	set := mustLoad(t, `
pack: boats
rules:
  - {id: a/panic, title: T, why: W, fail_if: sail.wet, say: S, remedy: R, basis: {practice: P}}
  - {id: a/engine, title: T, why: W, fail_if: "[1].exists(x, sail.wet)", say: S, remedy: R, basis: {practice: P}}
  - {id: a/sound, title: T, why: W, fail_if: mast.height_m > 3, say: "{sail.wet} {mast.height_m}", remedy: R, basis: {practice: P}}
`)
	tall := records(facts{"mast.height_m": 4, "sail.wet": false})
	broken := []*rules.Record{tall[1], tall[1], nil}
	for _, want := range []struct {
		records  []*rules.Record
		verdicts string
	}{{broken, "unknown unknown fail"}, {tall, "pass pass fail"}, {broken, "unknown unknown fail"}} {
		res := set.Evaluate(want.records)
		var got []string
		for _, f := range res.Findings {
			got = append(got, f.Verdict.String())
			if (f.Verdict == rules.Unknown) != strings.Contains(f.Err, "internal error") {
				t.Errorf("%s: error %q", f.Rule.ID, f.Err)
			}
		}
		if strings.Join(got, " ") != want.verdicts {
			t.Errorf("got %v, want %s", got, want.verdicts)
		}
		if f := res.Findings[2]; !strings.HasSuffix(res.Text(f), " 4") {
			t.Errorf("says %q", res.Text(f))
		}
	}
}

// TestAdjust holds how findings are changed by decision of a person.
func TestAdjust(t *testing.T) {
	rule := "fail_if: sail.area_m2 > 20\nwarn_if: sail.area_m2 > 10"
	adjust := func(to string) string {
		return "adjust:\n  - {rule: boats/rule, to: " + to + ", reason: \"Tried on 2026-05-01.\", by: Ann, until: 2027-03-31}\n"
	}
	at := func(day string) func() time.Time {
		return func() time.Time {
			now, err := time.Parse(time.RFC3339, day)
			if err != nil {
				t.Fatal(err)
			}
			return now
		}
	}
	for _, c := range []struct {
		to, now string
		facts   facts
		want    string
	}{
		{"pass", "2027-01-01T00:00:00Z", facts{"sail.area_m2": 21}, "fail given as pass"},
		{"warn", "2027-01-01T00:00:00Z", facts{"sail.area_m2": 21}, "fail given as warn"},
		{"fail", "2027-01-01T00:00:00Z", facts{"sail.area_m2": 11}, "warn given as fail"},
		{"warn", "2027-01-01T00:00:00Z", facts{"sail.area_m2": 11}, "warn"},
		{"fail", "2027-01-01T00:00:00Z", facts{"sail.area_m2": 1}, "pass"},
		{"pass", "2027-01-01T00:00:00Z", facts{"sail": nil}, "unknown missing sail.area_m2"},
		{"pass", "2027-01-01T00:00:00Z", facts{}, "not applied absent sail"},
		// The last day counts, to its end in UTC.
		{"pass", "2027-03-31T23:59:59Z", facts{"sail.area_m2": 21}, "fail given as pass"},
		{"pass", "2027-04-01T01:30:00+02:00", facts{"sail.area_m2": 21}, "fail given as pass"},
		{"pass", "2027-04-01T00:00:00Z", facts{"sail.area_m2": 21}, "fail"},
		{"pass", "2027-03-31T23:30:00-02:00", facts{"sail.area_m2": 21}, "fail"},
	} {
		set, err := rules.Load(rules.Config{Vocabulary: vocabulary(t), Files: files("a.yaml", pack(rule)+adjust(c.to)), Clock: at(c.now)})
		if err != nil {
			t.Fatal(err)
		}
		res := set.Evaluate(records(c.facts))
		if got := outcome(res); got != c.want {
			t.Errorf("to %s at %s with %v: %s, not %s", c.to, c.now, c.facts, got, c.want)
			continue
		}
		if len(res.Findings) == 0 {
			continue
		}
		a := set.Adjusted(res.Findings[0])
		if (a != nil) != strings.Contains(c.want, "given as") {
			t.Errorf("to %s at %s with %v: adjusted by %v", c.to, c.now, c.facts, a)
		}
		if a != nil && (a.By != "Ann" || a.Reason == "" || a.Until.Format(time.DateOnly) != "2027-03-31" || a.Rule != "boats/rule") {
			t.Errorf("the adjustment is %+v", a)
		}
	}
	// A rule about safety can be taken down to a warning and no further.
	if _, err := load(t, pack(rule, "safety: true")+adjust("warn")); err != nil {
		t.Error(err)
	}
	if _, err := load(t, pack(rule, "safety: true")+adjust("pass")); err == nil || !strings.Contains(err.Error(), "below warn") {
		t.Errorf("got %v", err)
	}
}

// TestForUseAlone holds that a set of one rule says the same when its memory serves again,
// of a boat that passes and of one that does not.
func TestForUseAlone(t *testing.T) {
	set := mustLoad(t, pack("fail_if: sail.area_m2 > 10"))
	for _, c := range []struct {
		given facts
		want  rules.Verdict
	}{
		{facts{"sail.area_m2": 9}, rules.Pass}, {facts{"sail.area_m2": 9}, rules.Pass}, {facts{"sail.area_m2": 11}, rules.Fail},
		{facts{"sail.reefs": 1}, rules.Unknown}, {facts{"sail.area_m2": 9}, rules.Pass},
	} {
		set.EvaluateOnce(records(c.given), func(res *rules.Result) {
			if len(res.Findings) != 1 || res.Findings[0].Ruled != c.want || len(res.NotApplied) > 0 {
				t.Errorf("%v: %+v, want %s", c.given, res.Findings, c.want)
			}
		})
	}
}

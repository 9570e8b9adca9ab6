package compat

import (
	"testing"

	"example.org/cogcourt/compat/internal/random"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
)

// briefly is what both brief lines say of a report.
func (r Report) briefly() (counts countsJSON, of map[rules.Verdict][]string) {
	of = map[rules.Verdict][]string{rules.Fail: {}, rules.Unknown: {}, rules.Warn: {}}
	for _, f := range r.Verdicts() {
		of[f.Verdict] = append(of[f.Verdict], f.Rule)
	}
	return countsJSON{len(of[rules.Fail]), len(of[rules.Unknown]), len(of[rules.Warn]), len(of[rules.Pass])}, of
}

// wiredVerdict is the line of ExtentVerdict by way of the structs.
func (r Report) wiredVerdict(line int) ([]byte, error) {
	counts, of := r.briefly()
	return wire.Encode(verdictJSON{SchemaVersion: 1, Brief: ExtentVerdict, Line: line, Mix: r.Mix.name, Verdict: r.Verdict,
		Complete: r.Complete, Counts: counts, Fails: of[rules.Fail], Unknowns: of[rules.Unknown], Warns: of[rules.Warn], Rules: r.RuleSet().Hash})
}

// wiredFindings is the line of ExtentFindings by way of the structs and of Findings.
func (r Report) wiredFindings(line int) ([]byte, error) {
	counts, _ := r.briefly()
	out := findingsJSON{SchemaVersion: 1, Brief: ExtentFindings, Line: line, Mix: r.Mix.name, Verdict: r.Verdict,
		Complete: r.Complete, Counts: counts, Findings: []briefFindingJSON{}, Rules: r.RuleSet().Hash}
	for _, f := range r.Findings() {
		if f.Verdict == rules.Pass {
			continue
		}
		j := briefFindingJSON{Rule: f.Rule, Verdict: f.Verdict, Text: f.Text, Remedy: f.Remedy, Used: []briefUsedJSON{},
			Values: valuesOf(f), Missing: wire.Some(f.Missing)}
		for _, u := range f.Used {
			j.Used = append(j.Used, briefUsedJSON{u.Name, u.Value.Plain(u.Field.Type), u.Field.Unit})
		}
		out.Findings = append(out.Findings, j)
	}
	return wire.Encode(out)
}

// briefLines holds the lines of a report in each extent.
func briefLines(t testing.TB, r Report) {
	line := len(r.findings)
	sameBytes(t, "a verdict", r.AppendLine([]byte("["), ExtentVerdict, line)[1:], func() ([]byte, error) { return r.wiredVerdict(line) })
	sameBytes(t, "findings", r.AppendLine([]byte("["), ExtentFindings, line)[1:], func() ([]byte, error) { return r.wiredFindings(line) })
	for e := ExtentFull; e <= ExtentVerdict; e++ {
		got, verdict := r.checker.AppendCheck([]byte("["), r.Mix, e, line)
		if verdict != r.Verdict {
			t.Errorf("a mix that is judged and written in one comes to %s, not %s", verdict, r.Verdict)
		}
		sameBytes(t, "judged and written in one, "+e.String(), got[1:], func() ([]byte, error) { return r.AppendLine(nil, e, line), nil })
	}
}

// Brief lines are what encoding/json writes of the structs that their schemas are made
// from. A mix that is judged and written in one, in memory that served the mix before,
// gives the line of its Report in each extent.
func TestBriefLines(t *testing.T) {
	seen := map[rules.Verdict]int{}
	whole := 0
	eachReport(t, 200, func(t *testing.T, _ random.Draw, r Report) {
		if whole++; whole%2 == 0 { // all random mixes fail, and not each pair of their parts
			parts := r.Mix.Parts()
			at := whole % (len(parts) - 1)
			m, err := NewMix("Two", ScopeCart, parts[at], parts[at+1])
			if err != nil {
				t.Fatal(err)
			}
			r = r.checker.Check(m)
		}
		seen[r.Verdict]++
		briefLines(t, r)
	})
	if len(seen) < 3 {
		t.Errorf("the verdicts are %v: too few to compare", seen)
	}
	sameBytes(t, "nothing", Report{}.AppendLine(nil, ExtentVerdict, 0), func() ([]byte, error) { return Report{}.wiredVerdict(0) })
	sameBytes(t, "nothing", Report{}.AppendLine(nil, ExtentFindings, 7), func() ([]byte, error) { return Report{}.wiredFindings(7) })
	var none Checker
	if got, verdict := none.AppendCheck(nil, Mix{}, ExtentVerdict, 3); verdict != rules.Unknown || len(got) == 0 {
		t.Errorf("a checker without rules says %s: %s", verdict, got)
	}
}

// The words of the extents are those that the command takes, and are read back.
func TestExtentWords(t *testing.T) {
	for i, word := range ExtentFull.Words() {
		var e Extent
		if err := e.UnmarshalText([]byte(word)); err != nil || e != Extent(i) || e.String() != word {
			t.Errorf("%q is %v, %v", word, e, err)
		}
	}
	var e Extent
	if err := e.UnmarshalText([]byte("verdicts")); err == nil {
		t.Error("a word that is none is read")
	}
	if got := Extent(9).String(); got != "extent 9" {
		t.Errorf("one that is none is called %q", got)
	}
}

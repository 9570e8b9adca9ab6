package rules_test

import (
	"testing"

	"example.org/cogcourt/rules"
)

// What is written is read back, and nothing else is an outcome. An example can want
// any but an error.
func TestOutcomeText(t *testing.T) {
	for o := rules.OutcomeUnknown; o <= rules.OutcomeError; o++ {
		text, err := o.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		got := rules.Outcome(99)
		if err := got.UnmarshalText(text); err != nil || got != o {
			t.Errorf("%s is read as %s: %v", text, got, err)
		}
		set, err := load(t, pack("fail_if: sail.wet", "examples: [{name: a, given: {}, want: "+string(text)+"}]"))
		if (err == nil) != (o != rules.OutcomeError) {
			t.Errorf("an example that wants %s: %v", text, err)
		}
		if err == nil && set.Rules()[0].Examples()[0].Want != o {
			t.Errorf("an example that wants %s wants %s", text, set.Rules()[0].Examples()[0].Want)
		}
	}
	o := rules.OutcomeFail
	for _, text := range []string{"", "Pass", "not applied", "outcome 9"} {
		if err := o.UnmarshalText([]byte(text)); err == nil || o != rules.OutcomeFail {
			t.Errorf("%q is taken for %s", text, o)
		}
	}
	if rules.Outcome(9).String() != "outcome 9" {
		t.Error(rules.Outcome(9))
	}
}

// TestGives holds that every way to come to nothing is told from the others.
func TestGives(t *testing.T) {
	set := mustLoad(t, pack("when: mast.stays > 0", "fail_if: sail.area_m2 / sail.reefs > 10", "warn_if: sail.area_m2 > 5"))
	for want, given := range map[rules.Outcome]facts{
		rules.OutcomeFail:       {"mast.stays": 1, "sail.area_m2": 30, "sail.reefs": 1},
		rules.OutcomeWarn:       {"mast.stays": 1, "sail.area_m2": 6, "sail.reefs": 1},
		rules.OutcomePass:       {"mast.stays": 1, "sail.area_m2": 1, "sail.reefs": 1},
		rules.OutcomeUnknown:    {"mast.stays": 1, "sail.area_m2": 1},
		rules.OutcomeNotApplied: {"mast.stays": 0},
		rules.OutcomeError:      {"mast.stays": 1, "sail.area_m2": 1, "sail.reefs": 0},
	} {
		got, fault := set.Gives(set.Rules()[0], records(given), records(given))
		if got != want || (fault != "") != (want == rules.OutcomeError) {
			t.Errorf("%v: %s %q, want %s", given, got, fault, want)
		}
	}
}

// TestVariant holds that a rule with other expressions judges by them, and the rule
// itself as before.
func TestVariant(t *testing.T) {
	set := mustLoad(t, pack("let: {over: sail.area_m2 - 1, twice: over * 2}", "when: sail.reefs > 0", "fail_if: twice > 10"))
	rule := set.Rules()[0]
	given := records(facts{"sail.area_m2": 4, "sail.reefs": 0})
	for _, c := range []struct {
		changes map[string]string
		want    rules.Outcome
	}{
		{nil, rules.OutcomeNotApplied},
		{map[string]string{"when": ""}, rules.OutcomePass},
		{map[string]string{"when": "", "let.over": "sail.area_m2 + 3"}, rules.OutcomeFail}, // what reads it follows
		{map[string]string{"when": "", "fail_if": "", "warn_if": "twice > 5"}, rules.OutcomeWarn},
		{map[string]string{"when": "sail.reefs == 0", "fail_if": "over > 2"}, rules.OutcomeFail},
	} {
		v, ok := set.Variant(rule, c.changes)
		if !ok {
			t.Errorf("%v does not compile", c.changes)
			continue
		}
		if got, fault := set.Gives(v, given, given); got != c.want {
			t.Errorf("%v: %s %s, want %s", c.changes, got, fault, c.want)
		}
	}
	for _, changes := range []map[string]string{{"fail_if": "twice >"}, {"let.over": "foo"}, {"let.over": "sail.cloth"}, {"warn_if": "twice"}} {
		if _, ok := set.Variant(rule, changes); ok {
			t.Errorf("%v compiles", changes)
		}
	}
	if got, _ := set.Gives(rule, given, given); got != rules.OutcomeNotApplied {
		t.Errorf("the rule itself gives %s now", got)
	}
	var keys string
	for _, e := range rule.Expressions() {
		keys += e.Key + " " + e.At(1).String() + "; "
	}
	if keys != "let.over boats.yaml:4:18; let.twice boats.yaml:4:43; when boats.yaml:5:12; fail_if boats.yaml:6:15; " {
		t.Error(keys)
	}
}

// TestLaterConditionAfterAnOpenOne holds that a fail_if which a missing fact does not keep
// from being false leaves the verdict to warn_if.
func TestLaterConditionAfterAnOpenOne(t *testing.T) {
	set := mustLoad(t, pack("fail_if: mast.height_m > 3 && sail.area_m2 > 10", "warn_if: sail.area_m2 > 4"))
	for area, want := range map[float64]rules.Verdict{3: rules.Pass, 5: rules.Warn, 11: rules.Unknown} {
		if f := set.Evaluate(records(facts{"sail.area_m2": area, "mast.stays": 3})).Findings[0]; f.Ruled != want {
			t.Errorf("a sail of %v on a mast of any height gives %s, want %s", area, f.Ruled, want)
		}
	}
}

// TestNoSuchOutcome holds that a number which is no outcome says so.
func TestNoSuchOutcome(t *testing.T) {
	if got := (rules.OutcomeError + 1).String(); got != "outcome 6" {
		t.Errorf("one behind the last is called %q", got)
	}
}

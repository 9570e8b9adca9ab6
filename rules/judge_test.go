package rules_test

import (
	"strings"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// outcomeTest is one rule, by its lines, facts, and what it must give for them.
type outcomeTest struct {
	rule  string
	facts facts
	want  string
}

func (c outcomeTest) run(t *testing.T) {
	t.Helper()
	got := outcome(mustLoad(t, pack(strings.Split(c.rule, "\n")...)).Evaluate(records(c.facts)))
	if got != c.want {
		t.Errorf("%s\nwith %v\ngives %s\nnot   %s", c.rule, c.facts, got, c.want)
	}
}

var (
	tooLarge = "fail_if: sail.area_m2 > 20\nwarn_if: sail.area_m2 > 10"
	heel     = "fail_if: rig.heel_deg > 30"
	noMast   = fact.Lack{Absent: []string{"mast"}}
	noSense  = fact.Lack{Reason: "a raft does not heel"}
	noHeight = fact.Lack{Missing: []string{"mast.height_m"}}
	noFit    = fact.Lack{Fault: "the mast is no longer than the sail"}
)

// TestOutcomes walks the whole of what a rule can give.
func TestOutcomes(t *testing.T) {
	for _, c := range []outcomeTest{
		// Stated facts.
		{tooLarge, facts{"sail.area_m2": 21}, "fail"},
		{tooLarge, facts{"sail.area_m2": 20}, "warn"},
		{tooLarge, facts{"sail.area_m2": 10}, "pass"},
		{"fail_if: sail.wet", facts{"sail.wet": true}, "fail"},
		{"fail_if: sail.wet", facts{"sail.wet": false}, "pass"},
		{"warn_if: sail.wet", facts{"sail.wet": true}, "warn"},
		{"fail_if: false\nwarn_if: true", facts{}, "warn"},
		// when is false.
		{"when: sail.reefs > 0\nfail_if: sail.wet", facts{"sail.reefs": 0, "sail.wet": true}, "not applied when"},
		{"when: sail.reefs > 0\nfail_if: sail.wet", facts{"sail.reefs": 1, "sail.wet": true}, "fail"},
		{"when: sail.reefs > 0 && mast.stays > 0\nfail_if: sail.wet", facts{"sail.reefs": 0}, "not applied when"},
		// An absent part.
		{tooLarge, facts{}, "not applied absent sail"},
		{"when: mast.stays > 1\nfail_if: sail.wet", facts{"sail.wet": true}, "not applied absent mast"},
		{"fail_if: sail.area_m2 > mast.height_m", facts{"sail": nil}, "not applied absent mast"},
		{"fail_if: sail.area_m2 > mast.height_m", facts{}, "not applied absent sail mast"},
		{"fail_if: sail.wet\nwarn_if: mast.stays > 1", facts{"sail.wet": false}, "not applied absent mast"},
		{"fail_if: sail.wet\nwarn_if: mast.stays > 1", facts{"sail.wet": true}, "fail"},
		{heel, facts{"rig.heel_deg": noMast}, "not applied absent mast"},
		{"fail_if: rig.heel_deg > 30 || rig.speed_kn > 9", facts{"rig.heel_deg": noMast, "rig.speed_kn": noHeight}, "not applied absent mast"},
		{"fail_if: rig.heel_deg > 30 || rig.speed_kn > 9", facts{"rig.heel_deg": noMast, "rig.speed_kn": noSense}, "not applied absent mast"},
		// A figure without meaning.
		{heel, facts{"rig.heel_deg": noSense}, "not applied figure a raft does not heel"},
		{"when: rig.heel_deg > 5\nwarn_if: sail.wet", facts{"rig.heel_deg": noSense, "sail.wet": true}, "not applied figure a raft does not heel"},
		{"fail_if: rig.heel_deg > 30 && rig.speed_kn > 9", facts{"rig.heel_deg": noHeight, "rig.speed_kn": noSense}, "not applied figure a raft does not heel"},
		// Facts that nobody stated.
		{tooLarge, facts{"sail": nil}, "unknown missing sail.area_m2"},
		{"when: sail.reefs > 0\nfail_if: sail.wet", facts{"sail.wet": true}, "unknown missing sail.reefs"},
		{heel, facts{"rig.heel_deg": noHeight}, "unknown missing mast.height_m"},
		{heel, facts{"rig": nil}, "unknown missing rig.heel_deg"},
		{"fail_if: mast.height_m + sail.area_m2 > 9", facts{"sail": nil, "mast": nil}, "unknown missing sail.area_m2 mast.height_m"},
		{"fail_if: sail.area_m2 > 9 || rig.heel_deg > 9", facts{"sail": nil, "rig.heel_deg": fact.Lack{Missing: []string{"sail.area_m2", "mast.stays"}}},
			"unknown missing sail.area_m2 mast.stays"},
		// An undecided fail_if is never answered by a true warn_if.
		{"fail_if: sail.area_m2 > 20\nwarn_if: sail.wet", facts{"sail.wet": true}, "unknown missing sail.area_m2"},
		{"fail_if: sail.wet\nwarn_if: sail.area_m2 > 20", facts{"sail.wet": true}, "fail"},
		{"fail_if: sail.wet\nwarn_if: sail.area_m2 > 20", facts{"sail.wet": false}, "unknown missing sail.area_m2"},
		// What is decided already needs no more facts.
		{"fail_if: sail.area_m2 > 20 || sail.wet", facts{"sail.wet": true}, "fail"},
		{"fail_if: sail.wet || mast.stays > 1", facts{"sail.wet": true}, "fail"},
		{"fail_if: sail.area_m2 > 20 && sail.wet", facts{"sail.wet": false}, "pass"},
		{"fail_if: mast.stays > 1 && sail.wet", facts{"sail.wet": false}, "pass"},
		{"fail_if: sail.area_m2 > 20 && sail.wet", facts{"sail.wet": true}, "unknown missing sail.area_m2"},
		{"fail_if: sail.area_m2 > 20 || sail.wet", facts{"sail.wet": false}, "unknown missing sail.area_m2"},
		{"fail_if: \"sail.wet ? true : mast.stays > 1\"", facts{"sail.wet": true}, "fail"},
		{"fail_if: sail.panels_m2.exists(p, p > 9 && sail.wet)", facts{"sail.panels_m2": []float64{1, 2}}, "pass"},
		{"fail_if: sail.panels_m2.exists(p, p > 9 && sail.wet)", facts{"sail.panels_m2": []float64{1, 10}}, "unknown missing sail.wet"},
		{"fail_if: \"!(sail.cloth in ['canvas'])\"", facts{"sail": nil}, "unknown missing sail.cloth"},
	} {
		c.run(t)
	}
}

// TestErrors: an error decides nothing and says what it is, and never passes.
func TestErrors(t *testing.T) {
	for _, c := range []outcomeTest{
		{"fail_if: sail.area_m2 / sail.reefs > 1", facts{"sail.area_m2": 1, "sail.reefs": 0}, "unknown error division by zero"},
		{"fail_if: sail.reefs % sail.reefs > 1", facts{"sail.reefs": 0}, "unknown error division by zero"},
		{"fail_if: sail.panels_m2[2] > 1", facts{"sail.panels_m2": []float64{1, 2}}, "unknown error index out of bounds: 2"},
		{"fail_if: first(sail.panels_m2) > 1", facts{"sail.panels_m2": []float64{}}, "unknown error an empty list has no such entry"},
		{"fail_if: sail.area_m2 * 9007199254740991 > 1", facts{"sail.area_m2": 2}, "unknown error a number grows out of range"},
		{"when: 1 / sail.reefs > 0\nwarn_if: true", facts{"sail.reefs": 0}, "unknown error division by zero"},
		{"fail_if: 1 / sail.reefs > 1\nwarn_if: true", facts{"sail.reefs": 0}, "unknown error division by zero"},
		{"fail_if: false\nwarn_if: 1 / sail.reefs > 1", facts{"sail.reefs": 0}, "unknown error division by zero"},
		{"let: {each_m2: sail.area_m2 / sail.reefs}\nfail_if: each_m2 > 1", facts{"sail.area_m2": 1, "sail.reefs": 0}, "unknown error division by zero"},
		{"fail_if: 1 / sail.reefs > 1 || sail.wet", facts{"sail.reefs": 0, "sail.wet": true}, "fail"},
		{"fail_if: 1 / sail.reefs > 1 || sail.wet", facts{"sail.reefs": 0, "sail.wet": false}, "unknown error division by zero"},
		{"fail_if: 1 / sail.reefs > 1 || sail.wet", facts{"sail.reefs": 0}, "unknown missing sail.wet"},
		// A figure that went wrong is no figure without meaning.
		{heel, facts{"rig.heel_deg": noFit}, "unknown error the mast is no longer than the sail"},
		{"fail_if: rig.heel_deg > 30 && rig.speed_kn > 9", facts{"rig.heel_deg": noFit, "rig.speed_kn": noHeight}, "unknown error the mast is no longer than the sail"},
		{"fail_if: rig.heel_deg > 30 && rig.speed_kn > 9", facts{"rig.heel_deg": noFit, "rig.speed_kn": noSense}, "not applied figure a raft does not heel"},
		{"fail_if: rig.heel_deg > 30 && rig.speed_kn > 9", facts{"rig.heel_deg": noFit, "rig.speed_kn": noMast}, "not applied absent mast"},
		{"when: stated(rig.heel_deg)\n" + heel, facts{"rig.heel_deg": noFit}, "not applied figure the mast is no longer than the sail"},
	} {
		c.run(t)
	}
}

// TestStated: what a rule asks to be stated takes it away where it is not.
func TestStated(t *testing.T) {
	asks := "when: stated(sail.reefs) && sail.cloth == 'canvas'\nfail_if: sail.reefs > 3"
	for _, c := range []outcomeTest{
		{asks, facts{"sail.reefs": 4, "sail.cloth": "canvas"}, "fail"},
		{asks, facts{"sail.reefs": 4, "sail.cloth": "nylon"}, "not applied when"},
		{asks, facts{"sail.cloth": "canvas"}, "not applied unstated sail.reefs"},
		{asks, facts{"sail": nil}, "not applied unstated sail.reefs"},
		{asks, facts{"sail.reefs": 4}, "unknown missing sail.cloth"},
		{asks, facts{}, "not applied absent sail"},
		{"when: stated(sail.reefs) && stated(mast.stays)\nfail_if: sail.reefs > 3", facts{"sail": nil, "mast": nil}, "not applied unstated sail.reefs mast.stays"},
		{"when: stated(sail.reefs) && stated(mast.stays)\nfail_if: sail.reefs > 3", facts{"sail": nil}, "not applied absent mast"},
		{"when: stated(rig.heel_deg)\n" + heel, facts{"rig.heel_deg": noHeight}, "not applied unstated mast.height_m"},
		{"when: stated(rig.heel_deg)\n" + heel, facts{"rig.heel_deg": noSense}, "not applied figure a raft does not heel"},
		{"when: stated(rig.heel_deg)\n" + heel, facts{"rig.heel_deg": noMast}, "not applied absent mast"},
		{"when: stated(rig.heel_deg)\n" + heel, facts{"rig.heel_deg": 31}, "fail"},
	} {
		c.run(t)
	}
}

// TestAssumed: a Fail that hangs on a value that nobody stated only warns.
func TestAssumed(t *testing.T) {
	guess := func(x float64) fact.Value { return assumed(fact.Num(x)) }
	either := "fail_if: sail.area_m2 > 20 || mast.height_m > 9"
	both := "fail_if: sail.area_m2 > 20 && mast.height_m > 9"
	for _, c := range []outcomeTest{
		{tooLarge, facts{"sail.area_m2": guess(21)}, "warn assumed sail.area_m2"},
		{tooLarge, facts{"sail.area_m2": guess(11)}, "warn"},
		{tooLarge, facts{"sail.area_m2": guess(1)}, "pass"},
		{either, facts{"sail.area_m2": guess(21), "mast.height_m": 10}, "fail"},
		{either, facts{"sail.area_m2": 21, "mast.height_m": guess(10)}, "fail"},
		{either, facts{"sail.area_m2": guess(21), "mast.height_m": guess(10)}, "warn assumed sail.area_m2 mast.height_m"},
		{either, facts{"sail.area_m2": guess(21), "mast.height_m": guess(1)}, "warn assumed sail.area_m2 mast.height_m"},
		{either, facts{"sail.area_m2": guess(21), "mast.height_m": 1}, "warn assumed sail.area_m2"},
		{either, facts{"sail.area_m2": guess(21)}, "warn assumed sail.area_m2"},
		{both, facts{"sail.area_m2": 21, "mast.height_m": guess(10)}, "warn assumed mast.height_m"},
		{"let: {over: sail.area_m2 - 20}\nfail_if: over > 0", facts{"sail.area_m2": guess(21)}, "warn assumed sail.area_m2"},
		{heel, facts{"rig.heel_deg": guess(31)}, "warn assumed rig.heel_deg"},
		// The when of a rule counts as well.
		{"when: mast.stays > 1\nfail_if: sail.wet", facts{"sail.wet": true, "mast.stays": guess(2)}, "warn assumed mast.stays"},
		{"when: mast.stays > 1 || sail.wet\nfail_if: sail.wet", facts{"sail.wet": true, "mast.stays": guess(2)}, "fail"},
		{"when: stated(mast.stays) && mast.stays > 1\nfail_if: sail.wet", facts{"sail.wet": true, "mast.stays": guess(2)}, "warn assumed mast.stays"},
		{"when: stated(mast.stays)\nfail_if: sail.wet", facts{"sail.wet": true, "mast.stays": guess(2)}, "fail"},
		// What is stated stays so, also of an object of which something is assumed.
		{"when: stated(mast.height_m) && (mast.stays > 1 || sail.wet)\nfail_if: sail.wet",
			facts{"sail.wet": true, "mast.height_m": 8, "mast.stays": guess(2)}, "fail"},
	} {
		c.run(t)
	}
}

// TestWholeAndFraction: whole numbers and fractions mix, a quotient is a
// fraction, and only whole numbers are compared for equality.
func TestWholeAndFraction(t *testing.T) {
	have := facts{"sail.reefs": 3, "sail.area_m2": 2.5, "mast.stays": 2}
	for condition, want := range map[string]string{
		"sail.reefs / mast.stays > 1.49 && sail.reefs / mast.stays < 1.51": "fail",
		"7 / 2 > 3":                               "fail",
		"sail.reefs + sail.area_m2 > 5":           "fail",
		"sail.area_m2 < sail.reefs":               "fail",
		"max(sail.reefs, sail.area_m2) >= 3":      "fail",
		"near(sail.reefs, sail.area_m2, 0.5)":     "fail",
		"near(sail.reefs, sail.area_m2, 0.4)":     "pass",
		"sail.reefs == 3 && sail.reefs % 2 == 1":  "fail",
		"sail.reefs - mast.stays == 1":            "fail",
		"2 * sail.reefs in [5, 6]":                "fail",
		"sail.reefs * sail.area_m2 / 3 <= 2.5001": "fail",
		"-sail.reefs < sail.area_m2 - 5":          "fail",
	} {
		outcomeTest{"fail_if: \"" + condition + "\"", have, want}.run(t)
	}
}

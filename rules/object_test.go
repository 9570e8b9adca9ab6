package rules_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

func TestVerdicts(t *testing.T) {
	order := []rules.Verdict{rules.Pass, rules.Unknown, rules.Fail, rules.Warn}
	slices.SortFunc(order, func(a, b rules.Verdict) int { return a.Rank() - b.Rank() })
	text, err := json.Marshal(order)
	if err != nil || string(text) != `["fail","unknown","warn","pass"]` {
		t.Errorf("by rank they are %s, %v", text, err)
	}
	var forgotten rules.Verdict
	if forgotten != rules.Unknown || rules.Verdict(9).String() != "verdict 9" {
		t.Errorf("the zero verdict is %s, the ninth %s", forgotten, rules.Verdict(9))
	}
}

// TestVocabulary holds how names lead to fields.
func TestVocabulary(t *testing.T) {
	v := vocabulary(t)
	for name, want := range map[string]bool{
		"sail.area_m2": true, "mast.height_m": true, "sail": false, "sail.": false, "sail.height_m": false, "sails.area_m2": false, "": false, "area_m2": false,
	} {
		ref, ok := v.Find(name)
		if ok != want || ok && ref.String() != name {
			t.Errorf("%q: found %t", name, ok)
		}
	}
	if i, ok := v.Index("rig"); !ok || i != 2 || v.Objects()[i] != rig || rig.Doc() == "" {
		t.Errorf("the rig is at %d, %t", i, ok)
	}
	if _, err := rules.NewVocabulary(sail, mast, sail); err == nil {
		t.Error("one object stands twice")
	}
}

// TestRecords holds what a record tells of its fields.
func TestRecords(t *testing.T) {
	area := sail.Ref("area_m2")
	if area.Field().Unit != "m2" || area.String() != "sail.area_m2" {
		t.Errorf("the area is %s in %s", area, area.Field().Unit)
	}
	recs := records(facts{"sail.area_m2": 3.5, "rig.speed_kn": noHeight})
	if got := area.In(recs[0]); got.Num != 3.5 || !got.Known || area.In(nil).Known {
		t.Errorf("the area is %v", got)
	}
	if recs[0].Object() != sail || recs[0].Value(area.Index).Num != 3.5 {
		t.Error("the record is of another object")
	}
	if diff := cmp.Diff(noHeight, recs[2].Lack(1)); diff != "" {
		t.Error(diff)
	}
	if bare := mast.NewRecord(make([]fact.Value, 2), nil); bare.Lack(0).Missing != nil {
		t.Error("a record of stated facts lacks something")
	}
	for name, mistake := range map[string]func(){
		"too few values": func() { mast.NewRecord(nil, nil) },
		"too few lacks":  func() { mast.NewRecord(make([]fact.Value, 2), make([]fact.Lack, 1)) },
		"no such field":  func() { mast.Ref("depth") },
		"a field twice":  func() { rules.NewObject("hull", "", fact.Field{Name: "x"}, fact.Field{Name: "x"}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: a mistake in the program goes on", name)
				}
			}()
			mistake()
		}()
	}
}

// TestRuleAsWritten holds what a rule tells of its own text.
func TestRuleAsWritten(t *testing.T) {
	set := mustLoad(t, smoke)
	r := set.Rules()[0]
	if diff := cmp.Diff([]rules.Let{{Name: "over", Text: "sail.area_m2 - 2 * mast.height_m"}}, r.Lets()); diff != "" {
		t.Error(diff)
	}
	if r.WhenText != "stated(sail.reefs) && sail.cloth != 'nylon'" || r.FailIf != "over > 10" || !strings.HasPrefix(r.WarnIf, "over > 0 ||") {
		t.Errorf("the conditions are %q, %q, %q", r.WhenText, r.FailIf, r.WarnIf)
	}
	if ex := r.Examples(); len(ex) != 6 || ex[4].Name != "no area" || ex[4].Want != rules.OutcomeUnknown || ex[4].Missing[0] != "sail.area_m2" || ex[4].Pos.Line != 20 {
		t.Errorf("the examples are %+v", ex)
	}
	bare := mustLoad(t, pack("warn_if: true"))
	if set.Asks(r)[0].String() != "sail.reefs" || bare.Asks(bare.Rules()[0]) != nil {
		t.Error("it asks for other facts")
	}
}

// TestOnly holds that a part of a set judges as the whole does.
func TestOnly(t *testing.T) {
	text := pack("id: a/one", "let: {x: 1}", "fail_if: sail.reefs > x") +
		strings.SplitN(pack("id: a/two", "let: {y: 2}", "fail_if: sail.reefs > y"), "rules:\n", 2)[1]
	set := mustLoad(t, text)
	two := set.Only(func(id string) bool { return id == "a/two" })
	if len(set.Rules()) != 2 || len(two.Rules()) != 1 || two.Hash() != set.Hash() {
		t.Errorf("%d rules of %d", len(two.Rules()), len(set.Rules()))
	}
	for reefs, want := range map[int]string{2: "pass", 3: "fail"} {
		if got := outcome(two.Evaluate(records(facts{"sail.reefs": reefs}))); got != want {
			t.Errorf("%d reefs: %s, not %s", reefs, got, want)
		}
	}
	for _, given := range []facts{nil, {"mast.stays": 1}} {
		if got := outcome(two.Evaluate(records(given))); got != "not applied absent sail" {
			t.Errorf("%v: %s", given, got)
		}
	}
}

// TestSheet holds the order of steps, which of them apply, and their texts.
func TestSheet(t *testing.T) {
	set := mustLoad(t, pack("warn_if: false")+`
steps:
  - {id: trim, after: [hoist], do: "Trim for {sail.area_m2} m2", value: "{rig.heel_deg:.1} deg", check: C, because: B, part: ride}
  - {id: reef, after: [hoist], when: sail.reefs > 0 && stated(mast.stays), do: Reef, check: C, because: "{sail.reefs} reefs", caution: "Mind {sail.cloth}"}
  - {id: hoist, do: Hoist, check: "{mast.height_m} m", because: B}
`)
	var ids []string
	for _, s := range set.Steps() {
		ids = append(ids, s.ID+" "+s.Section)
	}
	if diff := cmp.Diff([]string{"hoist bench", "trim ride", "reef bench"}, ids); diff != "" {
		t.Error(diff)
	}
	type line struct {
		ID, Do, Value, Check, Because, Caution string
		Missing                                string
	}
	for _, c := range []struct {
		facts facts
		want  []line
	}{
		{facts{"sail.area_m2": 9.5, "sail.reefs": 2, "sail.cloth": "nylon", "mast.stays": 1, "mast.height_m": 7, "rig.heel_deg": 12.34}, []line{
			{ID: "hoist", Do: "Hoist", Check: "7 m", Because: "B"},
			{ID: "trim", Do: "Trim for 9.5 m2", Value: "12.3 deg", Check: "C", Because: "B"},
			{ID: "reef", Do: "Reef", Check: "C", Because: "2 reefs", Caution: "Mind nylon"},
		}},
		{facts{"sail.reefs": 2, "rig.heel_deg": noHeight}, []line{
			{ID: "hoist", Do: "Hoist", Check: "(not stated) m", Because: "B", Missing: "mast"},
			{ID: "trim", Do: "Trim for (not stated) m2", Check: "C", Because: "B", Missing: "sail.area_m2 mast.height_m"},
		}},
		{facts{"sail.area_m2": 9.5, "mast.height_m": 7, "rig.heel_deg": fact.Lack{Reason: "the boat lies still"}}, []line{
			{ID: "hoist", Do: "Hoist", Check: "7 m", Because: "B"},
			{ID: "trim", Do: "Trim for 9.5 m2", Value: "Not worked out: the boat lies still.", Check: "C", Because: "B"},
		}},
	} {
		var got []line
		for _, d := range set.Sheet(records(c.facts)) {
			got = append(got, line{d.Step.ID, d.Do, d.Value, d.Check, d.Because, d.Caution, strings.Join(d.Missing, " ")})
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%v: %s", c.facts, diff)
		}
	}
}

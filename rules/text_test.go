package rules_test

import (
	"strings"
	"testing"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// TestTexts holds what texts print: whole numbers as they are, other numbers
// with at most two decimals or as many as asked for, what is not stated as such.
func TestTexts(t *testing.T) {
	have := facts{
		"sail.area_m2": 12.346, "sail.reefs": 3, "sail.panels_m2": []float64{1, 2.5, 3.456}, "sail.cloth": "canvas", "sail.wet": true,
		"mast.height_m": 8.0,
	}
	for text, want := range map[string]string{
		"plain":                               "plain",
		"{sail.area_m2} m2":                   "12.35 m2",
		"{sail.area_m2:.1}":                   "12.3",
		"{sail.area_m2:.0}|{sail.area_m2:.4}": "12|12.3460",
		"{ sail.area_m2 :.1}":                 "12.3",
		"{sail.reefs}|{sail.reefs:.2}":        "3|3",
		"{mast.height_m}|{mast.height_m:.1}":  "8|8.0",
		"{sail.reefs / 2}":                    "1.5",
		"{sail.area_m2 - 12.346}":             "0",
		"{over:.1} over":                      "-3.7 over",
		"{sail.panels_m2}":                    "1, 2.5, 3.46",
		"{sail.panels_m2:.1}":                 "1.0, 2.5, 3.5",
		"{last(sail.panels_m2)}":              "3.46",
		"{sail.cloth} cloth":                  "canvas cloth",
		"{sail.wet}|{!sail.wet}":              "yes|no",
		"{sail.wet ? 'wet' : 'dry'} cloth":    "wet cloth",
		"{mast.stays} stays":                  "(not stated) stays",
		"{sail.maker}":                        "(not stated)",
		"{rig.heel_deg:.1}":                   "(not stated)",
		"{mast.stays + 1}":                    "(not stated)",
		"{sail.panels_m2[7]}":                 "(not computed)",
		// A sentence with a gap is left out where another has none.
		"{sail.area_m2:.0} m2. {mast.stays} stays.":            "12 m2.",
		"{mast.stays} stays. {sail.area_m2:.0} m2. Look here.": "12 m2. Look here.",
		"It has {mast.stays}. And {rig.heel_deg}.":             "It has (not stated). And (not stated).",
		"One. {1 / (sail.reefs - 3)}. Two.":                    "One. Two.",
		"Area 1.5. {sail.reefs}. {sail.maker}, {sail.reefs}":   "Area 1.5. 3.",
		"e.g. {sail.reefs}":                                    "e.g. 3",
		"{1 / (sail.reefs - 3)}":                               "(not computed)",
		"{{sail.reefs}} is {{{sail.reefs}}}":                   "{sail.reefs} is {3}",
		"a }} and a {{":                                        "a } and a {",
		"{'a } in ' + 'quotes'}":                               "a } in quotes",
		"é漢😀 {sail.reefs} é":                                   "é漢😀 3 é",
		"{sail.cloth + ', ' + 'dry'}":                          "canvas, dry",
		"{near(sail.area_m2, 12.3, 0.1)}":                      "yes",
		"{max(sail.panels_m2) - sail.reefs:3}":                 "",
	} {
		set, err := load(t, pack("let: {over: sail.area_m2 - 2 * mast.height_m}", "fail_if: true", "say: "+quoted(text), "remedy: "+quoted(text)))
		if want == "" {
			if err == nil {
				t.Errorf("%s is not refused", text)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		res := set.Evaluate(records(have))
		if got := res.Text(res.Findings[0]); got != want {
			t.Errorf("%s prints %q, not %q", text, got, want)
		}
		if got := res.Remedy(res.Findings[0]); got != want {
			t.Errorf("%s as a remedy prints %q, not %q", text, got, want)
		}
	}
}

// quoted writes a text in double quotes.
func quoted(s string) string { return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"` }

// TestTextOfEachVerdict holds what a finding says of itself.
func TestTextOfEachVerdict(t *testing.T) {
	rule := []string{
		"title: The sail suits the mast", "fail_if: sail.area_m2 > 20", "warn_if: sail.area_m2 > 10 && mast.height_m < 5",
		"say: \"It has {sail.area_m2} m2.\"", "remedy: \"Take {sail.reefs} reefs in.\"", "caution: \"Mind the {sail.cloth}.\"",
	}
	set := mustLoad(t, pack(rule...))
	saysPass := mustLoad(t, pack(append(rule, "pass: \"{sail.area_m2} m2 is fine.\"")...))
	for _, c := range []struct {
		set                   *rules.Set
		facts                 facts
		text, remedy, caution string
	}{
		{set, facts{"sail.area_m2": 30, "sail.reefs": 2, "sail.cloth": "nylon"}, "It has 30 m2.", "Take 2 reefs in.", "Mind the nylon."},
		{set, facts{"sail.area_m2": 11, "mast.height_m": 4}, "It has 11 m2.", "Take (not stated) reefs in.", "Mind the (not stated)."},
		{set, facts{"sail.area_m2": 5}, "The sail suits the mast.", "", ""},
		{saysPass, facts{"sail.area_m2": 5}, "5 m2 is fine.", "", ""},
		{set, facts{"sail": nil}, "Not decided, for nobody stated its area (sail).", "", ""},
		{set, facts{"sail.area_m2": 11, "mast": nil}, "Not decided, for nobody stated height (mast).", "", ""},
		{set, facts{"sail.area_m2": assumed(fact.Num(30)), "sail.reefs": 1},
			"It has 30 m2. Nobody stated its area (sail), so it only warns: measure to be sure.", "Take 1 reefs in.", "Mind the (not stated)."},
	} {
		res := c.set.Evaluate(records(c.facts))
		if len(res.Findings) != 1 {
			t.Errorf("%v: %s", c.facts, outcome(res))
			continue
		}
		f := res.Findings[0]
		if got := res.Text(f); got != c.text {
			t.Errorf("%v: says %q, not %q", c.facts, got, c.text)
		}
		if got := res.Remedy(f); got != c.remedy {
			t.Errorf("%v: would mend it by %q, not %q", c.facts, got, c.remedy)
		}
		if got := res.Caution(f); got != c.caution {
			t.Errorf("%v: warns %q, not %q", c.facts, got, c.caution)
		}
	}
}

// TestTextOfSeveral holds how names are joined, and what an error says.
func TestTextOfSeveral(t *testing.T) {
	for _, c := range []struct{ condition, want string }{
		{"sail.area_m2 + mast.height_m > 1", "Not decided, for nobody stated its area (sail) and height (mast)."},
		{"sail.area_m2 + sail.reefs + mast.height_m > 1", "Not decided, for nobody stated its area (sail), rows of reef points (sail) and height (mast)."},
		{"1 / (1 - 1) > 1", "This could not be worked out: division by zero."},
	} {
		res := mustLoad(t, pack("fail_if: "+c.condition)).Evaluate(records(facts{"sail": nil, "mast": nil}))
		if got := res.Text(res.Findings[0]); got != c.want {
			t.Errorf("%s: says %q, not %q", c.condition, got, c.want)
		}
	}
}

// TestTextsDecideNothing: a fact that only a text reads changes no verdict, and
// is not among the facts used.
func TestTextsDecideNothing(t *testing.T) {
	set := mustLoad(t, pack("let: {tall: mast.height_m * 2}", "fail_if: sail.wet", "say: \"{tall} {rig.heel_deg} {1 / sail.reefs}\"", "remedy: \"{mast.stays}\""))
	for _, f := range []facts{
		{"sail.wet": true}, {"sail.wet": true, "mast": nil}, {"sail.wet": true, "mast.height_m": assumed(fact.Num(3)), "sail.reefs": 0},
		{"sail.wet": true, "rig.heel_deg": noSense},
	} {
		res := set.Evaluate(records(f))
		if got := outcome(res); got != "fail" {
			t.Errorf("%v: %s", f, got)
			continue
		}
		if used := res.Used(res.Findings[0]); len(used) != 1 || used[0].Name != "sail.wet" {
			t.Errorf("%v: used %v", f, used)
		}
	}
}

// TestLets holds that let-names see those above them, are worked out only where
// they are read, and are shared by conditions and texts.
func TestLets(t *testing.T) {
	lets := "let:\n  broken: 1 / sail.reefs\n  twice: 2 * mast.height_m\n  over: sail.area_m2 - twice\n  big: over > 1\n  word: \"sail.cloth + '!'\"\n  list: sail.panels_m2"
	for _, c := range []outcomeTest{
		{lets + "\nfail_if: big", facts{"sail.area_m2": 10, "mast.height_m": 4, "sail.reefs": 0}, "fail"},
		{lets + "\nfail_if: big || broken > 1", facts{"sail.area_m2": 10, "mast.height_m": 4, "sail.reefs": 0}, "fail"},
		{lets + "\nfail_if: big && broken > 1", facts{"sail.area_m2": 10, "mast.height_m": 4, "sail.reefs": 0}, "unknown error division by zero"},
		{lets + "\nfail_if: big && broken > 1", facts{"sail.area_m2": 1, "mast.height_m": 4, "sail.reefs": 0}, "pass"},
		{lets + "\nfail_if: big", facts{"sail": nil, "mast.height_m": 4}, "unknown missing sail.area_m2"},
		{lets + "\nfail_if: big", facts{"sail.area_m2": 10}, "not applied absent mast"},
		{lets + "\nfail_if: word == 'canvas!'", facts{"sail.cloth": "canvas"}, "fail"},
		{lets + "\nfail_if: max(list) > 2 && list.all(p, p < 9) && list[0] < 2", facts{"sail.panels_m2": []float64{1, 3}}, "fail"},
		{lets + "\nfail_if: list.exists(p, p > over)", facts{"sail.panels_m2": []float64{1, 3}, "sail.area_m2": 10, "mast.height_m": 4}, "fail"},
	} {
		if strings.Contains(c.rule, "\n  list:") {
			c.rule = strings.ReplaceAll(c.rule, "list", "panels")
		}
		c.run(t)
	}
}

// TestCautions holds that only a warning or a fail carries the caution of its rule:
// what nobody has decided is no danger yet.
func TestCautions(t *testing.T) {
	set := mustLoad(t, pack("fail_if: sail.area_m2 > 20", "caution: \"Mind the boom. Mind the {sail.cloth}.\""))
	for _, c := range []struct {
		facts facts
		want  string
	}{
		{facts{"sail.area_m2": 30, "sail.cloth": "nylon"}, "Mind the boom. Mind the nylon."},
		{facts{"sail.area_m2": 30}, "Mind the boom."},
		{facts{"sail.area_m2": 9, "sail.cloth": "nylon"}, ""},
		{facts{"sail.cloth": "nylon"}, ""},
	} {
		res := set.Evaluate(records(c.facts))
		if got := res.Caution(res.Findings[0]); got != c.want {
			t.Errorf("%v: %q, want %q", c.facts, got, c.want)
		}
	}
}

// TestChosenSentences holds that an expression which chooses among whole sentences is
// left out by itself, and takes no other sentence with it.
func TestChosenSentences(t *testing.T) {
	set := mustLoad(t, pack("warn_if: true",
		"say: \"Hoist her. {sail.reefs > 1 ? 'Take a reef out.' : ''} {sail.wet ? 'Dry it.' : 'It is dry.'} Then {sail.reefs > 9 ? 'so' : 'go'}.\""))
	for _, c := range []struct {
		facts facts
		want  string
	}{
		{facts{"sail.reefs": 2, "sail.wet": true}, "Hoist her. Take a reef out. Dry it. Then go."},
		{facts{"sail.reefs": 1, "sail.wet": false}, "Hoist her. It is dry. Then go."},
		{facts{"sail.wet": true}, "Hoist her. Dry it."},
		{facts{"sail.reefs": 2}, "Hoist her. Take a reef out. Then go."},
		{facts{"sail": nil}, "Hoist her."},
	} {
		res := set.Evaluate(records(c.facts))
		if got := res.Text(res.Findings[0]); got != c.want {
			t.Errorf("%v: %q, want %q", c.facts, got, c.want)
		}
	}
	glued := mustLoad(t, pack("warn_if: true", "say: \"{sail.wet ? 'It is wet. ' : ''}It has {sail.reefs} reefs.\""))
	res := glued.Evaluate(records(facts{"sail.wet": true}))
	if got := res.Text(res.Findings[0]); got != "It is wet." {
		t.Errorf("a sentence that brings its own blank takes the next with it: %q", got)
	}
}

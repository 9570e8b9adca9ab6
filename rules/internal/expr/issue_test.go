package expr

import (
	"regexp"
	"strings"
	"testing"
)

// issueTest marks the place of the fault in front of it with the sign ¦.
type issueTest struct {
	text string
	want string // a pattern for text | hint
}

var conditionIssues = []issueTest{
	// Names.
	{"¦saill.area_m2 > 1", `unknown name "saill" \| did you mean "sail"`},
	{"1 + ¦area_m2 > 1", `unknown name "area_m2" \| did you mean "sail.area_m2"`},
	{"¦ovr > 1", `unknown name "ovr" \| did you mean "over"`},
	{"sail.¦aera_m2 > 1", `sail has no field "aera_m2" \| did you mean "area_m2"`},
	{"sail .\n ¦aera_m2 > 1", `sail has no field "aera_m2"`},
	{"sail.area_m2 > 1 && mast.¦area_m2 > 1", `mast has no field "area_m2" \| did you mean "sail.area_m2"`},
	{"sail.area_m2.¦x > 1", `a fraction has no fields`},
	{"'é漢😀' == '' || ¦foo(1)", `unknown function "foo" \| known are abs, all`},
	{"sail.reefs > 1 &&\n  ¦foo (1) > 2", `unknown function "foo"`},
	{"sail.cloth.¦startsWidth('x')", `unknown function "startsWidth" \| did you mean "startsWith"`},
	{"sail.panels_m2.¦exist(p, p > 9)", `unknown function "exist" \| did you mean "exists"`},
	{".¦sail.wet", `cannot begin with a dot`},
	{"sail.¦surface_m2 > 1", `sail has no field "surface_m2" \| did you mean "area_m2", also called surface`},
	{"mast.¦surface > 1", `mast has no field "surface" \| here it is called "sail.area_m2"`},
	{"¦surface > 1", `unknown name "surface" \| here it is called "sail.area_m2"`},
	{"¦poles.stays > 1", `unknown name "poles" \| here it is called "mast"`},
	{"¦spar > 1", `unknown name "spar" \| here it is called "mast"`},
	// What the language leaves out.
	{"¦has(sail.wet) && sail.wet", `has\(\) is not part .*write stated\(kind.field\)`},
	{"sail¦.?wet", `\| an unstated fact`},
	{"sail.wet || ¦{'a': 1} == 1", `maps are not part`},
	{"sail¦{wet: true}.wet", `maps are not part`},
	{"¦type(1) == int", `unknown function "type"`},
	{"1 ¦== null", `== cannot take a whole number, nothing`},
	{"¦stated(sail.wet)", `may only stand as a term of the outermost &&`},
	{"sail.reefs in ¦[1, 2.5]", `no list .* of one kind \| write whole numbers as fractions`},
	{"max(¦[1, 2.5]) > 2", `no list .* of one kind`},
	{"sail.wet ¦// and reefed\n && sail.reefs > 1", `a comment cannot stand`},
	{"sail.reefs > ¦9007199254740992", `too large`},
	{"sail.reefs > ¦99999999999999999999", `too large`},
	{"sail.area_m2 > ¦1e400", `too large`},
	{"sail.panels_m2.exists(¦sail, true)", `the loop name "sail" already stands`},
	{"sail.panels_m2.all( ¦over, true)", `the loop name "over" already stands`},
	{"sail.panels_m2.exists(¦1, true)", `a loop needs a name .* \| write list.exists\(each, condition\)`},
	{"sail.panels_m2.exists(x, sail.panels_m2.¦exists(y, x > y))", `a loop cannot stand within a loop`},
	// Kinds of values.
	{"¦mast > 1", `mast stands for the whole part \| name one of its fields, such as mast.height_m`},
	{"sail.wet && ¦mast == null", `mast stands for the whole part`},
	{"¦mast.exists(x, true)", `mast stands for the whole part`},
	{"¦sail.reefs.exists(x, true)", `a loop goes over a list, this gives a whole number`},
	{"  ¦sail.reefs + 1", `a condition must be true or false, this gives a whole number`},
	{"sail.wet || ¦sail.reefs", `true or false is wanted here, this gives a whole number`},
	{"sail.wet || ¦max(sail.reefs, 1)", `true or false is wanted here`},
	{"sail.area_m2 ¦== 1.0", `fractions .* near\(a, b, tolerance\)`},
	{"sail.reefs ¦!= 1.0", `fractions .* near\(a, b, tolerance\)`},
	{"2 ¦in sail.panels_m2", `fractions .* near\(a, b, tolerance\)`},
	{"sail.knots ¦== sail.knots", `lists are not compared`},
	{"sail.cloth ¦> 1", `> cannot take a text, a whole number`},
	{"¦abs('a') > 1", `abs cannot take a text \| write abs\(number\)`},
	{"1 < ¦near (1, 2)", `near cannot take .* \| write near\(a, b, tolerance\)`},
	{"¦max(sail.area_m2, sail.knots) > 1", `max cannot take a fraction, a list of whole numbers`},
	{"sail.panels_m2.¦size() > 1", `size cannot be asked of a list of fractions \| write size\(list\)`},
	{"sail.cloth.¦startsWith(1)", `startsWith cannot be asked of a text with a whole number`},
	{"(sail.wet ¦? 1 : 0.5) > 1", `both sides of the : must be of one kind`},
	{"5 ¦% 2.0 > 1", `% cannot take a whole number, a fraction`},
	// Words that no field can hold.
	{"sail.cloth == ¦'canvs'", `sail.cloth is never "canvs" \| did you mean "canvas"`},
	{"¦'canvs' != sail.cloth", `sail.cloth is never "canvs"`},
	{"sail.cloth in ['nylon', ¦'hemp']", `sail.cloth is never "hemp" \| known are canvas, nylon`},
	{"cloth == ¦'hemp'", `sail.cloth is never "hemp"`},
	{"sail.maker == ¦'Ann'", `sail.maker is never "Ann" \| names are written`},
	// Habits of other languages.
	{"sail.reefs ¦= 1", `cannot be read here \| write == to compare`},
	{"sail.wet ¦and sail.wet", `\| write &&`},
	{"sail.wet ¦OR sail.wet", `\| write \|\|`},
	{"¦not sail.wet", `\| write !`},
	{"sail.reefs ¦is 1", `\| write ==`},
	{"sail.reefs ¦=> 1", `\| write >=`},
	{"sail.reefs ¦=< 1", `\| write <=`},
	{"sail.reefs ¦<> 1", `\| write !=`},
	{"sail.reefs ¦≥ 1", `\| write >=`},
	{"sail.wet ¦& sail.wet", `\| write &&`},
	{"sail.area_m2 > 1¦,5", `\| write a decimal point`},
	{"sail.cloth == ¦'canvas", `\| a quote is not closed`},
	{"sail.cloth == ¦“canvas”", `\| write plain quotes`},
	{"sail.reefs > ¦", `\| something is missing at the end`},
	{"(sail.reefs > 1¦", `\| something is missing at the end`},
	{"¦> 1", `\| something must stand before it`},
	{"sail.reefs > 1¦)", `cannot be read here`},
	{"sail.knots¦:2", `\| for the decimals of a number in a text write :.0 to :.6`},
	{"sail.knots¦:%.2f", `\| for the decimals`},
	{"sail.wet ? 1 ¦; 2", `cannot be read here`},
	{"1 ¦mast.limit_size", `cannot be read here \| $`},
	{"¦", `the expression is empty`},
}

func TestIssues(t *testing.T) {
	l := boatLanguage(t)
	for _, c := range conditionIssues {
		s := l.NewScope()
		for i, line := range [][2]string{{"over", "sail.area_m2 - 1"}, {"cloth", "sail.cloth"}} {
			s.Let(line[0], i, must(t, s, line[1], Value))
		}
		before, after, _ := strings.Cut(c.text, "¦")
		p, issues := s.Compile(before+after, Condition)
		if p != nil || len(issues) != 1 {
			t.Errorf("%s: want one issue, got %v", c.text, issues)
			continue
		}
		is := issues[0]
		if at := len([]rune(before)); is.At != at {
			t.Errorf("%s: reported at %d, not %d", c.text, is.At, at)
		}
		if got := is.Text + " | " + is.Hint; !regexp.MustCompile(c.want).MatchString(got) {
			t.Errorf("%s: %q does not match %q", c.text, got, c.want)
		}
	}
}

// TestAllIssuesAtOnce holds that independent faults are reported together, and
// that what follows from another fault is not.
func TestAllIssuesAtOnce(t *testing.T) {
	l := boatLanguage(t)
	for _, c := range []struct {
		text string
		at   []int
	}{
		{"foo(bar(1)) > 1 && baz.qux", []int{0, 4, 19}},
		{"has(sail.wet) && sail.weet && mats.stays > 1", []int{0, 22, 30}},
		{"sail.cloth == 'x' && sail.area_m2 == 1.0", []int{14, 34}},
		{"sail.panels_m2.any(p, p > 9) && p > 1", []int{15, 32}},
		{"{'a': 1} == 1 && stated(1)", []int{0, 17}},
	} {
		_, issues := l.NewScope().Compile(c.text, Condition)
		var at []int
		for _, is := range issues {
			at = append(at, is.At)
		}
		want := map[int]bool{}
		for _, a := range c.at {
			want[a] = true
		}
		for _, a := range at {
			if !want[a] {
				t.Errorf("%s: nothing is wrong at %d: %v", c.text, a, issues)
			}
			delete(want, a)
		}
		if len(want) > 0 {
			t.Errorf("%s: nothing reported at %v: %v", c.text, want, issues)
		}
	}
}

// TestStated holds where stated() may stand.
func TestStated(t *testing.T) {
	l := boatLanguage(t)
	for _, c := range []struct {
		text string
		role Role
		at   int // of the issue, -1 where there is none
	}{
		{"stated(sail.wet)", When, -1},
		{"stated(sail.wet) && (stated(sail.reefs) && sail.reefs > 1)", When, -1},
		{"sail.wet && stated( sail.wet )", When, -1},
		{"!stated(sail.wet)", When, 1},
		{"stated(sail.wet) || sail.wet", When, 0},
		{"sail.wet && (sail.wet || stated(sail.wet))", When, 25},
		{"stated(sail.wet) ? sail.wet : false", When, 0},
		{"stated(sail.wet) == true", When, 0},
		{"sail.panels_m2.all(p, stated(sail.wet))", When, 22},
		{"stated(sail)", When, 0},
		{"stated()", When, 0},
		{"stated(sail.wet, sail.reefs)", When, 0},
		{"sail.stated(sail.wet)", When, 5},
		{"stated(sail.reefs + 1)", When, 0},
		{"stated('sail')", When, 0},
		{"stated(sail.weet)", When, 12},
		{"stated(sial.wet)", When, 7},
		{"stated(sail.wet)", Condition, 0},
		{"stated(sail.wet)", Value, 0},
	} {
		p, issues := l.NewScope().Compile(c.text, c.role)
		switch {
		case c.at < 0 && p == nil:
			t.Errorf("%s: %v", c.text, issues)
		case c.at >= 0 && (len(issues) != 1 || issues[0].At != c.at):
			t.Errorf("%s: want one issue at %d, got %v", c.text, c.at, issues)
		}
	}
}

// TestValueIssues holds what a let-name or a text cannot be.
func TestValueIssues(t *testing.T) {
	l := boatLanguage(t)
	for text, want := range map[string]string{
		"sail":                 "whole part",
		"[1, 'a']":             "of one kind",
		"[[1], [2]]":           "of one kind",
		"['a', 'b']":           "only lists of numbers",
		"[true]":               "only lists of numbers",
		"null":                 "not part of the language",
		"b'x'":                 "not part of the language",
		"1u":                   "not part of the language",
		"sail.area_m2 == 1.5 ": "near(a, b, tolerance)",
	} {
		p, issues := l.NewScope().Compile(text, Value)
		if p != nil || len(issues) != 1 || !strings.Contains(issues[0].Text+issues[0].Hint, want) {
			t.Errorf("%s: want one issue with %q, got %v", text, want, issues)
		}
	}
	for _, text := range []string{"[1.5, 2.5]", "[1]", "sail.knots", "sail.wet", "sail.cloth + 'x'", "-1"} {
		must(t, l.NewScope(), text, Value)
	}
}

// TestBrokenLet holds that a let-name at fault is reported where it stands and
// not where it is read.
func TestBrokenLet(t *testing.T) {
	s := boatLanguage(t).NewScope()
	s.LetBroken("over")
	if p, issues := s.Compile("over > 1 && over.x == 'a'", Condition); p != nil || issues != nil {
		t.Errorf("got %v, %v", p, issues)
	}
	if _, issues := s.Compile("over > 1 && foo", Condition); len(issues) != 1 || issues[0].At != 12 {
		t.Errorf("got %v", issues)
	}
}

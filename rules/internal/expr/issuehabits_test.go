package expr

import (
	"regexp"
	"strings"
	"testing"
)

// habitIssues are what people write who know other languages, with the place and
// the hint that they get.
var habitIssues = []issueTest{
	{"sail.reefs ¦=== 1", `\| write ==$`},
	{"sail.reefs ¦!== 1", `\| write !=$`},
	{"sail.reefs¦^2 > 1", `\| there are no powers; write x \* x`},
	{"sail.reefs ¦** 2 > 1", `\| there are no powers`},
	{"¦if sail.wet then 1 else 2", `\| write condition \? one : other`},
	{"¦IF(sail.wet, 1, 2) > 1", `\| write condition \? one : other`},
	{"sail.reefs ¦between 1 and 3", `\| write 1 < x && x < 3`},
	{"0 < sail.reefs ¦< 3", `\| write 0 < x && x < 3`},
	{"¦!sail.reefs > 0", `! cannot take a whole number \| put what is not to hold in brackets`},
	{"sail.area_m2 > 5.4 ¦mm", `\| write the number without its unit`},
	{"sail.area_m2 > 50¦%", `\| write the number without its unit`},
	{"sail.area_m2 > 50¦% && sail.wet", `\| write the number without its unit`},
	{"sail.maker == ¦`ann`", `\| write plain quotes`},
	{"sail.wet¦;", `\| leave the ; out`},
	{"sail¦?.wet", `\| an unstated fact makes a rule unknown by itself; leave the \? out`},
	{"sail.cloth in ¦('canvas', 'nylon')", `\| write a list in brackets`},
	{"sail.cloth ¦not in ['canvas']", `\| write !\(x in \[...\]\)`},
	{"¦mast rig.wet", `\| did you mean "mast_rig"`},
	{"¦len(sail.knots) > 1", `unknown function "len" \| write size\(list\)`},
	{"sail.knots.¦length > 1", `a list of whole numbers has no fields \| write size\(list\)`},
	{"sail.knots.¦any(k, k > 1)", `\| write list.exists`},
	{"sail.knots.¦filter(k, k > 1)", `\| write list.exists`},
	{"sail.cloth.¦contains('can')", `\| write 'word' in list`},
	{"sail.maker.¦matches('a.*')", `\| write text.startsWith`},
	{"¦round(sail.area_m2) > 1", `\| only texts round: {over:.0}`},
	{"sail.wet == ¦yes", `unknown name "yes" \| write true`},
	{"sail.wet == ¦True", `\| write true`},
	{"sail.wet ¦== 'true'", `\| write sail.wet alone`},
	{"sail.wet ¦== 1", `\| write sail.wet alone`},
	{"sail.cloth ¦== true", `\| it is one of canvas, nylon; write == 'canvas'`},
	{"sail.cloth == ¦canvas", `\| write the word in quotes: 'canvas'`},
	{"sail.maker in [¦ann-bob]", `\| write the name in quotes: 'ann-bob'`},
	{"sail.area_m2 ¦> '5.4'", `\| write the number without quotes`},
	{"sail.maker ¦!= null", `\| an unstated fact makes a rule unknown by itself`},
	{"¦later > 1", `unknown name "later" \| it stands further down in let:; move it up`},
	{"1u ¦> 0u", `> cannot take a whole number written 1u, .* \| write 1 in place of 1u`},
	{"sail.maker == ¦{'a': 1}['a']", `\| choose with condition \? one : other`},
	// Texts with escapes that are none, at their place.
	{`sail.maker == '¦\u12'`, `this escape in a text stands for no character \| write the character itself`},
	{`sail.maker == '¦\ud800'`, `this escape in a text`},
	{`sail.maker == 'é¦\q'`, `this escape in a text`},
	{`sail.maker == ¦'ann`, `a quote is not closed`},
	// What loads and can only go wrong.
	{"sail.knots[¦-1] > 1", `the entries of a list count from 0 \| write last\(list\)`},
	{"sail.reefs / ¦0 > 1", `nothing can be divided by 0`},
	{"sail.area_m2 / ¦0.0 > 1", `nothing can be divided by 0`},
	{"sail.reefs % ¦0 > 1", `nothing can be divided by 0`},
}

func TestHabits(t *testing.T) {
	sail, mast := boats()
	l, err := NewLanguage(sail, mast, NewObject("mast_rig", "A rig.", mast.Table))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range habitIssues {
		s := l.NewScope()
		s.Coming([]string{"later"})
		before, after, marked := strings.Cut(c.text, "¦")
		p, issues := s.Compile(before+after, Condition)
		if p != nil || len(issues) != 1 {
			t.Errorf("%s: want one issue, got %v", c.text, issues)
			continue
		}
		if at := len([]rune(before)); marked && issues[0].At != at {
			t.Errorf("%s: reported at %d, not %d", c.text, issues[0].At, at)
		}
		if got := issues[0].Text + " | " + issues[0].Hint; !regexp.MustCompile(c.want).MatchString(got) || c.want == "" {
			t.Errorf("%s: %q does not match %q", c.text, got, c.want)
		}
	}
	for _, text := range []string{`'\u0061\x62\n' != sail.cloth + '\''`, `"if; 50%" != sail.cloth + 'between'`} {
		must(t, l.NewScope(), text, Condition)
	}
}

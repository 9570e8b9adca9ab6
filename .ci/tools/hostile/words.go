package hostile

import (
	"fmt"
	"strings"
)

// tricky are ids that are paths, programs, numbers or nothing elsewhere.
var tricky = []string{
	"../../etc/passwd", "/etc/passwd", "..\\..\\x", "a/../b", "file:///etc/passwd", "http://x.example/", "~root", "$HOME", "$(id)",
	"`id`", "a;b", "a|b", "a b",
	"%2e%2e%2f", ".", "..", "...", "-rf", "--rules", "A", "\u00e9", "\u0430bc", "a\u0301", "a_b", "a.b", "a,b", "*", "?", "[a]", "usual-",
	"usual-x", "demo:x", "con", "NUL:",
	many("a", 5000), "0x", "1e3", "null", "a\\nb",
}

// ids are those at every place that takes one.
func (g *generator) ids() {
	for i, id := range tricky {
		name, bad := fmt.Sprintf("%d %.20s", i, id), string(mark)+spelt(id)
		file := func(place, file, text string, args ...string) {
			g.add(Case{Family: "id/" + place, Name: name, Args: args, Files: map[string]string{file: text}, Want: []int{refused}})
		}
		file("mix", "m.json", `{"mix": "a", "parts": {"chain": `+bad+`}}`, "check", "m.json")
		file("over", "m.json", `{"mix": "a", "parts": {"chain": {"id": `+bad+`, "speeds": 9}}}`, "check", "m.json")
		file("kind", "m.json", `{"mix": "a", "parts": {`+bad+`: {"speeds": 9}}}`, "check", "m.json")
		file("adjust", "r/r.json",
			`{"pack": "shop", "adjust": [{"rule": `+bad+`, "to": "warn", "reason": "calm", "by": "shop", "until": "2999-01-01"}]}`,
			"check", "--rules", "r", "demo:cart-chain-cassette")
		file("rule", "r/r.json", strings.Replace(jsonRule, `"shop/one"`, bad, 1)+"}", "rules", "--no-standard", "--rules", "r")
		if id != "con" && id != "0x" && id != "null" && id != "1e3" && id != "-rf" && id != "--rules" && len(id) < 1000 {
			file("part", "p/p.json", `{"parts": [{"kind": "chain", "id": `+bad+`, "name": "A"}]}`, "parts", "--parts", "p")
		}
		g.add(Case{Family: "id/demo", Name: name, Args: []string{"check", "demo:" + id}, Want: []int{refused}, Says: "no such demo"})
		g.add(Case{Family: "id/cart", Name: name, Args: []string{"cart", "c.json"}, Want: []int{open}, Files: map[string]string{
			"c.json": `{"cart": "a", "lines": [{"id": "towrope-12"}, {"id": ` + spelt(id) + `, "sku": ` + spelt(id) + `}]}`}})
		g.add(Case{Family: "id/show", Name: name, Args: []string{"rule", "--", id}, Want: []int{misused}})
	}
}

// death are expressions that ask for too much or are none, with the mark at the fault
// where one is planted, and the statuses that are right.
func (g *generator) death() []payload {
	n := 20 + g.IntN(300)
	loops := func(depth int) string {
		return many("cassette.cogs_t.all(x, ", depth) + "x > 0" + many(")", depth)
	}
	return []payload{
		{"fine", "chain.speeds > 1", ""}, {"fine", many("(", 10) + "chain.speeds" + many(")", 10) + " > 1", ""},
		{"refused", "1.0 / 0.0 > 1.0 || chain.speeds > 1", "divided by 0"}, {"refused", "chain.speeds % 0 == 1", "divided by 0"},
		{"refused", "chain.speeds * 1e308 * 10.0 > 1.0", "too large"},
		{"refused", "first(cassette.cogs_t) - 9223372036854775807 < 0", "too large"}, {"open", "cassette.cogs_t[1000] > 1", ""},
		{"refused", loops(2), "a loop cannot stand within a loop"}, {"refused", many("(", 100+n) + "1" + many(")", 100+n) + " > 0", ""},
		{"fine", many("!", 501+n) + "true", ""}, {"fine", many("-", 501+n) + "1 > 0", ""},
		{"refused", "1" + many(" + 1", 500+n) + " > 0", ""}, {"refused", "true" + many(" && true", 500+n), ""},
		{"refused", "[" + many("1,", 500+n) + "1][0] > 0", ""}, {"refused", many("[", 100) + many("]", 100) + " == []", ""},
		{"refused", loops(9), ""}, {"refused", loops(5), "a loop cannot stand within a loop"},
		{"refused", many("true ? ", 300) + "true" + many(" : false", 300), ""}, {"refused", "chain.speeds > " + many("9", 400), ""},
		{"refused", "chain.speeds > 0x" + many("f", 40), ""}, {"refused", "'" + many("a", 70_000) + "' == ''", ""},
		{"fine", "'a' + 'b' == 'ab'", ""}, {"refused", "chain.name.matches('(a+)+$')", ""},
		{"refused", "'x'.matches('" + many("(", 100) + "')", ""}, {"refused", "chain.speeds", ""}, {"refused", "has(chain.speeds)", ""},
		{"refused", "cassette.cogs_t.map(x, x)[0] > 1", ""}, {"refused", "cassette.cogs_t.filter(x, true) == []", ""},
		{"refused", "duration('1h') > duration('1m')", ""}, {"refused", "timestamp(0) == timestamp(0)", ""},
		{"refused", "dyn(1) == 1", ""}, {"refused", "type(1) == int", ""}, {"refused", "b'a' == b'b'", ""},
		{"refused", "{'a': 1}['a'] == 1", ""}, {"refused", "chain{} == chain", ""}, {"refused", "google.protobuf.Any{} == null", ""},
		{"refused", "int('1') == 1", ""}, {"refused", "1u > 0u", ""}, {"refused", "'\\ud800' == ''", ""},
		{"refused", "'\\u12' == ''", ""}, {"refused", "'unclosed", ""}, {"refused", "chain.speeds > ", ""},
		{"refused", "chain..speeds", ""}, {"refused", ".chain.speeds > 1", ""}, {"refused", "chain['speeds'] > 1", ""},
		{"refused", "__result__ == 1", ""}, {"refused", "@it > 1", ""}, {"refused", "`chain`.speeds > 1", ""},
		{"refused", "chain.?speeds == 1", ""}, {"refused", "in in in", ""}, {"refused", "import os; os.system('id')", ""},
		{"refused", "chain.__class__ == 1", ""}, {"refused", "x => x", ""}, {"refused", "1; 2", ""}, {"refused", "// all\ntrue", ""},
		{"refused", "chain.speeds == 'nine'", ""}, {"refused", "cassette.cogs_t.all(x, x > 1 || cassette.cogs_t.all(x, x > 1))", ""},
		{"refused", "chain.speedz > 1", ""}, {"refused", "chian.speeds > 1", ""}, {"refused", "max(1, 2", ""}, {"refused", "max()", ""},
		{"refused", "sum(1)", ""}, {"refused", "near(1, 2)", ""}, {"refused", "\u0430 > 1", ""},
		{"refused", "chain.speeds \u2265 1", ""}, {"refused", "\u201cx\u201d == 'x'", ""}, {"refused", many("a", 20_000) + " > 1", ""},
		{"refused", many("a.", 400) + "a > 1", ""}, {"fine", "r'" + many("\\", 300) + "' == ''", ""},
	}
}

// expressions are those as a condition, as a let-name, and within a text.
func (g *generator) expressions() {
	const fields = ", why: w, say: s, remedy: r, basis: {practice: p}}]\n"
	for i, p := range g.death() {
		want, text, place := refused, spelt(p.text), string(mark)
		if p.name != "refused" {
			want, place = fine, ""
		}
		if p.name == "open" { // a list is not that long: an error, which never passes
			want = open
		}
		for where, rule := range inOrder(map[string]string{
			"condition": "rules: [{id: shop/one, title: t, warn_if: " + place + text + fields,
			"let":       "rules: [{id: shop/one, title: t, let: {a: " + place + text + "}, warn_if: a" + fields,
			"when":      "rules: [{id: shop/one, title: t, when: " + place + text + ", warn_if: chain.speeds > 1" + fields,
		}) {
			c := Case{Family: "expression/" + where, Name: fmt.Sprintf("%d %.30q", i, p.text), Want: []int{want}, Says: p.says,
				Args:  []string{"check", "--no-standard", "--rules", "r", "chain.speeds=9", "cassette.cogs_t=11,13,15"},
				Files: map[string]string{"r/r.yaml": "pack: shop\n" + rule}}
			if where == "when" && place == "" { // the rule may not apply then
				c.Want = []int{fine, open}
			}
			g.add(c)
			if place != "" {
				g.within(&g.cases[len(g.cases)-1])
			}
		}
		if place == "" || p.text == "chain.speeds" { // which a text may print
			want = fine
		}
		in := strings.NewReplacer("{", "{{", "}", "}}").Replace(p.text)
		g.add(Case{Family: "expression/text", Name: fmt.Sprintf("%d %.30q", i, p.text), Want: []int{want},
			Args: []string{"check", "--no-standard", "--rules", "r", "chain.speeds=9", "cassette.cogs_t=11,13,15"},
			Files: map[string]string{"r/r.yaml": "pack: shop\nrules: [{id: shop/one, title: t, warn_if: chain.speeds > 1," +
				" why: w, remedy: r, basis: {practice: p}, say: " +
				spelt("It is {"+in+"}.") + "}]\n"}})
	}
}

// within says that a fault may be told anywhere on the line of its expression, behind
// where that begins: the compiler knows the character.
func (g *generator) within(c *Case) {
	c.Within, c.At = c.At, ""
}

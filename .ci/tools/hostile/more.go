package hostile

import (
	"fmt"
	"strings"
)

// rules are rule files that hold too much of something.
func (g *generator) rules() {
	rule := func(i int, more string) string {
		return fmt.Sprintf("  - {id: shop/r%d, title: t, why: w, say: s, remedy: r, basis: {practice: p}%s}\n", i, more)
	}
	file := func(name, text string, want ...int) *Case {
		g.add(Case{Family: "rules", Name: name, Args: []string{"check", "--no-standard", "--rules", "r", "chain.speeds=9",
			"cassette.cogs_t=11,13,15"}, Want: want,
			Files: map[string]string{"r/r.yaml": "pack: shop\n" + text}})
		return &g.cases[len(g.cases)-1]
	}
	for _, n := range []int{50, 51, 100, 1000, 4000} {
		lets, want := counted(n, "a%d: chain.speeds, "), refused
		if n <= 50 {
			want = fine
		}
		file(fmt.Sprintf("%d let-names", n), "rules:\n"+rule(0, ", let: {"+lets+"}, warn_if: a0 > 30"), want)
		chained := "a0: chain.speeds, "
		for i := 1; i < n; i++ {
			chained += fmt.Sprintf("a%d: a%d + a%d, ", i, i-1, i-1)
		}
		file(fmt.Sprintf("%d let-names that double", n), "rules:\n"+rule(0, ", let: {"+chained+"}, warn_if: a0 > 30"), want)
	}
	for _, n := range []int{100, 1000, 10_000} {
		for name, say := range inOrder(map[string]string{"numbers": many("{1}", n), "facts": many("{chain.speeds} ", n),
			"doubled": many("{{", n) + many("}}", n), "begun": many("{", n+1), "ended": many("}", n+1),
			"within": many("{'", n) + many("'}", n), "sentences": many("It is {chain.pitches}. ", n)}) {
			text := strings.Replace(rule(0, ", warn_if: chain.speeds > 1"), "say: s", "say: "+spelt(say), 1)
			want := refused
			if name == "doubled" {
				want = fine
			}
			file(fmt.Sprintf("a text of %d %s", n, name), "rules:\n"+text, want)
		}
	}
	dense := func(name, text string, n, terms int, want int) {
		var b strings.Builder
		for i := range n {
			b.WriteString(rule(i, text))
		}
		file(name, "rules:\n"+b.String(), want).Terms = terms
	}
	dense("300 rules of one long condition", ", warn_if: chain.speeds > 20 "+many("|| chain.speeds > 21 ", 30), 300, 9300, fine)
	dense("200 rules of 50 expressions in a text", ", warn_if: chain.speeds > 20, pass: '"+many("{chain.speeds + 1} ", 50)+"'", 200,
		20_000, fine)
	dense("100 rules of 50 let-names", ", let: {"+counted(50, "a%d: chain.speeds + 1, ")+"}, warn_if: a1 > 20", 100, 10_000, fine)
	dense("300 rules that loop", ", warn_if: 'cassette.cogs_t.all(x, x > sum(cassette.cogs_t) && x > max(cassette.cogs_t))'", 300, 1500,
		refused)
	g.manyRules(file, rule)
	g.adjusts()
}

// manyRules are files of thousands of rules. Sound ones are honest work.
func (g *generator) manyRules(file func(string, string, ...int) *Case, rule func(int, string) string) {
	repeat := func(n int, more string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(rule(i, more))
		}
		return "rules:\n" + b.String()
	}
	for _, n := range []int{500, 1000, 1800} {
		text := repeat(n, ", warn_if: chain.speeds > 13")
		file(fmt.Sprintf("%d sound rules", n), text, fine).Terms = 4 * n
	}
	for name, more := range inOrder(map[string]string{
		"a condition that does not compile": ", warn_if: chain.speedz > 1",
		"a condition that goes wrong":       ", warn_if: chain.speeds == 'x'",
		"an example of nothing":             ", warn_if: chain.speeds > 1, examples: [{name: e, given: {chian: {speeds: 9}}, want: pass}]",
		"no condition":                      "",
		"an entry that nobody knows":        ", warn_iff: chain.speeds > 1",
		"a source that is not there":        ", warn_if: chain.speeds > 1, source: x",
		"a cost":                            ", warn_if: 'cassette.cogs_t.all(x, cassette.cogs_t.all(y, x > 0 && y > 0))'",
		"a text that is wrong":              ", warn_if: chain.speeds > 1, pass: '{chain.speedz} {chain.speedz} {nothing}'",
	}) {
		for _, n := range []int{300, 1200} {
			file(fmt.Sprintf("%d rules with %s", n, name), repeat(n, more), refused)
		}
	}
	file("one rule many times", "rules:\n"+many(rule(0, ", warn_if: chain.speeds > 1"), 1500), refused)
	file("2001 rules", repeat(2001, ""), refused)
	examples := counted(1500, "{name: e%d, given: {chain: {speeds: 9}}, want: pass}, ")
	c := file("1500 examples of a rule", "rules:\n"+rule(0, ", warn_if: chain.speeds > 13, examples: ["+examples+"]"), fine)
	c.Bytes = len(examples)
	file("1500 wrong examples of a rule", "rules:\n"+rule(0, ", warn_if: chain.speeds > 1, examples: ["+counted(1500,
		"{name: e%d, given: {chain: {speed: 9}}, want: pas}, ")+"]"), refused)
	file("2000 sources", "sources:\n"+counted(2000, "  - {id: s%d, what: w, status: read}\n")+repeat(1, ", warn_if: chain.speeds > 13"),
		fine)
	file("2000 steps", "steps:\n"+counted(2000, "  - {id: s%d, do: d, check: c, because: b}\n")+repeat(1, ", warn_if: chain.speeds > 13"),
		fine)
	file("2000 steps behind each other", "steps:\n"+chained(2000)+repeat(1, ", warn_if: chain.speeds > 13"), fine)
	file("steps in a circle",
		"steps:\n  - {id: a, do: d, check: c, because: b, after: [b]}\n  - {id: b, do: d, check: c, because: b, after: [a]}\n", refused)
}

func chained(n int) string {
	var b strings.Builder
	b.WriteString("  - {id: s0, do: d, check: c, because: b}\n")
	for i := 1; i < n; i++ {
		fmt.Fprintf(&b, "  - {id: s%d, do: d, check: c, because: b, after: [s%d]}\n", i, i-1)
	}
	return b.String()
}

// adjusts are adjustments of shipped rules.
func (g *generator) adjusts() {
	const m = string(mark)
	for name, text := range inOrder(map[string]string{
		"to nothing":          "{rule: chain/length, to: " + m + "ignore, reason: r, by: b, until: 2999-01-01}",
		"without a reason":    m + "{rule: chain/length, to: warn, by: b, until: 2999-01-01}",
		"an empty reason":     "{rule: chain/length, to: warn, reason: " + m + "'', by: b, until: 2999-01-01}",
		"another entry":       "{rule: chain/length, to: warn, reason: r, by: b, until: 2999-01-01, " + m + "also: all}",
		"a list of rules":     "{rule: " + m + "[chain/length], to: warn, reason: r, by: b, until: 2999-01-01}",
		"all rules":           "{rule: " + m + "'*', to: warn, reason: r, by: b, until: 2999-01-01}",
		"a rule that is safe": "{rule: " + m + "nothing/there, to: warn, reason: r, by: b, until: 2999-01-01}",
		"no map":              m + "x",
		"a list":              m + "[a]",
		"nothing":             m + "~",
		"2000 times": strings.TrimPrefix(many("\n  - {rule: chain/length, to: warn, reason: r, by: b, until: 2999-01-01}",
			2000), "\n  - "),
		"2000 that are wrong": strings.TrimPrefix(many("\n  - {rule: chain/lenght, to: ignore, reason: '', until: never, so: 1}", 2000),
			"\n  - "),
		"2000 rules not there": strings.TrimPrefix(counted(2000,
			"\n  - {rule: chain/l%d, to: warn, reason: r, by: b, until: 2999-01-01}"), "\n  - "),
	}) {
		g.add(Case{Family: "adjust", Name: name, Args: []string{"check", "--rules", "r", "demo:cart-chain-cassette"}, Want: []int{refused},
			Files: map[string]string{"r/r.yaml": "pack: shop\nadjust:\n  - " + text + "\n"}})
	}
}

// carts are carts of many lines and bicycles.
func (g *generator) carts() {
	shelf := []string{"towrope-12", "lantern-chain-12", "lantern-12-10-52", "reedbed-12-10-51", "capstan-32", "lantern-rd-52",
		"nothing-here", "towrope-9", "reedbed-9-11-34"}
	line := func(i int) string {
		return fmt.Sprintf("  - {id: %s, sku: s%d, name: n%d, quantity: %d}\n", pick(g, shelf), i, i, 1+g.IntN(9))
	}
	lines := func(n int) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(line(i))
		}
		return b.String()
	}
	bikes := func(n int, format string) string {
		return "bikes:\n" + counted(n, "  - {mix: B%d, parts: "+format+"}\n")
	}
	const two, whole = "{chain: towrope-12, cassette: lantern-12-10-52}",
		"{cassette: reedbed-12-10-51, chain: lantern-chain-12, rear_derailleur: lantern-rd-52, crankset: capstan-32}"
	for name, text := range inOrder(map[string]string{
		"1000 lines":                          "lines:\n" + lines(1000),
		"1000 lines of one part":              "lines:\n" + many("  - {id: towrope-12}\n", 1000),
		"1000 lines of other things":          "lines:\n" + counted(1000, "  - {sku: s%d, name: a bell}\n"),
		"1000 lines for one bicycle":          bikes(1, two) + "lines:\n" + lines(1000),
		"1000 lines for 100 bicycles":         bikes(100, two) + "lines:\n" + lines(1000),
		"1000 lines for 100 whole bicycles":   bikes(100, whole) + "lines:\n" + lines(1000),
		"20 chains for 100 bicycles":          bikes(100, whole) + "lines:\n" + many("  - {id: towrope-12}\n", 20),
		"1000 lines that name their bicycles": bikes(100, two) + "lines:\n" + counted(1000, "  - {id: towrope-12, bike: B%d}\n"),
		"1000 bicycles that nobody has":       "lines:\n" + counted(1000, "  - {id: towrope-12, bike: N%d}\n"),
	}) {
		c := Case{Family: "cart", Name: name, Args: []string{"cart", "c.yaml"}, Files: map[string]string{"c.yaml": "cart: Order\n" +
			text}, Want: []int{open}}
		if name == "1000 bicycles that nobody has" {
			c.Want = []int{refused}
		}
		g.add(c)
		c.Args, c.Form, c.Family = []string{"cart", "--format", "json", "c.yaml"}, JSON, "cart json"
		g.add(c)
	}
	const m = string(mark)
	for name, text := range inOrder(map[string]string{
		"1001 lines":               "lines:\n" + lines(1001),
		"101 bicycles":             bikes(101, two) + "lines:\n" + lines(1),
		"two bicycles of one name": "bikes:\n  - {mix: B, parts: {}}\n  - " + m + "{mix: B, parts: {}}\nlines: []\n",
		"100 bicycles of one name": "bikes:\n" + many("  - {mix: B, parts: {}}\n", 100) + "lines: []\n",
		"lines of nothing":         "lines:\n" + many("  - {}\n", 900),
		"a line of nothing":        "lines:\n  - " + m + "{}\n",
		"a line that is a list":    "lines:\n  - " + m + "[a]\n",
		"lines that are a map":     "lines: " + m + "{a: 1}\n",
		"a quantity below nothing": "lines:\n  - {id: towrope-12, quantity: " + m + "-1}\n",
		"a quantity of all":        "lines:\n  - {id: towrope-12, quantity: " + m + "10001}\n",
		"a quantity of a half":     "lines:\n  - {id: towrope-12, quantity: " + m + "0.5}\n",
		"a bicycle that is a text": "bikes:\n  - " + m + "towrope-12\nlines: []\n",
		"a bicycle with a fault":   "bikes:\n  - {mix: B, parts: {chain: {speeds: " + m + "99}}}\nlines: []\n",
		"a cart that is a mix":     "mix: a\nparts: {chain: towrope-12}\n",
		"100 bicycles with a fault": bikes(100, "{chain: {speeds: 99, "+strings.ReplaceAll(counted(60, "k%d: 1, "), "%", "")+"}}") +
			"lines: []\n",
	}) {
		g.add(Case{Family: "cart", Name: name, Args: []string{"cart", "c.yaml"}, Want: []int{refused},
			Files: map[string]string{"c.yaml": strings.Replace("cart: Order\n"+text, "cart: Order\nmix", "mix", 1)}})
	}
}
